/**
 * What is owed of check-offs: late and missed ones are facts with a reason, not gaps. Common practice, no source; that
 * a staffed rig is checked daily and an unstaffed one weekly: WAC 296-305-04505(1).
 */
import { describe, expect, it } from 'vitest';
import type { CarryHolder } from '../../db/api-checks.ts';
import { carrying, present } from './kit/carry.ts';

const WEEKLY = {
  title: 'Weekly inventory',
  every: { kind: 'weekly', weekday: 6 },
  dueBy: '12:00',
  graceHours: 6,
};

async function scheduled() {
  const c = await carrying();
  const { d, g, l1, line } = c;
  const schedule = d.must('checkoff.schedule', { of: g.unit, ...WEEKLY, on: '2026-11-01' });
  const owed = async () =>
    ((await d.ask<CarryHolder[]>('carry.holders')).find(h => h.of === g.unit)?.owed ?? []).map(o => [
      o.on,
      o.state,
      o.reason,
    ]);
  /** Gone through and signed, for the Saturday that is named. */
  const done = (on: string, finished: string) => {
    const checkoff = d.must('checkoff.start', {
      of: g.unit,
      schedule,
      for: { on },
      started: `${finished.slice(0, 10)}T07:00`,
      on: finished.slice(0, 10),
    });
    d.must('checkoff.mark', {
      checkoff,
      on: finished.slice(0, 10),
      marks: [
        present('hosebed driver side', g.bed),
        present('L1', l1, {
          operated: [
            { line: line('Chain saw'), item: c.saw, works: true },
            { line: line('Foam concentrate'), works: true, reading: '20' },
          ],
        }),
      ],
    });
    d.must('checkoff.sign', { checkoff, finished, on: finished.slice(0, 10) });
  };
  return { ...c, schedule, owed, done };
}

describe('a weekly inventory, due on Saturday by noon with six hours of grace', () => {
  it('is missed once the next one fell due, and late until then', async () => {
    const { owed } = await scheduled();
    // 25 Nov 2026 is a Wednesday.
    expect(await owed()).toEqual([
      ['2026-11-07', 'missed', null],
      ['2026-11-14', 'missed', null],
      ['2026-11-21', 'late', null],
    ]);
  });

  it('is settled by the check-off that names it, in time or late, and by no other', async () => {
    const { owed, done } = await scheduled();
    done('2026-11-07', '2026-11-07T11:20');
    done('2026-11-14', '2026-11-15T09:00');
    done('2026-11-21', '2026-11-22T19:00');
    expect(await owed()).toEqual([
      ['2026-11-14', 'done late', null],
      ['2026-11-21', 'done late', null],
    ]);
  });

  it('that was missed keeps the reason that somebody gave; what never fell due has none', async () => {
    const { d, g, schedule, owed } = await scheduled();
    const missed = (on: string) => ({ of: g.unit, schedule, for: { on }, reason: 'Strike team, five days' });
    d.must('checkoff.missed', missed('2026-11-14'));
    expect(d.codes('checkoff.missed', missed('2026-11-13'))).toEqual(['not due']);
    expect((await owed())[1]).toEqual(['2026-11-14', 'missed', 'Strike team, five days']);
  });

  it('that is changed to daily owes nothing more of the days before the change', async () => {
    const { d, g, schedule, owed } = await scheduled();
    d.must('checkoff.schedule', {
      of: g.unit,
      schedule,
      ...WEEKLY,
      every: { kind: 'daily' },
      on: '2026-11-24',
    });
    expect(await owed()).toEqual([
      ['2026-11-07', 'missed', null],
      ['2026-11-14', 'missed', null],
      // The next one would have fallen due on the 28th: until then it can still be made up.
      ['2026-11-21', 'late', null],
      ['2026-11-24', 'late', null],
      ['2026-11-25', 'owed', null],
    ]);
  });

  it('goes through what is operated alone where it says so', async () => {
    const { d, g, line, saw, l1, started, finished } = await scheduled();
    const checkoff = d.must('checkoff.start', { of: g.unit, scope: 'operated only', started });
    d.must('checkoff.mark', {
      checkoff,
      marks: [
        present('L1', l1, {
          operated: [
            { line: line('Chain saw'), item: saw, works: true },
            { line: line('Foam concentrate'), works: true, reading: '20' },
          ],
        }),
      ],
    });
    d.must('checkoff.sign', { checkoff, finished });
  });

  it('is refused a time or a rhythm that there is not', async () => {
    const { d, g } = await scheduled();
    const said = (more: object) =>
      d.refused('checkoff.schedule', { of: g.unit, ...WEEKLY, ...more, on: '2026-11-01' })[0]?.message;
    expect(said({ dueBy: 'noon' })).toBe('Due by “noon” is not a time: write it as 07:30.');
    expect(said({ every: { kind: 'each shift', hours: 7, from: '07:00' } })).toBe(
      'Shifts of 7 hours do not fill whole days: 8, 12, 24 or 48 do.',
    );
  });
});
