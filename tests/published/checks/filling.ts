/** May it be filled, may it stay: 49 CFR 180.205(c) and (d), and the recharge point of 29 CFR 1910.134(h)(3)(iii). */
import { expect } from 'vitest';
import { z } from 'zod';
import { rechargeAt_psi } from '../../../domain/acceptance/cylinder.ts';
import type { Values } from '../../../domain/facts.ts';
import { fillVerdict } from '../../../domain/supply/fill-against.ts';
import { type Department, departmentWith } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';
import { cylinderEvery } from './bottle.ts';

export const FILLING_CHECKS: readonly Check[] = [
  { ids: /^DUE-00[345]$/, run: fillInOrAfterDueMonth },
  { ids: /^DUE-006$/, run: mayStayUntilEmptied },
  { ids: /^DUE-007$/, run: toppingOffIsFilling },
  { ids: /^DUE-008$/, run: pastDueAndLow },
  { ids: /^DUE-018$/, run: lifeOver },
  { ids: /^DUE-023$/, run: damaged },
  { ids: /^DUE-028$/, run: condemnedWithoutTest },
  { ids: /^DUE-031$/, run: markGoverns },
  { ids: /^SCBA-00[1-4]$/, run: rechargePoint },
  { ids: /^SCBA-005$/, run: rechargeBoundary },
];

const FILL_IN_DUE_MONTH = { end_of_due_month: 'to month end', before_due_month: 'not in due month' };
const TESTED = { last: z.string(), years: z.number() };

async function judged(attributes: Values, last: string, on: string, policies: Record<string, string> = {}) {
  const department = await departmentWith({ policies });
  const item = department.receive('cylinder', attributes, [{ activity: 'requalification', on: last }]);
  const { cylinder } = await department.page(item, on);
  if (!cylinder) throw new Error('A cylinder is judged.');
  await atTheFillStation(department, item, on, cylinder.fill.policy.allowed);
  return cylinder;
}

/** Whoever stands at the fill station is told the same; what the law forbids pulls the bottle, if it was filled. */
async function atTheFillStation(department: Department, item: string, on: string, allowed: boolean | null) {
  const { against } = await department.ask('fill.check', { item, on });
  // Its service pressure is no matter of these rules.
  const told = against.filter(a => a.what !== 'service pressure');
  expect(fillVerdict(told)).toBe(allowed === null ? 'not judged' : allowed ? 'fill' : 'do not fill');
  for (const { force, effect, pulls, clause } of told)
    if (force === 'law' && effect === 'do not fill')
      expect([pulls, clause]).toEqual([true, expect.stringMatching(/^49 CFR 180/)]);
}

async function fillInOrAfterDueMonth(v: Vector) {
  const { last, years, fill_date, policy } = inputsOf(v, {
    ...TESTED,
    fill_date: z.string(),
    policy: z.enum(['end_of_due_month', 'before_due_month', 'any']),
  });
  const { fill_allowed } = z.object({ fill_allowed: z.boolean() }).parse(v.expected);
  const choices = policy === 'any' ? Object.values(FILL_IN_DUE_MONTH) : [FILL_IN_DUE_MONTH[policy]];
  for (const choice of choices) {
    const { fill } = await judged(cylinderEvery(years), last, fill_date, { 'fill in due month': choice });
    expect(fill.policy.allowed).toBe(fill_allowed);
    if (policy === 'any') expect(fill.law.allowed).toBe(fill_allowed);
  }
}

/** The law lets it stay; whether it is pulled all the same is the department's choice, shown apart. */
async function mayStayUntilEmptied(v: Vector) {
  const { last, years, as_of } = inputsOf(v, { ...TESTED, as_of: z.string() });
  const { may_stay } = z.object({ may_stay: z.boolean() }).parse(v.expected);
  for (const [choice, allowed] of [
    ['pull', false],
    ['until emptied', may_stay],
  ] as const) {
    const { stayInService } = await judged(cylinderEvery(years), last, as_of, { 'charged past due': choice });
    expect(stayInService.law.allowed).toBe(may_stay);
    expect(stayInService.policy.allowed).toBe(allowed);
  }
}

async function toppingOffIsFilling(v: Vector) {
  const { last, years, as_of } = inputsOf(v, { ...TESTED, as_of: z.string(), action: z.literal('top_off') });
  const { allowed } = z.object({ allowed: z.boolean() }).parse(v.expected);
  const { fill, stayInService } = await judged(cylinderEvery(years), last, as_of, {
    'charged past due': 'until emptied',
  });
  expect([fill.law.allowed, fill.policy.allowed]).toEqual([allowed, allowed]);
  // Even where it may stay, the word that lets it stay says that it is not topped off.
  expect(stayInService.policy).toMatchObject({
    allowed: true,
    because: expect.stringMatching(/not topped off/),
  });
}

/** It needs air and may not be given any, so it comes off, and the shipped policy says so. */
async function pastDueAndLow(v: Vector) {
  const { last, years, as_of, service_psi, gauge_psi } = inputsOf(v, {
    ...TESTED,
    as_of: z.string(),
    service_psi: z.number(),
    gauge_psi: z.number(),
  });
  const attributes = { ...cylinderEvery(years), servicePressure_psi: service_psi };
  const page = await judged(attributes, last, as_of);
  const needsAir = gauge_psi <= Number(z.string().parse(page.rechargeAt_psi));
  const pastDue = /^Its requalification was due by/.test(page.fill.law.because);
  expect(needsAir && page.fill.law.allowed === false && pastDue).toBe(true);
  expect(v.expected).toEqual({ status: 'remove_from_service', reason: 'recharge_needed_but_past_due' });
  expect(page.stayInService.policy.allowed).toBe(false);
}

async function lifeOver(v: Vector) {
  const { manufactured, last, fill_date } = inputsOf(v, {
    ...TESTED,
    manufactured: z.string(),
    life_years: z.literal(15),
    fill_date: z.string(),
  });
  const { fill_allowed, reason } = z
    .object({ fill_allowed: z.boolean(), reason: z.literal('service_life_expired') })
    .parse(v.expected);
  const { fill } = await judged({ construction: 'carbon', made: manufactured }, last, fill_date);
  expect([fill.law.allowed, fill.policy.allowed]).toEqual([fill_allowed, fill_allowed]);
  const words = { service_life_expired: /^Its life ended .* never refilled, whatever its test mark/ };
  expect(fill.law.because).toMatch(words[reason]);
}

async function damaged(v: Vector) {
  const { last, years, as_of } = inputsOf(v, {
    ...TESTED,
    as_of: z.string(),
    event: z.literal('accident_damage'),
  });
  const { status } = z.object({ status: z.string() }).parse(v.expected);
  expect(status).toBe('out_of_service_until_requalified');
  const department = await departmentWith();
  const on = `${as_of}-15`;
  const item = department.receive('cylinder', cylinderEvery(years), [
    { activity: 'requalification', on: last },
  ]);
  const before = await department.page(item, on);
  expect([before.condition, before.cylinder?.fill.law.allowed]).toEqual(['serviceable', true]);
  await atTheFillStation(department, item, on, true);

  department.act('item.oweRetest', { item, trigger: 'damage or accident', on: `${as_of}-10` });
  const owed = await department.page(item, on);
  const row = owed.due.find(r => r.requirement === 'cylinder.requalification');
  expect([owed.condition, row?.state]).toEqual(['retest owed', 'retest owed']);
  const { fill, stayInService } = owed.cylinder ?? {};
  expect([fill?.law.allowed, stayInService?.law.allowed, stayInService?.policy.allowed]).toEqual([
    false,
    false,
    false,
  ]);
  expect(department.refusal('item.return', { item })).toBe('retest owed');
  await atTheFillStation(department, item, on, false);

  const passed = { item, activity: 'requalification', outcome: 'pass', rin: 'A123', on: `${as_of}-12` };
  department.act('record.add', passed);
  const after = await department.page(item, on);
  expect([after.condition, after.cylinder?.fill.law.allowed]).toEqual(['serviceable', true]);
}

/** An owner who knows that its life is over condemns it: no requalification is asked for first. */
async function condemnedWithoutTest(v: Vector) {
  const { requalification_needed_first } = z
    .object({ result: z.literal('condemn'), requalification_needed_first: z.boolean() })
    .parse(v.expected);
  const department = await departmentWith();
  const item = department.receive('cylinder', { construction: 'carbon', made: '2009-03' }, [
    { activity: 'requalification', on: '2014-02' },
  ]);
  const on = '2025-01-01';
  const before = await department.page(item, on);
  expect(before.due.map(r => r.state).sort()).toEqual(['life ended', 'overdue']);
  const refused = department.refusal('item.retire', { item, reason: 'Its life has ended' });
  expect(refused !== null).toBe(requalification_needed_first);
  const after = await department.page(item, on);
  expect([after.condition, after.due]).toEqual(['retired', []]);
}

/** No paper of the test is on file: all that is recorded is what its mark says, the RIN, the month and the year. */
async function markGoverns(v: Vector) {
  const { last, years, as_of } = inputsOf(v, {
    ...TESTED,
    as_of: z.string(),
    records_available: z.literal(false),
  });
  const { fill_allowed } = z.object({ fill_allowed: z.boolean() }).parse(v.expected);
  const { fill } = await judged(cylinderEvery(years), last, `${as_of}-31`);
  expect([fill.law.allowed, fill.policy.allowed]).toEqual([fill_allowed, fill_allowed]);
}

async function rechargePoint(v: Vector) {
  const { rated_psi } = inputsOf(v, { rated_psi: z.number() });
  const { recharge_at_or_below_psi } = z.object({ recharge_at_or_below_psi: z.number() }).parse(v.expected);
  expect(rechargeAt_psi(rated_psi)).toBe(String(recharge_at_or_below_psi));
  const attributes = { ...cylinderEvery(5), servicePressure_psi: rated_psi };
  expect((await judged(attributes, '2024-01', '2024-02-01')).rechargeAt_psi).toBe(
    String(recharge_at_or_below_psi),
  );
}

function rechargeBoundary(v: Vector) {
  const { rated_psi, gauge_psi } = inputsOf(v, { rated_psi: z.number(), gauge_psi: z.array(z.number()) });
  const at = Number(rechargeAt_psi(rated_psi));
  expect(gauge_psi.map(gauge => (gauge <= at ? 'recharge' : 'ready'))).toEqual(v.expected);
}
