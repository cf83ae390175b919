/** An inspection that a service test includes is listed only where it comes first. This program's own rule. */
import { describe, expect, it } from 'vitest';
import { dueOn, state, thing } from '../notation.ts';

describe('an inspection that a test includes', () => {
  it('is not listed beside a service test that is due no later', () => {
    const hose = 'hose H-1: use attack, made 2020-01\n2025-06-14  passed  service test';
    expect(thing(hose).due.map(r => r.requirement)).toEqual(['hose.service-test']);
    expect(dueOn(`${hose}\n2025-09-01  passed  inspection`, 'hose.inspection')).toBeUndefined();
  });

  it('is listed where the service test is due later, and a failed test was an inspection all the same', () => {
    const hose = 'hose B-2: use occupant, made 2020-06-01\n2025-05-20  passed  service test';
    expect(dueOn(hose, 'hose.inspection')).toBe('2026-05-20');
    expect(dueOn(`${hose}\n2026-02-03  passed  inspection`, 'hose.inspection')).toBe('2027-02-03');
    const failed = thing(`${hose}\n2026-02-03  failed  service test`);
    expect(failed.due.map(r => [r.requirement, r.basis])).toEqual([['hose.occupant-service-test', 'retest']]);
  });

  it('that itself failed is owed and is never covered', () => {
    const hose =
      'hose H-1: use attack, made 2020-01\n2025-06-14  passed  service test\n2025-07-01  failed  inspection';
    expect(state(hose, 'hose.inspection', '2025-07-02')).toBe('retest owed');
    expect(state(hose, 'hose.service-test', '2025-07-02')).toBe('current');
  });

  it('of a pack stands for the weekly check; the weekly check does not stand for it', () => {
    const pack =
      'pack P-1: inService 2020-01-01\n2026-03-02  passed  inspection\n2026-03-09  passed  operational check';
    expect(dueOn(pack, 'pack.operational-check')).toBe('2026-03-16');
    expect(dueOn(pack, 'pack.inspection')).toBe('2026-04-02');
  });
});
