/**
 * Swapping a thing with another of its family: which one to take first, and what speaks against each. Common
 * practice, no source: a ready spare is taken before a reserve, and neither is robbed from a first line rig while
 * something else serves.
 */
import type { DueState } from '../derive/due.ts';
import type { Assignment, Condition } from '../facts.ts';

/** What is known of either side of a swap. */
export interface Swappable {
  /** Its kind and size: what is of one kind stands in for each other. */
  kind: string;
  /** The station it is at, by name, or null. */
  station: string | null;
  condition: Condition;
  assignment: Assignment | null;
  /** The heaviest of its states. */
  state: DueState;
  /** A kit that does not serve as it is: opened, or without what is critical in it. */
  isUnready?: boolean;
}

const CONDITION_WEIGHS: Readonly<Partial<Record<Condition, number>>> = {
  serviceable: 0,
  received: 2,
  'limited use': 2,
  'retest owed': 4,
};
const OUT = 5;
/** As much as what owes a retest: it serves once that is done. */
const UNREADY = 4;

const STATE_WEIGHS: Readonly<Record<DueState, number>> = {
  'life ended': OUT,
  'retest owed': 4,
  'never done': 3,
  overdue: 3,
  'not judged': 2,
  'due soon': 1,
  current: 0,
  'not applicable': 0,
};

/** The heaviest weight with which a thing may still be put on a rig without a word: serviceable, nothing overdue. */
const SERVES = 1;

const TAKEN_FIRST: readonly (Assignment | null)[] = [
  'ready spare',
  'reserve',
  'storage',
  null,
  'loaned in',
  'first line',
  'training only',
  'issued',
  'loaned out',
];

/** How much is wrong with a thing: 0 nothing, 5 it cannot be used. Only for comparing. */
export function weightOf({
  condition,
  state,
  isUnready = false,
}: Pick<Swappable, 'condition' | 'state' | 'isUnready'>): number {
  return Math.max(CONDITION_WEIGHS[condition] ?? OUT, STATE_WEIGHS[state], isUnready ? UNREADY : 0);
}

/** Spares in the order in which one would take them for `current`: its like first, what serves, by assignment, the nearest. */
export function inOrderToTake<T extends Swappable>(
  current: Pick<Swappable, 'kind' | 'station'>,
  spares: readonly T[],
): T[] {
  const rank = (spare: T): number[] => [
    spare.kind === current.kind ? 0 : 1,
    weightOf(spare) > SERVES ? 1 : 0,
    TAKEN_FIRST.indexOf(spare.assignment),
    spare.station !== null && spare.station === current.station ? 0 : 1,
    weightOf(spare),
  ];
  return spares
    .map((spare, order) => ({ spare, by: [...rank(spare), order] }))
    .sort((a, b) => a.by.map((n, i) => n - (b.by[i] ?? 0)).find(d => d !== 0) ?? 0)
    .map(({ spare }) => spare);
}

/**
 * What speaks against taking a spare, in words.
 * @param rig the rig the spare rides on now, by name, or null
 */
export function against(current: Swappable, spare: Swappable, rig: string | null): string[] {
  const reasons: string[] = [];
  if (weightOf(spare) > weightOf(current)) reasons.push('worse than what is there');
  if (spare.condition !== 'serviceable') reasons.push(spare.condition);
  if (spare.isUnready) reasons.push('to be counted and sealed');
  if (STATE_WEIGHS[spare.state] > SERVES && spare.state !== spare.condition) reasons.push(spare.state);
  if (spare.kind !== current.kind) reasons.push('not the same kind');
  if (spare.assignment === 'first line' && rig !== null) reasons.push(`${rig} would be short`);
  else if (
    spare.assignment === 'training only' ||
    spare.assignment === 'issued' ||
    spare.assignment === 'loaned out'
  )
    reasons.push(spare.assignment);
  return reasons;
}
