/** What has become of a check-off that fell due. The words and the grace are the department's own: no source. */
import { describe, expect, it } from 'vitest';
import { occurrences } from '../../../domain/checkoffs/schedule.ts';
import { type Done, type Missed, settle } from '../../../domain/checkoffs/settle.ts';
import { day } from '../notation.ts';
import { schedule } from './sheets.ts';

/** Monday to Wednesday, due by 08:00 with an hour's grace. */
const WEEK = occurrences(
  schedule({ kind: 'daily' }, { graceHours: 1 }),
  day('2026-03-09'),
  day('2026-03-11'),
);
const done = (checkoff: string, on: string, finishedAt: string, shift = 0): Done => ({
  checkoff,
  schedule: 'a-1',
  on: day(on),
  shift,
  finishedAt,
});
const why = (on: string, reason: string): Missed => ({ schedule: 'a-1', on: day(on), shift: 0, reason });
const states = (now: string, list: readonly Done[] = [], of = WEEK) =>
  settle(of, list, [], now).map(s => s.state);

describe('a check-off that nobody has done', () => {
  it('is owed until it falls due and through its grace, then late', () => {
    expect(states('2026-03-09T07:00')[0]).toBe('owed');
    expect(states('2026-03-09T09:00')[0]).toBe('owed');
    expect(states('2026-03-09T09:01')[0]).toBe('late');
  });

  it('is missed once the next one has fallen due', () => {
    expect(states('2026-03-10T07:59')[0]).toBe('late');
    expect(states('2026-03-10T08:00')).toEqual(['missed', 'owed', 'owed']);
  });

  it('is missed by what follows the window it was asked in', () =>
    expect(states('2026-03-12T08:00')).toEqual(['missed', 'missed', 'missed']));

  it('of a schedule that has ended is missed when the next one would have fallen due', () => {
    const last = occurrences(
      schedule({ kind: 'weekly', weekday: 1 }, { until: day('2026-03-09') }),
      day('2026-03-09'),
      day('2026-03-09'),
    );
    expect([states('2026-03-16T07:59', [], last), states('2026-03-16T08:00', [], last)]).toEqual([
      ['late'],
      ['missed'],
    ]);
  });

  it('of a morning shift is missed when the night shift’s falls due', () => {
    const shifts = occurrences(
      schedule({ kind: 'each shift', hours: 12, from: '07:00' }),
      day('2026-03-09'),
      day('2026-03-09'),
    );
    expect(states('2026-03-09T20:00', [done('c-2', '2026-03-09', '2026-03-09T19:30', 2)], shifts)).toEqual([
      'missed',
      'done',
    ]);
  });
});

describe('a check-off that was done', () => {
  it('is on time to the last minute of its grace, and late after it', () => {
    const at = (finishedAt: string) => states('2026-03-09T23:00', [done('c-1', '2026-03-09', finishedAt)])[0];
    expect(['T07:10', 'T09:00', 'T09:00:59', 'T09:01'].map(t => at(`2026-03-09${t}`))).toEqual([
      'done',
      'done',
      'done',
      'done late',
    ]);
  });

  it('is on time where it was done the evening before', () =>
    expect(states('2026-03-09T12:00', [done('c-1', '2026-03-09', '2026-03-08T21:00')])[0]).toBe('done'));

  it('late settles the day it names, and leaves the day on which it was done', () =>
    expect(states('2026-03-10T10:00', [done('c-1', '2026-03-09', '2026-03-10T08:30')])).toEqual([
      'done late',
      'late',
      'owed',
    ]));

  it('settles one even where it is given twice', () => {
    const twice = [
      done('c-1', '2026-03-09', '2026-03-10T08:30'),
      done('c-1', '2026-03-10', '2026-03-10T08:30'),
    ];
    expect(states('2026-03-10T10:00', twice)).toEqual(['done late', 'late', 'owed']);
  });

  it('twice by two crews is settled by the one finished first', () => {
    const list = [
      done('c-2', '2026-03-09', '2026-03-09T08:40'),
      done('c-1', '2026-03-09', '2026-03-09T07:40'),
    ];
    for (const given of [list, list.toReversed()])
      expect(settle(WEEK, given, [], '2026-03-09T12:00')[0]).toMatchObject({
        state: 'done',
        checkoff: 'c-1',
        finishedAt: '2026-03-09T07:40',
      });
  });

  it('is not done yet when it is asked how things stood before', () =>
    expect(states('2026-03-09T09:30', [done('c-1', '2026-03-09', '2026-03-09T10:00')])[0]).toBe('late'));

  it('for another schedule or another shift settles nothing here', () =>
    expect(
      states('2026-03-09T12:00', [
        { ...done('c-1', '2026-03-09', '2026-03-09T07:00'), schedule: 'a-2' },
        done('c-2', '2026-03-09', '2026-03-09T07:00', 1),
      ])[0],
    ).toBe('late'));
});

describe('the reason of one that was not done in time', () => {
  const given = [why('2026-03-09', 'On the two-alarm fire'), why('2026-03-10', 'Rig in the shop')];
  const reasons = (now: string, list: readonly Done[] = []) =>
    settle(WEEK, list, given, now).map(s => s.reason);

  it('stands with the late, the missed and the one done late', () => {
    expect(reasons('2026-03-10T12:00')).toEqual(['On the two-alarm fire', 'Rig in the shop', null]);
    expect(reasons('2026-03-09T12:00', [done('c-1', '2026-03-09', '2026-03-09T11:00')])[0]).toBe(
      'On the two-alarm fire',
    );
  });

  it('is not shown where it was done in time after all, or is not late', () => {
    expect(reasons('2026-03-09T12:00', [done('c-1', '2026-03-09', '2026-03-09T07:00')])[0]).toBeNull();
    expect(reasons('2026-03-09T08:30')[0]).toBeNull();
  });

  it('is the last one given', () =>
    expect(
      settle(WEEK, [], [...given, why('2026-03-09', 'Loaned to the academy')], '2026-03-10T12:00')[0]?.reason,
    ).toBe('Loaned to the academy'));
});

describe('the days the clocks change', () => {
  it.each(['2026-03-08', '2026-11-01'])('keeps the grace to the minute on the wall: %s', on => {
    const night = occurrences(
      schedule({ kind: 'daily' }, { dueBy: '00:30', graceHours: 2 }),
      day(on),
      day(on),
    );
    expect(['T02:30', 'T02:31'].map(t => states(`${on}${t}`, [], night)[0])).toEqual(['owed', 'late']);
  });
});

it('is not told for a time that is none', () => {
  for (const now of ['', '2026-03-09', '2026-02-30T08:00', '2026-03-09T24:00', '2026-03-09 08:00'])
    expect(() => settle(WEEK, [], [], now)).toThrow(RangeError);
});
