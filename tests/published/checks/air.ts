/** Breathing air, facepieces, and who may touch a pack: 29 CFR 1910.134, NFPA 1989. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Values } from '../../../domain/facts.ts';
import type { Requirement } from '../../../domain/rulebook/types.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const AIR_CHECKS: readonly Check[] = [
  { ids: /^AIR-00[12]$/, run: limits },
  { ids: /^AIR-004$/, run: quarterly },
  { ids: /^AIR-00[56]$/, run: betweenTheTwo },
  { ids: /^AIR-00[79]$/, run: carbonMonoxideOrNitrogen },
  { ids: /^AIR-008$/, run: oxygen },
  { ids: /^AIR-010$/, run: dewPoint },
  { ids: /^AIR-011$/, run: clamp },
  { ids: /^AIR-012$/, run: relocated },
  { ids: /^AIR-015$/, run: filterTag },
  { ids: /^OTH-013$/, run: fillStation },
  { ids: /^SCBA-013$/, run: fitTest },
  { ids: /^SCBA-01[45]$/, run: fitFactor },
  { ids: /^SCBA-017$/, run: negativePressure },
  { ids: /^SCBA-025$/, run: repairers },
  { ids: /^SCBA-028$/, run: cleaning },
  { ids: /^SCBA-029$/, run: passIsPart },
];

type Profile = 'law' | 'standard';

async function rulesOf(family: string): Promise<Requirement[]> {
  const { rules } = await (await departmentWith()).ask('rulebook.list', { family });
  return rules.map(r => r.requirement);
}

/** Whether a sample with these figures is good air by the law (Grade D) and by the standard on top of it. */
async function judged(readings: Values): Promise<Record<Profile, boolean>> {
  const department = await departmentWith();
  const sample = [{ activity: 'air sample', on: '2025-06-02', readings }];
  const trial = await department.trial('compressor', { kind: 'compressor' }, sample, '2025-06-03');
  const owed = new Set(trial.rows.filter(r => r.state === 'retest owed').map(r => r.requirement));
  const beyond = (await rulesOf('compressor')).filter(r => owed.has(r.id));
  const law = !beyond.some(r => r.force === 'law');
  return { law, standard: law && beyond.length === 0 };
}

/** The figure at which a reading still passes, by kind of authority. */
async function limits(v: Vector) {
  const rules = await rulesOf('compressor');
  const force: Profile = v.id === 'AIR-001' ? 'law' : 'standard';
  const figure = (reading: string, owedWhen: string) => {
    const found = rules.flatMap(r =>
      r.clock.kind === 'reading limit' && r.clock.reading === reading && r.clock.owedWhen === owedWhen
        ? [{ force: r.force, value: Number(r.clock.value) }]
        : [],
    );
    // What the standard does not say of its own it leaves to the law.
    return (found.find(f => f.force === force) ?? found.find(f => f.force === 'law'))?.value;
  };
  const both = {
    o2: [figure('oxygen_percent', 'under'), figure('oxygen_percent', 'over')],
    co_max: figure('carbonMonoxide_ppm', 'over'),
    co2_max: figure('carbonDioxide_ppm', 'over'),
    oil_max: figure('oil_mgm3', 'over'),
  };
  expect(
    force === 'law'
      ? { ...both, dew_F_max: -(figure('dewPointBelowZero_F', 'under') ?? 0) }
      : {
          ...both,
          water_ppm_max: figure('water_ppm', 'over'),
          nmvoc_max: figure('hydrocarbons_ppm', 'over'),
          n2: [figure('nitrogen_percent', 'under'), figure('nitrogen_percent', 'over')],
        },
  ).toEqual(v.expected);
}

async function sampleDue(last: string) {
  const trial = await (await departmentWith()).trial(
    'compressor',
    { kind: 'compressor' },
    [{ activity: 'air sample', on: last }],
    last,
  );
  return rowOf(trial, 'compressor.air-sample')?.dueOn;
}

async function quarterly(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  expect(await sampleDue(last)).toBe(v.expected);
  const rule = (await rulesOf('compressor')).find(r => r.id === 'compressor.air-sample');
  expect(rule?.who).toMatch(/accredited laboratory/);
}

async function clamp(v: Vector) {
  const { last } = inputsOf(v, { last: z.array(z.string()) });
  const due = [];
  for (const day of last) due.push(await sampleDue(day));
  expect(due).toEqual(v.expected);
}

async function betweenTheTwo(v: Vector) {
  const expected = z.object({ OSHA_GradeD: z.boolean(), NFPA1989_2008: z.boolean() }).parse(v.expected);
  const readings =
    v.id === 'AIR-005'
      ? { carbonMonoxide_ppm: String(inputsOf(v, { co_ppm: z.number() }).co_ppm) }
      : { oil_mgm3: String(inputsOf(v, { oil_mg_m3: z.number() }).oil_mg_m3) };
  expect(await judged(readings)).toEqual({
    law: expected.OSHA_GradeD,
    standard: expected.NFPA1989_2008,
  });
}

async function carbonMonoxideOrNitrogen(v: Vector) {
  if (v.id === 'AIR-009') {
    const { n2_pct } = inputsOf(v, { n2_pct: z.number() });
    expect((await judged({ nitrogen_percent: String(n2_pct) })).standard).toBe(v.expected);
    return;
  }
  const [standard, law] = inputsOf(v, { co_ppm: z.array(z.number()) }).co_ppm.map(n => ({
    carbonMonoxide_ppm: String(n),
  }));
  expect([(await judged(standard ?? {})).standard, (await judged(law ?? {})).law]).toEqual(v.expected);
}

async function oxygen(v: Vector) {
  const { o2_pct } = inputsOf(v, { o2_pct: z.array(z.number()) });
  const good = [];
  for (const n of o2_pct) good.push((await judged({ oxygen_percent: String(n) })).law);
  expect(good).toEqual(v.expected);
}

async function dewPoint(v: Vector) {
  const { dew_F } = inputsOf(v, { dew_F: z.array(z.number()) });
  const { OSHA, NFPA } = z
    .object({ OSHA: z.array(z.boolean()), NFPA: z.array(z.boolean()) })
    .parse(v.expected);
  const good = [];
  for (const n of dew_F) good.push(await judged({ dewPointBelowZero_F: String(-n) }));
  expect([good.map(g => g.law), good.map(g => g.standard)]).toEqual([OSHA, NFPA]);
}

async function relocated(v: Vector) {
  const { sample_before_use } = z.object({ sample_before_use: z.boolean() }).parse(v.expected);
  const department = await departmentWith();
  const item = department.receive('compressor', { kind: 'compressor' }, [
    { activity: 'air sample', on: '2025-06-02' },
  ]);
  department.act('item.oweRetest', { item, trigger: 'relocated', on: '2025-06-10' });
  const { due, condition } = await department.page(item, '2025-06-12');
  const row = due.find(r => r.requirement === 'compressor.air-sample');
  expect([row?.state === 'retest owed', condition === 'retest owed']).toEqual([
    sample_before_use,
    sample_before_use,
  ]);
  expect(department.refusal('item.return', { item })).toBe('retest owed');
}

async function filterTag(v: Vector) {
  const words = z.array(z.string()).parse(v.expected);
  const rule = (await rulesOf('compressor')).find(r => r.id === 'compressor.filter');
  const law = rule?.sources.find(s => s.document === '29 CFR 1910.134');
  for (const word of words) expect(law?.note).toContain(word);
  // The date on the tag is the date: with hours not read it alone decides.
  const trial = await (await departmentWith()).trial(
    'compressor',
    { kind: 'compressor', filterDue: '2025-09-30' },
    [],
    '2025-06-01',
  );
  expect(rowOf(trial, 'compressor.filter')?.dueOn).toBe('2025-09-30');
}

async function fillStation(v: Vector) {
  const rule = (await rulesOf('compressor')).find(r => r.id === 'compressor.inspection');
  const said = [...(rule?.cautions ?? []), ...(rule?.sources.map(s => s.note ?? '') ?? [])].join(' ');
  const words: Record<string, RegExp> = {
    trained_fillers: /Trained fillers only/,
    protected_station: /protected charging station/,
    grade_D_air: /Grade D air/,
  };
  for (const duty of z.array(z.string()).parse(v.expected)) expect(said).toMatch(words[duty] ?? duty);
}

async function fitTest(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  const due = z.string().parse(v.expected);
  const department = await departmentWith();
  const row = async (history: { activity: string; on: string }[], on: string) =>
    rowOf(
      await department.trial('facepiece', { wearer: 'R. Alder', inService: last }, history, on),
      'facepiece.fit-test',
    );
  const tested = [{ activity: 'fit test', on: last }];
  expect((await row(tested, due))?.dueOn).toBe(due);
  const dayAfter = (on: string) => Temporal.PlainDate.from(on).add({ days: 1 }).toString();
  expect((await row(tested, dayAfter(due)))?.state).toBe('overdue');
  // Before first use, and when the facepiece changes.
  expect((await row([], dayAfter(last)))?.state).toBe('never done');
  const item = department.receive('facepiece', { kind: 'full' }, tested);
  department.act('item.oweRetest', { item, trigger: 'facepiece changed', on: '2024-06-01' });
  expect((await department.page(item, '2024-06-02')).owed.map(o => o.activity)).toEqual(['fit test']);
}

async function fitFactor(v: Vector) {
  const { facepiece, fit_factor } = inputsOf(v, {
    facepiece: z.enum(['full', 'half']),
    fit_factor: z.array(z.number()),
  });
  const department = await departmentWith();
  const passes = [];
  for (const factor of fit_factor) {
    const readings = { fitFactor: String(factor) };
    const tested = [{ activity: 'fit test', on: '2025-06-02', readings }];
    const trial = await department.trial('facepiece', { kind: facepiece }, tested, '2025-06-03');
    passes.push(!trial.rows.some(r => r.state === 'retest owed'));
  }
  expect(passes).toEqual(v.expected);
}

async function negativePressure(v: Vector) {
  const rule = (await rulesOf('facepiece')).find(r => r.id === 'facepiece.fit-test');
  expect(rule?.sources[0]?.note?.replace('-', '_')).toContain(`${v.expected}`);
}

async function repairers(v: Vector) {
  z.object({ who: z.array(z.string()).length(2) }).parse(v.expected);
  const rule = (await rulesOf('pack')).find(r => r.id === 'pack.flow-test');
  expect(rule?.who).toMatch(
    /The maker, or a technician trained by the maker: 29 CFR 1910\.134\(h\)\(4\)\(iii\)/,
  );
}

async function cleaning(v: Vector) {
  expect(v.expected).toEqual({ emergency: 'after each use', shared: 'before each new wearer' });
  const department = await departmentWith();
  for (const trigger of ['used', 'another wearer']) {
    const item = department.receive('facepiece', { kind: 'full' }, [
      { activity: 'fit test', on: '2025-06-02' },
    ]);
    department.act('item.oweRetest', { item, trigger, on: '2025-06-10' });
    const { due } = await department.page(item, '2025-06-11');
    expect(due.filter(r => r.state === 'retest owed').map(r => r.requirement)).toEqual([
      'facepiece.cleaning',
    ]);
  }
}

/** Maine's statute names PASS and warning devices; the federal inspection is the same record. */
async function passIsPart(v: Vector) {
  expect(v.expected).toEqual({ included: true });
  const maine = (await rulesOf('pack')).filter(r => r.where?.states?.includes('ME'));
  expect(maine.map(r => r.activity)).toEqual(['inspection', 'inspection']);
  for (const rule of maine) expect(`${rule.sources[0]?.note}`).toMatch(/PASS and warning devices/);
}
