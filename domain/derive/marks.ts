/** What a thing is shown by: the state of its dates, or its condition where that weighs more. */
import type { Condition } from '../facts.ts';
import type { DueState } from './due.ts';

/** Every state a thing or a duty can be shown in. */
export type MarkState = DueState | 'tagged out' | 'missing';

/** The states in the order they weigh, the heaviest first: what the eye should meet first. */
export const MARK_STATES: readonly MarkState[] = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'tagged out',
  'missing',
  'not judged',
  'due soon',
  'current',
  'not applicable',
];

/** Marks that tell of something wrong; what is merely due soon, current or does not apply is quiet. */
const WRONG: readonly MarkState[] = MARK_STATES.slice(0, MARK_STATES.indexOf('due soon'));

/** A thing as far as its mark goes: its condition, and the heaviest state of its dates. */
export interface Marked {
  condition: Condition;
  state: DueState;
}

/** The heaviest mark of a thing: its condition where that has a mark of its own, or its dates. */
export function markOf({ condition, state }: Marked): MarkState {
  const marks: MarkState[] = [state];
  if (condition === 'tagged out' || condition === 'missing' || condition === 'retest owed')
    marks.push(condition);
  return MARK_STATES.find(mark => marks.includes(mark)) ?? state;
}

/** The heaviest thing wrong among these, or null. */
export function heaviestWrong(things: readonly Marked[]): MarkState | null {
  const marks = things.map(markOf);
  return WRONG.find(mark => marks.includes(mark)) ?? null;
}

/** Whether a state alone tells of something wrong. */
export const isWrong = (state: MarkState): boolean => WRONG.includes(state);

/** How many things have something wrong with them. */
export const countWrong = (things: readonly Marked[]): number =>
  things.filter(thing => WRONG.includes(markOf(thing))).length;
