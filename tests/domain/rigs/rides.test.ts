/** A unit follows its crew; a rig stays itself; what went along comes back, or is on a list. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { When } from '../../../domain/calendar/when.ts';
import { notReturned, type RideFact, ridesFrom } from '../../../domain/rigs/rides.ts';

let clock = 0;
const took = (effective: string, unit: string | null, rig: string): RideFact => ({
  rig,
  unit,
  effective: effective as When,
  clock: ++clock,
  device: 'a',
});
const OUT_AND_BACK = [
  took('2020', 'Engine 31', 'E31'),
  took('2026-11-01T07:00', 'Engine 31', 'R-1'),
  took('2026-11-05T19:00', 'Engine 31', 'E31'),
];

describe('a ride', () => {
  it('ends the ride before it, of the unit and of whoever had the rig', () => {
    const rides = ridesFrom([
      ...OUT_AND_BACK,
      took('2026-11-06', 'Engine 32', 'R-1'),
      took('2026-11-07', 'Engine 33', 'R-1'),
    ]);
    expect(rides.map(r => [r.unit, r.rig, r.from, r.until])).toEqual([
      ['Engine 31', 'E31', '2020', '2026-11-01T07:00'],
      ['Engine 31', 'R-1', '2026-11-01T07:00', '2026-11-05T19:00'],
      ['Engine 31', 'E31', '2026-11-05T19:00', null],
      ['Engine 32', 'R-1', '2026-11-06', '2026-11-07'],
      ['Engine 33', 'R-1', '2026-11-07', null],
    ]);
  });

  it('may be told late and stands where it belongs all the same', () => {
    const told = [OUT_AND_BACK[2], OUT_AND_BACK[0], OUT_AND_BACK[1]].filter(f => f !== undefined);
    expect(ridesFrom(told)).toEqual(ridesFrom(OUT_AND_BACK));
  });

  it('ends without another where the rig is left', () =>
    expect(ridesFrom([took('2020', 'Engine 31', 'E31'), took('2026-01-01', null, 'E31')])).toMatchObject([
      { until: '2026-01-01' },
    ]));
});

describe('what was not brought back', () => {
  const been = (...spans: [string | null, string][]) => [
    { item: 'TIC-3', spans: spans.map(([rig, from]) => ({ rig, from: from as When })) },
  ];

  it('went along to the reserve rig and is still there though the crew is back', () =>
    expect(notReturned(ridesFrom(OUT_AND_BACK), been(['E31', '2024'], ['R-1', '2026-11-01T08:00']))).toEqual([
      { item: 'TIC-3', home: 'E31', on: 'R-1', since: '2026-11-01T08:00' },
    ]));

  it.each(['2026-11-01', '2026-11', '2026-11-05'])('is it too where the move is known only to %s', when => {
    expect(notReturned(ridesFrom(OUT_AND_BACK), been(['E31', '2024'], ['R-1', when]))).toHaveLength(1);
  });

  it('is nothing while the crew still rides the reserve rig, nor what came back, nor what the reserve rig had', () => {
    expect(
      notReturned(ridesFrom(OUT_AND_BACK.slice(0, 2)), been(['E31', '2024'], ['R-1', '2026-11-01T08:00'])),
    ).toEqual([]);
    expect(
      notReturned(
        ridesFrom(OUT_AND_BACK),
        been(['E31', '2024'], ['R-1', '2026-11-01T08:00'], ['E31', '2026-11-05T20:00']),
      ),
    ).toEqual([]);
    expect(notReturned(ridesFrom(OUT_AND_BACK), been(['R-1', '2024']))).toEqual([]);
  });

  it('is not what was moved there after the crew had left', () =>
    expect(notReturned(ridesFrom(OUT_AND_BACK), been(['E31', '2024'], ['R-1', '2026-11-09']))).toEqual([]));
});
