/**
 * Lifting bags, rescue tools, struts and jacks, cribbing, winches and slings, hand and power tools. Fifteen years of
 * bags: article citing NFPA 1936/1937. Jacks: 29 CFR 1910.244(a)(2)(vi), read. Slings: 29 CFR 1910.184(d) and
 * (e)(3)(i) as quoted, WAC 296-24-29423(3), read. Cords: 29 CFR 1910.334(a)(2)(i), read. The rest: common practice.
 */
import { describe, expect, it } from 'vitest';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { dueOn, shipped, state, thing } from '../notation.ts';

describe('a lifting bag', () => {
  const bag =
    'air-bag B-1: kind bag, made 2011-06-15, inService 2011-09-01\n2025-04-01  passed  pressure test';

  it('is tested every year', () => {
    expect(dueOn(bag, 'air-bag.pressure-test')).toBe('2026-04-01');
    expect(state(bag, 'air-bag.pressure-test', '2026-04-02')).toBe('overdue');
  });

  it('ends at fifteen years whatever it passes, and blocks', () => {
    expect(state(bag, 'air-bag.end-of-life', '2026-06-14')).toBe('due soon');
    expect(state(bag, 'air-bag.end-of-life', '2026-06-15')).toBe('life ended');
    expect(shipped('air-bag.end-of-life').late).toBe('blocks');
  });

  it('ends alone: its controller, hoses and regulator do not', () => {
    for (const part of ['controller', 'hose', 'regulator'])
      expect(dueOn(`air-bag P-1: kind ${part}, made 2005-01`, 'air-bag.end-of-life')).toBeUndefined();
  });
});

describe('a jack (29 CFR 1910.244(a)(2)(vi), read)', () => {
  const jack = 'strut J-1: kind jack\n2025-01-15  passed  thorough inspection';

  it('is thoroughly inspected every six months, a strut every twelve', () => {
    expect(dueOn(jack, 'strut.jack-inspection')).toBe('2025-07-15');
    expect(dueOn(jack, 'strut.inspection')).toBeUndefined();
    expect(dueOn('strut S-1: kind strut\n2025-01-15  passed  thorough inspection', 'strut.inspection')).toBe(
      '2026-01-15',
    );
  });

  it('is inspected right after an abnormal load', () =>
    expect(thing(`${jack}\n2025-03-01  owes  thorough inspection: abnormal load or shock`).condition).toBe(
      'retest owed',
    ));
});

describe('a chain sling (29 CFR 1910.184, WAC 296-24-29423)', () => {
  const sling = 'winch C-1: kind chain sling, inService 2024-01-10\n2025-01-15  passed  thorough inspection';

  it('is thoroughly inspected at intervals never greater than twelve months', () => {
    const law = shipped('winch.chain-sling-inspection');
    expect(dueOn(sling, law.id)).toBe('2026-01-15');
    expect([law.force, law.bindings?.[0]]).toEqual([
      'law',
      { reach: 'osha', cite: '29 CFR 1910.184(e)(3)(i)' },
    ]);
    expect(law.graceDays).toBeUndefined();
  });

  it('owes an inspection each day it is used, which the yearly one does not stand for beforehand', () => {
    const taken = `${sling}\n2025-06-01  owes  inspection before use: day of use`;
    expect(state(taken, 'winch.inspection-before-use', '2025-06-01')).toBe('retest owed');
    expect(thing(`${taken}\n2025-06-01  passed  inspection before use`).condition).toBe('serviceable');
  });

  it('is under the law of slings, a come-along is not', () => {
    const comeAlong = 'winch W-1: kind come-along\n2025-01-15  passed  thorough inspection';
    expect(thing(comeAlong).due.map(r => r.requirement)).not.toContain('winch.inspection-before-use');
    expect(shipped('winch.inspection').force).toBe('practice');
  });
});

describe('a hydraulic rescue tool', () => {
  it('is serviced every year by the maker’s word, and run every week by practice', () => {
    const spreader = `
      rescue-tool X-1: kind spreader, drive hose
      2025-02-01  passed  service
      2025-11-20  passed  operational check`;
    expect(dueOn(spreader, 'rescue-tool.service')).toBe('2026-02-01');
    expect(dueOn(spreader, 'rescue-tool.operational-check')).toBe('2025-11-27');
    expect(dueOn(`${spreader}\n2025-11-22  passed  service`, 'rescue-tool.operational-check')).toBe(
      '2025-11-29',
    );
  });

  it('owes a service after a hydraulic repair', () =>
    expect(
      thing(
        'rescue-tool X-1: kind cutter\n2025-02-01  owes  service: leak\n2025-02-02  passed  operational check',
      ).condition,
    ).toBe('retest owed'));
});

describe('a power tool', () => {
  it('with an engine is run every week, without one every month, and a cord not at all', () => {
    const ran = '2025-06-02  passed  run check';
    expect(
      dueOn(`power-tool P-1: kind chain saw, power two-stroke mix\n${ran}`, 'power-tool.run-check'),
    ).toBe('2025-06-09');
    const fan = `power-tool P-2: kind fan, power battery\n${ran}`;
    expect(dueOn(fan, 'power-tool.monthly-run-check')).toBe('2025-07-02');
    expect(dueOn(fan, 'power-tool.run-check')).toBeUndefined();
    const cord = `power-tool P-3: kind extension cord, power cord\n${ran}`;
    expect(dueOn(cord, 'power-tool.monthly-run-check')).toBeUndefined();
  });

  it('is serviced by the year or the hours, whichever comes first; without hours the year decides', () => {
    const saw = 'power-tool P-1: kind rotary saw, power gasoline\n2025-06-02  passed  service';
    expect(dueOn(saw, 'power-tool.service')).toBe('2026-06-02');
  });

  it('with a cord is looked at before use on any shift, by law', () => {
    const law = shipped('power-tool.cord-inspection');
    expect([law.force, law.clock.kind]).toEqual(['law', 'after happenings']);
    expect(law.sources[0]).toMatchObject({ document: '29 CFR 1910.334', confidence: 'read' });
  });
});

describe('hand tools and cribbing', () => {
  it('are inspected every year: tools by 29 CFR 1910.156(d), cribbing by practice', () => {
    expect(dueOn('hand-tool A-1: kind axe\n2025-07-01  passed  inspection', 'hand-tool.inspection')).toBe(
      '2026-07-01',
    );
    expect(dueOn('cribbing K-1: kind set\n2025-07-01  passed  inspection', 'cribbing.inspection')).toBe(
      '2026-07-01',
    );
    expect(shipped('hand-tool.inspection').bindings).toEqual([{ reach: 'osha', cite: '29 CFR 1910.156(d)' }]);
    expect([shipped('hand-tool.inspection').force, shipped('cribbing.inspection').force]).toEqual([
      'law',
      'practice',
    ]);
  });
});

describe('Wisconsin (SPS 330.09(1)(d)1., read)', () => {
  const monthly = SHIPPED_REQUIREMENTS.filter(r => r.sources.some(s => s.document.includes('SPS 330.09')));

  it('asks for an inspection of all equipment every month, there alone, as law', () => {
    expect(monthly.length).toBeGreaterThan(5);
    for (const { clock, where, force, bindings } of monthly) {
      expect(clock).toMatchObject({ every: { months: 1 } });
      expect([where, force]).toEqual([{ states: ['WI'] }, 'law']);
      expect(bindings).toEqual([{ reach: { states: ['WI'] }, cite: 'SPS 330.09(1)(d)1.' }]);
    }
  });

  it('stands beside a duty of the same thing that comes round less often', () => {
    for (const { family, besides, satisfiedBy } of monthly) {
      const usual = shipped(besides ?? '');
      expect(usual.family).toBe(family);
      expect(satisfiedBy).toContain(usual.activity);
    }
  });
});
