/** SCBA packs: monthly by OSHA, yearly flow test, weekly in Maine where members are full-time. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import { type Decisions, departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const PACK_CHECKS: readonly Check[] = [
  { ids: /^SCBA-00[67]$/, run: monthly },
  { ids: /^SCBA-009$/, run: weeklyUserCheck },
  { ids: /^SCBA-01[01]$/, run: flowTest },
  { ids: /^SCBA-012$/, run: maineBoth },
  { ids: /^gear-scba-/, run: maineOne },
];

async function nextOf(requirement: string, activity: string, on: string, decisions: Decisions = {}) {
  const department = await departmentWith(decisions);
  const trial = await department.trial('pack', { inService: '2020-01-01' }, [{ activity, on }], on);
  return rowOf(trial, requirement)?.dueOn;
}

/** Before and after each use is a duty of use, not of the calendar; only the month is counted here. */
async function monthly(v: Vector) {
  const interval = z.union([z.string(), z.object({ max_interval: z.string() })]).parse(v.expected);
  expect(typeof interval === 'string' ? interval : interval.max_interval).toBe('1 month');
  for (const [last, next] of [
    ['2024-03-15', '2024-04-15'],
    ['2024-01-31', '2024-02-29'],
    ['2023-01-31', '2023-02-28'],
    ['2023-12-31', '2024-01-31'],
  ] as const)
    expect(await nextOf('pack.inspection', 'inspection', last)).toBe(next);
}

async function weeklyUserCheck(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  expect(await nextOf('pack.operational-check', 'operational check', last)).toBe(v.expected);
}

async function flowTest(v: Vector) {
  const { last } = inputsOf(v, { last: z.string() });
  expect(await nextOf('pack.flow-test', 'flow test', last)).toBe(v.expected);
  // And before it is first placed in service: the first one is due on that day itself.
  const department = await departmentWith();
  const first = await department.trial('pack', { inService: last }, [], last);
  expect(rowOf(first, 'pack.flow-test')?.dueOn).toBe(last);
}

/** The clause of the statute that the department's kind is held to, beside the federal month. */
async function maine(kind: 'full-time' | 'volunteer'): Promise<string> {
  const department = await departmentWith({
    profile: { state: 'ME', kind: kind === 'full-time' ? 'career' : 'volunteer' },
  });
  const last = '2025-01-31';
  const history = [{ activity: 'inspection', on: last }];
  const trial = await department.trial('pack', { inService: '2020-01-01' }, history, last);
  const clause = `pack.inspection-maine-${kind}`;
  const { rules } = await department.ask('rulebook.list', { family: 'pack' });
  const binding = rules.find(r => r.requirement.id === clause)?.requirement.bindings?.[0];
  expect(binding).toEqual({ reach: { states: ['ME'] }, cite: '26 M.R.S. 2105(1)' });
  // Whichever of the two duties is listed, the pack is due by the stricter.
  const next = ['pack.inspection', clause].flatMap(id => rowOf(trial, id)?.dueOn ?? []).sort()[0];
  const from = Temporal.PlainDate.from(last);
  if (next === from.add({ days: 7 }).toString()) return '7 days';
  return next === from.add({ months: 1 }).toString() ? '1 month' : `until ${next}`;
}

async function maineBoth(v: Vector) {
  const { dept } = inputsOf(v, { state: z.literal('ME'), dept: z.array(z.enum(['full-time', 'volunteer'])) });
  const intervals = [];
  for (const one of dept) intervals.push(await maine(one));
  expect(intervals).toEqual(v.expected);
}

async function maineOne(v: Vector) {
  const { department } = inputsOf(v, { department: z.enum(['volunteer_or_call', 'full_time']) });
  const words: Record<string, string> = { '7 days': 'weekly', '1 month': 'monthly' };
  expect(words[await maine(department === 'full_time' ? 'full-time' : 'volunteer')]).toBe(v.expected);
}
