/** Rope, turnout gear, lifting bags, gas meters, batteries and fall protection: when each is due and when it ends. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const GEAR_CHECKS: readonly Check[] = [
  { ids: /^gear-turnout-\d/, run: turnoutRetirement },
  { ids: /^gear-turnout-adv$/, run: v => nextAfter(v, 'turnout.advanced-inspection', 'advanced inspection') },
  { ids: /^gear-E9$/, run: v => nextAfter(v, 'turnout.advanced-cleaning', 'advanced cleaning') },
  { ids: /^gear-E7$/, run: v => owedAfter(v, 'turnout', 'used', {}) },
  { ids: /^gear-E8-reserve$/, run: reserveGear },
  { ids: /^gear-liner-first$/, run: firstLinerInspection },
  { ids: /^gear-E12$/, run: shellLife },
  { ids: /^gear-rope-10$/, run: v => lifeFrom(v, 'rope.end-of-life', { kind: 'life safety' }) },
  { ids: /^gear-E5$/, run: v => lifeFrom(v, 'harness.end-of-life', {}) },
  { ids: /^gear-rope-weekly$/, run: ropeByUse },
  { ids: /^gear-escape-rope$/, run: escapeRope },
  { ids: /^gear-liftbag$/, run: liftingBag },
  { ids: /^gear-gas-/, run: gasMeterToday },
  { ids: /^gear-E6$/, run: v => owedAfter(v, 'fall-protection', 'shift of use', {}) },
  { ids: /^gear-E18$/, run: batteryCapacity },
  { ids: /^law-scope-/, run: brigadeRuleApplies },
];

/** The book as adopted, with what is from memory alone confirmed from the edition in hand. */
function department() {
  const confirmed = SHIPPED_REQUIREMENTS.filter(
    r => CONFIRMED.includes(r.id) && r.sources.every(s => s.confidence === 'memory'),
  ).map(r => ({ ...r, confirmed: 'the edition in hand' }));
  expect(confirmed.map(r => r.id)).toHaveLength(CONFIRMED.length);
  return departmentWith({ requirements: confirmed });
}
const CONFIRMED: readonly string[] = [
  'turnout.liner-inspection',
  'turnout.shell-end-of-life',
  'harness.end-of-life',
];

async function trialRow(
  requirement: string,
  attributes: Values,
  history: { activity: string; on: string }[],
  on: string,
) {
  const [family = ''] = requirement.split('.');
  return rowOf(await (await department()).trial(family, attributes, history, on), requirement);
}

const dayAfter = (on: string) => Temporal.PlainDate.from(on).add({ days: 1 }).toString();

/** On time through the due day, and overdue the day after. */
async function nextAfter(v: Vector, requirement: string, activity: string) {
  const { last } = inputsOf(v, { last: z.string() });
  const due = z.string().parse(v.expected);
  const history = [{ activity, on: last }];
  const row = await trialRow(requirement, { element: 'coat' }, history, due);
  expect([row?.dueOn, row?.state]).toEqual([due, 'due soon']);
  expect((await trialRow(requirement, { element: 'coat' }, history, dayAfter(due)))?.state).toBe('overdue');
}

async function turnoutRetirement(v: Vector) {
  const { manufactured, on } = inputsOf(v, { manufactured: z.string(), on: z.string() });
  const mayServe = z.boolean().parse(v.expected);
  // Nothing restores it: it was inspected and cleaned last month.
  const history = ['advanced inspection', 'advanced cleaning'].map(activity => ({
    activity,
    on: '2025-10-20',
  }));
  for (const element of ['coat', 'helmet', 'gloves']) {
    const row = await trialRow('turnout.end-of-life', { element, made: manufactured }, history, on);
    expect(row).toBeDefined();
    expect(row?.state !== 'life ended').toBe(mayServe);
  }
}

async function reserveGear(v: Vector) {
  const { last, on } = inputsOf(v, { last: z.string(), on: z.string() });
  const expected = z
    .object({ in_storage_overdue: z.boolean(), issued_overdue: z.boolean() })
    .parse(v.expected);
  const overdue = async (assignment: string) => {
    const asked = await department();
    const item = asked.receive('turnout', { element: 'coat', inService: '2022-02-10' }, [
      { activity: 'advanced inspection', on: last },
    ]);
    asked.act('item.assign', { item, assignment, on: last });
    const { due } = await asked.page(item, on);
    return due.find(r => r.requirement === 'turnout.advanced-inspection')?.state === 'overdue';
  };
  expect([await overdue('storage'), await overdue('issued')]).toEqual([
    expected.in_storage_overdue,
    expected.issued_overdue,
  ]);
}

async function firstLinerInspection(v: Vector) {
  const { in_service } = inputsOf(v, { in_service: z.string() });
  const requirement = 'turnout.liner-inspection';
  const coat = { element: 'coat', inService: in_service };
  expect((await trialRow(requirement, coat, [], in_service))?.dueOn).toBe(v.expected);
  // Only what has a liner has one to open.
  expect(await trialRow(requirement, { ...coat, element: 'helmet' }, [], in_service)).toBeUndefined();
}

async function shellLife(v: Vector) {
  const { in_service } = inputsOf(v, { in_service: z.string() });
  const coat = { element: 'coat', ensemble: 'proximity', inService: in_service };
  const requirement = 'turnout.shell-end-of-life';
  await endsOn(requirement, coat, z.string().parse(v.expected), 'advanced inspection');
  const structural = { ...coat, ensemble: 'structural' };
  expect(await trialRow(requirement, structural, [], in_service)).toBeUndefined();
}

async function lifeFrom(v: Vector, requirement: string, attributes: Values) {
  const { manufactured } = inputsOf(v, { manufactured: z.string() });
  const due = z.string().parse(v.expected);
  await endsOn(requirement, { ...attributes, made: manufactured }, due);
}

/** Retired on that day, in service on the day before, whatever it passed last. */
async function endsOn(requirement: string, attributes: Values, retired: string, passed = 'inspection') {
  const before = Temporal.PlainDate.from(retired).subtract({ days: 1 }).toString();
  const inspected = [{ activity: passed, on: before }];
  const on = async (day: string) => (await trialRow(requirement, attributes, inspected, day))?.state;
  expect([await on(before), await on(retired)]).toEqual(['due soon', 'life ended']);
}

async function ropeByUse(v: Vector) {
  const { use } = inputsOf(v, { use: z.string() });
  expect(v.expected).toBe('weekly');
  const asked = await department();
  const attributes = { kind: 'life safety', useRate: use };
  const trial = await asked.trial(
    'rope',
    attributes,
    [{ activity: 'inspection', on: '2025-06-02' }],
    '2025-06-05',
  );
  const due = trial.rows.filter(r => r.dueOn !== null).map(r => [r.requirement, r.dueOn]);
  expect(due).toEqual([['rope.inspection-weekly-use', '2025-06-09']]);
}

/** Used for an escape it owes destruction, which nobody can record: it does not come back. */
async function escapeRope(v: Vector) {
  const { used_for_escape } = inputsOf(v, { used_for_escape: z.boolean() });
  expect([used_for_escape, v.expected]).toEqual([true, false]);
  const asked = await department();
  const item = asked.receive('rope', { kind: 'escape', made: '2023-01-10' }, []);
  asked.act('item.oweRetest', { item, trigger: 'escape', on: '2025-06-10' });
  asked.act('record.add', { item, activity: 'inspection', outcome: 'pass', on: '2025-06-11' });
  const { owed, condition } = await asked.page(item, '2025-06-12');
  expect([owed.map(o => o.activity), condition]).toEqual([['destruction'], 'retest owed']);
  expect(asked.refusal('item.return', { item })).toBe('retest owed');
}

async function liftingBag(v: Vector) {
  const { manufactured, on } = inputsOf(v, { manufactured: z.string(), on: z.string() });
  const expected = z.object({ age_years: z.number(), in_service: z.boolean() }).parse(v.expected);
  const tested = [{ activity: 'pressure test', on: '2025-10-25' }];
  const bag = { kind: 'bag', made: manufactured };
  const row = await trialRow('air-bag.end-of-life', bag, tested, on);
  expect(row?.state !== 'life ended').toBe(expected.in_service);
  // In service on the last day under that age, and no day longer.
  const birthday = Temporal.PlainDate.from(manufactured).add({ years: expected.age_years });
  const stateOn = async (day: Temporal.PlainDate) =>
    (await trialRow('air-bag.end-of-life', bag, tested, day.toString()))?.state;
  expect([await stateOn(birthday.subtract({ days: 1 })), await stateOn(birthday)]).toEqual([
    'due soon',
    'life ended',
  ]);
}

/** Bumped today there is nothing to do today; bumped yesterday it is due today, before it is used. */
async function gasMeterToday(v: Vector) {
  const { last_bump, on } = inputsOf(v, { last_bump: z.string(), on: z.string() });
  const isReady = z.boolean().parse(v.expected);
  const history = [
    { activity: 'full calibration', on: '2025-11-20' },
    { activity: 'bump test', on: last_bump },
  ];
  const row = await trialRow('gas-meter.bump-test', {}, history, on);
  expect(row?.state === 'current').toBe(isReady);
  if (!isReady) expect(row?.dueOn).toBe(on);
}

async function batteryCapacity(v: Vector) {
  const { percent } = inputsOf(v, { percent: z.array(z.number()) });
  const retired: boolean[] = [];
  for (const capacity_percent of percent) {
    const asked = await department();
    const item = asked.receive('battery', { kind: 'radio battery' }, []);
    asked.act('record.add', {
      item,
      activity: 'capacity test',
      outcome: 'pass',
      on: '2025-06-10',
      readings: { capacity_percent },
    });
    const { due } = await asked.page(item, '2025-06-12');
    retired.push(due.some(r => r.requirement === 'battery.capacity' && r.state === 'retest owed'));
  }
  expect(retired).toEqual(v.expected);
}

/** After the happening the activity is owed, until a pass settles it. */
async function owedAfter(v: Vector, family: string, trigger: string, attributes: Values) {
  const [on] = z.tuple([z.string()]).parse(Object.values(v.inputs));
  const activity = z.string().parse(v.expected);
  const asked = await department();
  const item = asked.receive(family, attributes, []);
  asked.act('item.oweRetest', { item, trigger, on });
  const before = await asked.page(item, on);
  expect([before.owed.map(o => o.activity), before.condition]).toEqual([[activity], 'retest owed']);
  asked.act('record.add', { item, activity, outcome: 'pass', on });
  const after = await asked.page(item, on);
  expect([after.owed, after.condition]).toEqual([[], 'serviceable']);
}

/** Private and industrial brigades are bound in every state; a public department of a state without a plan is not. */
async function brigadeRuleApplies(v: Vector) {
  const { organization } = inputsOf(v, {
    organization: z.enum(['private_fire_brigade', 'industrial_fire_department']),
  });
  expect(organization).toMatch(/private|industrial/);
  const forceOf = async (profile: Record<string, unknown>) => {
    const asked = await departmentWith({ profile });
    const { rules } = await asked.ask('rulebook.list', {});
    const line = rules.find(l => l.requirement.id === 'hand-tool.inspection');
    return line && [line.force.force, line.force.certain, line.force.clause];
  };
  // Colorado runs no plan of its own for public employers.
  const bound = await forceOf({ state: 'CO', kind: 'private brigade' });
  expect(bound).toEqual([v.expected ? 'law' : 'standard', true, '29 CFR 1910.156(d)']);
  expect((await forceOf({ state: 'CO', kind: 'career' }))?.[0]).toBe('standard');
}
