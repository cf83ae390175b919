/** One box for what is written on a paper sheet, and for a scanner: a code with its letter, or a thing's number. */
import { type FormEvent, type RefObject, useState } from 'react';
import type { CarriedThing, CarryLineNow, CheckoffPage, CheckoffPlace } from '../../../db/api-checks.ts';
import { withException, withOperated, withSeen } from '../../../domain/checkoffs/edit.ts';
import {
  type Exception,
  type ExceptionKind,
  isBySeal,
  nextSealOwed,
  usualNext,
} from '../../../domain/checkoffs/marks.ts';
import { type QuickWord, readQuick } from '../../../domain/checkoffs/quick.ts';
import { isSameSeal } from '../../../domain/kits/kit.ts';
import { askHost } from '../../api/transport.ts';
import { focusHome } from '../../parts/focusHome.ts';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import styles from './checks.module.css';
import type { Marks } from './useMarks.ts';

/** What the last word came to, or why it was not taken. */
export interface Said {
  wrong: boolean;
  words: string;
}

interface CodeBoxProps {
  box: RefObject<HTMLInputElement | null>;
  page: CheckoffPage;
  /** The place that is open: what is scanned is seen there. */
  place: CheckoffPlace | undefined;
  marks: Marks;
  said: Said | null;
  onSaid: (said: Said | null) => void;
  /** What a code alone cannot say is asked. */
  onAsk: (line: CarryLineNow, kind: ExceptionKind) => void;
}

export function CodeBox({ box, page, place, marks, said, onSaid, onAsk }: CodeBoxProps) {
  const [text, setText] = useState('');
  const setWrong = (words: string | null) => onSaid(words === null ? null : { wrong: true, words });
  const say = (words: string) => onSaid({ wrong: false, words });

  const send = async (event: FormEvent) => {
    event.preventDefault();
    const typed = text.trim();
    if (typed === '') return;
    const scanned = await thingOf(page, typed);
    if (scanned) {
      setText('');
      setWrong(null);
      seen(scanned);
      return;
    }
    const word = readQuick(typed);
    if ('wrong' in word) {
      setWrong(`${word.wrong} ${word.todo}`);
      return;
    }
    const line = page.places.flatMap(p => p.lines).find(l => l.code === word.code);
    if (!line) {
      setWrong(`No line has the code ${word.code}.`);
      return;
    }
    setText('');
    setWrong(null);
    if (word.kind === 'works' && isBySeal(line)) sealed(line, word.reading ?? word.note);
    else if (word.kind === 'works') operated(line, word);
    else except(line, word.kind, word);
  };
  const nameOf = (line: CarryLineNow) =>
    page.places.find(p => p.lines.some(l => l.line === line.line))?.name ?? line.place;
  const operated = (line: CarryLineNow, { reading, note }: QuickWord) => {
    if (note !== null) {
      setWrong(
        `“${note}” is no reading. If it works: ${line.code} o${line.reading ? ' and what was read' : ''}; if it does not: ${line.code} d ${note}.`,
      );
      return;
    }
    if (!line.reading && reading !== null) {
      setWrong(`Nothing is read of ${line.code} ${line.what}: ${line.code} o alone says that it works.`);
      return;
    }
    if (line.reading && reading === null) {
      setWrong(`${line.code} ${line.what}: write what was read, as ${line.code} o 95.`);
      return;
    }
    const item = line.here.length === 1 ? (line.here[0]?.item ?? null) : null;
    marks.change(nameOf(line), m => withOperated(m, { line: line.line, item, works: true, reading }));
    say(`${line.code} ${line.what}: works${reading ? `, ${reading}` : ''}.`);
  };
  /** The number of a seal, as written on the sheet. Another one than was put on is not taken for whole. */
  const sealed = (line: CarryLineNow, seal: string | null) => {
    const kits = [...line.here, ...line.elsewhere];
    const kit = nextSealOwed(line, kits, marks.of(nameOf(line))) ?? kits[0];
    if (seal === null || !kit) {
      setWrong(`${line.code} ${line.what}: write the number of its seal, as ${line.code} o 4471.`);
      return;
    }
    if (kit.kit && kit.kit.state !== 'sealed') {
      setWrong(
        `${kit.number}: ${kit.kit.reasons[0] ?? kit.kit.state}. If nobody has sealed it since: ${line.code} d seal ${seal}.`,
      );
      return;
    }
    if (kit.kit?.seal && !isSameSeal(seal, kit.kit.seal)) {
      setWrong(
        `${line.code} ${line.what}: ${kit.kit.seal} was put on ${kit.number}, not ${seal}. If that is what is on it: ${line.code} d seal ${seal} found.`,
      );
      return;
    }
    marks.change(nameOf(line), m =>
      withOperated(m, { line: line.line, item: kit.item, works: true, reading: seal }),
    );
    say(`${line.code} ${line.what}: seal ${seal}.`);
  };
  const except = (line: CarryLineNow, kind: ExceptionKind, word: QuickWord) => {
    const things = [...line.here, ...line.elsewhere];
    const [only, ...others] = things;
    const needsMore =
      others.length > 0 || kind === 'wrong place' || (kind === 'damaged' && word.note === null);
    if (needsMore) {
      onAsk(line, kind);
      return;
    }
    const known = line.defects.find(d => d.kind === kind);
    const exception: Exception = {
      line: line.line,
      item: only?.item ?? null,
      kind,
      short: word.count,
      reading: word.reading,
      note: word.note,
      // A seal that is not as it was left is mended by a count and a new one, and not by a tag.
      next: kind === 'damaged' && isBySeal(line) ? 'defect' : usualNext(kind, only !== undefined),
      with: null,
      to: null,
      defect: known?.id ?? null,
    };
    marks.change(nameOf(line), m => withException(m, exception));
    say(`${line.code} ${line.what}: ${kind}.`);
  };
  const seen = (thing: CarriedThing) => {
    if (!place) return;
    marks.change(place.name, m => withSeen(m, thing.item));
    const belongs = place.lines.some(l => l.here.some(t => t.item === thing.item));
    say(
      belongs
        ? `${thing.number} seen in ${place.name}.`
        : `${thing.number} seen in ${place.name}; it was believed ${thing.place === '' ? 'nowhere known' : `in ${thing.place}`}.`,
    );
  };
  return (
    <form onSubmit={event => void send(event)} className={styles.codeForm}>
      <label htmlFor="check-code">By code or number</label>
      <input
        id="check-code"
        ref={box}
        value={text}
        autoComplete="off"
        aria-invalid={said?.wrong === true}
        aria-describedby={said ? 'check-code-said' : undefined}
        placeholder="C4 m"
        onChange={event => {
          setText(event.currentTarget.value);
          setWrong(null);
        }}
        onKeyDown={event => {
          if (event.key !== 'Escape') return;
          event.stopPropagation();
          focusHome();
        }}
      />
      <KeyHint of="c" />
      <span id="check-code-said" role="status" className={said?.wrong ? styles.wrong : styles.soft}>
        {said?.words ?? 'What is written on a sheet, or a scanned number: Enter takes it.'}
      </span>
    </form>
  );
}

/** A thing with this number: on the rig, or anywhere in the department. */
async function thingOf(page: CheckoffPage, typed: string): Promise<CarriedThing | null> {
  const wanted = typed.toLowerCase();
  const onRig = [
    ...page.places.flatMap(p => p.lines.flatMap(l => [...l.here, ...l.elsewhere])),
    ...page.extra,
  ].find(t => t.number.toLowerCase() === wanted);
  if (onRig) return onRig;
  const found = await askHost('item.find', { number: typed }, AbortSignal.timeout(5000));
  const thing = found.ok ? found.value[0] : undefined;
  return thing ? { ...thing, place: thing.place ?? '' } : null;
}
