/** Schedules as the tests write them. */
import type { Occurrence, Rhythm, Schedule } from '../../../domain/checkoffs/schedule.ts';
import { day } from '../notation.ts';

/** A schedule of the whole rig, due by 08:00, in force from 1 January 2026. */
export function schedule(every: Rhythm, rest: Partial<Schedule> = {}): Schedule {
  return {
    schedule: 'a-1',
    title: 'Rig check',
    every,
    places: null,
    scope: 'whole',
    by: 'Driver',
    dueBy: '08:00',
    graceHours: 0,
    from: day('2026-01-01'),
    until: null,
    ...rest,
  };
}

/** When each falls due: `2026-03-08T08:00`. */
export function dueAt(occurrences: readonly Occurrence[]): string[] {
  return occurrences.map(o => o.dueAt);
}
