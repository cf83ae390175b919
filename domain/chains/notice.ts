/**
 * Recalls and stop-use notices: what somebody's notice names, and whether a thing is meant by it. What is not known of
 * a thing never clears it: it is perhaps meant, and somebody has to look.
 */
import { firstDay, lastDay, parseWhen, type When } from '../calendar/when.ts';
import { rangeOf } from './serial.ts';

export const NOTICE_KINDS = ['recall', 'stop use'] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** What a notice names. A bound that is null is not named, and everything is within it. */
export interface Notice {
  title: string;
  kind: NoticeKind;
  family: string;
  maker: string | null;
  model: string | null;
  serialFrom: string | null;
  serialTo: string | null;
  madeFrom: When | null;
  madeTo: When | null;
  issuedBy: string;
  /** What is to be done with what it concerns, in the words of who issued it. */
  toDo: string;
}

/** What of a thing a notice is held against. */
export interface Noticed {
  family: string;
  serial: string | null;
  maker: string | null;
  model: string | null;
  made: string | null;
}

export type Concerns = 'yes' | 'perhaps' | 'no';

/** Whether a notice concerns a thing, and what has to be looked at where that is not certain. */
export interface Judgment {
  concerns: Concerns;
  /** Why it is only perhaps: `serial not known`. Empty where it is certain. */
  look: string[];
}

/** Whether a notice concerns a thing; `perhaps` where something it names is not known of the thing. */
export function concerns(notice: Notice, thing: Noticed): Concerns {
  return judge(notice, thing).concerns;
}

/** The same, with what has to be looked at. One thing named that is surely another clears it; nothing else does. */
export function judge(notice: Notice, thing: Noticed): Judgment {
  if (thing.family !== notice.family) return { concerns: 'no', look: [] };
  const told: readonly [string, string | null, Concerns][] = [
    ['maker', thing.maker, alike(notice.maker, thing.maker)],
    ['model', thing.model, alike(notice.model, thing.model)],
    ['serial', thing.serial, rangeOf(notice.serialFrom, notice.serialTo, thing.serial)],
    ['date of manufacture', thing.made, madeWithin(notice, thing.made)],
  ];
  if (told.some(([, , is]) => is === 'no')) return { concerns: 'no', look: [] };
  const look = told
    .filter(([, , is]) => is === 'perhaps')
    .map(([what, known]) => (isBlank(known) ? `${what} not known` : `${what} reads ${known}`));
  return { concerns: look.length > 0 ? 'perhaps' : 'yes', look };
}

/** Whether a notice names anything beside the family: without that it would mean every thing of it. */
export function namesSomething(notice: Omit<Notice, 'title' | 'kind' | 'issuedBy' | 'toDo'>): boolean {
  const { maker, model, serialFrom, serialTo, madeFrom, madeTo } = notice;
  return [maker, model, serialFrom, serialTo, madeFrom, madeTo].some(named => named !== null);
}

const isBlank = (text: string | null): boolean => text === null || text.trim() === '';

/**
 * Names as people write them: letters and figures alone count, without regard to case. A name that holds the other
 * whole, as `Vista 3 wide` holds `Vista 3`, is perhaps the same one written more fully.
 */
function alike(named: string | null, known: string | null): Concerns {
  if (named === null) return 'yes';
  const [wanted, has] = [wordsOf(named), wordsOf(known ?? '')];
  if (has.length === 0) return 'perhaps';
  if (wanted.join('') === has.join('')) return 'yes';
  const [a, b] = [` ${wanted.join(' ')} `, ` ${has.join(' ')} `];
  return a.includes(b) || b.includes(a) ? 'perhaps' : 'no';
}

const wordsOf = (text: string): string[] => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];

/** A date that is known as a year or a month is within the bounds only where all of it is. */
function madeWithin(
  { madeFrom, madeTo }: Pick<Notice, 'madeFrom' | 'madeTo'>,
  made: string | null,
): Concerns {
  if (madeFrom === null && madeTo === null) return 'yes';
  const known = made === null ? null : parseWhen(made);
  if (known === null) return 'perhaps';
  const [from, to] = [
    madeFrom === null ? Number.NEGATIVE_INFINITY : firstDay(madeFrom),
    madeTo === null ? Number.POSITIVE_INFINITY : lastDay(madeTo),
  ];
  const [first, last] = [firstDay(known), lastDay(known)];
  if (last < from || first > to) return 'no';
  return first >= from && last <= to ? 'yes' : 'perhaps';
}
