/** Photos that are kept: small in a list, large in a dialog. */
import { useState } from 'react';
import { type Photo, photosWords } from '../../../domain/photos.ts';
import { useAsk } from '../../api/ask.ts';
import { problemOf } from '../../api/problem.ts';
import { Action } from '../Action.tsx';
import { Dialog } from '../Dialog.tsx';
import { Notice } from '../words/NotReady.tsx';
import { pictureUrl } from './chosen.ts';
import styles from './photos.module.css';

/** A photo with what it is of, in words. */
export interface Shot {
  photo: Photo;
  /** `31-107, tagged out: jacket cut`. */
  of: string;
  /** The day it belongs to, and who signed it, as one line. */
  told: string;
}

/** Small pictures, each a button that opens it large. */
export function Photos({ shots }: { shots: readonly Shot[] }) {
  const [open, setOpen] = useState<number | null>(null);
  if (shots.length === 0) return null;
  return (
    <>
      <ul className={styles.strip} aria-label={photosWords(shots.length)}>
        {shots.map((shot, i) => (
          <li key={shot.photo.sha256}>
            <button
              type="button"
              className={styles.small}
              onClick={event => {
                event.stopPropagation();
                setOpen(i);
              }}
            >
              <Picture shot={shot} alt={`Photo ${i + 1} of ${shots.length}: ${shot.of}`} />
            </button>
          </li>
        ))}
      </ul>
      {open === null ? null : <PhotoDialog shots={shots} first={open} onClose={() => setOpen(null)} />}
    </>
  );
}

/** One picture large, and the keys to the others. */
export function PhotoDialog({
  shots,
  first = 0,
  onClose,
}: {
  shots: readonly Shot[];
  first?: number;
  onClose: () => void;
}) {
  const [at, setAt] = useState(first);
  const shot = shots[at];
  const go = (by: number) => setAt(n => (n + by + shots.length) % shots.length);
  if (!shot) return null;
  const more = shots.length > 1;
  return (
    <Dialog
      title={shot.of}
      onClose={onClose}
      wide
      keys={
        more
          ? [
              { key: 'ArrowRight', label: 'The next photo', run: () => go(1) },
              { key: 'ArrowLeft', label: 'The photo before', run: () => go(-1) },
            ]
          : []
      }
    >
      <figure className={styles.large}>
        <Picture key={shot.photo.sha256} shot={shot} alt={shot.of} large />
        <figcaption>
          <span aria-live="polite">
            {more ? `Photo ${at + 1} of ${shots.length}. ` : ''}
            {shot.told}
          </span>
          <span className={styles.ways}>
            {more ? (
              <>
                <Action weight="quiet" hint="ArrowLeft" onClick={() => go(-1)}>
                  Before
                </Action>
                <Action weight="quiet" hint="ArrowRight" onClick={() => go(1)}>
                  Next
                </Action>
              </>
            ) : null}
            <Action hint="Escape" onClick={onClose} data-autofocus>
              Close
            </Action>
          </span>
        </figcaption>
      </figure>
    </Dialog>
  );
}

/** The picture, or in words why there is none: it may not have come with its entry, or is not what it was. */
function Picture({ shot, alt, large = false }: { shot: Shot; alt: string; large?: boolean }) {
  const got = useAsk('photo.get', { sha256: shot.photo.sha256 });
  if (got.data) return <img src={pictureUrl(got.data)} alt={alt} />;
  if (got.status !== 'error') return <span className={styles.waiting}>{large ? 'Reading…' : '…'}</span>;
  const problem = problemOf(got.error);
  if (large) return <Notice problem={problem} />;
  return (
    <span className={styles.waiting} title={problem.message}>
      {problem.code === 'damaged' ? 'photo damaged' : 'photo not here'}
    </span>
  );
}
