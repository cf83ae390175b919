/**
 * What is known against a unit, and how fresh it is. It advises: it does not change dispatch status, and the
 * officer decides. What each requirement does when it is late (blocks, limits, notes) is the department's choice.
 */
import type { Day } from '../calendar/day.ts';
import { toServe } from '../carry/lacking.ts';
import type { DueState } from '../derive/due.ts';
import type { Condition } from '../facts.ts';
import type { WhenLate } from '../rulebook/types.ts';

export const VERDICTS = ['not ready', 'ready with limits', 'not known', 'ready'] as const;
/** The heaviest first. */
export type Verdict = (typeof VERDICTS)[number];

/** What a rig itself is in: a rig tagged out blocks its unit. */
export type RigCondition = 'in service' | 'limited' | 'out of service';

export interface UnitKnown {
  /** Whether a rig is known to be ridden. */
  hasRig: boolean;
  things: number;
  /** The latest day on which anything on the rig was seen, counted, tested or read; null where never. */
  lastSeen: Day | null;
  /** Of everything that tells against it: the rig's own condition, its things' conditions, their due rows. */
  effects: readonly WhenLate[];
}

/** States that tell against a unit; what is merely due soon does not. */
const AGAINST: ReadonlySet<DueState> = new Set(['life ended', 'retest owed', 'never done', 'overdue']);

/** Conditions of a thing on the rig that tell against its unit. Common practice, no source: a department may differ. */
export const CONDITION_EFFECT: Partial<Record<Condition, WhenLate>> = {
  'retest owed': 'blocks',
  'tagged out': 'limits',
  'at repair': 'limits',
  'held for investigation': 'limits',
  missing: 'limits',
  'limited use': 'notes',
};

/**
 * The effect of a due row on a unit, or null where it tells nothing against it. Not judged limits, since nobody vouches
 * for it; where being late would only be noted, or the department has not confirmed the rule, it is noted.
 */
export function dueEffect(finding: { state: DueState; late: WhenLate }): WhenLate | null {
  // What owes a retest is out until it passes, whatever its date's being late would do.
  if (finding.state === 'retest owed') return CONDITION_EFFECT['retest owed'] ?? finding.late;
  if (AGAINST.has(finding.state)) return finding.late;
  if (finding.state !== 'not judged') return null;
  return finding.late === 'notes' ? 'notes' : 'limits';
}

/** The effect of a thing's condition on a unit, or null. */
export function conditionEffect(condition: Condition): WhenLate | null {
  return CONDITION_EFFECT[condition] ?? null;
}

/**
 * The effect of a line of the carry list of which fewer are there than it asks for: without the least of what is
 * critical a unit is not ready, without the least of the rest it is limited; above the least it is to note. Common
 * practice, no source: what is critical and how many are the least is the department's choice.
 */
export function lineEffect(
  line: { qty: number; min: number; critical: boolean },
  lacking: number,
): WhenLate | null {
  if (lacking <= 0) return null;
  if (toServe(line, lacking) === 0) return 'notes';
  return line.critical ? 'blocks' : 'limits';
}

/** The effect of a rig's own condition on the unit that rides it, or null. */
export function rigEffect(condition: RigCondition): WhenLate | null {
  if (condition === 'in service') return null;
  return condition === 'out of service' ? 'blocks' : 'limits';
}

/**
 * The verdict for a unit: anything that blocks makes it not ready; anything that limits, ready with limits. With
 * no rig, or nothing on it that was ever seen, it is not known: no news is not good news.
 */
export function verdictOf(known: UnitKnown): Verdict {
  if (!known.hasRig) return 'not known';
  if (known.effects.includes('blocks')) return 'not ready';
  if (known.things === 0 || known.lastSeen === null) return 'not known';
  return known.effects.includes('limits') ? 'ready with limits' : 'ready';
}

const WEIGHT: Record<WhenLate, number> = { blocks: 0, limits: 1, notes: 2 };
const STATE_WEIGHT: Partial<Record<DueState, number>> = {
  'life ended': 0,
  'retest owed': 1,
  'never done': 2,
  overdue: 3,
  'not judged': 4,
};

export interface Weighed {
  effect: WhenLate;
  state: DueState | null;
  dueOn: Day | null;
  number: string;
}

/** The order of reasons: what blocks before what limits before what notes, then the graver state, then the older date. */
export function byWeight(a: Weighed, b: Weighed): number {
  return (
    WEIGHT[a.effect] - WEIGHT[b.effect] ||
    (a.state ? (STATE_WEIGHT[a.state] ?? 9) : -1) - (b.state ? (STATE_WEIGHT[b.state] ?? 9) : -1) ||
    (a.dueOn ?? Number.NEGATIVE_INFINITY) - (b.dueOn ?? Number.NEGATIVE_INFINITY) ||
    (a.number < b.number ? -1 : a.number > b.number ? 1 : 0)
  );
}
