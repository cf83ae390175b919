/** Whether a sheet was gone through faster than anyone can look: a note to the officer, never a finding. */
import { civilSeconds } from './civil.ts';

const TO_THE_MINUTE = 'YYYY-MM-DDTHH:MM'.length;

/** A sheet gone through faster than the department's threshold. */
export interface Haste {
  /** Cut to a tenth. */
  secondsPerLine: number;
  /** The threshold, whole seconds per line. */
  under_s: number;
}

/** The note, for whoever countersigns. */
export const hasteWords = ({ secondsPerLine, under_s }: Haste): string =>
  `Gone through in ${secondsPerLine} s a line; the department notes under ${under_s} s.`;

/**
 * The haste of a check-off by its own start and finish. Off until the department sets a threshold: no source gives
 * one, and fair figures differ by sheet.
 *
 * Times written to the minute hide up to 59 seconds, and these are given to whoever went through: a sheet begun and
 * finished within one minute took that long at the most.
 *
 * Both times are civil. Where the clocks were set back between them an hour is hidden, so that a sheet begun before
 * and finished after it looks faster than it was; one that seems to end before it began is not judged.
 * @param started `YYYY-MM-DDTHH:MM`, better with its seconds, `YYYY-MM-DDTHH:MM:SS`
 * @param finished of the same form
 * @param lines that were gone through; whole
 * @param least_seconds per line, under which it is noted; null: nothing is
 * @returns the seconds per line, cut to a tenth; null where there is nothing to note
 * @throws RangeError where a time is no civil time
 */
export function suspicious(
  started: string,
  finished: string,
  lines: number,
  least_seconds: number | null = null,
): { secondsPerLine: number } | null {
  const [from, to] = [civilSeconds(started), civilSeconds(finished)];
  if (from === null) throw new RangeError(`Started at “${started}” is not a time.`);
  if (to === null) throw new RangeError(`Finished at “${finished}” is not a time.`);
  if (least_seconds === null || lines < 1 || to < from) return null;
  const isToTheSecond = started.length > TO_THE_MINUTE && finished.length > TO_THE_MINUTE;
  const took_s = to - from + (isToTheSecond ? 0 : 59);
  if (took_s >= least_seconds * lines) return null;
  // Cut, not rounded: 2.96 under a threshold of 3 is not shown as 3.
  return { secondsPerLine: Math.floor((took_s * 10) / lines) / 10 };
}
