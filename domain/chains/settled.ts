/** How a thing that a notice concerns is settled, and what its own condition says against that. */
import type { Condition } from '../facts.ts';

export const SETTLED_HOW = [
  'replaced',
  'inspected and kept',
  'repaired',
  'returned to the maker',
  'not concerned',
  'cannot be found',
] as const;
export type SettledHow = (typeof SETTLED_HOW)[number];

/** Conditions in which a thing may still be put to use, by what the department knows. */
export const IN_USE: ReadonlySet<Condition> = new Set(['received', 'serviceable', 'limited use']);

/** Conditions in which a thing is out of use and still there. */
export const IS_OUT: ReadonlySet<Condition> = new Set([
  'tagged out',
  'at repair',
  'retest owed',
  'held for investigation',
]);

/** How a thing stands under a notice. */
export interface Standing {
  open: boolean;
  how: SettledHow | 'retired' | 'disposed' | null;
}

/**
 * How a thing stands, from what was last said of it and its condition now. Its end settles it without a word. What was
 * settled as not to be found and has turned up is open again: it can be put to use.
 */
export function standing(condition: Condition, told: SettledHow | null): Standing {
  const isGone = condition === 'retired' || condition === 'disposed';
  if (isGone) return { open: false, how: told === null || told === 'cannot be found' ? condition : told };
  if (told === 'cannot be found')
    return { open: condition !== 'missing', how: condition === 'missing' ? told : null };
  return { open: told === null, how: told };
}

/** Why a thing cannot be settled so while it is in this condition, and what comes first; null where it can. */
export function contradiction(
  how: SettledHow,
  condition: Condition,
): { wrong: string; first: string } | null {
  if (how === 'not concerned') return null;
  if (how === 'cannot be found')
    return condition === 'missing'
      ? null
      : { wrong: 'not missing', first: 'Report it missing, and write down where it was looked for.' };
  if (condition === 'missing')
    return { wrong: 'missing', first: 'Report it found first; else say that it cannot be found.' };
  if (condition === 'held for investigation')
    return { wrong: 'held for investigation', first: 'Nothing is done to it until it has been released.' };
  if ((how === 'replaced' || how === 'returned to the maker') && IN_USE.has(condition))
    return { wrong: 'still in service', first: 'Tag it out, send it to repair or retire it first.' };
  return null;
}
