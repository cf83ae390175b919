/** How one version of a requirement stands to another: stricter, looser, or merely other. */
import { parseDay } from '../calendar/day.ts';
import { isConfirmed } from './force.ts';
import { isSame } from './same.ts';
import type { Clock, Every, OwnVersion, Requirement, WhenLate } from './types.ts';

/** One point in which two versions differ. */
export interface Difference {
  field:
    | 'clock'
    | 'late'
    | 'graceDays'
    | 'warnDays'
    | 'dueAt'
    | 'appliesTo'
    | 'satisfiedBy'
    | 'countedOutcomes'
    | 'coveredBy'
    | 'inStorage'
    | 'activity'
    | 'where'
    | 'words'
    | 'sources';
  effect: 'stricter' | 'looser' | 'other';
}

const WEIGHT: Readonly<Record<WhenLate, number>> = { notes: 0, limits: 1, blocks: 2 };
const DUE_AT = ['month start', 'day', 'month end'] as const;

/** In what a version differs from the one it is held against, and to which side. */
export function differences(against: Requirement, own: Requirement): Difference[] {
  const found: Difference[] = [];
  const put = (field: Difference['field'], effect: Difference['effect'] | null) => {
    if (effect !== null) found.push({ field, effect });
  };
  put('clock', clockEffect(against.clock, own.clock));
  put('late', bySize(WEIGHT[against.late] - WEIGHT[own.late]));
  put('graceDays', bySize((own.graceDays ?? 0) - (against.graceDays ?? 0)));
  put('dueAt', bySize(DUE_AT.indexOf(own.dueAt) - DUE_AT.indexOf(against.dueAt)));
  put('appliesTo', byMembers(own.appliesTo, against.appliesTo));
  put('satisfiedBy', byMembers(own.satisfiedBy, against.satisfiedBy));
  put('countedOutcomes', byMembers(own.countedOutcomes, against.countedOutcomes));
  put('coveredBy', byMembers(own.coveredBy ?? [], against.coveredBy ?? []));
  put('inStorage', bySize(Number(own.inStorage === 'waits') - Number(against.inStorage === 'waits')));
  // Another duty under the same name is no longer the one that was asked for.
  put('activity', own.activity === against.activity ? null : 'looser');
  put('where', isSame(own.where, against.where) ? null : own.where ? 'looser' : 'stricter');
  put('warnDays', own.warnDays === against.warnDays ? null : 'other');
  const words = (r: Requirement) => [r.title, r.who, r.cautions, r.binds, r.asks];
  put('words', isSame(words(own), words(against)) ? null : 'other');
  // What is from memory alone is not judged by, so sources may take a requirement out of force.
  const isUnjudged = isConfirmed(against) && !isConfirmed(own);
  put('sources', isUnjudged ? 'looser' : isSame(own.sources, against.sources) ? null : 'other');
  return found;
}

/** The whole of it: looser where anything is, however strict the rest; null where nothing differs. */
export function changeOf(found: readonly Difference[]): OwnVersion['change'] | null {
  if (found.length === 0) return null;
  const has = (effect: Difference['effect']) => found.some(d => d.effect === effect);
  return has('looser') ? 'looser' : has('stricter') ? 'stricter' : 'other';
}

function bySize(more: number): Difference['effect'] | null {
  return more > 0 ? 'looser' : more < 0 ? 'stricter' : null;
}

/** More members than before let more pass; fewer let less. Where each has what the other lacks it counts as looser. */
function byMembers(own: readonly unknown[], against: readonly unknown[]): Difference['effect'] | null {
  const isIn = (member: unknown, list: readonly unknown[]) => list.some(other => isSame(member, other));
  if (own.some(m => !isIn(m, against))) return 'looser';
  return against.some(m => !isIn(m, own)) ? 'stricter' : null;
}

/**
 * Two clocks by what each allows at the most, one amount for each thing it limits. A limit that is gone, or higher,
 * is looser.
 */
function clockEffect(against: Clock, own: Clock): Difference['effect'] | null {
  if (isSame(against, own)) return null;
  const [was, now] = [allowances(against, daysOf), allowances(own, daysOf)];
  // Thirty days are longer than a February: where days stand against months, the months are taken at their worst.
  const texts = JSON.stringify([against, own]);
  const isMixed = texts.includes('"days"') && /"(early_)?months"/.test(texts);
  const least = isMixed ? allowances(against, shortest) : was;
  const most = isMixed ? allowances(own, longest) : now;
  for (const [a, b] of [
    [was, now],
    [least, most],
  ] as const) {
    withExceptions(a, b);
    withExceptions(b, a);
  }
  const isMore = (limit: string, a: Map<string, number>, b: Map<string, number>) =>
    (b.get(limit) ?? Number.POSITIVE_INFINITY) > (a.get(limit) ?? Number.POSITIVE_INFINITY);
  const differs = (limit: string) => was.get(limit) !== now.get(limit);
  if ([...was.keys()].some(l => differs(l) && isMore(l, least, most))) return 'looser';
  return [...now.keys()].some(l => isMore(l, now, was)) ? 'stricter' : 'other';
}

/** An exception of a table that only the other one names allows here what its whole line allows. */
function withExceptions(limits: Map<string, number>, others: ReadonlyMap<string, number>): void {
  for (const limit of others.keys()) {
    const line = limits.get(limit.split(EXCEPT)[0] ?? limit);
    if (limit.includes(EXCEPT) && !limits.has(limit) && line !== undefined) limits.set(limit, line);
  }
}

/** Between a line of a table and its exception. */
const EXCEPT = ' except ';

/** Days of a span, a month taken as a twelfth of a year, so that 12 months and 365 days compare. */
function daysOf(every: Every): number {
  return 'days' in every ? every.days : (every.months * 365) / 12;
}

const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const windows = (months: number) =>
  LENGTHS.map((_, start) =>
    Array.from({ length: months % 12 }, (_, i) => LENGTHS[(start + i) % 12] ?? 0).reduce<number>(
      (a, b) => a + b,
      0,
    ),
  );

/** The fewest days that a span can be. */
function shortest(every: Every): number {
  if ('days' in every) return every.days;
  return Math.floor(every.months / 12) * 365 + Math.min(...windows(every.months));
}

/** The most days that a span can be, with a leap day for each four years begun. */
function longest(every: Every): number {
  if ('days' in every) return every.days;
  const years = Math.floor(every.months / 12);
  return years * 365 + Math.ceil(years / 4) + Math.max(...windows(every.months));
}

/** What a clock allows at the most; a larger amount is looser. */
function allowances(clock: Clock, daysOf: (every: Every) => number): Map<string, number> {
  const limits = new Map<string, number>();
  const put = (limit: string, amount: number) =>
    limits.set(limit, Math.min(amount, limits.get(limit) ?? Number.POSITIVE_INFINITY));
  switch (clock.kind) {
    case 'since last':
      put('between', daysOf(clock.every));
      put(`first by ${clock.first.counts}`, daysOf(clock.first.plus));
      break;
    case 'fixed month': {
      const longest = daysOf({ months: clock.every_months + clock.early_months + 1 });
      put('between', clock.atMost ? Math.min(longest, daysOf(clock.atMost)) : longest);
      put(`first by ${clock.first.counts}`, daysOf(clock.first.plus));
      break;
    }
    case 'once':
      put('once', 0);
      put(`first by ${clock.first.counts}`, daysOf(clock.first.plus));
      break;
    case 'meter':
      put(clock.meter, clock.every);
      break;
    case 'life':
      put(`life from ${clock.counts}`, daysOf(clock.plus));
      break;
    case 'first of':
      for (const part of clock.clocks)
        for (const [limit, amount] of allowances(part, daysOf)) put(limit, amount);
      break;
    case 'reading limit': {
      const isLow = clock.owedWhen === 'under' || clock.owedWhen === 'at or under';
      const isAt = clock.owedWhen === 'at or under' || clock.owedWhen === 'at or over';
      const name = `${clock.reading} ${isLow ? 'low' : 'high'} ${clock.percentOf ?? ''} ${clock.lostFrom ?? ''}`;
      put(name, Number(clock.value) * (isLow ? -1 : 1) - (isAt ? 1e-9 : 0));
      break;
    }
    case 'printed date':
      put(`printed ${clock.attribute}`, clock.needed ? 0 : 1);
      put(`span after printed ${clock.attribute}`, clock.plus ? daysOf(clock.plus) : 0);
      break;
    case 'made before':
      put('made before', -(parseDay(clock.day) ?? 0));
      break;
    case 'after happenings':
      put('after happenings', 0);
      break;
    case 'cylinder period':
    case 'cylinder life': {
      const isPeriod = clock.kind === 'cylinder period';
      const amount = (months: number | null) => (months === null ? Number.MAX_VALUE : months);
      for (const s of clock.specs) {
        put(s.spec, amount(isPeriod ? s.months : s.lifeMonths));
        if (isPeriod && s.unless)
          put(`${s.spec}${EXCEPT}${s.unless.attribute} ${s.unless.is}`, s.unless.months);
      }
      for (const c of clock.constructions) put(c.construction, amount(isPeriod ? c.months : c.lifeMonths));
    }
  }
  return limits;
}
