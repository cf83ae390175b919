/** A unit's carry list as it stood on a day, from what was ever said of its lines. */

import type { When } from '../calendar/when.ts';
import { inOrder } from '../facts.ts';
import type { CarryLine, LineBody } from './types.ts';

/** What a deed says of a line: how it is from then on, or that it ended. */
export interface LineFact {
  effective: When;
  clock: number;
  device: string;
  n: number;
  values: ({ line: string } & LineBody) | { line: string; ended: true };
}

/**
 * The lines in force, in the order in which they were first put on the list.
 * @param facts the facts of one unit that count, in any order; for an old day only those in effect by then
 */
export function carryListFrom(facts: readonly LineFact[]): CarryLine[] {
  const lines = new Map<string, CarryLine | null>();
  for (const { values } of [...facts].sort(inOrder)) {
    // A line keeps its place in the list when it is changed; one that ended and came again stands where it stood.
    lines.set(values.line, 'ended' in values ? null : values);
  }
  return [...lines.values()].filter(line => line !== null);
}
