/** When a cylinder is due, when its life ends, and which of the two comes first: 49 CFR 180.205(c). */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';
import {
  constructionOf,
  cylinderEvery,
  endOf,
  lifeState,
  REQUALIFICATION,
  requalified,
  requalifyBy,
} from './bottle.ts';

export const DUE_DATE_CHECKS: readonly Check[] = [
  { ids: /^DUE-0(01|11|12|13)$/, run: dueMonth },
  { ids: /^DUE-002$/, run: firstDayOverdue },
  { ids: /^DUE-0(09|10)$/, run: newMarkCounts },
  { ids: /^DUE-014$/, run: firstCountsFromManufacture },
  { ids: /^DUE-015$/, run: lifeEndMonth },
  { ids: /^DUE-01[67]$/, run: lifeEndDay },
  { ids: /^DUE-019$/, run: earliestClock },
  { ids: /^DUE-02[01]$/, run: usefulTests },
  { ids: /^DUE-022$/, run: monthsBought },
];

async function dueMonth(v: Vector) {
  const { last, years } = inputsOf(v, { last: z.string(), years: z.number() });
  const { due_month, last_on_time_day } = z
    .object({ due_month: z.string(), last_on_time_day: z.string() })
    .parse(v.expected);
  const attributes = cylinderEvery(years);
  expect(await requalifyBy(attributes, last)).toBe(last_on_time_day);
  expect(last_on_time_day.slice(0, 7)).toBe(due_month);
  // Done on any day through the end of that month it is on time, and the next one counts from there.
  const department = await departmentWith();
  const onTime = await department.trial('cylinder', attributes, requalified(last), last_on_time_day);
  expect(rowOf(onTime, REQUALIFICATION)?.state).toBe('due soon');
}

async function firstDayOverdue(v: Vector) {
  const { last, years } = inputsOf(v, { last: z.string(), years: z.number() });
  const overdue = z.string().parse(v.expected);
  const dayBefore = Temporal.PlainDate.from(overdue).subtract({ days: 1 }).toString();
  const department = await departmentWith();
  const state = async (on: string) =>
    rowOf(await department.trial('cylinder', cylinderEvery(years), requalified(last), on), REQUALIFICATION)
      ?.state;
  expect([await state(dayBefore), await state(overdue)]).toEqual(['due soon', 'overdue']);
}

async function newMarkCounts(v: Vector) {
  const { previous_due, tested, years } = inputsOf(v, {
    previous_due: z.string(),
    tested: z.string(),
    years: z.number(),
  });
  const department = await departmentWith();
  const earlier = Temporal.PlainYearMonth.from(previous_due).subtract({ years }).toString();
  const attributes = cylinderEvery(years);
  const due = async (history: { activity: string; on: string }[]) =>
    rowOf(await department.trial('cylinder', attributes, history, '2025-01-01'), REQUALIFICATION)?.dueOn;
  expect(await due(requalified(earlier))).toBe(endOf(previous_due));
  expect(await due([...requalified(earlier), ...requalified(tested)])).toBe(
    endOf(z.string().parse(v.expected)),
  );
}

async function firstCountsFromManufacture(v: Vector) {
  const { manufacture_test, in_service, years } = inputsOf(v, {
    manufacture_test: z.string(),
    in_service: z.string(),
    years: z.number(),
  });
  const attributes = { ...cylinderEvery(years), made: manufacture_test, inService: in_service };
  expect(await requalifyBy(attributes, null)).toBe(endOf(z.string().parse(v.expected)));
}

const LIFE = { manufactured: z.string(), life_years: z.literal(15) };

async function lifeEndMonth(v: Vector) {
  const { manufactured } = inputsOf(v, LIFE);
  const { lifeEndsOn } = await lifeState({ construction: 'carbon', made: manufactured }, '2024-01-01');
  expect(lifeEndsOn?.slice(0, 7)).toBe(v.expected);
}

/** The last day it may be filled, by the department's choice; the day after, its life has ended. */
async function lifeEndDay(v: Vector) {
  const { manufactured, policy } = inputsOf(v, {
    ...LIFE,
    policy: z.enum(['end_of_month', 'start_of_month']),
  });
  const lastDay = z.string().parse(v.expected);
  const choice = policy === 'end_of_month' ? 'month end' : 'month start';
  const department = await departmentWith({ policies: { 'life ends': choice } });
  const item = department.receive(
    'cylinder',
    { construction: 'carbon', made: manufactured },
    requalified('2024-11'),
  );
  const dayAfter = Temporal.PlainDate.from(lastDay).add({ days: 1 }).toString();
  const fill = async (on: string) => (await department.page(item, on)).cylinder?.fill.law.allowed;
  expect([await fill(lastDay), await fill(dayAfter)]).toEqual([true, false]);
  expect((await department.page(item, lastDay)).lifeEndsOn).toBe(lastDay);
}

async function earliestClock(v: Vector) {
  const { manufactured, last } = inputsOf(v, { ...LIFE, last: z.string(), years: z.literal(5) });
  const { effective, reasons } = z
    .object({ effective: z.string(), reasons: z.array(z.string()) })
    .parse(v.expected);
  const department = await departmentWith();
  const attributes = { construction: 'carbon', made: manufactured };
  const page = await department.page(
    department.receive('cylinder', attributes, requalified(last)),
    '2026-01-01',
  );
  expect(page.next).toEqual({ dueOn: endOf(effective), titles: reasons });
}

/** Requalify on the last day on time, again and again, and count those that fall before the life is over. */
async function usefulTests(v: Vector) {
  const { manufactured } = inputsOf(v, { kind: z.string(), manufactured: z.string() });
  const department = await departmentWith();
  const history: { activity: string; on: string }[] = [];
  for (;;) {
    const attributes = { construction: constructionOf(v), made: manufactured };
    const trial = await department.trial('cylinder', attributes, history, '2020-01-01');
    const due = z.string().parse(rowOf(trial, REQUALIFICATION)?.dueOn);
    if (due >= z.string().parse(trial.lifeEndsOn)) break;
    history.push({ activity: 'requalification', on: due });
  }
  expect(history.length).toBe(v.expected);
}

async function monthsBought(v: Vector) {
  const { manufactured, tested } = inputsOf(v, { ...LIFE, tested: z.string(), years: z.literal(5) });
  const { usable_months_after_test } = z.object({ usable_months_after_test: z.number() }).parse(v.expected);
  const department = await departmentWith();
  const attributes = { construction: 'carbon', made: manufactured };
  const trial = await department.trial('cylinder', attributes, requalified(tested), '2025-03-01');
  const lifeEnds = Temporal.PlainYearMonth.from(z.string().parse(trial.lifeEndsOn).slice(0, 7));
  const usable = Temporal.PlainYearMonth.from(tested).until(lifeEnds, { largestUnit: 'months' }).months;
  expect(usable).toBe(usable_months_after_test);
  const due = z.string().parse(rowOf(trial, REQUALIFICATION)?.dueOn);
  expect(due > z.string().parse(trial.lifeEndsOn)).toBe(true);
}
