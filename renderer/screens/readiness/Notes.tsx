/** Notes passed on between shifts: the open ones, carried until somebody closes them, and the closed ones of late. */
import type { NoteLine } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { noteFor } from './noteForms.ts';
import styles from './readiness.module.css';

interface NotesProps {
  open: readonly NoteLine[];
  closedShown: boolean;
  onClosedShown: (shown: boolean) => void;
  onWrite: () => void;
  onClose: (note: NoteLine) => void;
}

export function Notes({ open, closedShown, onClosedShown, onWrite, onClose }: NotesProps) {
  return (
    <section className={styles.block} aria-label="Passed on from the last shift">
      <h2>
        Passed on
        <span className={styles.blockActions}>
          <Action weight="quiet" hint="h" onClick={() => onClosedShown(!closedShown)}>
            {closedShown ? 'Hide closed' : 'Closed lately'}
          </Action>
          <Action weight="plain" hint="n" onClick={onWrite}>
            Pass on a note
          </Action>
        </span>
      </h2>
      {open.length === 0 ? (
        <p className={styles.nothing}>No note is open. What the next shift must know is written with n.</p>
      ) : (
        <ul className={styles.notes} aria-label="Open notes">
          {open.map((note, i) => (
            <li key={note.id} data-note={note.id}>
              <div>
                <p className={styles.noteText}>{note.text}</p>
                <p className={styles.under}>
                  <b>{noteFor(note)}</b>, {note.byName ?? 'not signed'}, {dateText(note.on)}
                </p>
              </div>
              <Action
                weight="quiet"
                {...(i === 0 ? { hint: 'x' } : {})}
                aria-label={`Close the note: ${note.text}`}
                onClick={() => onClose(note)}
              >
                Close
              </Action>
            </li>
          ))}
        </ul>
      )}
      {closedShown ? <Closed /> : null}
    </section>
  );
}

const CLOSED_SHOWN = 12;

function Closed() {
  const notes = useAsk('notes.list', {});
  if (!notes.data) return <NotReady loaded={notes} />;
  const closed = notes.data
    .filter(n => n.closed !== null)
    .toSorted((a, b) => ((a.closed?.on ?? '') < (b.closed?.on ?? '') ? 1 : -1))
    .slice(0, CLOSED_SHOWN);
  if (closed.length === 0) return <p className={styles.nothing}>None was closed yet.</p>;
  return (
    <ul className={`${styles.notes} ${styles.closed}`} aria-label="Closed notes">
      {closed.map(note => (
        <li key={note.id}>
          <div>
            <p>{note.text}</p>
            <p className={styles.under}>
              <b>{noteFor(note)}</b>, {note.byName ?? 'not signed'}, {dateText(note.on)}; closed by{' '}
              {note.closed?.byName ?? 'somebody'}, {dateText(note.closed?.on ?? '')}
              {note.closed?.why ? `: ${note.closed.why}` : ''}
            </p>
          </div>
        </li>
      ))}
    </ul>
  );
}
