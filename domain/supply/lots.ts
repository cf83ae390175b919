/** Lots of counted stock: when one is no longer good, which is taken first, and what is on hand of each. */
import type { Day } from '../calendar/day.ts';
import { lastDay, type When } from '../calendar/when.ts';

/** From so many days before it a lot is told as expiring soon. Common practice, no source. */
export const EXPIRY_WARN_DAYS = 60;

export type LotState = 'expired' | 'expires soon' | 'current' | 'no expiry';

/** The heaviest first. */
export const LOT_STATES: readonly LotState[] = ['expired', 'expires soon', 'current', 'no expiry'];

/** What is on hand of one lot in one place, in each. Null as a lot: nobody said which. */
export interface OnHand {
  place: string;
  lot: string | null;
  expires: When | null;
  /** Under zero where more was taken than was ever known to be there: a count is owed. */
  amount: number;
  /** When it was last counted in this place. */
  counted: When | null;
  /** When the lot was first heard of, in any place: the older of two goes first. */
  since: When;
}

/** So much of a lot. */
export interface LotAmount {
  lot: string | null;
  amount: number;
}

/** A lot is good through the last day that its date can mean: one marked with a month, through that month. */
export function stateOf(
  lot: { expires: When | null },
  today: Day,
  warnDays: number = EXPIRY_WARN_DAYS,
): LotState {
  if (lot.expires === null) return 'no expiry';
  const last = lastDay(lot.expires);
  if (last < today) return 'expired';
  return last - today <= warnDays ? 'expires soon' : 'current';
}

/** The order in which lots are used up: the soonest expiry, then the oldest, what never expires last. */
export function inOrderToUse(
  a: Pick<OnHand, 'lot' | 'expires' | 'since'>,
  b: Pick<OnHand, 'lot' | 'expires' | 'since'>,
): number {
  const [ends, other] = [a, b].map(l => (l.expires === null ? Number.POSITIVE_INFINITY : lastDay(l.expires)));
  if (ends !== other) return (ends as number) < (other as number) ? -1 : 1;
  if (a.since !== b.since) return a.since < b.since ? -1 : 1;
  const [name, otherName] = [a.lot ?? '', b.lot ?? ''];
  return name === otherName ? 0 : name < otherName ? -1 : 1;
}

/** What to take for an issue. */
export interface Taking {
  taken: LotAmount[];
  /** How many are lacking of what was asked. */
  lacking: number;
  /** How many lie there that have expired: they are never taken without somebody naming their lot. */
  expired: number;
}

/**
 * Which lots to take from what lies in one place: the soonest expiry first, never an expired one.
 * @param onHand the lots of one stock in one place
 * @param amount in each, above 0
 */
export function toIssue(onHand: readonly OnHand[], amount: number, today: Day): Taking {
  const there = onHand.filter(l => l.amount > 0);
  const isExpired = (l: OnHand) => stateOf(l, today) === 'expired';
  const taken: LotAmount[] = [];
  let lacking = amount;
  for (const { lot, amount: held } of there.filter(l => !isExpired(l)).sort(inOrderToUse)) {
    if (lacking === 0) break;
    const some = Math.min(held, lacking);
    taken.push({ lot, amount: some });
    lacking -= some;
  }
  return { taken, lacking, expired: there.filter(isExpired).reduce((sum, l) => sum + l.amount, 0) };
}
