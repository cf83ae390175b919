/**
 * When things fall due, and the state on the day itself and one day either side. Month granularity: 49 CFR
 * 180.205(c). Day granularity (on time through the due day, overdue the day after) and the warning windows: common
 * practice, no source. Intervals: the sources named in the rule book.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { dueDay, spanText } from '../../../domain/derive/clocks/index.ts';
import { DUE_STATES, type DueState, heaviest, stateOn } from '../../../domain/derive/due.ts';
import { day, dueOn, shipped, state, thing, when } from '../notation.ts';

const states = (text: string, requirement: string, days: readonly string[]) =>
  days.map(on => state(text, requirement, on));

describe('a service test a year ago', () => {
  const hose = `
    hose 31-107: use attack, made 2020-01
    2025-06-14  passed  service test`;

  it('is due on the same day of the year, on time on that day and overdue the day after', () => {
    expect(dueOn(hose, 'hose.service-test')).toBe('2026-06-14');
    expect(states(hose, 'hose.service-test', ['2026-06-13', '2026-06-14', '2026-06-15'])).toEqual([
      'due soon',
      'due soon',
      'overdue',
    ]);
  });

  it('shows as due soon from 60 days before, and not 61', () =>
    expect(states(hose, 'hose.service-test', ['2026-04-14', '2026-04-15'])).toEqual(['current', 'due soon']));

  it('counts from the new day where it is done early, and where it is done late', () => {
    expect(dueOn(`${hose}\n2026-03-02  passed  service test`, 'hose.service-test')).toBe('2027-03-02');
    expect(dueOn(`${hose}\n2026-08-30  passed  service test`, 'hose.service-test')).toBe('2027-08-30');
  });

  it('on 29 February is due on 28 February', () =>
    expect(dueOn('hose H-1: use attack\n2024-02-29  passed  service test', 'hose.service-test')).toBe(
      '2025-02-28',
    ));
});

describe('a test whose day is not known', () => {
  it('in a month counts from the end of that month, also into a leap year', () => {
    expect(dueOn('ladder L-1: made 2019\n2025-04  passed  service test', 'ladder.service-test')).toBe(
      '2026-04-30',
    );
    expect(dueOn('ladder L-1: made 2019\n2023-02  passed  service test', 'ladder.service-test')).toBe(
      '2024-02-29',
    );
  });

  it('in a year counts from the end of that year', () =>
    expect(dueOn('ladder L-1: made 2019\n2024  passed  service test', 'ladder.service-test')).toBe(
      '2025-12-31',
    ));

  it('with a clock time counts from that day', () =>
    expect(
      dueOn('ladder L-1: made 2019\n2025-04-30T23:59  passed  service test', 'ladder.service-test'),
    ).toBe('2026-04-30'));
});

describe('a cylinder', () => {
  const cylinder = 'cylinder C-7: spec 3AA, made 2019-04';

  it('is on time through the last day of its month and overdue on the first of the next', () => {
    expect(dueOn(cylinder, 'cylinder.requalification')).toBe('2024-04-30');
    expect(states(cylinder, 'cylinder.requalification', ['2024-04-01', '2024-04-30', '2024-05-01'])).toEqual([
      'due soon',
      'due soon',
      'overdue',
    ]);
  });

  it('warns 180 days before, and not 181', () =>
    expect(states(cylinder, 'cylinder.requalification', ['2023-11-01', '2023-11-02'])).toEqual([
      'current',
      'due soon',
    ]));

  it('tested on 29 February is due through 28 February, and tested in February through the 29th of a leap year', () => {
    expect(
      dueOn('cylinder C-7: spec 3AA\n2024-02-29  passed  requalification', 'cylinder.requalification'),
    ).toBe('2029-02-28');
    expect(
      dueOn('cylinder C-7: spec 3AA\n2023-02-03  passed  requalification', 'cylinder.requalification'),
    ).toBe('2028-02-29');
  });
});

describe('a month', () => {
  it('after the 31st of January is the 28th or the 29th of February', () => {
    expect(dueOn('ladder L-1: made 2019\n2025-01-31  passed  inspection', 'ladder.inspection')).toBe(
      '2025-02-28',
    );
    expect(dueOn('ladder L-1: made 2019\n2024-01-31  passed  inspection', 'ladder.inspection')).toBe(
      '2024-02-29',
    );
  });

  it('warns ten days before; a week warns two', () => {
    const pack = 'pack P-3: made 2019\n2026-03-02  passed  inspection';
    expect(states(pack, 'pack.inspection', ['2026-03-22', '2026-03-23', '2026-04-02', '2026-04-03'])).toEqual(
      ['current', 'due soon', 'due soon', 'overdue'],
    );
    expect(
      states(pack, 'pack.operational-check', ['2026-03-06', '2026-03-07', '2026-03-09', '2026-03-10']),
    ).toEqual(['current', 'due soon', 'due soon', 'overdue']);
  });
});

describe('a failed or stopped test', () => {
  const start = 'ladder L-1: made 2019\n2025-03-01  passed  service test';

  it('restarts no clock: a stopped test is not a pass, and owes nothing by itself', () => {
    expect(dueOn(`${start}\n2026-01-10  stopped  service test`, 'ladder.service-test')).toBe('2026-03-01');
    expect(thing(`${start}\n2026-01-10  stopped  service test`).owed).toEqual([]);
    expect(
      dueOn('ladder L-1: made 2019\n2026-01-10  stopped  service test', 'ladder.service-test'),
    ).toBeNull();
  });

  it('that failed counts as the last time it was done, but not as the one it counts from', () => {
    const derived = thing(`${start}\n2026-01-10  failed  service test\n2026-01-12  stopped  service test`);
    const row = derived.due.find(r => r.requirement === 'ladder.service-test');
    expect([row?.basis, row?.dueOn, row?.lastOn]).toEqual(['retest', null, day('2026-01-10')]);
  });
});

describe('a heat label', () => {
  it('is good through its printed day, month or year, and late the day after', () => {
    const label = (text: string, days: string[]) =>
      states(`ladder L-1: heatLabelExpires ${text}`, 'ladder.heat-label', days);
    expect(label('2026-06-10', ['2026-06-10', '2026-06-11'])).toEqual(['due soon', 'overdue']);
    expect(label('2026-06', ['2026-06-30', '2026-07-01'])).toEqual(['due soon', 'overdue']);
    expect(label('2026', ['2026-12-31', '2027-01-01'])).toEqual(['due soon', 'overdue']);
  });

  it('that is not on file is not asked for, and one that is cleared no longer is', () => {
    expect(dueOn('ladder L-1: made 2019', 'ladder.heat-label')).toBeUndefined();
    const cleared = 'ladder L-1: heatLabelExpires 2026-06\nalways  amended  heatLabelExpires -';
    expect(dueOn(cleared, 'ladder.heat-label')).toBeUndefined();
  });
});

describe('a due day', () => {
  const requirement = (dueAt: 'day' | 'month end' | 'month start') => ({
    ...shipped('ladder.service-test'),
    dueAt,
  });
  const by = (
    dueAt: 'day' | 'month end' | 'month start',
    from: string,
    every: { months: number } | { days: number },
  ) => dayText(dueDay(requirement(dueAt), when(from), every));

  it('by the day keeps the day, by month end runs through the month, by month start ends before it', () =>
    expect([
      by('day', '2024-01-31', { months: 1 }),
      by('month end', '2024-01-31', { months: 1 }),
      by('month start', '2024-01-31', { months: 1 }),
      by('month start', '2023-03', { months: 180 }),
    ]).toEqual(['2024-02-29', '2024-02-29', '2024-01-31', '2038-02-28']));

  it('in days counts days, over a leap day too', () =>
    expect([by('day', '2024-02-28', { days: 7 }), by('month end', '2023-02-28', { days: 7 })]).toEqual([
      '2024-03-06',
      '2023-03-07',
    ]));

  it('says its span in words', () =>
    expect(
      [
        { months: 1 },
        { months: 12 },
        { months: 18 },
        { months: 24 },
        { months: 60 },
        { days: 1 },
        { days: 7 },
      ].map(spanText),
    ).toEqual(['1 month', '12 months', '18 months', '2 years', '5 years', '1 day', '7 days']));
});

describe('the state of a thing', () => {
  it('is the heaviest of its rows, whatever their order', () => {
    expect(heaviest(['current', 'overdue', 'due soon'])).toBe('overdue');
    expect(heaviest(['overdue', 'retest owed'])).toBe('retest owed');
    expect(heaviest(['not judged', 'overdue', 'life ended', 'never done'])).toBe('life ended');
    expect(heaviest([])).toBe('not applicable');
    const order: DueState[] = [
      'life ended',
      'retest owed',
      'never done',
      'overdue',
      'not judged',
      'due soon',
      'current',
    ];
    expect(DUE_STATES).toEqual([...order, 'not applicable']);
  });

  it('with no warning day is current until it is late', () => {
    const dueOn = day('2026-06-14');
    const counted = { basis: 'counted' as const, dueOn, lateOn: dueOn, dueTo: null, warnOn: null };
    expect(['2026-06-14', '2026-06-15'].map(on => stateOn(counted, day(on)))).toEqual(['current', 'overdue']);
    expect(stateOn({ ...counted, basis: 'none', dueOn: null }, day('2026-06-14'))).toBe('not applicable');
  });
});
