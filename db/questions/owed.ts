/** What was and is owed of the schedules of check-offs, and what became of each time it fell due. */
import { addDays, type Day, dayText } from '../../domain/calendar/day.ts';
import { occurrences, type Schedule } from '../../domain/checkoffs/schedule.ts';
import { type Done, settle } from '../../domain/checkoffs/settle.ts';
import type { OwedLine } from '../api-checks.ts';
import { factsOf } from '../caches/facts.ts';
import { missedOf, schedulesOf } from '../caches/schedules.ts';
import { all } from '../store/statements.ts';
import type { Holder } from './carry-known.ts';
import type { Asking } from './types.ts';

/** So many days back are told of; what was missed before is in the sheets. */
const BACK_days = 30;

/** Every time a check-off of this unit or rig fell due of late, or does today, in the order of their days. */
export function owedOf(asking: Asking, holder: Holder): OwedLine[] {
  const facts = factsOf(asking.db, holder.key).filter(f => f.kind === 'schedule' || f.kind === 'missed');
  const schedules = schedulesOf(facts);
  if (schedules.length === 0) return [];
  const done = doneOf(asking, holder.of);
  const missed = missedOf(facts);
  const now = civilNow(asking);
  return schedules
    .flatMap(schedule =>
      settle(occurrences(schedule, addDays(asking.today, -BACK_days), asking.today), done, missed, now).map(
        (o): OwedLine => told(holder, schedule, o),
      ),
    )
    .sort((a, b) => (a.dueAt < b.dueAt ? -1 : a.dueAt > b.dueAt ? 1 : 0));
}

function told(holder: Holder, schedule: Schedule, o: ReturnType<typeof settle>[number]): OwedLine {
  return {
    of: holder.of,
    name: holder.name,
    schedule: schedule.schedule,
    title: schedule.title,
    by: schedule.by,
    places: schedule.places === null ? null : [...schedule.places],
    scope: schedule.scope,
    on: dayText(o.on),
    shift: o.shift,
    dueAt: o.dueAt,
    state: o.state,
    checkoff: o.checkoff,
    reason: o.reason,
  };
}

function doneOf(asking: Asking, holder: string): Done[] {
  return all<{ checkoff: string; schedule: string; on: Day; shift: number; finishedAt: string }>(
    asking.db,
    `SELECT t.id AS checkoff, c.schedule, c.occurs_on AS "on", c.shift, c.finished_at AS finishedAt
     FROM checkoffs c JOIN things t ON t.key = c.key
     WHERE c.holder = ? AND c.schedule IS NOT NULL AND c.occurs_on IS NOT NULL AND c.finished_at IS NOT NULL`,
    holder,
  );
}

/** The department's clock, on the day that is taken for today. */
export function civilNow(asking: Asking): string {
  const [zone] = all<{ zone: string }>(asking.db, 'SELECT zone FROM departments');
  const clock = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone?.zone ?? 'UTC',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(new Date(asking.now()));
  return `${dayText(asking.today)}T${clock}`;
}
