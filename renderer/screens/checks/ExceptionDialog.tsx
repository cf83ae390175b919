/** What is wrong with a line: which thing, how many, a word, and what to do next. A few keys. */
import { type FormEvent, useState } from 'react';
import type { CarryLineNow } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import {
  type Exception,
  type ExceptionKind,
  exceptionProblems,
  type NextStep,
  usualNext,
} from '../../../domain/checkoffs/marks.ts';
import { photosWords } from '../../../domain/photos.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { OneOf, TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { PlaceField } from '../../parts/form/PlaceField.tsx';
import type { ChosenPhoto } from '../../parts/photos/chosen.ts';
import { PhotosField } from '../../parts/photos/PhotosField.tsx';
import { Picker } from '../../parts/picker/Picker.tsx';
import styles from './checks.module.css';

interface ExceptionDialogProps {
  line: CarryLineNow;
  kind: ExceptionKind;
  /** What was said of it already, to mend. */
  before: Exception | null;
  onClose: () => void;
  /** With the photos that were chosen now; what was said before names others. */
  onWrite: (exception: Exception, chosen: readonly ChosenPhoto[]) => void;
}

const STEPS: readonly { value: NextStep; title: string }[] = [
  { value: 'tag out', title: 'Tag it out' },
  { value: 'swap', title: 'Swap in a spare' },
  { value: 'report missing', title: 'Report it missing' },
  { value: 'move', title: 'Write where it is' },
  { value: 'defect', title: 'Write a defect' },
  { value: 'note', title: 'Only note it' },
];

export function ExceptionDialog({ line, kind, before, onClose, onWrite }: ExceptionDialogProps) {
  const things = [...line.here, ...line.elsewhere];
  const known = line.defects.find(d => d.kind === kind) ?? line.defects[0];
  const [item, setItem] = useState<string | null>(
    before?.item ?? (things.length === 1 ? (things[0]?.item ?? null) : null),
  );
  const [short, setShort] = useState(String(before?.short ?? (kind === 'short' ? '1' : '')));
  const [reading, setReading] = useState(before?.reading ?? '');
  const [note, setNote] = useState(before?.note ?? '');
  const [next, setNext] = useState<NextStep>(before?.next ?? usualNext(kind, things.length > 0));
  const [spare, setSpare] = useState<string | null>(before?.with ?? null);
  const [to, setTo] = useState(before?.to ?? '');
  const [isKnown, setIsKnown] = useState(before ? before.defect !== null : known?.kind === kind);
  const [chosenPhotos, setChosenPhotos] = useState<readonly ChosenPhoto[]>([]);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const spares = useAsk(
    'item.spares',
    { item: item ?? '', limit: 30 },
    { when: next === 'swap' && item !== null },
  ).data;
  // The one to take first is offered; another is chosen by typing.
  const chosen = spare ?? spares?.spares.find(s => s.against.length === 0)?.item ?? null;
  const counts = kind === 'short' || (kind === 'missing' && line.family === null && line.qty > 1);
  const steps = STEPS.filter(s => (things.length > 0 ? true : s.value === 'defect' || s.value === 'note'));

  const write = (event: FormEvent) => {
    event.preventDefault();
    const photos = [...(before?.photos ?? []), ...chosenPhotos.map(c => c.photo)];
    const exception: Exception = {
      line: line.line,
      item,
      kind,
      short: counts && /^\d+$/.test(short.trim()) ? Number(short) : null,
      reading: reading.trim() === '' ? null : reading.trim(),
      note: note.trim() === '' ? null : note.trim(),
      next,
      with: next === 'swap' ? chosen : null,
      to: (next === 'swap' || next === 'move') && to !== '' ? to : null,
      defect: isKnown && known ? known.id : null,
      ...(photos.length > 0 ? { photos } : {}),
    };
    const wrong = exceptionProblems(exception, line);
    setProblems(wrong);
    if (wrong.length === 0) onWrite(exception, chosenPhotos);
  };
  const thingOptions = things.map(t => ({
    value: t.item,
    label: t.number,
    detail: `${t.what}${t.place === '' ? '' : `, ${t.place}`}`,
  }));
  const spareOptions = (spares?.spares ?? []).map(s => ({
    value: s.item,
    label: s.number,
    detail: [s.what, s.place ?? 'in no place', ...s.against].join(', '),
  }));
  // The cursor begins where there is something to say: how many, what is damaged; else on what comes next.
  const first = counts ? 'short' : kind === 'low' ? 'reading' : things.length > 1 ? 'item' : 'note';
  return (
    <Dialog title={`${line.code} ${line.what}: ${kind}`} onClose={onClose}>
      <form onSubmit={write} className={formStyles.form} noValidate>
        {known ? (
          <OneOf
            label={`Open since ${known.since}: ${known.kind}${known.note ? `, ${known.note}` : ''}`}
            value={isKnown ? 'known' : 'new'}
            onChange={v => setIsKnown(v === 'known')}
            choices={[
              { value: 'known', title: 'It is that one, still so' },
              { value: 'new', title: 'It is something new' },
            ]}
          />
        ) : null}
        {things.length > 1 ? (
          <Picker
            label="Which"
            options={thingOptions}
            value={thingOptions.find(o => o.value === item) ?? null}
            onPick={o => setItem(o.value)}
            first={first === 'item'}
          />
        ) : null}
        <div className={formStyles.row}>
          {counts ? (
            <TextField label="How many" value={short} onChange={setShort} first={first === 'short'} />
          ) : null}
          {kind === 'low' || line.reading ? (
            <TextField
              label={line.reading?.title ?? 'Reading'}
              unit={line.reading?.unit ?? undefined}
              value={reading}
              onChange={setReading}
              first={first === 'reading'}
            />
          ) : null}
          <TextField
            label="Note"
            value={note}
            onChange={setNote}
            required={kind === 'damaged'}
            first={first === 'note'}
          />
        </div>
        {isKnown && known ? null : (
          <OneOf label="Next" value={next} onChange={v => setNext(v as NextStep)} choices={steps} />
        )}
        {next === 'swap' ? (
          <Picker
            label="Put in its place"
            note={
              item === null
                ? 'Choose first which thing goes.'
                : 'Ready spares of its kind first, the nearest first.'
            }
            options={spareOptions}
            value={spareOptions.find(o => o.value === chosen) ?? null}
            onPick={o => setSpare(o.value)}
          />
        ) : null}
        {next === 'swap' || next === 'move' ? (
          <PlaceField
            label={next === 'move' ? 'Where it is' : 'Where the other goes'}
            onChange={setTo}
            required={next === 'move'}
          />
        ) : null}
        <PhotosField
          label="Photos"
          photos={chosenPhotos}
          onChange={setChosenPhotos}
          note={
            before?.photos?.length
              ? `${capital(photosWords(before.photos.length))} kept already. Or drop or paste a picture here.`
              : undefined
          }
        />
        {problems.length > 0 ? (
          <div role="alert" className={styles.problems}>
            {problems.map(p => (
              <p key={p}>{p}</p>
            ))}
          </div>
        ) : null}
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            {capital(kind)}
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
