/** How PINs are kept from being guessed, as numbers and in words. Common practice, no source. */

/** The shortest PIN that is taken, in characters. */
export const PIN_LEAST = 4;
/** So many wrong PINs in a row lock it. */
export const PIN_TRIES = 5;
/** How long it then stays locked, in milliseconds. */
export const PIN_LOCK_MS = 5 * 60_000;
/** The wait after the first wrong PIN, the second and so on, in milliseconds: a slip costs nothing, guessing does. */
const WAITS_MS = [0, 2_000, 4_000, 8_000] as const;

/** How long nothing is tried after so many wrong PINs in a row, in milliseconds. */
export function pinWait_ms(wrong: number): number {
  if (wrong >= PIN_TRIES) return PIN_LOCK_MS;
  return WAITS_MS[wrong - 1] ?? 0;
}

/** For whoever sets a PIN. */
export const PIN_RULE = `At least ${PIN_LEAST} characters; letters and figures count as typed.`;
/** For whoever sets or gives a PIN. */
export const PIN_GUARD = `Wrong PINs cost a growing wait; ${PIN_TRIES} in a row lock it for ${PIN_LOCK_MS / 60_000} minutes.`;
