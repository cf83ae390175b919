/** Fire hose (NFPA 1962) and ground ladders (NFPA 1932): when they are due, and what owes a test whatever the date. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const HOSE_AND_LADDER_CHECKS: readonly Check[] = [
  { ids: /^hose-1987-/, run: madeBeforeJuly1987 },
  { ids: /^hose-first-test-/, run: hoseFirstTest },
  { ids: /^hose-annual-/, run: v => nextAfter(v, 'last_test', 'hose', 'service test') },
  { ids: /^hose-occupant-/, run: occupantUse },
  { ids: /^hose-A[34]$/, run: hoseTriggers },
  { ids: /^law-annual$/, run: annualInspection },
  { ids: /^ladder-monthly-/, run: v => nextAfter(v, 'last_visual', 'ladder', 'inspection') },
  { ids: /^ladder-annual$/, run: v => nextAfter(v, 'last_service_test', 'ladder', 'service test') },
  { ids: /^ladder-trigger-/, run: ladderTrigger },
  { ids: /^ladder-B2-first$/, run: ladderFirstTest },
  { ids: /^ladder-B2-(halyard|repair)$/, run: ladderRepair },
  { ids: /^ladder-(heat-exp|B20-expired)/, run: heatLabel },
];

async function trialRow(
  family: string,
  requirement: string,
  attributes: Values,
  history: { activity: string; on: string }[],
  on: string,
) {
  const department = await departmentWith();
  return rowOf(await department.trial(family, attributes, history, on), `${family}.${requirement}`);
}

/** One interval after the last time, and overdue the day after. */
async function nextAfter(v: Vector, key: string, family: string, activity: string) {
  const on = z.string().parse(v.inputs[key]);
  const requirement = activity.replace(' ', '-');
  const due = z.string().parse(v.expected);
  const row = await trialRow(family, requirement, {}, [{ activity, on }], due);
  expect([row?.dueOn, row?.state]).toEqual([due, 'due soon']);
  const dayAfter = Temporal.PlainDate.from(due).add({ days: 1 }).toString();
  expect((await trialRow(family, requirement, {}, [{ activity, on }], dayAfter))?.state).toBe('overdue');
}

/**
 * Shown on building hose, whose service test comes only every three years. Where a service test is due no later it
 * includes the inspection and is listed in its stead.
 */
async function annualInspection(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  const due = z.string().parse(v.expected);
  const tested = { activity: 'service test', on: '2025-01-10' };
  const inspected = { activity: 'inspection', on: last };
  const occupant = { use: 'occupant', made: '2020-01-10' };
  const row = await trialRow('hose', 'inspection', occupant, [tested, inspected], due);
  expect([row?.dueOn, row?.state]).toEqual([due, 'due soon']);
  const attack = { use: 'attack', made: '2020-01-10' };
  expect(await trialRow('hose', 'inspection', attack, [tested, inspected], due)).toBeUndefined();
  expect((await trialRow('hose', 'service-test', attack, [tested, inspected], due))?.dueOn).toBe(
    '2026-01-10',
  );
}

async function madeBeforeJuly1987(v: Vector) {
  const { manufactured } = inputsOf(v, { manufactured: z.string() });
  const mayStay = z.boolean().parse(v.expected);
  // No test restores it: it passed one last month.
  const history = [{ activity: 'service test', on: '2025-10-25' }];
  const row = await trialRow(
    'hose',
    'end-of-life',
    { use: 'attack', made: manufactured },
    history,
    '2025-11-25',
  );
  expect(row?.state).toBe(mayStay ? undefined : 'life ended');
}

async function hoseFirstTest(v: Vector) {
  const { manufactured, placed_in_service } = inputsOf(v, {
    manufactured: z.string(),
    placed_in_service: z.string(),
  });
  const due = z.string().parse(v.expected);
  const attributes = { use: 'supply', made: manufactured, inService: placed_in_service };
  const row = await trialRow('hose', 'service-test', attributes, [], due);
  expect([row?.dueOn, row?.state]).toEqual([due, 'due soon']);
  const dayAfter = Temporal.PlainDate.from(due).add({ days: 1 }).toString();
  expect((await trialRow('hose', 'service-test', attributes, [], dayAfter))?.state).toBe('never done');
}

/** The sources differ on where the first five years start; the book takes the earlier, manufacture. */
async function occupantUse(v: Vector) {
  const { start_date, last_test } = inputsOf(v, { start_date: z.string(), last_test: z.string().nullable() });
  const attributes = { use: 'occupant', made: start_date };
  const history = last_test === null ? [] : [{ activity: 'service test', on: last_test }];
  const row = await trialRow('hose', 'occupant-service-test', attributes, history, '2025-01-01');
  expect(row?.dueOn).toBe(v.expected);
  expect(await trialRow('hose', 'service-test', attributes, history, '2025-01-01')).toBeUndefined();
}

type Department = Awaited<ReturnType<typeof departmentWith>>;

/** What a thing in good standing owes after a deed, until a pass settles it. */
async function owedAfter(family: string, deed: (item: string, department: Department) => void) {
  const department = await departmentWith();
  const item = department.receive(family, {}, [
    { activity: 'service test', on: '2025-06-02' },
    { activity: 'inspection', on: '2025-06-02' },
  ]);
  const on = '2025-06-12';
  expect((await department.page(item, on)).owed).toEqual([]);
  deed(item, department);
  const { owed, due, condition } = await department.page(item, on);
  const activities = owed.map(o => o.activity);
  if (activities.includes('service test')) {
    expect(condition).toBe('retest owed');
    expect(due.find(r => r.requirement === `${family}.service-test`)?.state).toBe('retest owed');
    expect(department.refusal('item.return', { item })).toBe('retest owed');
    department.act('record.add', { item, activity: 'service test', outcome: 'pass', on });
    const settled = await department.page(item, on);
    expect([settled.owed, settled.condition]).toEqual([[], 'serviceable']);
  }
  return activities;
}

async function hoseTriggers(v: Vector) {
  const { repairs, happenings } = inputsOf(v, {
    repairs: z.array(z.string()),
    happenings: z.array(z.string()),
  });
  expect(repairs.length + happenings.length).toBeGreaterThan(0);
  const on = '2025-06-10';
  for (const kind of repairs)
    expect(await owedAfter('hose', (item, d) => d.act('item.repaired', { item, kind, on }))).toEqual([
      v.expected,
    ]);
  for (const trigger of happenings)
    expect(await owedAfter('hose', (item, d) => d.act('item.oweRetest', { item, trigger, on }))).toEqual([
      v.expected,
    ]);
}

async function ladderTrigger(v: Vector) {
  const { event } = inputsOf(v, { event: z.string() });
  const trigger = event.replaceAll('_', ' ');
  const owed = await owedAfter('ladder', (item, d) =>
    d.act('item.oweRetest', { item, trigger, on: '2025-06-10' }),
  );
  expect(owed.includes('service test')).toBe(v.expected);
}

async function ladderRepair(v: Vector) {
  const { repair } = inputsOf(v, { repair: z.string() });
  const owed = await owedAfter('ladder', (item, d) =>
    d.act('item.repaired', { item, kind: repair, on: '2025-06-10' }),
  );
  expect(owed.includes('service test')).toBe(v.expected);
}

async function ladderFirstTest(v: Vector) {
  const { placed_in_service } = inputsOf(v, { placed_in_service: z.string() });
  const attributes = { inService: placed_in_service };
  expect((await trialRow('ladder', 'service-test', attributes, [], '2026-01-01'))?.dueOn).toBe(v.expected);
}

async function heatLabel(v: Vector) {
  const { label_expiry, on } = inputsOf(v, { label_expiry: z.string(), on: z.string() });
  const valid = z.boolean().parse(v.expected);
  const state = async (day: string) =>
    (await trialRow('ladder', 'heat-label', { heatLabelExpires: label_expiry }, [], day))?.state;
  expect((await state(on)) !== 'overdue').toBe(valid);
  // Good through the printed day itself.
  expect(await state(label_expiry)).toBe('due soon');
}
