/** Rides from the facts of a rig: the unit it began with, and who took it or left it since. */
import type { RideFact } from '../../domain/rigs/rides.ts';
import { type PlainFact, textOf } from './facts.ts';

/** What a rig's facts say of who rode it. */
export function rideFactsOf(rig: string, facts: readonly PlainFact[]): RideFact[] {
  const begins = facts.find(f => f.kind === 'identity' && typeof f.values.unit === 'string');
  return [...(begins ? [begins] : []), ...facts.filter(f => f.kind === 'ride')].map(f => ({
    ...f,
    rig,
    unit: textOf(f.values.unit),
  }));
}
