/** What a backup holds and what it is to the open file; from here it is restored as a file of its own. */
import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { DepartmentFiles, Problem } from '../../../db/api.ts';
import { answered, type ProblemError, problemOf } from '../../api/problem.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../../parts/Action.tsx';
import { startOver } from '../../parts/afterReload.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import formStyles from '../../parts/form/form.module.css';
import { momentText } from '../../parts/words/dates.tsx';
import { Notice } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Heads } from './Heads.tsx';
import { relationInWords } from './relation.ts';

interface PreviewDialogProps {
  name: string;
  /** The department’s zone; without one, this computer’s. */
  zone?: string | undefined;
  onClose: () => void;
}

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;

export function PreviewDialog({ name, zone = HERE, onClose }: PreviewDialogProps) {
  const found = useQuery<DepartmentFiles, ProblemError>({
    queryKey: ['host.preview', name],
    queryFn: async () => answered(await host().host({ command: 'preview', name })),
    staleTime: 0,
    gcTime: 0,
  });
  const [restoring, setRestoring] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const preview = found.data?.preview;
  const main = useRef<HTMLButtonElement>(null);
  const isRead = preview !== undefined;
  // While it is checked there is nothing to restore; once it is, Enter restores.
  useEffect(() => {
    if (isRead) main.current?.focus();
  }, [isRead]);

  async function restore() {
    if (restoring || !preview) return;
    setRestoring(true);
    const answer = await host().host({ command: 'restore', name });
    if (answer.ok) {
      startOver(
        '#/department?part=about',
        `Restored as ${answer.value.open}, beside the other files. It is open now.`,
      );
      return;
    }
    setRestoring(false);
    setProblem(answer.error);
  }

  return (
    <Dialog
      title={name.replace(/\.baybook$/, '')}
      onClose={onClose}
      keys={[{ key: 'Enter', label: 'Restore it', run: () => void restore() }]}
    >
      <div className={formStyles.form}>
        {problem ? <Notice problem={problem} /> : null}
        {found.isError ? <Notice problem={problemOf(found.error)} /> : null}
        {preview ? (
          <>
            <p className={styles.told}>
              Checked whole: every entry is what was written
              {preview.anchored ? ', and it ends where its anchor says.' : '. No anchor lies beside it.'}
            </p>
            <dl className={styles.facts}>
              <dt>Department</dt>
              <dd>{preview.department ?? 'none yet'}</dd>
              <dt>Entries</dt>
              <dd>
                {preview.entries.toLocaleString('en-US')}
                {preview.lastAt ? `, the last on ${momentText(preview.lastAt, zone)}` : ''}
              </dd>
              <dt>Things, members</dt>
              <dd>
                {preview.things.toLocaleString('en-US')}, {preview.members.toLocaleString('en-US')}
              </dd>
              {preview.relation && found.data?.open ? (
                <>
                  <dt>Beside the open file</dt>
                  <dd>{relationInWords(preview.relation, found.data.open.replace(/\.baybook$/, ''))}</dd>
                </>
              ) : null}
            </dl>
            <Heads heads={preview.heads} label="What it ends with" />
            <p className={styles.soft}>
              It is restored as a new department file beside the others and opened. The open file and the
              backup stay as they are. The new file goes on as a device of its own.
            </p>
          </>
        ) : found.isError ? null : (
          <p role="status">Checking every entry of the backup…</p>
        )}
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Leave it
          </Action>
          <Action
            weight="main"
            hint="Enter"
            ref={main}
            onClick={() => void restore()}
            disabled={restoring || !preview}
          >
            {restoring ? 'Restoring…' : 'Restore as a new file'}
          </Action>
        </div>
      </div>
    </Dialog>
  );
}
