/** Portable extinguishers: OSHA Table L-1, the tables of NFPA 10, and the clocks that restart each other. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';
import { endOf, plusYears } from './bottle.ts';

export const EXTINGUISHER_CHECKS: readonly Check[] = [
  { ids: /^EXT-0(0[1-9]|1[0-4])$/, run: tableL1 },
  { ids: /^TP-011$/, run: tableL1 },
  { ids: /^EXT-015$/, run: soldered },
  { ids: /^EXT-016$/, run: nfpa10Hydrostatic },
  { ids: /^EXT-0(2\d|3[0-2])$/, run: internalExamination },
  { ids: /^EXT-035$/, run: monthly },
  { ids: /^EXT-036$/, run: annual },
  { ids: /^EXT-03[789]$/, run: sixYears },
  { ids: /^EXT-040$/, run: hydrostaticFirst },
  { ids: /^EXT-041$/, run: nonrechargeable },
  { ids: /^EXT-04[234]$/, run: agentLost },
  { ids: /^EXT-045$/, run: conductivity },
  { ids: /^EXT-048$/, run: hose },
  { ids: /^EXT-051$/, run: neverTested },
  { ids: /^EXT-053$/, run: failed },
  { ids: /^EXT-057$/, run: spare },
  { ids: /^EXT-059$/, run: yearOnly },
];

/** Our words for the types that the tables name. */
const TYPES: Readonly<Record<string, readonly string[]>> = {
  'soda acid, stainless': ['soda acid stainless'],
  'cartridge water/antifreeze': ['water cartridge'],
  'stored-pressure water/antifreeze': ['water stored pressure', 'antifreeze'],
  'stored-pressure water': ['water stored pressure'],
  'wetting agent': ['wetting agent'],
  'foam, stainless': ['foam stainless'],
  AFFF: ['AFFF'],
  FFFP: ['FFFP'],
  'AFFF/FFFP liquid charge': ['AFFF', 'FFFP'],
  'loaded stream': ['loaded stream'],
  'loaded stream / antifreeze stored pressure': ['loaded stream', 'antifreeze'],
  'pump tank': ['pump tank'],
  'dry chemical, stainless': ['dry chemical stainless'],
  'dry chemical stored, stainless': ['dry chemical stainless'],
  'carbon dioxide': ['CO2'],
  co2_extinguisher: ['CO2'],
  'dry chemical stored pressure': ['dry chemical stored pressure'],
  'dry chemical stored pressure (mild steel, brazed brass or aluminum)': ['dry chemical stored pressure'],
  'dry chemical stored, mild steel/brazed brass/aluminum': ['dry chemical stored pressure'],
  'dry chemical cartridge/cylinder, mild steel': ['dry chemical cartridge'],
  'dry powder cartridge/cylinder, mild steel': ['dry powder cartridge'],
  'dry powder stored': ['dry powder stored pressure'],
  'dry powder stored, mild steel': ['dry powder stored pressure'],
  'wet chemical': ['wet chemical'],
  'Halon 1211': ['halon 1211'],
  'Halon 1301': ['halon 1301'],
  halogenated: ['halogenated'],
  'halogenated agent': ['halogenated', 'halon 1211', 'halon 1301'],
  'soldered brass': ['soldered brass'],
  nonrechargeable: ['nonrechargeable'],
};
const typesOf = (said: string) => z.array(z.string()).min(1).parse(TYPES[said]);

const HYDROSTATIC = /^extinguisher\.hydrostatic/;
const SIX_YEAR = 'extinguisher.six-year-maintenance';
type Done = { activity: string; on: string; readings?: Values };

async function trialOf(attributes: Values, history: readonly Done[] = [], on = '2049-12-31') {
  return (await departmentWith()).trial('extinguisher', attributes, history, on);
}

/** The last day on time by the one row of such a duty; undefined where none concerns the type. */
async function dueBy(duty: RegExp, attributes: Values, history: readonly Done[] = []) {
  const rows = (await trialOf(attributes, history)).rows.filter(r => duty.test(r.requirement));
  expect(rows.length).toBeLessThanOrEqual(1);
  return rows[0]?.dueOn;
}

async function testedEvery(said: string, years: number) {
  for (const type of typesOf(said)) {
    expect(await dueBy(HYDROSTATIC, { type, made: '2019-04' })).toBe(endOf(plusYears('2019-04', years)));
    const tested = [{ activity: 'hydrostatic test', on: '2020-02' }];
    expect(await dueBy(HYDROSTATIC, { type }, tested)).toBe(endOf(plusYears('2020-02', years)));
  }
}

/** The test pressure of TP-011 belongs to the test day; here its interval counts. */
async function tableL1(v: Vector) {
  const said = z.string().parse(v.inputs.type ?? v.inputs.item);
  const years = z.union([z.number(), z.object({ interval_years: z.number() })]).parse(v.expected);
  await testedEvery(said, typeof years === 'number' ? years : years.interval_years);
  // It is the law that says so, by the table.
  const [type = ''] = typesOf(said);
  const trial = await trialOf({ type, made: '2019-04' });
  const id = trial.rows.find(r => HYDROSTATIC.test(r.requirement))?.requirement;
  const { rules } = await (await departmentWith()).ask('rulebook.list', { family: 'extinguisher' });
  expect(rules.find(r => r.requirement.id === id)?.requirement.bindings?.[0]?.cite).toMatch(/Table L-1$/);
}

async function nfpa10Hydrostatic(v: Vector) {
  const { types } = inputsOf(v, { types: z.array(z.string()) });
  const years = z.array(z.number()).parse(v.expected);
  expect(types.length).toBe(years.length);
  for (const [i, said] of types.entries()) await testedEvery(said, years[i] ?? 0);
}

const EXAMINATIONS = /^extinguisher\.(internal-examination|six-year)/;

async function internalExamination(v: Vector) {
  const { type: said } = inputsOf(v, { type: z.string() });
  const years = z.number().parse(v.expected);
  for (const type of typesOf(said)) {
    expect(await dueBy(EXAMINATIONS, { type, made: '2019-04' })).toBe(endOf(plusYears('2019-04', years)));
    // A hydrostatic test looks inside as well, so the next one counts from it.
    for (const activity of ['internal examination', 'hydrostatic test'])
      expect(await dueBy(EXAMINATIONS, { type, made: '2019-04' }, [{ activity, on: '2021-02' }])).toBe(
        endOf(plusYears('2021-02', years)),
      );
  }
}

async function soldered(v: Vector) {
  const { type: said } = inputsOf(v, { type: z.string() });
  const { test, in_service } = z.object({ test: z.boolean(), in_service: z.boolean() }).parse(v.expected);
  for (const type of typesOf(said)) {
    const dated = await trialOf({ type, made: '1968-05' }, [], '2025-01-01');
    expect(dated.rows.some(r => HYDROSTATIC.test(r.requirement))).toBe(test);
    expect(rowOf(dated, 'extinguisher.not-permitted')?.state !== 'life ended').toBe(in_service);
    // Without a date it is not passed over in silence.
    const undated = await trialOf({ type }, [], '2025-01-01');
    expect(rowOf(undated, 'extinguisher.not-permitted')?.state).toBe('not judged');
  }
}

async function monthly(v: Vector) {
  expect(v.expected).toBe('1 month');
  for (const activity of ['inspection', 'maintenance']) {
    const row = rowOf(
      await trialOf({ type: 'CO2' }, [{ activity, on: '2024-01-31' }]),
      'extinguisher.inspection',
    );
    expect(row?.dueOn).toBe('2024-02-29');
  }
  // A look settles no maintenance.
  const looked = await trialOf({ type: 'CO2' }, [{ activity: 'inspection', on: '2024-01-31' }]);
  expect(rowOf(looked, 'extinguisher.annual-maintenance')?.state).toBe('never done');
}

async function annual(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  const due = z.string().parse(v.expected);
  const history = [{ activity: 'maintenance', on: last }];
  const state = async (on: string) =>
    rowOf(await trialOf({ type: 'water stored pressure' }, history, on), 'extinguisher.annual-maintenance');
  expect((await state(due))?.dueOn).toBe(due);
  expect((await state(Temporal.PlainDate.from(due).add({ days: 1 }).toString()))?.state).toBe('overdue');
}

async function sixYears(v: Vector) {
  const input = inputsOf(v, {
    manufactured: z.string().optional(),
    recharged: z.string().nullish(),
    hydro: z.string().nullish(),
  });
  const expected = z
    .union([
      z.string().transform(six_year => ({ six_year, hydro: null })),
      z.object({ six_year: z.string(), hydro: z.string() }),
    ])
    .parse(v.expected);
  const history = [
    ...(input.recharged ? [{ activity: 'recharge', on: input.recharged }] : []),
    ...(input.hydro ? [{ activity: 'hydrostatic test', on: input.hydro }] : []),
  ];
  const attributes = {
    type: 'dry chemical stored pressure',
    ...(input.manufactured ? { made: input.manufactured } : {}),
  };
  const trial = await trialOf(attributes, history);
  expect(rowOf(trial, SIX_YEAR)?.dueOn).toBe(endOf(expected.six_year));
  if (expected.hydro !== null)
    expect(rowOf(trial, 'extinguisher.hydrostatic-twelve-year')?.dueOn).toBe(endOf(expected.hydro));
}

async function hydrostaticFirst(v: Vector) {
  const { manufactured, six_year_done } = inputsOf(v, {
    manufactured: z.string(),
    six_year_done: z.string(),
  });
  const { next_action, due } = z
    .object({ next_action: z.literal('hydro'), due: z.string() })
    .parse(v.expected);
  const department = await departmentWith();
  const item = department.receive(
    'extinguisher',
    { type: 'dry chemical stored pressure', made: manufactured },
    [
      { activity: 'internal examination', on: six_year_done },
      { activity: 'maintenance', on: '2024-01-10' },
      { activity: 'inspection', on: '2024-04-20' },
    ],
  );
  const { due: rows } = await department.page(item, '2024-05-01');
  const shell = rows.filter(r => [SIX_YEAR, 'extinguisher.hydrostatic-twelve-year'].includes(r.requirement));
  const [first, second] = shell.sort((x, y) => ((x.dueOn ?? '') < (y.dueOn ?? '') ? -1 : 1));
  const activity = { hydro: 'extinguisher.hydrostatic-twelve-year' }[next_action];
  expect([first?.requirement, first?.dueOn, second?.requirement]).toEqual([activity, endOf(due), SIX_YEAR]);
}

async function nonrechargeable(v: Vector) {
  const { type, manufactured } = inputsOf(v, { type: z.string(), manufactured: z.string() });
  const { six_year, remove_by } = z.object({ six_year: z.null(), remove_by: z.string() }).parse(v.expected);
  for (const known of typesOf(type)) {
    const trial = await trialOf({ type: known, made: manufactured }, [], '2025-03-01');
    expect(rowOf(trial, SIX_YEAR)?.dueOn ?? null).toBe(six_year);
    expect(trial.rows.some(r => HYDROSTATIC.test(r.requirement))).toBe(false);
    expect(trial.lifeEndsOn).toBe(endOf(remove_by));
    expect(rowOf(trial, 'extinguisher.end-of-life')?.state).toBe('life ended');
  }
}

/** The share is of the agent: 2.1 lb of 20 lb is more than 10 %, of 50 lb of steel and gas it is not. */
async function agentLost(v: Vector) {
  const { charge_lb, full_gross_lb, weighed_lb } = inputsOf(v, {
    charge_lb: z.number(),
    full_gross_lb: z.number(),
    weighed_lb: z.number(),
  });
  const expected = z
    .union([
      z.object({ recharge: z.boolean() }).transform(e => e.recharge),
      z.object({ must_not_use: z.literal(true) }).transform(() => true),
    ])
    .parse(v.expected);
  const attributes = { type: 'CO2', charge_lb: String(charge_lb), fullWeight_lb: String(full_gross_lb) };
  const weighed = { activity: 'weighing', on: '2025-06-02', readings: { weight_lb: String(weighed_lb) } };
  const owed = async (...more: Done[]) =>
    rowOf(await trialOf(attributes, [weighed, ...more], '2025-06-10'), 'extinguisher.agent-lost')?.state ===
    'retest owed';
  expect(await owed()).toBe(expected);
  expect(await owed({ activity: 'recharge', on: '2025-06-05' })).toBe(false);
}

async function conductivity(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  const history = [{ activity: 'conductivity test', on: last }];
  const row = async (attributes: Values) =>
    rowOf(await trialOf(attributes, history), 'extinguisher.hose-conductivity')?.dueOn;
  expect(await row({ type: 'CO2' })).toBe(v.expected);
  expect(await row({ type: 'CO2', hose: 'none' })).toBeUndefined();
  expect(await row({ type: 'dry chemical stored pressure' })).toBeUndefined();
}

async function hose(v: Vector) {
  const { on } = inputsOf(v, { on: z.array(z.string()) });
  const years = z.array(z.number()).parse(v.expected);
  for (const [i, said] of on.entries())
    for (const type of typesOf(said)) {
      const due = async (kind: string) =>
        dueBy(/^extinguisher\.hose-test/, { type, hose: kind, made: '2019-04' });
      expect(await due('shut-off')).toBe(endOf(plusYears('2019-04', years[i] ?? 0)));
      expect(await due('open')).toBeUndefined();
    }
}

/** It owes what nobody can record: no test brings it back. */
async function gone(trigger: string) {
  const department = await departmentWith();
  const item = department.receive(
    'extinguisher',
    { type: 'dry chemical stored pressure', made: '2020-05' },
    [],
  );
  department.act('item.oweRetest', { item, trigger, on: '2025-06-10' });
  for (const activity of ['hydrostatic test', 'maintenance', 'recharge'])
    department.act('record.add', { item, activity, outcome: 'pass', on: '2025-06-11' });
  const { condition } = await department.page(item, '2025-06-12');
  expect(department.refusal('item.return', { item })).toBe('retest owed');
  return condition === 'retest owed';
}

async function neverTested(v: Vector) {
  const { conditions } = inputsOf(v, { conditions: z.array(z.string()) });
  const ours: Record<string, string> = {
    welded: 'shell repaired',
    threads: 'threads damaged',
    pitting: 'pitting',
    burned: 'burned',
    'CaCl2 in stainless': 'calcium chloride in stainless',
  };
  const tested = [];
  for (const condition of conditions) tested.push(!(await gone(z.string().parse(ours[condition]))));
  expect(tested).toEqual(v.expected);
}

async function failed(v: Vector) {
  expect(v.expected).toEqual({ status: 'removed' });
  expect(await gone('failed hydrostatic test')).toBe(true);
}

async function spare(v: Vector) {
  expect(v.expected).toEqual({ replacement_required: true });
  const { rules } = await (await departmentWith()).ask('rulebook.list', { family: 'extinguisher' });
  const taken = rules.filter(r =>
    ['maintenance', 'internal examination', 'hydrostatic test', 'recharge'].includes(r.requirement.activity),
  );
  for (const { requirement } of taken.filter(r => r.requirement.clock.kind !== 'printed date'))
    expect([requirement.id, requirement.cautions.join(' ')]).toEqual([
      requirement.id,
      expect.stringMatching(/Put an equal extinguisher in its place/),
    ]);
}

async function yearOnly(v: Vector) {
  const { manufactured_year, years } = inputsOf(v, { manufactured_year: z.number(), years: z.literal(12) });
  const { latest_day } = z.object({ latest_day: z.string() }).parse(v.expected);
  const attributes = { type: 'dry chemical stored pressure', made: String(manufactured_year) };
  expect(years).toBe(12);
  expect(await dueBy(HYDROSTATIC, attributes)).toBe(latest_day);
}
