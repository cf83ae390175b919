/** Meters: what was used in all, over replaced meters, and when a mark is likely to be reached. */
import { addDays, type Day } from '../calendar/day.ts';
import { type firstDay, lastDay } from '../calendar/when.ts';
import type { MeterFact } from '../facts.ts';

/** One reading, with what the thing had done in all by then. */
export interface MeterPoint {
  day: Day;
  reading: number;
  /** Units since the first meter was at nothing, replaced meters counted on. */
  total: number;
  /** Whether this is the first reading of a replaced meter. */
  replaced: boolean;
  fact: string;
}

/** A reading that is less than one before it, with no word that the meter was replaced. */
export interface Backward {
  before: MeterFact;
  after: MeterFact;
}

/**
 * The readings of one meter in order.
 * @param meters the facts in the order they are read (`inOrder`)
 * @returns `backward` where two readings contradict each other; what the thing has done is then not known
 */
export function meterPoints(
  meters: readonly MeterFact[],
  meter: string,
): { points: MeterPoint[]; backward: Backward | null } {
  const points: MeterPoint[] = [];
  let before: MeterFact | undefined;
  let offset = 0;
  for (const fact of meters) {
    const { reading, meterReplaced = false } = fact.values;
    if (fact.values.meter !== meter) continue;
    const last = points.at(-1);
    if (before && last && reading < before.values.reading && !meterReplaced)
      return { points, backward: { before, after: fact } };
    if (meterReplaced && last) offset = last.total - reading;
    points.push({
      day: lastDay(fact.effective),
      reading,
      total: reading + offset,
      replaced: meterReplaced,
      fact: fact.id,
    });
    before = fact;
  }
  return { points, backward: null };
}

/** The most that a meter can rise in a day: no clock runs faster than the day. Miles: common practice, no source. */
const MOST_A_DAY: Readonly<Record<string, number>> = {
  miles: 1000,
  hours: 24,
  'engine hours': 24,
  'pump hours': 24,
  'aerial hours': 24,
};

/**
 * Whether a reading rose by more than its meter can in those days, the day of the reading before counted too.
 * Of cycles, fills and uses nothing is known, so no rise is too much.
 */
export function roseTooFast(meter: string, risen: number, days: number): boolean {
  const most = MOST_A_DAY[meter];
  return most !== undefined && risen > most * (days + 1);
}

/** Days that a rate is taken over at the least: shorter ones say more of one shift than of a year. */
const WINDOW_DAYS = 28;
/** How far back rates are taken: a year and a season, since use is seasonal. */
const BACK_DAYS = 460;
/** What is left of a projection that far off says nothing. */
const FARTHEST_DAYS = 7300;

/** When a mark is likely to be reached. `to` is null where at the slowest rate it may not be reached in twenty years. */
export interface Projection {
  from: Day;
  to: Day | null;
  /** Units a day, slowest and fastest, as they were seen. */
  slowest: number;
  fastest: number;
}

/**
 * A range of days in which a total is likely to be reached, from how fast the readings rose: the fastest and the
 * slowest stretch of at least four weeks, widened by a tenth, or by a quarter while fewer than three are known, so
 * that a range is never shown as a certainty. Common practice, no source.
 * @returns null where the readings show no rate, or nothing rose
 */
export function project(points: readonly MeterPoint[], mark: number): Projection | null {
  const last = points.at(-1);
  if (!last) return null;
  const rates: number[] = [];
  let end = last;
  for (const point of [...points].reverse()) {
    if (last.day - point.day > BACK_DAYS) break;
    if (end.day - point.day < WINDOW_DAYS) continue;
    rates.push((end.total - point.total) / (end.day - point.day));
    end = point;
  }
  const [slowest, fastest] = [Math.min(...rates), Math.max(...rates)];
  if (rates.length === 0 || fastest <= 0) return null;
  const width = rates.length < 3 ? 0.25 : 0.1;
  const left = mark - last.total;
  const soonest = Math.floor(left / (fastest * (1 + width)));
  const latest = slowest <= 0 ? Number.POSITIVE_INFINITY : Math.ceil(left / (slowest * (1 - width)));
  return {
    from: addDays(last.day, Math.min(soonest, FARTHEST_DAYS)),
    to: latest > FARTHEST_DAYS ? null : addDays(last.day, latest),
    slowest,
    fastest,
  };
}

/** What the thing had done by a day: by the last reading on or before it, so that nothing is counted too late; null where none. */
export function totalOn(
  points: readonly MeterPoint[],
  when: Parameters<typeof firstDay>[0],
): MeterPoint | null {
  const day = lastDay(when);
  return points.findLast(p => p.day <= day) ?? null;
}
