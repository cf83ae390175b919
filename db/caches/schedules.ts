/** Schedules of check-offs, and reasons for those that were missed, from the facts of whoever they belong to. */
import { addDays } from '../../domain/calendar/day.ts';
import { firstDay, lastDay, type When } from '../../domain/calendar/when.ts';
import type { Schedule } from '../../domain/checkoffs/schedule.ts';
import type { Missed } from '../../domain/checkoffs/settle.ts';
import { asTold, type PlainFact } from './facts.ts';

/**
 * The schedules in their versions, each with the days in which it held: what was owed before a change stays owed as it
 * was then.
 */
export function schedulesOf(facts: readonly PlainFact[]): Schedule[] {
  const versions: Schedule[] = [];
  for (const { values, effective } of asTold(facts.filter(f => f.kind === 'schedule'))) {
    const said = values as unknown as Omit<Schedule, 'from' | 'until'> & { until: When | null };
    const from = firstDay(effective);
    const before = versions.filter(v => v.schedule === said.schedule);
    for (const v of before) if (v.until === null || v.until >= from) v.until = addDays(from, -1);
    versions.push({ ...said, from, until: said.until === null ? null : lastDay(said.until) });
  }
  return versions.filter(v => v.until === null || v.until >= v.from);
}

export function missedOf(facts: readonly PlainFact[]): Missed[] {
  return asTold(facts.filter(f => f.kind === 'missed')).map(({ values }) => {
    const said = values.for as { on: When; shift: number };
    return {
      schedule: String(values.schedule),
      on: lastDay(said.on),
      shift: said.shift,
      reason: String(values.reason),
    };
  });
}
