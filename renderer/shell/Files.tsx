/** Which department file is open, and the way to another one. The program starts over on the file that is opened. */
import { useQuery } from '@tanstack/react-query';
import { format } from 'date-fns';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { DepartmentFiles, HostRequest, Problem } from '../../db/api.ts';
import { answered, type ProblemError } from '../api/problem.ts';
import { progressWords, useHostProgress } from '../api/progress.ts';
import { host } from '../api/transport.ts';
import { Action } from '../parts/Action.tsx';
import { startOver } from '../parts/afterReload.ts';
import { TextField } from '../parts/form/fields.tsx';
import formStyles from '../parts/form/form.module.css';
import { Notice, NotReady } from '../parts/words/NotReady.tsx';
import { PreviewDialog } from '../screens/department/PreviewDialog.tsx';
import styles from './shell.module.css';

/** The latest ones; the Department screen lists all. */
const BACKUPS_SHOWN = 3;

export function Files({ onClose }: { onClose?: () => void }) {
  const files = useQuery<DepartmentFiles, ProblemError>({
    queryKey: ['host.backups'],
    queryFn: async () => answered(await host().host({ command: 'backups' })),
    staleTime: 0,
  });
  const [name, setName] = useState('');
  const [looking, setLooking] = useState<string | null>(null);
  const [busy, setBusy] = useState<HostRequest['command'] | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const progress = useHostProgress(busy === 'demo');
  const form = useRef<HTMLFormElement>(null);
  // The list is read after the dialog has looked for what takes the focus.
  const isRead = files.data !== undefined;
  useEffect(() => {
    if (isRead) form.current?.querySelector<HTMLElement>('input')?.focus();
  }, [isRead]);

  async function tell(request: HostRequest) {
    setBusy(request.command);
    setProblem(null);
    const answer = await host().host(request);
    if (answer.ok) {
      startOver('#/readiness', `${answer.value.open} is open.`);
      return;
    }
    setBusy(null);
    setProblem(answer.error);
  }
  function start(event: FormEvent) {
    event.preventDefault();
    if (name.trim() === '')
      setProblem({ code: 'empty', message: 'The file has no name yet.', todo: 'Write one.', field: 'name' });
    else void tell({ command: 'new', name: name.trim() });
  }

  if (!files.data) return <NotReady loaded={files} />;
  const backups = files.data.backups?.files ?? [];
  const beside = problem?.field === 'name' ? problem : undefined;
  return (
    <div className={formStyles.form}>
      {problem && !beside ? <Notice problem={problem} /> : null}
      <ul className={styles.files} aria-label="Department files">
        {files.data.files.map(f => (
          <li key={f.name}>
            <span>
              {f.name}
              <span className={styles.fileNote}>
                {(f.bytes / 1e6).toFixed(1)} MB, written {format(f.changedAt, 'd MMM yyyy HH:mm')}
              </span>
            </span>
            {f.name === files.data.open ? (
              <strong>open</strong>
            ) : (
              <Action onClick={() => void tell({ command: 'open', name: f.name })} disabled={busy !== null}>
                Open
              </Action>
            )}
          </li>
        ))}
      </ul>
      {backups.length > 0 ? (
        <div>
          <p className={formStyles.label}>Backups, the latest first</p>
          <ul className={styles.files} aria-label="Backups">
            {backups.slice(0, BACKUPS_SHOWN).map(f => (
              <li key={f.name}>
                <span>
                  {f.name.replace(/\.baybook$/, '')}
                  <span className={styles.fileNote}>
                    {(f.bytes / 1e6).toFixed(1)} MB, written {format(f.changedAt, 'd MMM yyyy HH:mm')}
                  </span>
                </span>
                <Action onClick={() => setLooking(f.name)} disabled={busy !== null}>
                  Look into it
                </Action>
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      {looking ? <PreviewDialog name={looking} onClose={() => setLooking(null)} /> : null}
      <form ref={form} className={formStyles.form} onSubmit={start} noValidate>
        <TextField
          label="Start your own department: name of its file"
          value={name}
          onChange={setName}
          problem={beside}
          note="It begins empty. The department’s name, its time zone and you are asked for next."
          first
        />
        {progress ? <p role="status">{progressWords(progress)}</p> : null}
        <div className={formStyles.foot}>
          {onClose ? (
            <Action weight="quiet" hint="Escape" onClick={onClose}>
              Close
            </Action>
          ) : null}
          <Action onClick={() => void tell({ command: 'demo' })} disabled={busy !== null}>
            {busy === 'demo' ? 'Making the demo…' : 'Make a demo department'}
          </Action>
          <Action weight="main" hint="Enter" type="submit" disabled={busy !== null}>
            Start it
          </Action>
        </div>
      </form>
    </div>
  );
}
