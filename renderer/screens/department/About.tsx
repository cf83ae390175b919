import { useQuery } from '@tanstack/react-query';
import { useId, useRef, useState } from 'react';
import type { DepartmentFiles, PhotosKept } from '../../../db/api.ts';
import { capital } from '../../../domain/capital.ts';
import { photosWords } from '../../../domain/photos.ts';
import { useAsk } from '../../api/ask.ts';
import { answered, type ProblemError } from '../../api/problem.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../../parts/Action.tsx';
import { Field } from '../../parts/form/Field.tsx';
import formStyles from '../../parts/form/form.module.css';
import { useKeys } from '../../parts/keys/keys.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { Heads } from './Heads.tsx';
import { useVerify, type Verified } from './useVerify.ts';
import { counted } from './words.ts';

/** Which file this is, what its ledger ends with, and whether it is whole. */
export function About() {
  const files = useQuery<DepartmentFiles, ProblemError>({
    queryKey: ['host.files'],
    queryFn: async () => answered(await host().host({ command: 'files' })),
    staleTime: 0,
  });
  const summary = useAsk('department.summary', {});
  const page = useAsk('department.page', {});
  const heads = useAsk('ledger.heads', {});
  const [anchor, setAnchor] = useState('');
  const field = useRef<HTMLTextAreaElement>(null);
  const { busy, problem, verified, verify } = useVerify();
  const id = useId();
  useKeys('About this file', [
    { key: 'v', label: 'Verify every entry now', run: () => void verify(anchor) },
    { key: 'n', label: 'Type or paste an anchor', run: () => field.current?.focus() },
  ]);

  if (!summary.data || !heads.data || !files.data)
    return <NotReady loaded={!summary.data ? summary : !heads.data ? heads : files} />;
  return (
    <>
      <div className={styles.body}>
        <dl className={styles.facts}>
          <dt>File</dt>
          <dd className={styles.strong}>{files.data.open}</dd>
          <dt>Folder</dt>
          <dd className={styles.path}>{files.data.folder}</dd>
          <dt>Holds</dt>
          <dd>
            {counted(summary.data.things, 'thing')}, {counted(heads.data.entries, 'entry', 'entries')} by{' '}
            {counted(heads.data.devices.length, 'device')}
          </dd>
          <dt>Baybook</dt>
          <dd>
            version {files.data.version ?? 'not told'}, file format {page.data?.file.format ?? ''}
          </dd>
          <dt>Writes as device</dt>
          <dd>
            <span className="mono">{page.data?.file.device}</span>
            {heads.data.devices.some(h => h.device === page.data?.file.device) ? '' : ', nothing yet'}
          </dd>
        </dl>
        <h2 className={styles.heading}>What the ledger ends with</h2>
        <p className={styles.soft}>
          Each device’s entries form a chain. A chain cannot see its own end cut off: copy these lines onto
          paper now and then, and check against them later.
        </p>
        <Heads heads={heads.data.devices} label="Newest entry of each device" own={page.data?.file.device} />
        <form
          className={styles.verify}
          onSubmit={event => {
            event.preventDefault();
            void verify(anchor);
          }}
        >
          <Field
            id={id}
            label="Anchor from paper or a backup: device, number, hash"
            problem={problem ?? undefined}
            note={
              <>
                One head a line, or the whole text beside a backup; empty checks the chains alone.{' '}
                <KeyHint of="n" /> leads here, <KeyHint of="Enter" /> verifies.
              </>
            }
          >
            {described => (
              <textarea
                {...described}
                ref={field}
                id={id}
                className={`${formStyles.input} ${styles.anchor}`}
                rows={2}
                spellCheck={false}
                value={anchor}
                onChange={event => setAnchor(event.currentTarget.value)}
                onKeyDown={event => {
                  if (event.key === 'Escape') event.currentTarget.blur();
                  if (event.key !== 'Enter' || event.shiftKey) return;
                  event.preventDefault();
                  void verify(anchor);
                }}
              />
            )}
          </Field>
        </form>
        <div role="status" className={styles.verified}>
          {busy ? 'Checking every entry…' : verified ? <Verdict verified={verified} /> : null}
        </div>
      </div>
      <Foot
        adds={
          <Action weight="main" hint="v" onClick={() => void verify(anchor)} disabled={busy}>
            {busy ? 'Verifying…' : 'Verify now'}
          </Action>
        }
      />
    </>
  );
}

function Verdict({ verified: { verification, against } }: { verified: Verified }) {
  const { entries, firstBad, photos } = verification;
  if (!firstBad)
    return (
      <>
        <p>
          <strong>Whole.</strong> {counted(entries, 'entry', 'entries')} are what was written, each following
          the one before
          {against > 0
            ? `, and ${against === 1 ? 'the head' : `the ${against} heads`} of the anchor ${against === 1 ? 'is' : 'are'} among them.`
            : '.'}
        </p>
        <PhotosVerdict photos={photos} />
      </>
    );
  return (
    <p className={styles.bad} role="alert">
      <strong>Not whole.</strong> Entry {firstBad.seq} of device {firstBad.device}: {firstBad.what} Keep the
      file as it is for evidence and restore the last good backup.
    </p>
  );
}

/** What has become of the photos: their bytes lie beside the ledger, which holds their names. */
function PhotosVerdict({ photos: { kept, damaged, missing } }: { photos: PhotosKept }) {
  if (kept + missing.length === 0) return null;
  return (
    <>
      {damaged.length > 0 ? (
        <p className={styles.bad} role="alert">
          <strong>{capital(photosWords(damaged.length))} damaged.</strong> The bytes are not what was kept
          under {damaged.map(name => name.slice(0, 16)).join(', ')}. Keep the file as it is for evidence and
          look for them in a backup.
        </p>
      ) : (
        <p>{kept === 1 ? 'The photo is' : `All ${kept} photos are`} what was kept.</p>
      )}
      {missing.length > 0 ? (
        <p>
          {capital(photosWords(missing.length))} that entries name {missing.length === 1 ? 'has' : 'have'} not
          come to this file: {missing.map(name => name.slice(0, 16)).join(', ')}.
        </p>
      ) : null}
    </>
  );
}
