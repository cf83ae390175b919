/** What has become of the check-offs that fell due: done, done late, owed, late or missed. */
import type { Day } from '../calendar/day.ts';
import { civilSeconds } from './civil.ts';
import type { Occurrence } from './schedule.ts';

/** Which time of which schedule is meant. */
interface Named {
  schedule: string;
  on: Day;
  shift: number;
}

/** A finished check-off and the one occurrence it is for. */
export interface Done extends Named {
  /** Its name in the ledger. */
  checkoff: string;
  /** `YYYY-MM-DDTHH:MM`, civil. */
  finishedAt: string;
}

/** Why one was not done in time, as the officer wrote it. */
export interface Missed extends Named {
  reason: string;
}

/**
 * - `done`, `done late`: finished by the end of its grace, or after it
 * - `owed`: not done, and not yet late
 * - `late`: past its grace, and still to be done
 * - `missed`: the next one has fallen due; there is nothing to make up any more
 */
export type CheckoffState = 'done' | 'done late' | 'owed' | 'late' | 'missed';

export interface Settled extends Occurrence {
  state: CheckoffState;
  /** The check-off that settled it, and when that was finished; null while none has. */
  checkoff: string | null;
  finishedAt: string | null;
  /** Why it was late or missed; null where nobody said, and where it was not. */
  reason: string | null;
}

/**
 * What each occurrence has come to by a time.
 *
 * A check-off settles the occurrence it names and no other, however late it is. Where several name the same one, the
 * one finished first settles it. Where one is given under two names, the first given counts. What was finished after
 * `now` has not been done yet. Of several reasons the last given counts.
 * @param now `YYYY-MM-DDTHH:MM`, civil
 * @returns one for each occurrence, in their order
 * @throws RangeError where `now` is no civil time
 */
export function settle(
  occurrences: readonly Occurrence[],
  done: readonly Done[],
  reasons: readonly Missed[],
  now: string,
): Settled[] {
  if (civilSeconds(now) === null)
    throw new RangeError(`“${now}” is not a time: write it as 2026-03-08T07:30.`);
  const minute = now.slice(0, 16);
  const by = settlers(done.filter(d => d.finishedAt.slice(0, 16) <= minute));
  const said = new Map(reasons.map(r => [nameOf(r), r.reason]));
  return occurrences.map(occurrence => {
    const settler = by.get(nameOf(occurrence)) ?? null;
    const state = stateOf(occurrence, settler, minute);
    return {
      ...occurrence,
      state,
      checkoff: settler?.checkoff ?? null,
      finishedAt: settler?.finishedAt ?? null,
      reason: state === 'done' || state === 'owed' ? null : (said.get(nameOf(occurrence)) ?? null),
    };
  });
}

function stateOf({ graceUntil, nextDueAt }: Occurrence, settler: Done | null, now: string): CheckoffState {
  // The minute of the grace's end is on time to its last second.
  if (settler !== null) return settler.finishedAt.slice(0, 16) <= graceUntil ? 'done' : 'done late';
  if (now >= nextDueAt) return 'missed';
  return now <= graceUntil ? 'owed' : 'late';
}

/** The check-off that settles each named occurrence. */
function settlers(done: readonly Done[]): Map<string, Done> {
  const by = new Map<string, Done>();
  const used = new Map<string, string>();
  for (const one of done) {
    const name = nameOf(one);
    const spentOn = used.get(one.checkoff);
    if (spentOn !== undefined && spentOn !== name) continue;
    used.set(one.checkoff, name);
    const other = by.get(name);
    if (other === undefined || one.finishedAt < other.finishedAt) by.set(name, one);
  }
  return by;
}

function nameOf({ schedule, on, shift }: Named): string {
  return `${on} ${shift} ${schedule}`;
}
