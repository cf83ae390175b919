/**
 * Portable extinguishers. 29 CFR 1910.157(e) and (f) with Table L-1, read. NFPA 10 tables as printed by service firms,
 * read second-hand. Nonrechargeable ones: California Title 19 575.1(b) and Utah R650-217-6, read. The rest: common
 * practice.
 */
import { describe, expect, it } from 'vitest';
import { TYPES } from '../../../domain/rulebook/extinguisher-types.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { dueOn, shipped, state, thing, why } from '../notation.ts';

const DRY = 'extinguisher X-1: type dry chemical stored pressure, made 2018-05';
const SIX = 'extinguisher.six-year-maintenance';
const TWELVE = 'extinguisher.hydrostatic-twelve-year';
const MONTHLY = 'extinguisher.inspection';
const YEARLY = 'extinguisher.annual-maintenance';

describe('the clocks of a dry chemical extinguisher, 1910.157(e) and (f)', () => {
  it('start at manufacture: six years to be emptied, twelve to be tested', () =>
    expect([dueOn(DRY, SIX), dueOn(DRY, TWELVE)]).toEqual(['2024-05-31', '2030-05-31']));

  it('restart each other one way: a recharge starts the six years, not the twelve', () => {
    const recharged = `${DRY}\n2020-09-14  passed  recharge`;
    expect([dueOn(recharged, SIX), dueOn(recharged, TWELVE)]).toEqual(['2026-09-14', '2030-05-31']);
    const tested = `${DRY}\n2029-11-03  passed  hydrostatic test`;
    expect([dueOn(tested, SIX), dueOn(tested, TWELVE)]).toEqual(['2035-11-03', '2041-11-03']);
  });

  it('are restarted by nothing that failed', () => {
    const failed = `${DRY}\n2024-02-01  failed  hydrostatic test`;
    expect(dueOn(failed, SIX)).toBe('2024-05-31');
    expect(state(failed, TWELVE, '2024-02-02')).toBe('retest owed');
  });

  it('by the month and the year: the year’s maintenance is that month’s inspection, a look is no maintenance', () => {
    const maintained = `${DRY}\n2024-06-10  passed  maintenance`;
    expect([dueOn(maintained, MONTHLY), dueOn(maintained, YEARLY)]).toEqual(['2024-07-10', '2025-06-10']);
    const looked = `${maintained}\n2024-07-08  passed  inspection`;
    expect([dueOn(looked, MONTHLY), dueOn(looked, YEARLY)]).toEqual(['2024-08-08', '2025-06-10']);
  });

  it('that reached twelve years blocks; a missed look only limits', () =>
    expect([shipped(TWELVE).late, shipped(MONTHLY).late]).toEqual(['blocks', 'limits']));
});

describe('every type', () => {
  const shell = (type: string) =>
    thing(`extinguisher X-2: type ${type}, made 2015-01`).due.map(r => r.requirement);

  it('owes at most one hydrostatic test and one internal examination', () => {
    for (const { value } of TYPES) {
      const rows = shell(value);
      expect([value, rows.filter(r => r.includes('hydrostatic')).length <= 1]).toEqual([value, true]);
      expect([value, rows.filter(r => /internal|six-year/.test(r)).length <= 1]).toEqual([value, true]);
    }
  });

  it('has an end: tested, thrown away, or a pump tank, which holds no pressure', () => {
    const without = TYPES.map(t => t.value).filter(
      type => !shell(type).some(r => /hydrostatic|end-of-life|not-permitted/.test(r)),
    );
    expect(without).toEqual(['pump tank']);
  });

  it('is in the choices of the form', () =>
    expect(
      familyOf('extinguisher')
        ?.attributes.find(a => a.key === 'type')
        ?.choices?.map(c => c.value),
    ).toEqual(TYPES.map(t => t.value)));

  it('that is not known is said to be not judged until its label is read', () => {
    expect(state('extinguisher X-3', 'extinguisher.hydrostatic-by-label', '2025-01-01')).toBe('not judged');
    expect(
      dueOn(
        'extinguisher X-3: testDue 2027-04',
        'extinguisher.hydrostatic-by-label',
        undefined,
        '2025-01-01',
      ),
    ).toBe('2027-04-30');
    expect(dueOn(DRY, 'extinguisher.hydrostatic-by-label')).toBeUndefined();
  });
});

describe('a nonrechargeable extinguisher', () => {
  const one = 'extinguisher X-4: type nonrechargeable, made 2013-02';
  it('owes no six-year maintenance and is out at twelve years: law in California and Utah', () => {
    expect(dueOn(one, SIX)).toBeUndefined();
    expect(state(one, 'extinguisher.end-of-life', '2025-02-28')).not.toBe('life ended');
    expect(state(one, 'extinguisher.end-of-life', '2025-03-01')).toBe('life ended');
    expect(shipped('extinguisher.end-of-life').bindings?.map(b => b.reach)).toEqual([
      { states: ['CA'] },
      { states: ['UT'] },
    ]);
  });
});

describe('a carbon dioxide extinguisher', () => {
  const co2 = 'extinguisher X-5: type CO2, charge_lb 20, fullWeight_lb 50';
  const LOST = 'extinguisher.agent-lost';
  const weighed = (lb: string) => `${co2}\n2025-06-02  passed  weighing: weight_lb ${lb}`;

  it('is recharged when more than a tenth of the agent is gone, not of the whole weight', () => {
    expect([weighed('48.0'), weighed('47.9')].map(x => state(x, LOST, '2025-06-03'))).toEqual([
      undefined,
      'retest owed',
    ]);
    expect(why(weighed('47.9'), LOST, '2025-06-03').paragraph).toMatch(/50 less 47\.9 is 2\.1/);
  });

  it('without its full weight on file is not judged once it was weighed', () =>
    expect(
      state('extinguisher X-6: type CO2\n2025-06-02  passed  weighing: weight_lb 47.9', LOST, '2025-06-03'),
    ).toBe('not judged'));

  it('has its hose tested for conductivity each year, and with a shut-off nozzle for pressure every five', () => {
    expect(dueOn(`${co2}\n2024-07-01  passed  conductivity test`, 'extinguisher.hose-conductivity')).toBe(
      '2025-07-01',
    );
    const hosed = 'extinguisher X-7: type CO2, hose shut-off, made 2021-03';
    expect(dueOn(hosed, 'extinguisher.hose-test-five-year')).toBe('2026-03-31');
  });
});

describe('what happens to an extinguisher', () => {
  const triggers = familyOf('extinguisher')?.triggers ?? [];
  it('burned, welded, pitted or with damaged threads it is never tested again: 1910.157(f)(2)', () => {
    const gone = triggers.filter(t => t.owes === 'destruction').map(t => t.id);
    expect(gone).toEqual(expect.arrayContaining(['burned', 'shell repaired', 'pitting', 'threads damaged']));
  });

  it('used, it is recharged; corroded or struck, it is tested early: 1910.157(f)(4)', () => {
    const owes = Object.fromEntries(triggers.map(t => [t.id, t.owes]));
    expect([owes.used, owes['corrosion or mechanical injury']]).toEqual(['recharge', 'hydrostatic test']);
    const used = `${DRY}\n2025-06-10  owes  recharge: used`;
    expect(thing(used).condition).toBe('retest owed');
    expect(thing(`${used}\n2025-06-11  passed  recharge`).condition).toBe('serviceable');
  });
});
