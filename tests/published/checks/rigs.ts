/**
 * Rigs (NFPA 1911, now 1910): tires, brakes, weight, age, pump and aerial; and what stands beside them on a test day:
 * hard suction, nozzles, appliances (NFPA 1962) and wood ladders (WAC 296-305-06006).
 */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { type Department, departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const RIG_CHECKS: readonly Check[] = [
  { ids: /^app-tire-/, run: tireAge },
  { ids: /^app-tread-/, run: tread },
  { ids: /^app-airloss-/, run: airLoss },
  { ids: /^app-weight/, run: weight },
  { ids: /^app-age-/, run: serviceAge },
  { ids: /^pump-prime-/, run: priming },
  { ids: /^pump-tank-/, run: tankToPump },
  { ids: /^aerial-annual$/, run: v => nextAfter(v, 'apparatus.aerial-test', 'aerial test', AERIAL) },
  { ids: /^aerial-ndt$/, run: v => nextAfter(v, 'apparatus.aerial-ndt', 'aerial NDT', AERIAL) },
  { ids: /^aerial-trigger-/, run: aerialEvent },
  { ids: /^rig-C1$/, run: v => nextAfter(v, 'apparatus.pump-test', 'pump test', PUMPER) },
  { ids: /^rig-C1-repair$/, run: repairTest },
  { ids: /^rig-C28$/, run: v => nextAfter(v, 'apparatus.inspection', 'inspection', {}) },
  { ids: /^rig-C29-/, run: operationalCheck },
  { ids: /^hose-A27$/, run: v => nextAfter(v, 'hose.vacuum-test', 'vacuum test', { use: 'hard suction' }) },
  { ids: /^nozzle-A31$/, run: v => nextAfter(v, 'nozzle.inspection', 'inspection', { use: 'occupant' }) },
  { ids: /^nozzle-A32$/, run: v => nextAfter(v, 'nozzle.service-test', 'service test', { use: 'handline' }) },
  {
    ids: /^nozzle-A35$/,
    run: v => nextAfter(v, 'nozzle.line-flow-test', 'line flow test', { preconnect: true }),
  },
  { ids: /^appliance-A34$/, run: appliances },
  { ids: /^ladder-B4$/, run: woodLadder },
];

const PUMPER = { kind: 'engine', pump_gpm: 1500, tank_gal: 750 };
const AERIAL = { kind: 'ladder', aerial: 'platform' };
const LAST_KEYS = ['last', 'last_ndt'];

const familyIn = (requirement: string) => requirement.split('.')[0] ?? '';

/** One interval after the last time, and overdue the day after. */
async function nextAfter(v: Vector, requirement: string, activity: string, attributes: Values) {
  const on = z.string().parse(v.inputs[LAST_KEYS.find(k => k in v.inputs) ?? '']);
  const due = z.string().parse(v.expected);
  const department = await departmentWith();
  const rowAt = async (day: string) =>
    rowOf(await department.trial(familyIn(requirement), attributes, [{ activity, on }], day), requirement);
  expect((await rowAt(due))?.dueOn).toBe(due);
  const dayAfter = Temporal.PlainDate.from(due).add({ days: 1 }).toString();
  expect((await rowAt(dayAfter))?.state).toBe('overdue');
}

/** The department that has these requirements from memory confirmed by the edition in hand. */
function confirming(...ids: string[]) {
  return departmentWith({
    requirements: SHIPPED_REQUIREMENTS.filter(r => ids.includes(r.id)).map(r => ({
      ...r,
      confirmed: 'the edition in hand',
    })),
  });
}

let rigs = 0;

/** A rig of the department with these attributes, and what was done to it. @returns its id */
function rigOf(
  department: Department,
  attributes: Values,
  history: readonly { activity: string; on: string }[],
) {
  rigs += 1;
  const rig = department.act('rig.add', { name: `Published ${rigs}`, on: '2000-01-01' });
  if (Object.keys(attributes).length > 0) department.act('item.amend', { item: rig, attributes });
  for (const { activity, on } of history)
    department.act('record.add', { item: rig, activity, outcome: 'pass', on });
  return rig;
}

/** Which of these requirements show on a rig after one record with readings, in the department's eyes. */
async function shownAfter(
  department: Department,
  attributes: Values,
  activity: string,
  readings: Values,
  requirements: readonly string[],
) {
  const item = rigOf(department, attributes, []);
  department.act('record.add', { item, activity, outcome: 'pass', on: '2025-11-20', readings });
  const { due } = await department.page(item, '2025-11-25');
  return requirements.filter(id => due.some(r => r.requirement === id));
}

async function tireAge(v: Vector) {
  const { manufactured } = inputsOf(v, { manufactured: z.string() });
  const due = z.string().parse(v.expected);
  const department = await departmentWith();
  const trial = await department.trial(
    'apparatus',
    { steerTiresMade: manufactured, otherTiresMade: manufactured },
    [],
    due,
  );
  for (const id of ['apparatus.steer-tire-age', 'apparatus.other-tire-age'])
    expect(rowOf(trial, id)?.dueOn).toBe(due);
}

async function tread(v: Vector) {
  const { axle, tread_32nds } = inputsOf(v, { axle: z.enum(['steer', 'other']), tread_32nds: z.number() });
  const mayRoll = z.boolean().parse(v.expected);
  const shown = await shownAfter(
    await departmentWith(),
    {},
    'inspection',
    { [`${axle}Tread_32nds`]: String(tread_32nds) },
    ['apparatus.steer-tread', 'apparatus.other-tread'],
  );
  expect(shown).toEqual(mayRoll ? [] : [`apparatus.${axle}-tread`]);
}

async function airLoss(v: Vector) {
  const { loss_psi_per_min } = inputsOf(v, { loss_psi_per_min: z.number() });
  const shown = await shownAfter(
    await departmentWith(),
    {},
    'brake inspection',
    { airLoss_psi_per_min: String(loss_psi_per_min) },
    ['apparatus.air-loss'],
  );
  expect(shown.length === 0).toBe(v.expected);
}

async function weight(v: Vector) {
  const i = inputsOf(v, {
    front_lb: z.number(),
    rear_lb: z.number(),
    gawr_front_lb: z.number(),
    gawr_rear_lb: z.number(),
    gvwr_lb: z.number(),
  });
  const expected = z
    .object({ front_ok: z.boolean(), rear_ok: z.boolean(), gvw_ok: z.boolean(), total_lb: z.number() })
    .parse(v.expected);
  const ids = ['apparatus.weight-front', 'apparatus.weight-rear', 'apparatus.weight-total'];
  const shown = await shownAfter(
    await confirming(...ids),
    { gawrFront_lb: i.gawr_front_lb, gawrRear_lb: i.gawr_rear_lb, gvwr_lb: i.gvwr_lb },
    'weighing',
    { frontAxle_lb: i.front_lb, rearAxle_lb: i.rear_lb, total_lb: expected.total_lb },
    ids,
  );
  expect(ids.map(id => !shown.includes(id))).toEqual([expected.front_ok, expected.rear_ok, expected.gvw_ok]);
}

/** A model year is taken from its 1 January, and the rig is looked at on the last day of the year asked about. */
async function serviceAge(v: Vector) {
  const { model_year, year_now } = inputsOf(v, { model_year: z.number(), year_now: z.number() });
  const department = await departmentWith();
  const trial = await department.trial('apparatus', { made: `${model_year}-01-01` }, [], `${year_now}-12-31`);
  const state = (id: string) => rowOf(trial, id)?.state;
  const band =
    state('apparatus.retirement-age') === 'life ended'
      ? 'retire_recommended'
      : state('apparatus.service-age') === 'overdue'
        ? 'reserve_or_evaluate'
        : 'first_line';
  expect(band).toBe(v.expected);
}

async function priming(v: Vector) {
  const { rated_gpm, prime_s } = inputsOf(v, { rated_gpm: z.number(), prime_s: z.number() });
  const shown = await shownAfter(
    await departmentWith(),
    { kind: 'engine', pump_gpm: rated_gpm },
    'pump test',
    { prime_s },
    ['apparatus.priming-30', 'apparatus.priming-45'],
  );
  expect(shown.length === 0).toBe(v.expected);
}

async function tankToPump(v: Vector) {
  const { tank_gal, measured_gpm } = inputsOf(v, { tank_gal: z.number(), measured_gpm: z.number() });
  const { required, pass } = z.object({ required: z.number(), pass: z.boolean() }).parse(v.expected);
  const ids = ['apparatus.tank-to-pump-small', 'apparatus.tank-to-pump-large'];
  const shown = async (tankToPump_gpm: number) =>
    shownAfter(
      await confirming(...ids),
      { kind: 'engine', pump_gpm: 1250, tank_gal },
      'tank-to-pump flow test',
      { tankToPump_gpm },
      ids,
    );
  expect((await shown(measured_gpm)).length === 0).toBe(pass);
  expect([(await shown(required)).length, (await shown(required - 1)).length]).toEqual([0, 1]);
}

/** What the department does after each event: by the calendar, by a happening, or by a repair. */
const EVENTS: Readonly<Record<string, { trigger?: string; repair?: string }>> = {
  major_repair: { repair: 'aerial major repair' },
  unusual_stress: { trigger: 'aerial unusual stress' },
  suspected_overuse: { trigger: 'aerial suspected overuse' },
  // The accident owes the examination at once; its repair owes both before the rig returns.
  structural_accident: { trigger: 'aerial structural accident', repair: 'aerial structural repair' },
};

async function aerialEvent(v: Vector) {
  const { event } = inputsOf(v, { event: z.string() });
  const expected = z.object({ annual_type_test: z.boolean(), ndt: z.boolean() }).parse(v.expected);
  const department = await departmentWith();
  const isYear = event === 'annual_due';
  const isFive = event === 'five_year_due';
  const item = rigOf(department, AERIAL, [
    { activity: 'aerial test', on: isYear ? '2024-06-01' : '2025-06-01' },
    { activity: 'aerial NDT', on: isFive ? '2020-06-01' : '2025-06-01' },
  ]);
  const { trigger, repair } = EVENTS[event] ?? {};
  if (trigger) department.act('item.oweRetest', { item, trigger, on: '2025-06-10' });
  if (repair) department.act('item.repaired', { item, kind: repair, on: '2025-06-11' });
  const { due } = await department.page(item, '2025-06-20');
  const calledFor = (id: string) =>
    ['retest owed', 'overdue'].includes(due.find(r => r.requirement === id)?.state ?? '');
  expect([calledFor('apparatus.aerial-test'), calledFor('apparatus.aerial-ndt')]).toEqual([
    expected.annual_type_test,
    expected.ndt,
  ]);
}

async function repairTest(v: Vector) {
  const { last, repaired, retested } = inputsOf(v, {
    last: z.string(),
    repaired: z.string(),
    retested: z.string(),
  });
  const department = await departmentWith();
  const item = rigOf(department, PUMPER, [{ activity: 'pump test', on: last }]);
  const row = async () =>
    (await department.page(item, retested)).due.find(r => r.requirement === 'apparatus.pump-test');
  department.act('item.repaired', { item, kind: 'pump or pump drive', on: repaired });
  expect((await row())?.state).toBe('retest owed');
  department.act('record.add', { item, activity: 'pump test', outcome: 'pass', on: retested });
  expect((await row())?.dueOn).toBe(v.expected);
}

async function operationalCheck(v: Vector) {
  const { staffed } = inputsOf(v, { staffed: z.boolean() });
  const requirement = staffed ? 'apparatus.daily-check' : 'apparatus.weekly-check';
  await nextAfter(v, requirement, 'operational check', { staffed });
}

async function appliances(v: Vector) {
  const { kinds } = inputsOf(v, { kinds: z.array(z.string()) });
  for (const kind of kinds) await nextAfter(v, 'appliance.service-test', 'service test', { kind });
  await nextAfter(v, 'appliance.relief-valve-test', 'relief valve test', { kind: 'intake valve' });
}

async function woodLadder(v: Vector) {
  const { happening } = inputsOf(v, { happening: z.string() });
  const department = await departmentWith();
  const item = department.receive('ladder', { type: 'single', material: 'wood' }, [
    { activity: 'service test', on: '2025-06-02' },
  ]);
  department.act('item.oweRetest', { item, trigger: happening, on: '2025-06-10' });
  expect((await department.page(item, '2025-06-12')).owed.map(o => o.activity)).toEqual([v.expected]);
}
