/**
 * A requirement in words. What the words must hold is said beside each check: the clause where one is behind it, else
 * this program's own rule.
 */
import { describe, expect, it } from 'vitest';
import {
  attributesRead,
  clockWords,
  countsFromWords,
  onTimeWords,
  periodLines,
} from '../../../domain/rulebook/clock-words.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import {
  concernsWords,
  leastSure,
  narrowerWords,
  settledWords,
  warnWords,
} from '../../../domain/rulebook/words.ts';
import { shipped } from '../notation.ts';

const clock = (id: string) => clockWords(shipped(id), familyOf(shipped(id).family));
const concerns = (id: string) => concernsWords(shipped(id), familyOf(shipped(id).family));

describe('the clock in words', () => {
  it('says how often (NFPA 1962 4.8; NFPA 1932 6.1.2: monthly)', () => {
    expect(clock('hose.service-test')).toBe('Every 12 months');
    expect(clock('ladder.inspection')).toBe('Every month');
    expect(clock('pack.operational-check')).toBe('Every 7 days');
  });

  it('says the first of new hose and the first of a ladder (NFPA 1962 4.1.3; NFPA 1932 7.1.6)', () => {
    expect(countsFromWords(shipped('hose.service-test'))).toEqual([
      'Counts from the last service test that passed.',
      'The first is due at the later of 12 months after manufacture and the day it was placed in service.',
    ]);
    expect(countsFromWords(shipped('ladder.service-test'))[1]).toBe(
      'The first is due before use: by the day it is placed in service.',
    );
  });

  it('tells spans of a cylinder in years (49 CFR 180.209(a) Table 1; 180.209(b): the star mark, ten years)', () => {
    const told = periodLines(shipped('cylinder.requalification').clock);
    const line = (span: string) => told?.bySpec.find(l => l.span === span)?.holdsFor;
    expect(line('3 years')).toEqual(['3HT']);
    expect(line('5 years')).toEqual(expect.arrayContaining(['3A', '3AA', '3AL']));
    expect(line('10 years')).toEqual(
      expect.arrayContaining(['3A (star mark)', '3AA (star mark)', '8', '8AL']),
    );
    expect(line('Not requalified')).toEqual(['3E', '4L']);
    expect(clock('cylinder.requalification')).toBe('Every 3, 5, 10 or 12 years, by specification or permit');
  });

  it('tells lives: 3HT 24 years (49 CFR 180.205(i)(1)(v)(C)), composites fifteen (read second-hand)', () => {
    const told = periodLines(shipped('cylinder.end-of-life').clock);
    expect(told?.bySpec.find(l => l.span === '24 years')?.holdsFor).toEqual(['3HT']);
    expect(told?.byConstruction.find(l => l.span === '15 years')?.holdsFor).toContain('carbon');
    expect(clock('cylinder.end-of-life')).toBe(
      'Life of 15 or 24 years from manufacture, by specification or permit',
    );
  });

  it('names the day of an end by a date (NFPA 1962 4.8.1: before July 1987)', () =>
    expect(clock('hose.end-of-life')).toBe('Ended if made before 1 Jul 1987'));
});

describe('when it is on time', () => {
  it('runs a cylinder through its month, or only before it (49 CFR 180.205(c); the choice is a setting)', () => {
    const requalification = shipped('cylinder.requalification');
    expect(onTimeWords(requalification)).toContain('last day of the month');
    expect(onTimeWords({ ...requalification, dueAt: 'month start' })).toContain('before the month');
  });

  it('says nothing of months where it counts in days (own rule)', () =>
    expect(onTimeWords({ ...shipped('pack.operational-check'), dueAt: 'month end' })).toContain('due day'));

  it('warns from its days before, or never (own rule)', () => {
    expect(warnWords({ ...shipped('hose.service-test'), warnDays: 1 })).toContain('from 1 day before');
    expect(warnWords({ ...shipped('hose.service-test'), warnDays: 0 })).toBe('Never shown as due soon.');
  });
});

describe('whom it concerns and what settles it (own words)', () => {
  it('names conditions by the titles of the form', () => {
    expect(concerns('hose.service-test')).toBe('Hose, except where use is occupant use or hard suction.');
    expect(concerns('hose.occupant-service-test')).toBe('Hose, where use is occupant use.');
    expect(concerns('cylinder.crack-examination')).toBe(
      'Cylinders, where liner or shell alloy is 6351-T6 or 6351.',
    );
    expect(concerns('ladder.heat-label')).toBe(
      'Ground ladders, where the date of “heat label expires” is on file.',
    );
    expect(concerns('pack.flow-test')).toBe('All SCBA packs.');
  });

  it('tells two of one title apart, and says nothing where the title does', () => {
    const narrower = (id: string) => narrowerWords(shipped(id), familyOf(shipped(id).family));
    expect(narrower('hose.service-test')).toBe(', not occupant use or hard suction');
    expect(narrower('hose.occupant-service-test')).toBe(', occupant use');
    expect(narrower('apparatus.air-sample')).toBe('');
    expect(narrower('cylinder.crack-examination')).toBe('');
    expect(narrower('ladder.heat-label')).toBe('');
  });

  it('says what settles it, what else does, and that nothing settles an end of life', () => {
    const titleOf = (id: string) => SHIPPED_REQUIREMENTS.find(r => r.id === id)?.title;
    expect(settledWords(shipped('hose.inspection'), titleOf)).toEqual([
      'An inspection, service test or vacuum test that was run, passed or failed.',
      'While the service test or dry vacuum test is due no later it settles this too, and this is not listed beside it.',
    ]);
    expect(settledWords(shipped('cylinder.end-of-life'))[0]).toMatch(/^No record settles it/);
  });

  it('shows how the least sure of its sources was seen', () => {
    expect(leastSure(shipped('hose.inspection'))).toBe('read second-hand');
    expect(leastSure(shipped('ladder.service-test'))).toBe('read');
    expect(leastSure({ sources: [] })).toBe('read');
  });
});

describe('every shipped requirement', () => {
  it.each(SHIPPED_REQUIREMENTS.map(r => [r.id, r] as const))('%s has whole sentences', (_id, r) => {
    const family = familyOf(r.family);
    const said = [
      ...countsFromWords(r),
      onTimeWords(r),
      warnWords(r),
      concernsWords(r, family),
      ...settledWords(r),
    ];
    for (const sentence of said) expect(sentence).toMatch(/^[A-Z].+[^ ,]\.$/);
    expect([...said, clockWords(r, family)].join(' ')).not.toMatch(/undefined|null|NaN/);
  });

  it('reads only attributes its family has, and those its date moves by', () => {
    for (const r of SHIPPED_REQUIREMENTS) {
      const keys = FAMILIES.find(f => f.id === r.family)?.attributes.map(a => a.key) ?? [];
      expect(attributesRead(r).filter(k => !keys.includes(k))).toEqual([]);
    }
    expect(attributesRead(shipped('cylinder.requalification'))).toEqual(
      expect.arrayContaining(['spec', 'construction', 'made', 'star', 'gas']),
    );
    expect(attributesRead(shipped('hose.service-test'))).toEqual(['use', 'made', 'inService']);
  });
});
