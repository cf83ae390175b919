/** The haste note. No source gives a fair pace: the threshold is the department's, and there is none by default. */
import { describe, expect, it } from 'vitest';
import { suspicious } from '../../../domain/checkoffs/haste.ts';

const haste = (from: string, to: string, lines: number, least_seconds?: number | null) =>
  suspicious(`2026-03-09T${from}`, `2026-03-09T${to}`, lines, least_seconds);

describe('a sheet of 200 lines', () => {
  it('ticked in four minutes is noted where the department asks for 3 seconds a line', () =>
    expect(haste('07:00', '07:04', 200, 3)).toEqual({ secondsPerLine: 1.2 }));

  it('is not noted at the threshold, and is one second under it', () => {
    expect(haste('07:00:00', '07:10:00', 200, 3)).toBeNull();
    expect(haste('07:00:00', '07:09:59', 200, 3)).toEqual({ secondsPerLine: 2.9 });
  });

  it('is not noted where the department has set no threshold', () => {
    expect(haste('07:00', '07:01', 200)).toBeNull();
    expect(haste('07:00', '07:01', 200, null)).toBeNull();
  });

  it('is not judged where the clocks were set back between its start and its finish', () =>
    expect(suspicious('2026-11-01T01:50', '2026-11-01T01:05', 200, 3)).toBeNull());
});

it('a sheet without lines cannot be hasty', () => expect(haste('07:00', '07:00', 0, 3)).toBeNull());

it('is not told for a time that is none', () => {
  expect(() => haste('7:00', '07:01', 10, 3)).toThrow(RangeError);
  expect(() => haste('07:00', '07:60', 10, 3)).toThrow(RangeError);
});
