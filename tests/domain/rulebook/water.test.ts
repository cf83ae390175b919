/**
 * What flows water and what holds foam: hose, nozzles, appliances, ladders beside them, and concentrate. NFPA 1962 and
 * 1932 as public pages and trade columns print them, WAC 296-305-06003 and -06006 (read), 29 CFR 1910.156(d) as
 * Michigan prints it, foam makers’ pages; beside each check stands which.
 */
import { describe, expect, it } from 'vitest';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { book, dueOn, inForceOn, rowOn, shipped, state, thing } from '../notation.ts';

const trigger = (family: string, id: string) => familyOf(family)?.triggers.find(t => t.id === id)?.owes;
const repair = (family: string, kind: string) => familyOf(family)?.repairs.find(r => r.kind === kind)?.owes;
const duties = (text: string, on = '2026-11-25') => inForceOn(thing(text), on).map(r => r.requirement);

/** Placed in service on 10 Jan 2024: when the first is due, and when the next after one of 4 May 2026. */
const DATES: readonly (readonly [
  duty: string,
  thing: string,
  activity: string,
  first: string,
  next: string,
])[] = [
  // Trade column and committee member on NFPA 1962, 2013; 29 CFR 1910.156(d)
  ['nozzle.service-test', 'use handline', 'service test', '2025-01-10', '2027-05-04'],
  ['nozzle.inspection', 'use occupant', 'inspection', '2025-01-10', '2027-05-04'],
  ['nozzle.line-flow-test', 'preconnect yes', 'line flow test', '2025-01-10', '2027-05-04'],
  ['appliance.service-test', 'kind manifold', 'service test', '2025-01-10', '2027-05-04'],
  ['appliance.relief-valve-test', 'kind intake valve', 'relief valve test', '2025-01-10', '2027-05-04'],
  ['appliance.inspection', 'kind adapter', 'inspection', '2025-01-10', '2027-05-04'],
  // From memory, so only as the department confirms it
  ['appliance.eductor-test', 'kind eductor', 'eductor test', '2025-01-10', '2027-05-04'],
  // NFPA 11 and common practice
  ['foam.quality-test', 'type AFFF, container tote', 'quality test', '2025-01-10', '2027-05-04'],
  ['foam.inspection', 'container pail', 'inspection', '2025-01-10', '2027-05-04'],
];

const CONFIRMED = book({
  adoptions: [
    { requirement: { ...shipped('appliance.eductor-test'), confirmed: 'the edition in hand' }, from: null },
  ],
});

describe('how often', () => {
  it.each(DATES)('%s (%s)', (duty, attributes, activity, first, next) => {
    const one = `${duty.split('.')[0]} X-1: ${attributes}, inService 2024-01-10`;
    expect(dueOn(one, duty, CONFIRMED)).toBe(first);
    expect(dueOn(`${one}\n2026-05-04  passed  ${activity}`, duty, CONFIRMED)).toBe(next);
    expect(shipped(duty).warnDays).toBe(60);
  });
});

describe('hard suction', () => {
  const hard = 'hose S-1: use hard suction, made 2015-03, inService 2015-06-01';

  it('is drawn dry every year instead of pressed (trade column on NFPA 1962, 2013: 22 inHg for 10 minutes)', () => {
    const drawn = `${hard}\n2026-05-04  passed  vacuum test: vacuum_inHg 22.5, held_s 600`;
    expect(dueOn(drawn, 'hose.vacuum-test')).toBe('2027-05-04');
    expect(rowOn(thing(drawn), 'hose.service-test', '2026-11-25')).toBeUndefined();
    expect(
      dueOn('hose S-1: use hard suction, made 2026-01-15, inService 2026-02-01', 'hose.vacuum-test'),
    ).toBe('2027-01-15');
    expect(shipped('hose.vacuum-test').sources[0]?.note).toContain('22 inHg held 10 minutes');
  });

  it('is inspected by the same test, once a year at least (29 CFR 1910.156(d))', () =>
    expect(duties(`${hard}\n2026-05-04  passed  vacuum test`)).not.toContain('hose.inspection'));

  it('owes that test again after damage or a repair, not a pressure test', () => {
    expect(trigger('hose', 'hard suction damage')).toBe('vacuum test');
    expect(repair('hose', 'hard suction repair')).toEqual(['vacuum test']);
  });

  it('of which nobody said hard or soft owes both tests; soft suction is pressed like other hose', () => {
    const of = (use: string) => duties(`hose S-2: use ${use}, made 2015-03, inService 2015-06-01`);
    expect(of('suction')).toEqual(expect.arrayContaining(['hose.vacuum-test', 'hose.service-test']));
    expect(of('soft suction')).toContain('hose.service-test');
    expect(of('soft suction')).not.toContain('hose.vacuum-test');
  });
});

describe('hose', () => {
  it('is inspected before first service, once (catalog summary of NFPA 1962, 2003)', () => {
    const fresh = 'hose H-1: use occupant, made 2026-01, inService 2026-06-01';
    expect(dueOn(fresh, 'hose.first-inspection')).toBe('2026-06-01');
    expect(duties(`${fresh}\n2026-05-20  passed  inspection`)).not.toContain('hose.first-inspection');
    expect(state(`${fresh}\n2026-05-20  failed  inspection`, 'hose.inspection', '2026-05-21')).toBe(
      'retest owed',
    );
  });

  it('is tested after what may have damaged it (WAC 296-305-06003(1)), and inspected after each use (from memory)', () => {
    for (const id of ['suspected damage', 'run over', 'chemical exposure', 'heat or flame', 'frozen'])
      expect([id, trigger('hose', id)]).toEqual([id, 'service test']);
    expect(trigger('hose', 'used')).toBe('inspection');
    expect(trigger('hose', 'used by occupants')).toBe('service test');
  });

  it('is tested yearly by law in Washington alone', () =>
    expect(shipped('hose.service-test').bindings).toEqual([
      { reach: { states: ['WA'] }, cite: 'WAC 296-305-06003(1)' },
    ]));

  it('has no age in the standard (NFPA 1962 4.12): only the date the department set itself ends it, and that is noted', () => {
    const old = 'hose H-1: use supply, made 1998-05, inService 1998-06-01\n2026-05-04  passed  service test';
    expect(duties(old)).toEqual(['hose.service-test']);
    expect(dueOn(old.replace('made', 'replaceBy 2027, made'), 'hose.replacement')).toBe('2027-12-31');
    expect(shipped('hose.replacement').late).toBe('notes');
  });
});

describe('a nozzle', () => {
  const nozzle = 'nozzle N-1: kind combination, use handline, inService 2024-02-01';

  it('is tested as often as the hose it serves (trade column on NFPA 1962, 2013), which is yearly', () => {
    const every = (id: string) => {
      const { clock } = shipped(id);
      return clock.kind === 'since last' ? clock.every : null;
    };
    expect(every('nozzle.service-test')).toEqual(every('hose.service-test'));
    expect(dueOn(`${nozzle}\n2026-05-04  passed  service test`, 'nozzle.service-test')).toBe('2027-05-04');
  });

  it('on building hose is inspected yearly and not tested (NFPA 1962 4-1.2)', () =>
    expect(duties('nozzle N-2: use occupant, inService 2024-02-01')).toEqual(['nozzle.inspection']));

  it('is inspected after each use (NFPA 1962 4-1.2), and no less than yearly by law for brigades', () => {
    expect(trigger('nozzle', 'used')).toBe('inspection');
    const used = `${nozzle}\n2026-05-04  passed  service test\n2026-05-04  passed  inspection\n2026-07-01  owes  inspection: used`;
    expect(state(used, 'nozzle.inspection', '2026-07-02')).toBe('retest owed');
    expect(shipped('nozzle.inspection').bindings?.[0]?.cite).toBe('29 CFR 1910.156(d)');
  });

  it('on a preconnect is flowed with its line each year (committee member on NFPA 1962, 2013)', () => {
    expect(duties(nozzle)).not.toContain('nozzle.line-flow-test');
    expect(dueOn('nozzle N-3: preconnect yes, inService 2026-02-01', 'nozzle.line-flow-test')).toBe(
      '2027-02-01',
    );
  });
});

describe('an appliance', () => {
  const of = (kind: string, more = '') => duties(`appliance A-1: kind ${kind}${more}, inService 2024-02-01`);

  it('that holds pressure is tested yearly (trade column on NFPA 1962, 2013); an adapter is only inspected', () => {
    for (const kind of ['wye', 'gated wye', 'siamese', 'manifold', 'monitor', 'ball valve', 'intake valve'])
      expect(of(kind)).toContain('appliance.service-test');
    for (const kind of ['adapter', 'strainer', 'hose clamp'])
      expect(of(kind)).toEqual(['appliance.inspection']);
    expect(duties('appliance A-2: inService 2024-02-01')).toContain('appliance.service-test');
  });

  it('that is an intake valve has its relief valve tested by itself, unless it has none', () => {
    expect(of('intake valve')).toContain('appliance.relief-valve-test');
    expect(of('intake valve', ', relief none')).not.toContain('appliance.relief-valve-test');
    expect(of('wye')).not.toContain('appliance.relief-valve-test');
    expect(shipped('appliance.relief-valve-test').satisfiedBy).not.toContain('service test');
  });

  it('that is an eductor is checked for its proportion yearly, from memory', () => {
    expect(of('eductor')).toContain('appliance.eductor-test');
    expect(shipped('appliance.eductor-test').sources.map(s => s.confidence)).toEqual(['memory']);
  });
});

describe('a ground ladder', () => {
  const tested = (type: string) =>
    `ladder L-1: type ${type}, inService 2024-01-10\n2026-05-04  passed  service test\n2026-11-20  passed  inspection`;

  it('has its hook and hardware tested with the service test, and shows them only where owed alone', () => {
    expect(duties(tested('roof'))).toEqual(['ladder.service-test', 'ladder.inspection']);
    const hook = `${tested('roof')}\n2026-11-22  owes  hook test: roof hooks`;
    expect(state(hook, 'ladder.hook-test', '2026-11-23')).toBe('retest owed');
    expect(duties(`${hook}\n2026-11-22  owes  hook test: again`)).not.toContain('ladder.hardware-test');
  });

  it('owes each of them yearly and before first use, where a department tests them apart (NFPA 1932 7.1.6)', () => {
    const apart = book({ only: ['ladder.hook-test', 'ladder.hardware-test'] });
    for (const [type, test] of [
      ['roof', 'hook'],
      ['pompier', 'hook'],
      ['extension', 'hardware'],
      ['combination', 'hardware'],
    ]) {
      const one = `ladder L-1: type ${type}, inService 2024-01-10`;
      expect(dueOn(one, `ladder.${test}-test`, apart)).toBe('2024-01-10');
      expect(dueOn(`${one}\n2026-05-04  passed  ${test} test`, `ladder.${test}-test`, apart)).toBe(
        '2027-05-04',
      );
    }
  });

  it('owes the hook test by its type: roof and pompier; hardware: extension and combination', () => {
    expect(shipped('ladder.hook-test').appliesTo).toEqual([{ attribute: 'type', in: ['roof', 'pompier'] }]);
    expect(shipped('ladder.hardware-test').appliesTo).toEqual([
      { attribute: 'type', in: ['extension', 'combination'] },
    ]);
  });

  it('with dark streaks in a wood beam is tested (WAC 296-305-06006(4)); with a new halyard it is not (NFPA 1932 7.1.6)', () => {
    expect(trigger('ladder', 'dark streaks')).toBe('service test');
    expect(repair('ladder', 'halyard')).toEqual(['inspection']);
    expect(repair('ladder', 'roof hooks')).toEqual(['service test']);
  });

  it('is inspected monthly by law in Washington (WAC 296-305-06006(3)), and after each use', () => {
    expect(shipped('ladder.inspection').bindings?.[0]?.cite).toBe('WAC 296-305-06006(3)');
    expect(trigger('ladder', 'used')).toBe('inspection');
  });
});

describe('foam concentrate', () => {
  it('is good through its printed date, and no shelf life is made up where none is printed (makers differ)', () => {
    expect(dueOn('foam F-1: type AR-AFFF, expires 2031-04', 'foam.expiry')).toBe('2031-04-30');
    expect(shipped('foam.expiry').warnDays).toBe(180);
    expect(shipped('foam.expiry').appliesTo).toEqual([{ attribute: 'expires', known: true }]);
    expect(duties('foam F-2: type AR-AFFF, container pail, made 1999, inService 2000-01-10')).toEqual([
      'foam.inspection',
    ]);
  });

  it('of class B in a tank or tote is tested by a laboratory yearly (NFPA 11, written for fixed systems)', () => {
    const tank = 'foam F-3: type AFFF, container rig tank, inService 2025-02-01';
    expect(dueOn(tank, 'foam.quality-test')).toBe('2026-02-01');
    expect(duties('foam F-4: type class A, container rig tank, inService 2025-02-01')).not.toContain(
      'foam.quality-test',
    );
  });

  it('that froze, was mixed or stood open is tested whatever the date (makers’ pages)', () => {
    for (const id of ['frozen or overheated', 'mixed or diluted', 'found open', 'separated'])
      expect([id, trigger('foam', id)]).toEqual([id, 'quality test']);
  });
});
