/**
 * A kit: a bag or set that moves whole, sealed with a numbered tag. A seal that is whole stands for its last full
 * count; once it was opened, or its seal is broken or another one, nothing stands for it until it is counted and
 * sealed anew. It is as ready as its worst critical content and expires with its earliest. Common practice, no source.
 */
import type { Day } from '../calendar/day.ts';
import { showWhen } from '../calendar/show.ts';
import { lastDay, type When } from '../calendar/when.ts';
import type { CarryLine } from '../carry/types.ts';
import { lineEffect } from '../coverage/readiness.ts';
import { inOrder } from '../facts.ts';
import type { WhenLate } from '../rulebook/types.ts';

export const SEAL_STATES = ['sealed', 'opened', 'seal broken', 'seal differs', 'never sealed'] as const;
export type SealState = (typeof SEAL_STATES)[number];

/** So many of a line were there at the full count; of several dates on them the earliest. */
export interface ContentCount {
  line: string;
  amount: number;
  expires: When | null;
}

interface Told {
  effective: When;
  clock: number;
  device: string;
  n: number;
}

/** What an entry says of a kit's seal and contents. */
export type KitFact = Told &
  (
    | { kind: 'sealed'; values: { seal: string; counts: readonly ContentCount[] } }
    | { kind: 'opened'; values: { why: string } }
    /** The seal was looked at; `seal` is the number that was read, null where none could be. */
    | { kind: 'seal seen'; values: { seal: string | null; intact: boolean } }
  );

/** A kit as its facts leave it. */
export interface KitKnown {
  state: SealState;
  /** When it came to that; null where it was never sealed nor opened. */
  since: When | null;
  /** The number of the last seal that was put on; null before the first. */
  seal: string | null;
  /** What was found in its place, where that differs. */
  found: string | null;
  /** Why it was opened. */
  why: string | null;
  /** The last full count, and when it was made. */
  counts: readonly ContentCount[];
  countedOn: When | null;
  /** When the seal was last seen whole, or put on. */
  seenOn: When | null;
}

/** Whether two seal numbers are one, as people write them. */
export function isSameSeal(a: string, b: string): boolean {
  return sealKey(a) === sealKey(b);
}

/** A seal number without what people leave out or put between: letter case, spaces and dashes. */
export function sealKey(seal: string): string {
  return seal.toLowerCase().replace(/[\s-]+/g, '');
}

/** The last word on a kit's seal. A seal that was found broken stays so until a new one is put on. */
export function kitFrom(facts: readonly KitFact[]): KitKnown {
  let known: KitKnown = {
    state: 'never sealed',
    since: null,
    seal: null,
    found: null,
    why: null,
    counts: [],
    countedOn: null,
    seenOn: null,
  };
  for (const fact of [...facts].sort(inOrder)) {
    const since = fact.effective;
    switch (fact.kind) {
      case 'sealed':
        known = {
          state: 'sealed',
          since,
          seal: fact.values.seal,
          found: null,
          why: null,
          counts: fact.values.counts,
          countedOn: since,
          seenOn: since,
        };
        break;
      case 'opened':
        if (known.state !== 'opened') known = { ...known, state: 'opened', since, why: fact.values.why };
        break;
      case 'seal seen':
        if (known.state === 'sealed' && known.seal !== null) known = seen(known, known.seal, fact);
        break;
    }
  }
  return known;
}

function seen(
  known: KitKnown,
  seal: string,
  { values, effective }: KitFact & { kind: 'seal seen' },
): KitKnown {
  if (!values.intact) return { ...known, state: 'seal broken', since: effective, found: values.seal };
  if (values.seal === null || isSameSeal(values.seal, seal)) return { ...known, seenOn: effective };
  return { ...known, state: 'seal differs', since: effective, found: values.seal };
}

/** What a kit has of one line of its template on a day. */
export interface ContentStanding {
  line: CarryLine;
  /** How many lie in it, by the last full count, or by the tracked things that serve. */
  there: number;
  /** Of those, how many have expired. */
  expired: number;
  /** How many are lacking of its par, expired ones with them. */
  lacking: number;
  soonest: When | null;
  /** False where no full count has told of the line yet. */
  isCounted: boolean;
  effect: WhenLate | null;
}

export interface KitStanding {
  /** `blocks`: it does not serve; `limits`, `notes`: it serves, with less than it should; null: as it should be. */
  effect: WhenLate | null;
  /** In words, the heaviest first. */
  reasons: string[];
  contents: ContentStanding[];
  /** The earliest date of what lies in it, and what has it. */
  expires: { on: When; what: string } | null;
}

/**
 * How a kit stands on a day.
 * @param lines its template
 * @param tracked how many things in it serve for a line whose things are tracked, by the line's name
 */
export function kitStanding(
  lines: readonly CarryLine[],
  known: KitKnown,
  tracked: ReadonlyMap<string, number>,
  today: Day,
): KitStanding {
  const contents = lines.map(line => contentStanding(line, known, tracked, today));
  const dated = contents
    .filter(c => c.soonest !== null && c.there > 0)
    .sort((a, b) => lastDay(a.soonest as When) - lastDay(b.soonest as When))[0];
  const effects: readonly WhenLate[] = ['blocks', 'limits', 'notes'];
  const seal = sealWords(known);
  const reasons = [
    ...(seal === null ? [] : [{ effect: 'blocks' as WhenLate, words: seal }]),
    ...contents.flatMap(c => (c.effect === null ? [] : [{ effect: c.effect, words: contentWords(c) }])),
  ].sort((a, b) => effects.indexOf(a.effect) - effects.indexOf(b.effect));
  return {
    effect: reasons[0]?.effect ?? null,
    reasons: reasons.map(r => r.words),
    contents,
    expires: dated ? { on: dated.soonest as When, what: dated.line.what } : null,
  };
}

function contentStanding(
  line: CarryLine,
  known: KitKnown,
  tracked: ReadonlyMap<string, number>,
  today: Day,
): ContentStanding {
  const counts = known.counts.filter(c => c.line === line.line);
  const sum = (some: readonly ContentCount[]) => some.reduce((n, c) => n + c.amount, 0);
  // What is tracked has its own dates, told on the thing itself.
  const there = line.family === null ? sum(counts) : (tracked.get(line.line) ?? 0);
  const held = line.family === null ? counts.filter(c => c.amount > 0 && c.expires !== null) : [];
  const expired = sum(held.filter(c => lastDay(c.expires as When) < today));
  const lacking = Math.max(0, line.qty - (there - expired));
  return {
    line,
    there,
    expired,
    lacking,
    soonest: held.map(c => c.expires as When).sort((a, b) => lastDay(a) - lastDay(b))[0] ?? null,
    isCounted: line.family !== null || counts.length > 0,
    effect: lineEffect(line, lacking),
  };
}

/** What its seal says against it, or null while that is whole. */
function sealWords({ state, since, seal, found, why }: KitKnown): string | null {
  const on = since === null ? '' : ` ${showWhen(since)}`;
  const owed = 'a full count and a new seal are owed';
  switch (state) {
    case 'sealed':
      return null;
    case 'opened':
      return `opened${on}${why ? ` (${why})` : ''}: ${owed}`;
    case 'seal broken':
      return `seal ${seal} found broken${on}: ${owed}`;
    case 'seal differs':
      return `seal ${found} found${on} where ${seal} was put on: ${owed}`;
    case 'never sealed':
      return `never counted and sealed: ${owed}`;
  }
}

function contentWords({ line, there, expired, isCounted }: ContentStanding): string {
  const critical = line.critical ? ', critical' : '';
  if (!isCounted) return `${line.what}: not counted since it came on the list${critical}`;
  const least = line.min < line.qty ? `, at least ${line.min}` : '';
  const gone = expired === 0 ? '' : `, ${expired} expired`;
  return `${line.what}: ${there - expired} of ${line.qty}${least}${gone}${critical}`;
}
