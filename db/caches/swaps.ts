/** Swaps of many whose numbers are owed, from their facts. */
import type { When } from '../../domain/calendar/when.ts';
import { asTold, type PlainFact, textOf } from './facts.ts';

export interface SwapTold {
  of: string;
  family: string;
  down: number;
  up: number;
  place: string;
  note: string | null;
  on: When;
  by: string | null;
  /** How many numbers were read of each way. */
  read: { down: number; up: number };
  /** Why the rest will never be known; null while it is owed. */
  giveUp: string | null;
}

export function swapOf(facts: readonly PlainFact[]): SwapTold | null {
  const made = facts.find(f => f.kind === 'identity');
  if (!made) return null;
  const v = made.values;
  const reads = asTold(facts.filter(f => f.kind === 'read'));
  const count = (way: 'down' | 'up') =>
    reads.reduce((n, r) => n + ((r.values[way] as string[] | undefined)?.length ?? 0), 0);
  const gaveUp = reads.find(r => typeof r.values.giveUp === 'string');
  return {
    of: String(v.of),
    family: String(v.family),
    down: Number(v.down),
    up: Number(v.up),
    place: String(v.place),
    note: textOf(v.note),
    on: made.effective,
    by: textOf(v.by),
    read: { down: count('down'), up: count('up') },
    giveUp: gaveUp ? String(gaveUp.values.giveUp) : null,
  };
}
