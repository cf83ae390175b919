/** The haste note. No source gives a fair pace: the threshold is the department's, and there is none by default. */
import { describe, expect, it } from 'vitest';
import { hasteWords, suspicious } from '../../../domain/checkoffs/haste.ts';

const haste = (from: string, to: string, lines: number, least_seconds?: number | null) =>
  suspicious(`2026-03-09T${from}`, `2026-03-09T${to}`, lines, least_seconds);

describe('a sheet of 200 lines', () => {
  it('ticked in four minutes is noted where the department asks for 3 seconds a line', () => {
    expect(haste('07:00:00', '07:04:00', 200, 3)).toEqual({ secondsPerLine: 1.2 });
    // By the minute it may have been almost five.
    expect(haste('07:00', '07:04', 200, 3)).toEqual({ secondsPerLine: 1.4 });
  });

  it('is given what times to the minute hide, so that nobody is noted who may have looked', () => {
    // 600 s are asked for; 07:00:00 to 07:09:59 is one short of it, 07:00 to 07:10 may be 659 s.
    expect(haste('07:00', '07:09', 200, 3)).toEqual({ secondsPerLine: 2.9 });
    expect(haste('07:00', '07:10', 200, 3)).toBeNull();
    // Three saws run within one minute by the clock.
    expect(haste('07:00', '07:00', 3, 3)).toBeNull();
    expect(haste('07:00', '07:00', 30, 3)).toEqual({ secondsPerLine: 1.9 });
  });

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

it('the note is told in calm words, with what the department asks for', () =>
  expect(hasteWords({ secondsPerLine: 2.1, under_s: 3 })).toBe(
    'Gone through in 2.1 s a line; the department notes under 3 s.',
  ));

it('a sheet without lines cannot be hasty', () => expect(haste('07:00', '07:00', 0, 3)).toBeNull());

it('is not told for a time that is none', () => {
  expect(() => haste('7:00', '07:01', 10, 3)).toThrow(RangeError);
  expect(() => haste('07:00', '07:60', 10, 3)).toThrow(RangeError);
});
