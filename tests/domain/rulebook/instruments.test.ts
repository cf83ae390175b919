/**
 * Gas meters and their gas, imagers, radios, batteries and medical equipment. Bump test: statement of the makers'
 * association as quoted; OSHA SHIB 11-26-2024, which was read and is advice. AED: California Health and Safety Code
 * 1797.196(b)(1), read. Oxygen: N.J.A.C. 8:41-3.6(a), read. The rest: common practice.
 */
import { describe, expect, it } from 'vitest';
import { dueOn, shipped, state, thing } from '../notation.ts';

describe('a gas meter', () => {
  const meter = `
    gas-meter G-1: kind multiple gas, inService 2024-01-10, sensorsExpire 2026-05
    2025-11-03  passed  full calibration
    2025-11-24  passed  bump test`;
  const BUMP = 'gas-meter.bump-test';

  it('bumped today has nothing to do today; tomorrow it is due, and the day after it is overdue', () =>
    expect(['2025-11-24', '2025-11-25', '2025-11-26'].map(on => state(meter, BUMP, on))).toEqual([
      'current',
      'due soon',
      'overdue',
    ]));

  it('that was calibrated today needs no bump test', () =>
    expect(state(`${meter}\n2025-11-26  passed  full calibration`, BUMP, '2025-11-26')).toBe('current'));

  it('is calibrated every month until the department sets the maker’s own interval', () => {
    expect(dueOn(meter, 'gas-meter.full-calibration')).toBe('2025-12-03');
    expect(shipped('gas-meter.full-calibration').force).toBe('practice');
  });

  it('that failed a bump test stays out until it is calibrated', () => {
    const failed = `${meter}\n2025-11-25  owes  full calibration: failed bump test`;
    expect(thing(`${failed}\n2025-11-25  passed  bump test`).condition).toBe('retest owed');
    expect(thing(`${failed}\n2025-11-25  passed  full calibration`).condition).toBe('serviceable');
  });

  it('has sensors that end with the last day of the printed month', () => {
    expect(dueOn(meter, 'gas-meter.sensors')).toBe('2026-05-31');
    expect(state(meter, 'gas-meter.sensors', '2026-06-01')).toBe('overdue');
  });

  it('new is bumped and calibrated before it is used', () => {
    for (const id of [BUMP, 'gas-meter.full-calibration'])
      expect(state('gas-meter G-2: inService 2025-11-01', id, '2025-11-02')).toBe('never done');
  });
});

describe('calibration gas', () => {
  it('is good through the printed month', () => {
    const gas = 'calibration-gas C-1: lot L-112, expires 2026-04';
    expect(['2026-04-30', '2026-05-01'].map(on => state(gas, 'calibration-gas.expiry', on))).toEqual([
      'due soon',
      'overdue',
    ]);
  });
});

describe('an AED', () => {
  const aed = `
    aed A-1: padsExpire 2026-03, childPadsExpire 2026-01-15, batteryExpires 2028-06
    2025-11-20  passed  readiness check
    2025-10-01  passed  operational test`;

  it('has three printed dates, each for itself', () =>
    expect(['aed.pads', 'aed.child-pads', 'aed.battery'].map(id => dueOn(aed, id))).toEqual([
      '2026-03-31',
      '2026-01-15',
      '2028-06-30',
    ]));

  it('without child pads has no date of them', () =>
    expect(dueOn('aed A-2: padsExpire 2026-03', 'aed.child-pads')).toBeUndefined());

  it('is checked every week by practice; in California at least every 90 days by law, tested twice a year', () => {
    expect(dueOn(aed, 'aed.readiness-check')).toBe('2025-11-27');
    expect(dueOn(aed, 'aed.operational-test')).toBe('2026-04-01');
    const law = shipped('aed.inspection-california');
    expect([law.clock, law.where, law.force]).toMatchObject([
      { every: { days: 90 } },
      { states: ['CA'] },
      'law',
    ]);
    expect(shipped('aed.operational-test').bindings).toEqual([
      { reach: { states: ['CA'] }, cite: 'Health and Safety Code 1797.196(b)(1)(D)' },
    ]);
  });

  it('used on a patient is tested before it is ready', () =>
    expect(thing(`${aed}\n2025-11-21  owes  operational test: used`).condition).toBe('retest owed'));
});

describe('medical equipment', () => {
  it('has a yearly test: oxygen by New Jersey’s rule, the others by the maker’s word', () => {
    const last = (family: string, activity: string) => `${family} M-1\n2025-02-01  passed  ${activity}`;
    expect([
      dueOn(last('oxygen-regulator', 'flow test'), 'oxygen-regulator.flow-test'),
      dueOn(last('suction-unit', 'vacuum test'), 'suction-unit.vacuum-test'),
      dueOn(last('patient-monitor', 'service'), 'patient-monitor.service'),
    ]).toEqual(['2026-02-01', '2026-02-01', '2026-02-01']);
    // The rule is for advanced life support services alone, so it is told and not taken for law of every department.
    expect(shipped('oxygen-regulator.flow-test').bindings).toBeUndefined();
    expect(shipped('oxygen-regulator.flow-test').binds).toContain(
      'Law in New Jersey for advanced life support',
    );
  });
});

describe('imagers, radios and batteries', () => {
  it('are checked weekly, daily or weekly by who is on duty, and yearly', () => {
    expect(dueOn('imager I-1\n2025-06-02  passed  operational check', 'imager.operational-check')).toBe(
      '2025-06-09',
    );
    expect(shipped('radio.operational-check').where?.kinds).not.toContain('volunteer');
    expect(shipped('radio.weekly-check').where?.kinds).toEqual(['volunteer']);
    expect(
      dueOn('battery B-1: kind radio battery\n2025-06-02  passed  capacity test', 'battery.capacity-test'),
    ).toBe('2026-06-02');
  });

  it('know a charger from a pack', () =>
    expect(
      thing('battery B-2: kind charger\n2025-06-02  passed  inspection').due.map(r => r.requirement),
    ).toEqual(['battery.charger-inspection']));
});
