import type { Every } from './types.ts';

/** Days of warning for ends of life. */
export const WARN_LIFE_DAYS = 180;

/**
 * The shipped warning window for a repeating duty, in days before it is due. The department may change it by
 * adopting the requirement with another window. Common practice, no source.
 * @returns 2 for up to a week, 10 for up to a month, 60 for up to a year, 180 for anything longer
 */
export function warnDaysFor(every: Every): number {
  if ('days' in every) return every.days <= 7 ? 2 : 10;
  if (every.months <= 1) return 10;
  return every.months <= 12 ? 60 : 180;
}
