/** Cylinders by use, size or paragraph: extinguishers, small ones, heat, fixed systems, and a life counted in fills. */
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import { cylinder } from '../../../domain/rulebook/cylinder.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';
import { endOf, plusYears, REQUALIFICATION, requalified } from './bottle.ts';

export const CYLINDER_USE_CHECKS: readonly Check[] = [
  { ids: /^INT-036$/, run: fills },
  { ids: /^INT-05[01]$/, run: extinguisherCylinder },
  { ids: /^INT-054$/, run: carbonDioxide },
  { ids: /^INT-055$/, run: nonCorrosive },
  { ids: /^INT-05[67]$/, run: small },
  { ids: /^INT-058$/, run: tareLost },
  { ids: /^DUE-02[57]$/, run: heatOnSteel },
  { ids: /^DUE-026$/, run: heatOnAluminum },
  { ids: /^EXT-060$/, run: wheeledNitrogen },
  { ids: /^OTH-011$/, run: fixedSystem },
];

/** The last day on time by whichever requalification concerns the cylinder; undefined where none does. */
async function requalifyBy(attributes: Values, history: { activity: string; on: string }[]) {
  const department = await departmentWith();
  const trial = await department.trial('cylinder', attributes, history, '2049-12-31');
  const rows = trial.rows.filter(r => r.requirement.startsWith(REQUALIFICATION));
  // Exactly one of them speaks: two would contradict each other, none would leave it untested.
  expect(rows.length).toBeLessThanOrEqual(1);
  return rows[0]?.dueOn;
}

async function yearsOf(attributes: Values) {
  const first = await requalifyBy({ ...attributes, made: '2004-05' }, []);
  const next = await requalifyBy({ ...attributes, made: '2004-05' }, requalified('2016-03'));
  return { first, next };
}

async function extinguisherCylinder(v: Vector) {
  const { spec, method } = inputsOf(v, { spec: z.string(), method: z.enum(['volumetric', 'proof']) });
  const { first_years, then_years } = z
    .object({ first_years: z.number(), then_years: z.number() })
    .parse(v.expected);
  for (const one of [spec, '4B', '4BA', '4B240ET'])
    expect(await yearsOf({ spec: one, use: 'extinguisher', longerPeriod: method })).toEqual({
      first: endOf(plusYears('2004-05', first_years)),
      next: endOf(plusYears('2016-03', then_years)),
    });
  // The paragraph helps no other specification, and without the mark it helps nobody.
  for (const other of [{ spec: '3AA', longerPeriod: method }, { spec }])
    expect(await yearsOf({ ...other, use: 'extinguisher' })).toEqual({
      first: endOf(plusYears('2004-05', 5)),
      next: endOf(plusYears('2016-03', 5)),
    });
}

async function carbonDioxide(v: Vector) {
  const { spec, agent } = inputsOf(v, { spec: z.string(), agent: z.string() });
  const years = z.number().parse(v.expected);
  for (const longerPeriod of ['volumetric', 'proof']) {
    const { next } = await yearsOf({ spec, gas: agent, use: 'extinguisher', longerPeriod });
    expect(next).toBe(endOf(plusYears('2016-03', years)));
  }
}

async function nonCorrosive(v: Vector) {
  const { series } = inputsOf(v, { series: z.string() });
  const { volumetric_years, external_visual_years } = z
    .object({ volumetric_years: z.number(), external_visual_years: z.number() })
    .parse(v.expected);
  for (const spec of series.split('/')) {
    const tested = requalified('2016-03');
    expect(await requalifyBy({ spec, longerPeriod: 'volumetric' }, tested)).toBe(
      endOf(plusYears('2016-03', volumetric_years)),
    );
    expect(await requalifyBy({ spec }, tested)).toBe(endOf(plusYears('2016-03', external_visual_years)));
  }
}

/** A person measures it and says which it is; the form prints the limits. */
async function small(v: Vector) {
  const { od_in, length_in } = inputsOf(v, { od_in: z.number(), length_in: z.number() });
  const { volumetric_required } = z.object({ volumetric_required: z.boolean() }).parse(v.expected);
  const choice = cylinder.attributes
    .find(a => a.key === 'dimensions')
    ?.choices?.find(c => c.value === 'small')?.title;
  const limits = /At most (\d+) in outside and under (\d+) ft long/.exec(choice ?? '');
  const isSmall = od_in <= Number(limits?.[1]) && length_in < Number(limits?.[2]) * 12;
  const attributes = { spec: '3AA', dimensions: isSmall ? 'small' : 'ordinary' };
  const due = await requalifyBy(attributes, requalified('2016-03'));
  expect(due !== undefined).toBe(volumetric_required);
}

async function tareLost(v: Vector) {
  const { tare_marked_lb, tare_measured_lb } = inputsOf(v, {
    tare_marked_lb: z.number(),
    tare_measured_lb: z.number(),
  });
  const { requalify_now } = z.object({ requalify_now: z.boolean() }).parse(v.expected);
  const title = cylinder.triggers.find(t => t.id === 'tare lost')?.title ?? '';
  const percent = Number(/(\d+) % or more/.exec(title)?.[1]);
  expect((tare_marked_lb - tare_measured_lb) * 100 >= percent * tare_marked_lb).toBe(requalify_now);
  const { owed } = await after('4BA', 'tare lost');
  expect(owed).toEqual(['requalification']);
}

/** What a cylinder in good standing owes after a happening, and whether the law lets it be filled. */
async function after(spec: string, trigger: string) {
  const department = await departmentWith();
  const item = department.receive('cylinder', { spec }, requalified('2024-05-02'));
  expect((await department.page(item, '2025-06-12')).cylinder?.fill.law.allowed).toBe(true);
  department.act('item.oweRetest', { item, trigger, on: '2025-06-10' });
  const before = await department.page(item, '2025-06-12');
  const passed = { item, activity: 'requalification', outcome: 'pass', rin: 'A123', on: '2025-06-11' };
  department.act('record.add', passed);
  const tested = await department.page(item, '2025-06-12');
  return {
    owed: before.owed.map(o => o.activity),
    fill: before.cylinder?.fill.law.allowed,
    fillOnceTested: tested.cylinder?.fill.law.allowed,
  };
}

/** The heat from which a trigger speaks, as its title prints it. */
function threshold_F(trigger: string): number {
  const title = cylinder.triggers.find(t => t.id === trigger)?.title ?? '';
  return Number(/(\d+) F or more/.exec(title)?.[1]);
}

async function heatOnSteel(v: Vector) {
  const { temp_F } = inputsOf(v, { temp_F: z.union([z.number(), z.array(z.number())]) });
  const limit = threshold_F('overheated steel');
  const said = z
    .union([z.array(z.boolean()), z.object({ over_heated: z.boolean() }).transform(o => [o.over_heated])])
    .parse(v.expected);
  expect([temp_F].flat().map(t => t >= limit)).toEqual(said);
  const steel = await after('3AA', 'overheated steel');
  expect(steel).toEqual({ owed: ['requalification'], fill: false, fillOnceTested: true });
}

async function heatOnAluminum(v: Vector) {
  const { temp_F } = inputsOf(v, { temp_F: z.number() });
  expect(v.expected).toEqual({ result: 'condemn' });
  expect(temp_F >= threshold_F('overheated aluminum')).toBe(true);
  // No test brings it back.
  const aluminum = await after('3AL', 'overheated aluminum');
  expect(aluminum).toEqual({ owed: ['condemnation'], fill: false, fillOnceTested: false });
}

async function wheeledNitrogen(v: Vector) {
  const { default_years, star_years } = z
    .object({ default_years: z.number(), star_years: z.number() })
    .parse(v.expected);
  const nitrogen = { spec: '3AA', gas: 'nitrogen', use: 'extinguisher' };
  const due = (star: boolean) => requalifyBy({ ...nitrogen, star }, requalified('2016-03'));
  expect([await due(false), await due(true)]).toEqual(
    [default_years, star_years].map(n => endOf(plusYears('2016-03', n))),
  );
}

async function fixedSystem(v: Vector) {
  const { charge_lb, loss_lb } = inputsOf(v, { charge_lb: z.number(), loss_lb: z.array(z.number()) });
  const department = await departmentWith();
  const attributes = { spec: '3AA', use: 'fixed system', charge_lb: String(charge_lb), fullWeight_lb: '250' };
  const refill = [];
  for (const lost of loss_lb) {
    const readings = { weight_lb: (250 - lost).toFixed(1) };
    const weighed = [{ activity: 'weighing', on: '2025-06-02', readings }];
    const trial = await department.trial('cylinder', attributes, weighed, '2025-06-03');
    refill.push(rowOf(trial, 'cylinder.charge-lost')?.state === 'retest owed');
    expect(rowOf(trial, 'cylinder.weighing')?.dueOn).toBe('2025-12-02');
  }
  expect(refill).toEqual(v.expected);
}

/** Fills are counted on a meter: at the last of them its life is over, whatever its test mark. */
async function fills(v: Vector) {
  const { spec, pressurizations } = inputsOf(v, {
    spec: z.string(),
    pressurizations: z.array(z.number()),
  });
  const department = await departmentWith();
  const over = [];
  for (const reading of pressurizations) {
    const trial = await department.ask('rulebook.trial', {
      family: 'cylinder',
      attributes: { spec, made: '2015-03' },
      history: requalified('2025-03').map(h => ({ ...h, outcome: 'pass' as const })),
      meters: [{ meter: 'fills', reading, on: '2025-06-02' }],
      on: '2025-06-03',
    });
    over.push(rowOf(trial, 'cylinder.pressurizations')?.state === 'overdue');
    expect(rowOf(trial, REQUALIFICATION)?.state).toBe('current');
  }
  expect(over).toEqual(v.expected);
  // And it is not filled, though its mark is good for two years more.
  const item = department.receive('cylinder', { spec, made: '2015-03' }, requalified('2025-03'));
  const mayBeFilled = [];
  for (const reading of pressurizations) {
    department.act('item.read', { item, meter: 'fills', reading, on: '2025-06-02' });
    const { cylinder: judged } = await department.page(item, '2025-06-03');
    mayBeFilled.push(judged?.fill.law.allowed);
  }
  expect(mayBeFilled).toEqual(
    z
      .array(z.boolean())
      .parse(v.expected)
      .map(isOver => !isOver),
  );
}
