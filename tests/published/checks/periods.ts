/** Requalification periods and lives: 49 CFR 180.205, 180.207, 180.209 Table 1, and composites by construction. */
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { SPEC_PERIODS } from '../../../domain/rulebook/cylinder.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';
import {
  constructionOf,
  endOf,
  lifeState,
  plusYears,
  REQUALIFICATION,
  requalified,
  requalifyBy,
} from './bottle.ts';

export const PERIOD_CHECKS: readonly Check[] = [
  { ids: /^INT-0(0\d|1\d|2[0-4])$/, run: tableOne },
  { ids: /^INT-03[03]$/, run: v => periodOf(inputsOf(v, { spec: z.string() }), v.expected) },
  { ids: /^INT-031$/, run: starMark },
  { ids: /^INT-032$/, run: starRemoved },
  { ids: /^INT-03[45]$/, run: over24Years },
  { ids: /^INT-03[78]$/, run: v => periodOf({ spec: inputsOf(v, { kind: z.string() }).kind }, v.expected) },
  { ids: /^INT-040$/, run: unCompositeLife },
  { ids: /^INT-04[2-5]$/, run: v => periodOf({ construction: constructionOf(v) }, v.expected) },
  { ids: /^INT-046$/, run: compositeLife },
  { ids: /^INT-047$/, run: noFixedLife },
  { ids: /^INT-049$/, run: crackExamination },
  { ids: /^cylinder-A5-/, run: permit },
  { ids: /^OTH-00[12]$/, run: medicalOxygen },
  { ids: /^OTH-007$/, run: cascade },
  { ids: /^OTH-009$/, run: part180Applies },
];

/** So many years from the last test, and from manufacture where there is none; null: not requalified. */
async function periodOf(attributes: Values, years: unknown) {
  const n = z.number().nullable().parse(years);
  for (const month of ['2019-04', '2020-02', '2020-12']) {
    const due = n === null ? undefined : endOf(plusYears(month, n));
    expect(await requalifyBy(attributes, month)).toBe(due);
    expect(await requalifyBy(attributes, `${month}-11`)).toBe(due);
    expect(await requalifyBy({ ...attributes, made: month }, null)).toBe(due);
  }
}

/** The test pressures of the table belong to the judging of a test, not to when it is due. */
async function tableOne(v: Vector) {
  const { spec } = inputsOf(v, { spec: z.string() });
  const { periods_years, default_years } = z
    .object({ periods_years: z.array(z.number()), default_years: z.number().nullable() })
    .parse(v.expected);
  await periodOf({ spec }, default_years);
  expect(default_years).toBe(periods_years.length === 0 ? null : Math.min(...periods_years));
  const line = SPEC_PERIODS.find(s => s.spec === spec);
  const marked = line?.unless ? [line.unless.months / 12] : [];
  for (const years of marked) expect(periods_years).toContain(years);
}

async function starMark(v: Vector) {
  const { specs } = inputsOf(v, { specs: z.array(z.string()), star: z.literal(true) });
  for (const spec of specs) await periodOf({ spec, star: true }, v.expected);
  // The star is for 3A and 3AA: on another specification it changes nothing.
  await periodOf({ spec: '3AL', star: true }, 5);
  await periodOf({ spec: '3HT', star: true }, 3);
}

/** Filled with another gas, the star is struck off: the thing is amended, and the same test counts five years. */
async function starRemoved(v: Vector) {
  const { spec } = inputsOf(v, { spec: z.string(), star: z.literal(true) });
  const department = await departmentWith();
  const item = department.receive('cylinder', { spec, star: true }, requalified('2021-08'));
  const due = async () =>
    (await department.page(item, '2022-01-01')).due.find(r => r.requirement === REQUALIFICATION)?.dueOn;
  expect(await due()).toBe('2031-08-31');
  department.act('item.amend', {
    item,
    attributes: { star: false },
    why: 'Filled with a gas not on the list',
  });
  expect(await due()).toBe(endOf(plusYears('2021-08', z.number().parse(v.expected))));
}

async function over24Years(v: Vector) {
  const { spec, manufactured, as_of } = inputsOf(v, {
    spec: z.string(),
    manufactured: z.string(),
    as_of: z.string(),
  });
  const { over_age } = z.object({ over_age: z.boolean() }).parse(v.expected);
  for (const day of [`${as_of}-01`, endOf(as_of)])
    expect((await lifeState({ spec, made: manufactured }, day)).state === 'life ended').toBe(over_age);
}

/** Past its life it is not filled, and so not worth requalifying, even where a test was passed the day before. */
async function unCompositeLife(v: Vector) {
  const { kind, age_years } = inputsOf(v, { kind: z.string(), age_years: z.number() });
  const { requalify } = z.object({ requalify: z.boolean() }).parse(v.expected);
  const on = '2024-06-15';
  const made = `${2024 - age_years}-06`;
  expect((await lifeState({ spec: kind, made }, on)).state === 'life ended').toBe(!requalify);
  const department = await departmentWith();
  const item = department.receive('cylinder', { spec: kind, made }, requalified('2024-06-14'));
  const { cylinder } = await department.page(item, on);
  expect(cylinder?.fill.law.allowed).toBe(requalify);
  expect(cylinder?.fill.law.because).toMatch(/never refilled, whatever its test mark/);
  expect((await lifeState({ spec: kind, made: '2009-06' }, '2024-06-30')).state).toBe('due soon');
}

async function compositeLife(v: Vector) {
  const years = z.number().parse(v.expected);
  for (const construction of ['hoop', 'fiberglass', 'aramid', 'carbon']) {
    const { lifeEndsOn } = await lifeState({ construction, made: '2010-02' }, '2020-01-01');
    expect(lifeEndsOn).toBe(endOf(plusYears('2010-02', years)));
  }
}

async function noFixedLife(v: Vector) {
  expect(v.expected).toBeNull();
  const { kind } = inputsOf(v, { kind: z.string() });
  const metal = [
    ...kind.split('/').map(spec => ({ spec })),
    { construction: 'steel' },
    { construction: 'aluminum' },
  ];
  for (const attributes of metal) {
    const life = await lifeState({ ...attributes, made: '1950-01' }, '2049-01-01');
    expect(life).toEqual({ state: undefined, lifeEndsOn: null });
  }
}

async function crackExamination(v: Vector) {
  const { alloy } = inputsOf(v, { alloy: z.string(), service: z.string() });
  const { interval_years, extra_exam, mark } = z
    .object({ interval_years: z.number(), extra_exam: z.string(), mark: z.string() })
    .parse(v.expected);
  const department = await departmentWith();
  const due = async (attributes: Values, history: { activity: string; on: string }[]) =>
    rowOf(
      await department.trial('cylinder', { spec: '3AL', ...attributes }, history, '2049-01-01'),
      'cylinder.crack-examination',
    )?.dueOn;
  const examined = [{ activity: 'crack examination', on: '2021-06-09' }];
  expect(await due({ alloy, made: '2006-01' }, examined)).toBe(endOf(plusYears('2021-06', interval_years)));
  expect(await due({ alloy, made: '2020-01' }, [])).toBe(endOf(plusYears('2020-01', interval_years)));
  // A requalification without the examination does not settle it, and another alloy owes none.
  expect(await due({ alloy, made: '2020-01' }, requalified('2021-06'))).toBe('2025-01-31');
  expect(await due({ alloy: '6061-T6', made: '2020-01' }, examined)).toBeUndefined();
  const { rules } = await department.ask('rulebook.list', { family: 'cylinder' });
  const rule = rules.find(r => r.requirement.id === 'cylinder.crack-examination')?.requirement;
  expect(rule?.force).toBe('law');
  const [examination = ''] = extra_exam.split(' (');
  expect(rule?.sources[0]?.note?.toLowerCase().replace('-', ' ')).toContain(examination);
  expect(rule?.sources[0]?.note).toContain(`marked ${mark}`);
}

async function permit(v: Vector) {
  const input = inputsOf(v, {
    permit: z.string(),
    construction: z.string(),
    months: z.number(),
    life_months: z.number().optional(),
    life_label_months: z.number().optional(),
    manufactured: z.string(),
    last: z.string(),
  });
  const { due_month, life_end_month } = z
    .object({ due_month: z.string(), life_end_month: z.string() })
    .parse(v.expected);
  const attributes = { spec: input.permit, construction: input.construction, made: input.manufactured };
  const confirmed = {
    permit: input.permit,
    construction: input.construction,
    months: input.months,
    lifeMonths: input.life_months ?? 'label',
    basis: 'the permit in hand',
  };
  const judged = async (department: Awaited<ReturnType<typeof departmentWith>>, more: Values = {}) => {
    const trial = await department.trial(
      'cylinder',
      { ...attributes, ...more },
      requalified(input.last),
      '2025-01-01',
    );
    const requalification = rowOf(trial, REQUALIFICATION);
    return [
      requalification?.dueOn ?? requalification?.state,
      trial.lifeEndsOn ?? rowOf(trial, 'cylinder.end-of-life')?.state,
    ];
  };
  // Nothing is judged by what the book has heard of a permit, whatever the construction would say.
  expect(await judged(await departmentWith())).toEqual(['not judged', 'not judged']);
  const department = await departmentWith({ permits: [confirmed] });
  if (input.life_label_months === undefined) {
    expect(await judged(department)).toEqual([endOf(due_month), endOf(life_end_month)]);
    return;
  }
  expect(await judged(department)).toEqual([endOf(due_month), 'not judged']);
  const label = { lifeLabel_months: input.life_label_months };
  expect(await judged(department, label)).toEqual([endOf(due_month), endOf(life_end_month)]);
}

async function medicalOxygen(v: Vector) {
  const { spec, gas, last, star } = inputsOf(v, {
    spec: z.string(),
    gas: z.string(),
    last: z.string(),
    star: z.array(z.boolean()).optional(),
  });
  const months = z.array(z.string()).parse([v.expected].flat());
  const due = [];
  for (const marked of star ?? [false]) due.push(await requalifyBy({ spec, gas, star: marked }, last));
  expect(due).toEqual(months.map(endOf));
}

async function cascade(v: Vector) {
  const { kinds } = inputsOf(v, { kinds: z.array(z.string()) });
  const years = z.array(z.number()).parse(v.expected);
  expect(kinds.length).toBe(years.length);
  for (const [i, kind] of kinds.entries()) await periodOf({ spec: kind.replace('DOT ', '') }, years[i]);
}

/** A stationary bank bottle is held to the same law as any other: nothing in the rule excepts it. */
async function part180Applies(v: Vector) {
  const { part180_applies } = z.object({ part180_applies: z.boolean() }).parse(v.expected);
  const department = await departmentWith();
  const trial = await department.trial(
    'cylinder',
    { spec: '3AA', gas: 'air', made: '2019-05' },
    [],
    '2024-06-01',
  );
  expect(rowOf(trial, REQUALIFICATION)?.state === 'overdue').toBe(part180_applies);
  const { rules } = await department.ask('rulebook.list', { family: 'cylinder' });
  const rule = rules.find(r => r.requirement.id === REQUALIFICATION)?.requirement;
  expect([rule?.force, rule?.sources[0]?.document]).toEqual(['law', '49 CFR']);
  // No use of a cylinder is excepted.
  for (const use of ['cascade', 'SCBA', 'air bag', 'medical oxygen']) {
    const used = await department.trial('cylinder', { spec: '3AA', use, made: '2019-05' }, [], '2024-06-01');
    expect(rowOf(used, REQUALIFICATION)?.state).toBe('overdue');
  }
}
