/**
 * Rope, harnesses, hardware and fall protection. NFPA 1858 (2018) A.6.2.1.3(1), A.6.1.8.1 and A.10.1.2 as a public
 * article cites them; 29 CFR 1910.140(c)(18) as quoted; WAC 296-880-10005(2)(a), 12 NYCRR 800.7(d)(2) and Mich. Admin.
 * Code R 408.17463, read; the rest as said.
 */
import { describe, expect, it } from 'vitest';
import { rope } from '../../../domain/rulebook/rope.ts';
import { dueOn, shipped, state, thing } from '../notation.ts';

describe('a life safety rope', () => {
  const inspected = '2025-06-02  passed  inspection';
  const used = (rate: string) => `rope R-1: kind life safety, useRate ${rate}, made 2016-03-01\n${inspected}`;

  it('is inspected as often as it is used', () => {
    expect(dueOn(used('weekly'), 'rope.inspection-weekly-use')).toBe('2025-06-09');
    expect(dueOn(used('monthly'), 'rope.inspection')).toBe('2025-07-02');
    expect(dueOn(used('seldom'), 'rope.inspection-seldom-used')).toBe('2026-06-02');
  });

  it('is under one interval at a time', () => {
    const all = ['rope.inspection-weekly-use', 'rope.inspection', 'rope.inspection-seldom-used'];
    for (const rate of ['weekly', 'monthly', 'seldom'])
      expect(all.filter(r => dueOn(used(rate), r) !== undefined)).toHaveLength(1);
    // How often it is used is not known: the middle one, and what kind it is not: a life may hang on it.
    expect(all.filter(r => dueOn(`rope R-2: length_ft 200\n${inspected}`, r) !== undefined)).toEqual([
      'rope.inspection',
    ]);
  });

  it('ends ten years from manufacture, whatever it passes', () => {
    expect(state(used('weekly'), 'rope.end-of-life', '2026-02-28')).toBe('due soon');
    expect(state(used('weekly'), 'rope.end-of-life', '2026-03-01')).toBe('life ended');
  });

  it('ends earlier where the maker prints an earlier day', () =>
    expect(dueOn('rope R-3: kind life safety, made 2020-01, retireBy 2027-12', 'rope.retire-by')).toBe(
      '2027-12-31',
    ));
});

describe('utility rope', () => {
  it('is looked at once a year and has no end of life in the book', () => {
    const utility = 'rope U-1: kind utility, made 2005-01\n2025-06-02  passed  inspection';
    expect(dueOn(utility, 'rope.utility-inspection')).toBe('2026-06-02');
    expect(thing(utility).due.map(r => r.requirement)).not.toContain('rope.end-of-life');
  });
});

describe('an escape rope that was used in an escape (12 NYCRR 800.7(d)(2): single use)', () => {
  it('owes what nobody can record', () => {
    const trigger = rope.triggers.find(t => t.id === 'escape');
    expect(rope.activities.map(a => a.id)).not.toContain(trigger?.owes);
    const escaped = `rope E-1: kind escape\n2025-06-01  owes  ${trigger?.owes}: escape`;
    expect(thing(`${escaped}\n2025-06-02  passed  inspection`).condition).toBe('retest owed');
  });
});

describe('rope that took an impact load, flame or chemicals (WAC 296-305-02019 as a policy restates it)', () => {
  it('is destroyed; a doubt is settled by an inspection', () => {
    const owes = (id: string) => rope.triggers.find(t => t.id === id)?.owes;
    expect([owes('impact, flame or chemicals'), owes('doubt')]).toEqual(['destruction', 'inspection']);
  });
});

describe('rope of natural fiber', () => {
  it('is opened once a year: law in Michigan, R 408.17463(2)(a)(ii)', () => {
    const manila = 'rope U-2: kind utility, fiber natural\n2025-06-02  passed  internal inspection';
    expect(dueOn(manila, 'rope.internal-inspection')).toBe('2026-06-02');
    expect(dueOn('rope U-3: kind utility, fiber synthetic', 'rope.internal-inspection')).toBeUndefined();
    expect(shipped('rope.internal-inspection').bindings?.[0]?.reach).toEqual({ states: ['MI'] });
  });
});

describe('fall protection', () => {
  it('is inspected before use on each shift by law: 29 CFR 1910.140(c)(18), WAC 296-880-10005(2)(a)', () => {
    const law = shipped('fall-protection.inspection-before-use');
    expect([law.force, law.clock.kind, law.late]).toEqual(['law', 'after happenings', 'blocks']);
    expect(law.bindings?.map(b => b.cite)).toEqual(['29 CFR 1910.140(c)(18)', 'WAC 296-880-10005(2)(a)']);
  });

  it('that arrested a fall stays out until a competent person has passed it; the wearer’s look is not enough', () => {
    const fallen =
      'fall-protection F-1: kind lanyard\n2025-06-01  owes  competent inspection: fall or impact load';
    expect(thing(`${fallen}\n2025-06-02  passed  inspection before use`).condition).toBe('retest owed');
    expect(thing(`${fallen}\n2025-06-02  passed  competent inspection`).condition).toBe('serviceable');
  });

  it('that is new is inspected by a competent person before it is used', () =>
    expect(
      state(
        'fall-protection F-2: inService 2025-06-01',
        'fall-protection.competent-inspection',
        '2025-06-02',
      ),
    ).toBe('never done'));
});

describe('harnesses and hardware', () => {
  it('have a yearly inspection that is practice, and say so first', () => {
    for (const id of ['harness.inspection', 'hardware.inspection']) {
      const { clock, force, sources } = shipped(id);
      expect(clock).toMatchObject({ every: { months: 12 } });
      expect([force, sources[0]?.confidence]).toEqual(['practice', 'common practice']);
    }
  });

  it('differ in their end: ten years of webbing from memory, none of metal', () => {
    expect(shipped('harness.end-of-life').sources.map(s => s.confidence)).toEqual(['memory']);
    expect(dueOn('hardware H-1: kind carabiner, made 1999-01', 'hardware.retire-by')).toBeUndefined();
  });
});
