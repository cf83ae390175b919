/** Turnout gear: NFPA 1851 as public guidelines and articles restate it; WAC 296-305-02002(5), which was read. */
import { describe, expect, it } from 'vitest';
import { dueOn, shipped, state, thing } from '../notation.ts';

describe('a coat in service since May 2023', () => {
  const coat = `
    turnout T-1: element coat, ensemble structural, made 2023-02-14, inService 2023-05-01
    2025-02-10  passed  advanced inspection
    2025-09-01  passed  advanced cleaning`;

  it('is due for an advanced inspection after 12 months (municipal guideline restating NFPA 1851)', () => {
    expect(dueOn(coat, 'turnout.advanced-inspection')).toBe('2026-02-10');
    expect(state(coat, 'turnout.advanced-inspection', '2026-02-11')).toBe('overdue');
  });

  it('is due for advanced cleaning after six months, and a specialized one counts too', () => {
    expect(dueOn(coat, 'turnout.advanced-cleaning')).toBe('2026-03-01');
    expect(dueOn(`${coat}\n2025-10-05  passed  specialized cleaning`, 'turnout.advanced-cleaning')).toBe(
      '2026-04-05',
    );
  });

  it('is due for a cleaning that has nothing to do with an inspection', () =>
    expect(dueOn(`${coat}\n2025-10-05  passed  advanced inspection`, 'turnout.advanced-cleaning')).toBe(
      '2026-03-01',
    ));

  it('ends ten years from manufacture, not from issue: out on the day it reaches ten years', () => {
    expect(state(coat, 'turnout.end-of-life', '2033-02-13')).toBe('due soon');
    expect(state(coat, 'turnout.end-of-life', '2033-02-14')).toBe('life ended');
  });

  it('ends so for every element', () => {
    for (const element of ['trousers', 'helmet', 'hood', 'gloves', 'boots'])
      expect(
        state(`turnout T-2: element ${element}, made 2015-03-01`, 'turnout.end-of-life', '2025-03-02'),
      ).toBe('life ended');
  });

  it('has no fixed end of its shell unless it is of a proximity ensemble', () =>
    expect(dueOn(coat, 'turnout.shell-end-of-life')).toBeUndefined());
});

describe('gear after a fire', () => {
  const coat = 'turnout T-1: element coat, inService 2023-05-01';

  it('is looked over by its wearer before it is ready again', () => {
    const worn = `${coat}\n2025-06-01  owes  routine inspection: used`;
    expect(thing(worn).condition).toBe('retest owed');
    expect(state(worn, 'turnout.routine-inspection', '2025-06-02')).toBe('retest owed');
    expect(thing(`${worn}\n2025-06-01  passed  routine inspection`).condition).toBe('serviceable');
  });

  it('that is contaminated is cleaned; an inspection settles nothing', () => {
    const soiled = `${coat}\n2025-06-01  owes  advanced cleaning: contaminated`;
    expect(thing(`${soiled}\n2025-06-02  passed  advanced inspection`).owed.map(o => o.activity)).toEqual([
      'advanced cleaning',
    ]);
  });
});

describe('the liner', () => {
  it('is the concern of what has one', () => {
    const [lined] = shipped('turnout.liner-inspection').appliesTo;
    expect(lined).toEqual({ attribute: 'element', in: ['coat', 'trousers', 'one-piece'] });
  });

  it('is from memory alone, and says so', () =>
    expect(shipped('turnout.liner-inspection').sources.map(s => s.confidence)).toEqual(['memory']));
});

describe('Texas (37 TAC 435.1(a)(3), read)', () => {
  it('makes the standard law for regulated departments', () => {
    for (const id of ['advanced-inspection', 'advanced-cleaning', 'end-of-life']) {
      const { force, bindings } = shipped(`turnout.${id}`);
      expect([force, bindings]).toEqual([
        'standard',
        [{ reach: { states: ['TX'] }, cite: '37 TAC 435.1(a)(3)' }],
      ]);
    }
  });
});

describe('Washington State (WAC 296-305-02002(5), read)', () => {
  const semiannual = shipped('turnout.semiannual-inspection');
  it('asks for an inspection every six months, as law, there alone', () => {
    expect(semiannual.clock).toMatchObject({ every: { months: 6 } });
    expect([semiannual.force, semiannual.where]).toEqual(['law', { states: ['WA'] }]);
    expect(semiannual.bindings).toEqual([{ reach: { states: ['WA'] }, cite: 'WAC 296-305-02002(5)' }]);
  });

  it('makes no exception for gear in storage, as NFPA 1851 does', () => {
    expect(semiannual.inStorage).toBeUndefined();
    expect(shipped('turnout.advanced-inspection').inStorage).toBe('waits');
    expect(shipped('turnout.end-of-life').inStorage).toBeUndefined();
  });
});

describe('New Jersey (N.J.A.C. 12:100-10.16(a), read)', () => {
  it('asks for an inspection every year, as law, there alone, in storage too', () => {
    const yearly = shipped('turnout.yearly-inspection');
    expect(yearly.clock).toMatchObject({ every: { months: 12 } });
    expect([yearly.force, yearly.where, yearly.inStorage]).toEqual(['law', { states: ['NJ'] }, undefined]);
    expect(yearly.besides).toBe('turnout.advanced-inspection');
  });
});
