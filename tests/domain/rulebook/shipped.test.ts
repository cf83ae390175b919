/** The shipped book, as data: whole, citable, and the same after it has been through JSON. */

import { describe, expect, it } from 'vitest';
import {
  CONDEMNATION,
  CONSTRUCTION_PERIODS,
  PERMIT_OFFERS,
  SPEC_PERIODS,
} from '../../../domain/rulebook/cylinder.ts';
import { DESTRUCTION } from '../../../domain/rulebook/duty.ts';
import { isConfirmed } from '../../../domain/rulebook/force.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { POLICIES } from '../../../domain/rulebook/policies.ts';
import { WARN_LIFE_DAYS, warnDaysFor } from '../../../domain/rulebook/warnings.ts';

describe('the shipped book', () => {
  it('is the same after it has been written as JSON and read back', () =>
    expect(JSON.parse(JSON.stringify(SHIPPED_REQUIREMENTS))).toEqual(SHIPPED_REQUIREMENTS));

  it('names each requirement once, after its family', () => {
    const ids = SHIPPED_REQUIREMENTS.map(r => r.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id, family } of SHIPPED_REQUIREMENTS) expect(id.split('.')[0]).toBe(family);
    expect(familyOf('aerial')).toBeUndefined();
  });

  it.each(SHIPPED_REQUIREMENTS.map(r => [r.id, r] as const))(
    '%s can be cited, done and settled',
    (_id, r) => {
      expect(r.sources.length).toBeGreaterThan(0);
      for (const source of r.sources) expect(source.document).not.toBe('');
      expect([r.binds, r.who].every(text => text.length > 5)).toBe(true);
      const activities = familyOf(r.family)?.activities.map(a => a.id) ?? [];
      expect(r.satisfiedBy.filter(a => !activities.includes(a))).toEqual([]);
      // What can be recorded settles it; an end of life and a printed date are settled by no record. Some readings can
      // be put right (a recharge), others not (a worn-out battery).
      const endsIt = r.activity === 'retirement';
      const settled =
        !endsIt && !['life', 'cylinder life', 'made before', 'printed date'].includes(r.clock.kind);
      if (r.clock.kind !== 'reading limit') expect(r.satisfiedBy.includes(r.activity)).toBe(settled);
      expect(r.countedOutcomes.includes('pass')).toBe(r.satisfiedBy.length > 0);
      const attributes = familyOf(r.family)?.attributes.map(a => a.key) ?? [];
      expect(r.appliesTo.filter(c => !attributes.includes(c.attribute))).toEqual([]);
      for (const other of r.coveredBy ?? []) {
        const covering = SHIPPED_REQUIREMENTS.find(o => o.id === other);
        expect(r.satisfiedBy).toContain(covering?.activity);
      }
    },
  );

  it('judges by nothing that was not seen: it is practice and says so, or waits for the department’s word', () => {
    for (const r of SHIPPED_REQUIREMENTS) {
      const isSeen = ['read', 'read second-hand'].includes(r.sources[0]?.confidence ?? '');
      // Common practice claims no law and no standard.
      const isOwnPractice =
        ['practice', 'manufacturer'].includes(r.force) && r.sources[0]?.confidence === 'common practice';
      // A date that is printed on the thing needs no figure of the book's.
      const isPrinted = r.clock.kind === 'printed date' && r.clock.plus === undefined;
      expect([r.id, isSeen || isOwnPractice || isPrinted || !isConfirmed(r)]).toEqual([r.id, true]);
    }
  });

  it('reads each figure of a limit off something that can be recorded, against a figure that can be on file', () => {
    for (const { id, family, clock } of SHIPPED_REQUIREMENTS) {
      if (clock.kind !== 'reading limit') continue;
      const known = familyOf(family);
      const readings = known?.activities.flatMap(a => a.readings.map(r => r.key)) ?? [];
      const attributes = known?.attributes.map(a => a.key) ?? [];
      expect([id, readings]).toEqual([id, expect.arrayContaining([clock.reading])]);
      for (const of of [clock.percentOf, clock.lostFrom].filter(k => k !== undefined))
        expect([id, attributes]).toEqual([id, expect.arrayContaining([of])]);
    }
  });

  it('confirms nothing by itself: what is from memory alone is not judged until the department confirms it', () => {
    for (const r of SHIPPED_REQUIREMENTS) expect(r.confirmed).toBeUndefined();
  });

  it('calls nothing law whose text was not seen, read or quoted', () => {
    for (const r of SHIPPED_REQUIREMENTS.filter(one => one.force === 'law'))
      expect(['read', 'read second-hand']).toContain(r.sources[0]?.confidence);
  });

  it('calls nothing a standard of which no source was at least recalled', () => {
    for (const r of SHIPPED_REQUIREMENTS.filter(one => one.force === 'standard'))
      expect(r.sources.some(s => s.confidence !== 'common practice')).toBe(true);
  });

  it('lets every happening and repair owe only what the family can do; condemnation and destruction are what nobody can record', () => {
    for (const family of FAMILIES) {
      const activities = [
        ...family.activities.map(a => a.id),
        ...(family.id === 'cylinder' ? [CONDEMNATION] : [DESTRUCTION]),
      ];
      for (const trigger of family.triggers) expect(activities).toContain(trigger.owes);
      for (const repair of family.repairs) for (const owes of repair.owes) expect(activities).toContain(owes);
      expect(family.repairs.find(r => r.kind === 'no fault found')?.owes).toEqual([]);
    }
  });

  it('leaves a requalification to a holder of a RIN: 49 CFR 180.205(b)', () => {
    const outside = familyOf('cylinder')
      ?.activities.filter(a => a.outside)
      .map(a => a.id);
    expect(outside).toEqual(['requalification', 'crack examination']);
  });
});

describe('the tables of cylinders', () => {
  it('name each specification and each construction once, with choices that a cylinder can have', () => {
    const specs = SPEC_PERIODS.map(s => s.spec);
    expect(new Set(specs).size).toBe(specs.length);
    const choices = familyOf('cylinder')?.attributes.find(a => a.key === 'construction')?.choices ?? [];
    const values = choices.map(c => c.value);
    for (const line of [...SPEC_PERIODS, ...CONSTRUCTION_PERIODS, ...PERMIT_OFFERS])
      expect(values).toContain(line.construction);
  });

  it('offer permits in the form in which they are marked, and say how far each was seen', () => {
    for (const offer of PERMIT_OFFERS) expect(offer.permit).toMatch(/^DOT-(SP|E) \d{4,5}$/);
    const seen = PERMIT_OFFERS.filter(o => o.confidence === 'read').map(o => o.permit);
    expect(seen).toEqual(['DOT-SP 10915', 'DOT-SP 14232']);
  });
});

describe('the policies', () => {
  it('offer one of their choices and say what the law says', () => {
    for (const policy of POLICIES) {
      expect(policy.choices.map(c => c.value)).toContain(policy.offer);
      expect(policy.law.length).toBeGreaterThan(20);
    }
  });
});

describe('a shipped warning (common practice, no source)', () => {
  it('is 2 days for up to a week, 10 for up to a month, 60 for up to a year and 180 for more', () => {
    expect([{ days: 1 }, { days: 7 }, { days: 8 }].map(warnDaysFor)).toEqual([2, 2, 10]);
    expect(
      [{ months: 1 }, { months: 2 }, { months: 12 }, { months: 13 }, { months: 60 }].map(warnDaysFor),
    ).toEqual([10, 60, 60, 180, 180]);
    expect(WARN_LIFE_DAYS).toBe(180);
  });
});
