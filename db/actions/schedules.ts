/** When a unit's rig is gone through, and why it was not where it was not: missed ones are facts, not gaps. */
import { z } from 'zod';
import { lastDay } from '../../domain/calendar/when.ts';
import { occurrences, type Schedule, scheduleFault } from '../../domain/checkoffs/schedule.ts';
import { mustCarry } from './carry.ts';
import { id, longWords, notFuture, when, words } from './fields.ts';
import { action, refuse } from './types.ts';

const weekday = z.number().int().min(0).max(6);
const rhythm = z.union([
  z.strictObject({ kind: z.literal('daily') }),
  z.strictObject({ kind: z.literal('each shift'), hours: z.number().int(), from: words }),
  z.strictObject({ kind: z.literal('weekly'), weekday }),
  z.strictObject({ kind: z.literal('monthly'), day: z.number().int() }),
  z.strictObject({
    kind: z.literal('monthly'),
    weekday,
    nth: z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal('last')]),
  }),
]);

export const checkoffSchedule = action({
  name: 'checkoff.schedule',
  v: 1,
  title: 'Say when a unit’s rig is gone through: each shift, daily, weekly, monthly; change or end that',
  schema: z.strictObject({
    of: id,
    /** The schedule that is changed or ended; left out, it is a new one. */
    schedule: id.optional(),
    title: words,
    every: rhythm,
    places: z.array(words).min(1).nullable().default(null),
    scope: z.enum(['whole', 'operated only']).default('whole'),
    by: words.nullable().default(null),
    dueBy: words,
    graceHours: z.number().min(0).max(720).default(0),
    /** The last day on which it still falls. */
    until: when.nullable().default(null),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['of'],
  check(look, body) {
    const until = body.until === null ? null : lastDay(body.until);
    const fault = scheduleFault({
      ...body,
      schedule: '',
      from: lastDay(body.on),
      until,
    } as Schedule);
    return [
      ...mustCarry(look, body.of),
      ...(body.schedule === undefined || look.schedules(body.of).some(s => s.schedule === body.schedule)
        ? []
        : [
            refuse(
              'not found',
              `No schedule has the id ${body.schedule}.`,
              'Look at the list again.',
              'schedule',
            ),
          ]),
      ...(fault === null ? [] : [refuse('schedule', fault, 'Mend it, and try again.', 'every')]),
    ];
  },
  apply: (entry, { of, on, ...body }) => ({
    facts: [
      {
        thing: of,
        kind: 'schedule',
        effective: on,
        values: { ...body, schedule: body.schedule ?? entry.id },
      },
    ],
  }),
  example: {
    of: '&0',
    title: 'Weekly inventory',
    every: { kind: 'weekly', weekday: 6 },
    dueBy: '12:00',
    on: '2026-01-01',
  },
});

export const checkoffMissed = action({
  name: 'checkoff.missed',
  v: 1,
  title: 'Say why a check-off was late or missed',
  schema: z.strictObject({
    of: id,
    schedule: id,
    for: z.strictObject({ on: when, shift: z.number().int().min(0).max(23).default(0) }),
    reason: longWords,
    on: when,
  }),
  entitlement: 'record',
  refs: ['of'],
  check(look, body) {
    const schedule = look.schedules(body.of).find(s => s.schedule === body.schedule);
    const day = lastDay(body.for.on);
    const fell =
      schedule !== undefined &&
      occurrences(schedule, day, day).some(o => o.on === day && o.shift === body.for.shift);
    return [
      ...mustCarry(look, body.of),
      ...notFuture(look, body.on),
      ...notFuture(look, body.for.on, 'for', 'The day it was due,'),
      ...(fell
        ? []
        : [refuse('not due', 'Nothing fell due then.', 'Choose one from the list of what was due.', 'for')]),
    ];
  },
  apply: (_entry, { of, on, ...body }) => ({
    facts: [{ thing: of, kind: 'missed', effective: on, values: body }],
  }),
  example: {
    of: '&0',
    schedule: '&3',
    for: { on: '2026-11-21', shift: 0 },
    reason: 'At a working fire all day',
  },
});
