/**
 * What is owed whatever the date: by a failure, a repair or a happening; settled only by a pass at or after it.
 * NFPA 1962 7.1.11 and NFPA 1932 7.1.6 (read in public copies), 49 CFR 180.205(d); the order of deeds on one day is
 * a rule of this program.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { dueOn, rowOn, state, thing } from '../notation.ts';

const owed = (text: string) => thing(text).owed.map(o => `${o.activity} since ${o.since}: ${o.because}`);

describe('a failed test', () => {
  const failed = 'ladder L-1: made 2019\n2026-03-01  failed  service test';

  it('owes a retest on the very day, whatever the date says', () => {
    expect(owed(failed)).toEqual(['service test since 2026-03-01: failed']);
    expect(state(failed, 'ladder.service-test', '2026-03-01')).toBe('retest owed');
    expect(
      state(
        `ladder L-1: made 2019\n2026-02-27  passed  service test\n${failed.split('\n')[1]}`,
        'ladder.service-test',
        '2026-03-02',
      ),
    ).toBe('retest owed');
  });

  it('shows the thing as owing a retest, since the failure', () => {
    const derived = thing(`${failed}\n2026-03-02  is  serviceable`);
    expect([derived.condition, derived.conditionSince]).toEqual(['retest owed', '2026-03-01']);
  });

  it('is settled by a pass after it, and the next one counts from the pass', () => {
    const passed = `${failed}\n2026-03-04  passed  service test`;
    expect([owed(passed), thing(passed).condition]).toEqual([[], 'serviceable']);
    expect(dueOn(passed, 'ladder.service-test')).toBe('2027-03-04');
  });

  it('is settled by a pass told later on the same day, not by one told before it', () => {
    expect(owed(`${failed}\n2026-03-01  passed  service test`)).toEqual([]);
    expect(
      owed('ladder L-1: made 2019\n2026-03-01  passed  service test\n2026-03-01  failed  service test'),
    ).toEqual(['service test since 2026-03-01: failed']);
  });

  it('is not settled by another activity, a stopped test, or a pass dated before it', () => {
    expect(owed(`${failed}\n2026-03-04  passed  inspection`)).toHaveLength(1);
    expect(owed(`${failed}\n2026-03-04  stopped  service test`)).toHaveLength(1);
    expect(owed(`${failed}\n2026-02-28  passed  service test`)).toHaveLength(1);
  });

  it('that fails again is owed since the first failure after the last pass', () =>
    expect(
      owed(
        `${failed}\n2026-03-04  passed  service test\n2026-03-09  failed  service test\n2026-03-10  failed  service test`,
      ),
    ).toEqual(['service test since 2026-03-09: failed']));

  it('of one activity owes nothing of another', () => {
    const derived = `${failed}\n2026-02-20  passed  inspection`;
    expect(state(derived, 'ladder.inspection', '2026-03-02')).toBe('current');
  });
});

describe('a repair or a happening', () => {
  const sound = 'ladder L-1: made 2019\n2026-02-01  passed  service test\n2026-02-01  passed  inspection';
  const overloaded = `${sound}\n2026-03-01  owes  service test: overload`;

  it('owes its test whatever the date, and says why', () => {
    expect(state(sound, 'ladder.service-test', '2026-03-02')).toBe('current');
    expect(owed(overloaded)).toEqual(['service test since 2026-03-01: overload']);
    expect(state(overloaded, 'ladder.service-test', '2026-03-02')).toBe('retest owed');
    expect(rowOn(thing(overloaded), 'ladder.service-test', '2026-03-02')).toMatchObject({
      dueOn: null,
      warnOn: null,
    });
  });

  it('is settled by a pass the day after, or later on the same day', () => {
    expect(owed(`${overloaded}\n2026-03-02  passed  service test`)).toEqual([]);
    expect(owed(`${overloaded}\n2026-03-01  passed  service test`)).toEqual([]);
  });

  it('is not settled by a pass told earlier on the same day, a day before, or by a failure', () => {
    expect(
      owed(`${sound}\n2026-03-01  passed  service test\n2026-03-01  owes  service test: overload`),
    ).toHaveLength(1);
    expect(owed(`${overloaded}\n2026-02-28  passed  service test`)).toHaveLength(1);
    expect(owed(`${overloaded}\n2026-03-02  failed  service test`)).toEqual([
      'service test since 2026-03-01: overload',
    ]);
  });

  it('is not settled by a pass told at an earlier clock time, and is by one at a later', () => {
    const at = `${sound}\n2026-03-01T10:00  owes  service test: overload`;
    expect(owed(`${at}\n2026-03-01T09:59  passed  service test`)).toHaveLength(1);
    expect(owed(`${at}\n2026-03-01T10:01  passed  service test`)).toEqual([]);
  });

  it('may owe several activities, each settled by itself', () => {
    const both = `${sound}\n2026-03-01  owes  service test, inspection: repaired: rung`;
    expect(owed(both)).toHaveLength(2);
    expect(owed(`${both}\n2026-03-03  passed  inspection`)).toEqual([
      'service test since 2026-03-01: repaired',
    ]);
  });

  it('keeps the earliest of several claims on one activity, and lists the longest owed first', () => {
    const many = `${sound}
      2026-03-05  owes    service test: impact
      2026-03-03  owes    service test: overload
      2026-03-01  failed  inspection`;
    expect(owed(many)).toEqual([
      'inspection since 2026-03-01: failed',
      'service test since 2026-03-03: overload',
    ]);
    expect(owed(`${many}\n2026-03-04  passed  service test`)).toEqual([
      'inspection since 2026-03-01: failed',
      'service test since 2026-03-05: impact',
    ]);
  });

  it('shows over a thing that would be in use, not over one that is tagged out, away, held or gone', () => {
    const shown = (condition: string) => thing(`${overloaded}\n2026-03-02  is  ${condition}`).condition;
    for (const condition of ['received', 'serviceable', 'limited use', 'retest owed'])
      expect(shown(condition)).toBe('retest owed');
    for (const condition of [
      'tagged out',
      'at repair',
      'held for investigation',
      'missing',
      'on order',
      'retired',
      'disposed',
    ])
      expect(shown(condition)).toBe(condition);
  });

  it('of a cylinder under a permit nobody has confirmed is owed all the same', () =>
    expect(
      state(
        'cylinder C-1: spec DOT-SP 10915, made 2020-01\n2026-03-01  owes  requalification: damage',
        'cylinder.requalification',
        '2026-03-02',
      ),
    ).toBe('retest owed'));

  it('does not make a requirement of a cylinder that is not requalified', () =>
    expect(
      state(
        'cylinder C-1: spec 3E, made 2020-01\n2026-03-01  owes  requalification: damage',
        'cylinder.requalification',
        '2026-03-02',
      ),
    ).toBeUndefined());
});

describe('a thing that is gone', () => {
  const late = 'ladder L-1: made 2019\n2020-02-01  passed  service test\n2026-03-01  failed  inspection';

  it('owes nothing once it is retired or disposed of', () => {
    expect(thing(late).due.length).toBeGreaterThan(0);
    for (const gone of ['retired', 'disposed']) {
      const derived = thing(`${late}\n2026-03-02  is  ${gone}`);
      expect([derived.due, derived.condition]).toEqual([[], gone]);
    }
  });

  it('owes again what it owed where the retirement is no longer its last condition', () =>
    expect(thing(`${late}\n2026-03-02  is  retired\n2026-03-05  is  serviceable`).due.length).toBeGreaterThan(
      0,
    ));

  it('held for investigation, tagged out or missing still shows what it owes', () => {
    for (const away of ['held for investigation', 'tagged out', 'missing', 'at repair']) {
      const derived = thing(`${late}\n2026-03-02  is  ${away}`);
      expect(derived.due.map(r => [r.requirement, r.dueOn === null ? r.basis : dayText(r.dueOn)])).toEqual([
        ['ladder.service-test', '2021-02-01'],
        ['ladder.inspection', 'retest'],
      ]);
    }
  });
});
