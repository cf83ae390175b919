import { describe, expect, it } from 'vitest';
import type { When } from '../../../domain/calendar/when.ts';
import type { Fact } from '../../../domain/facts.ts';
import { fillOf } from '../../../domain/supply/fill.ts';

let clock = 0;
const fact = (effective: string, kind: string, values: object): Fact =>
  ({
    id: `${++clock}`,
    effective: effective as When,
    clock,
    device: 'a',
    n: 0,
    recordedAt: 0,
    kind,
    values,
  }) as unknown as Fact;
const gauge = (on: string, gauge_psi: number, outcome = 'pass') =>
  fact(on, 'record', { activity: 'inspection', outcome, readings: { gauge_psi } });
const put = (on: string, place: string) => fact(on, 'place', { place, how: 'sight' });
const filled = (on: string) => fact(on, 'record', { activity: 'recharge', outcome: 'pass' });
const fill = (...facts: Fact[]) => fillOf(facts, 4500, place => place).fill;

describe('a cylinder', () => {
  it('is full or not by the last word on it: its gauge, a fill, the rack it was put in', () => {
    expect(fill(gauge('2026-01-01', 4400))).toBe('full');
    expect(fill(gauge('2026-01-01', 4400), put('2026-01-02', 'empty rack'))).toBe('to be filled');
    expect(fill(put('2026-01-02', 'empty rack'), filled('2026-01-03'))).toBe('full');
    expect(fill(filled('2026-01-03'), put('2026-01-04', 'bottle rack'))).toBe('full');
    expect(fill(gauge('2026-01-05', 2000), put('2026-01-04', 'full rack'))).toBe('to be filled');
  });

  it('is recharged when its pressure has fallen to 90 percent: 29 CFR 1910.134(h)(3)(iii)', () => {
    expect([fill(gauge('2026-01-01', 4050)), fill(gauge('2026-01-01', 4051))]).toEqual([
      'to be filled',
      'full',
    ]);
  });

  it('that was filled to less is not full: a fill says what the gauge read', () => {
    const filledTo = (gauge_psi: number) =>
      fact('2026-01-03', 'record', { activity: 'recharge', outcome: 'pass', readings: { gauge_psi } });
    expect([fill(filledTo(4500)), fill(filledTo(3000))]).toEqual(['full', 'to be filled']);
    expect(fillOf([filledTo(3000)], null, p => p).fill).toBe('full');
  });

  it('of which nobody said is not known, nor is one whose rated pressure is missing', () => {
    expect(fill(put('2026-01-04', 'bottle rack'))).toBe('not known');
    expect(fillOf([gauge('2026-01-01', 4400)], null, p => p).fill).toBe('not known');
  });
});
