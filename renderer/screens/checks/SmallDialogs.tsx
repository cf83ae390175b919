/** Small questions of a check-off: what was read, which seal is on a kit, why a place is left out. */
import { type FormEvent, useState } from 'react';
import type { CarriedThing, CarryLineNow } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { isSameSeal } from '../../../domain/kits/kit.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { dateText } from '../../parts/words/dates.tsx';

export function ReadingDialog({
  line,
  onClose,
  onRead,
}: {
  line: CarryLineNow;
  onClose: () => void;
  onRead: (reading: string) => void;
}) {
  const [reading, setReading] = useState('');
  const [wrong, setWrong] = useState(false);
  const title = line.reading?.title ?? 'Reading';
  const send = (event: FormEvent) => {
    event.preventDefault();
    const read = reading.trim().replaceAll(',', '');
    if (/^\d+(\.\d+)?$/.test(read)) onRead(read);
    else setWrong(true);
  };
  return (
    <Dialog title={`${line.code} ${line.what}`} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        <TextField
          label={title}
          unit={line.reading?.unit ?? undefined}
          value={reading}
          onChange={setReading}
          note={
            line.reading?.atLeast
              ? `At least ${line.reading.atLeast}${line.reading.unit ? ` ${line.reading.unit}` : ''}.`
              : 'It is kept and not judged.'
          }
          problem={
            wrong
              ? { message: `“${reading.trim()}” is no number.`, todo: 'Enter what was read, in figures.' }
              : undefined
          }
          first
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            Read
          </Action>
        </div>
      </form>
    </Dialog>
  );
}

/** The seal of a kit, by the number that is read off it. */
export function SealDialog({
  line,
  kit,
  onClose,
  onRead,
  onBroken,
}: {
  line: CarryLineNow;
  kit: CarriedThing;
  onClose: () => void;
  onRead: (seal: string) => void;
  /** It is broken, or another one than was put on. */
  onBroken: (seal: string | null) => void;
}) {
  const [seal, setSeal] = useState('');
  const known = kit.kit;
  const typed = seal.trim();
  const isOther = typed !== '' && known?.seal != null && !isSameSeal(typed, known.seal);
  // A seal that is known to be broken is whole again by a new one alone.
  const isOpen = known !== undefined && known.state !== 'sealed';
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (typed === '' || isOther || isOpen) onBroken(typed === '' ? null : typed);
    else onRead(typed);
  };
  const told = [
    known?.seal ? `${known.seal} was put on.` : 'It was never sealed.',
    known?.expires ? `The earliest date inside is ${dateText(known.expires)}.` : '',
    ...(known?.reasons.slice(0, 1).map(r => `${capital(r)}.`) ?? []),
  ].filter(t => t !== '');
  return (
    <Dialog title={`${line.code} ${line.what}, ${kit.number}`} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        <TextField
          label="The number on its seal"
          value={seal}
          onChange={setSeal}
          note={
            isOther
              ? 'Another number than was put on: somebody has been in it. Enter goes on to what is to be done.'
              : `${told.join(' ')} Empty: it is broken or gone.`
          }
          first
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            {typed === '' ? 'Broken or gone' : isOther ? 'Another seal' : isOpen ? 'Still so' : 'It is whole'}
          </Action>
        </div>
      </form>
    </Dialog>
  );
}

export function LeaveOutDialog({
  place,
  onClose,
  onSay,
}: {
  place: string;
  onClose: () => void;
  onSay: (why: string) => void;
}) {
  const [why, setWhy] = useState('');
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (why.trim() !== '') onSay(why.trim());
  };
  return (
    <Dialog title={`Leave ${place} out`} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        <TextField
          label="Why it was not gone through"
          value={why}
          onChange={setWhy}
          note="It stays as it was last seen, and the sheet says so."
          required
          first
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            Leave out
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
