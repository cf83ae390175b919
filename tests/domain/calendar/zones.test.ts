/**
 * The integer calendar against Temporal (the TC39 proposal's polyfill) and date-fns, in processes that live in two
 * time zones with opposite daylight saving; and the civil day of an instant against Temporal over DST changes.
 */
import { execFile } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { dayIn } from '../../../db/store/clock.ts';
import { dayText } from '../../../domain/calendar/day.ts';

const run = promisify(execFile);
const CASES = 100_000;

const script = fileURLToPath(new URL('./inZone.ts', import.meta.url));

/** Whole cases in a process of that zone; the instants are those of the other zone. */
async function inZone(zone: string, other: string, seed: number): Promise<Record<string, unknown>> {
  const args = [script, String(seed), String(CASES), other];
  const { stdout } = await run(process.execPath, args, {
    env: { ...process.env, TZ: zone, NODE_OPTIONS: '' },
  });
  return JSON.parse(stdout);
}

describe('the calendar', () => {
  it.concurrent.each([
    // Minutes west of Greenwich in January and July show that the process really lived there.
    ['America/New_York', 'Australia/Sydney', [300, 240], 20_261_125],
    ['Australia/Sydney', 'America/New_York', [-660, -600], 19_870_701],
  ] as const)(
    `agrees with Temporal and date-fns on ${CASES} seeded cases and every day of 250 years in %s, and on the day of ${CASES} instants in %s`,
    async (zone, other, offsets_min, seed) => {
      const found = await inZone(zone, other, seed);
      expect(found.wrong).toEqual([]);
      expect(found).toMatchObject({ days: 91_311, sums: CASES, instants: CASES, nearChange: CASES / 2 });
      expect(found.offsets_min).toEqual(offsets_min);
    },
    60_000,
  );

  it('reads no machine clock and no time zone: nothing in the domain touches Date, Intl or Temporal', () => {
    const root = fileURLToPath(new URL('../../../domain', import.meta.url));
    const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(f => f.endsWith('.ts'));
    expect(files.length).toBeGreaterThan(15);
    const touching = files.filter(f =>
      /\bnew Date\b|\bDate\.|\bDate\(|\bIntl\.|\bTemporal\b|toLocale|performance\.now/.test(
        readFileSync(join(root, f), 'utf8'),
      ),
    );
    expect(touching).toEqual([]);
  });
});

describe('today', () => {
  // US: second Sunday of March to first Sunday of November, at 2:00 (Energy Policy Act of 2005, 15 U.S.C. 260a).
  // New South Wales: first Sunday of October to first Sunday of April (Standard Time Act 1987).
  it.each([
    ['America/New_York', '2026-03-08T04:59:59.999Z', '2026-03-07', 'the evening before clocks go forward'],
    ['America/New_York', '2026-03-08T05:00:00Z', '2026-03-08', 'midnight before clocks go forward'],
    ['America/New_York', '2026-03-09T03:59:59.999Z', '2026-03-08', 'the end of a day of 23 hours'],
    ['America/New_York', '2026-03-09T04:00:00Z', '2026-03-09', 'the midnight after'],
    ['America/New_York', '2026-11-01T03:59:59.999Z', '2026-10-31', 'the evening before clocks go back'],
    ['America/New_York', '2026-11-01T04:00:00Z', '2026-11-01', 'midnight before clocks go back'],
    ['America/New_York', '2026-11-02T04:59:59.999Z', '2026-11-01', 'the end of a day of 25 hours'],
    ['America/New_York', '2026-11-02T05:00:00Z', '2026-11-02', 'the midnight after'],
    ['Australia/Sydney', '2026-10-04T12:59:59.999Z', '2026-10-04', 'the end of a day of 23 hours'],
    ['Australia/Sydney', '2026-10-04T13:00:00Z', '2026-10-05', 'the midnight after'],
    ['Australia/Sydney', '2026-04-05T13:59:59.999Z', '2026-04-05', 'the end of a day of 25 hours'],
    ['Australia/Sydney', '2026-04-05T14:00:00Z', '2026-04-06', 'the midnight after'],
    ['America/Phoenix', '2026-07-01T06:59:59Z', '2026-06-30', 'a zone that changes no clocks'],
    ['UTC', '2026-12-31T23:59:59.999Z', '2026-12-31', 'the last of the year'],
  ])('in %s at %s is %s: %s', (zone, instant, expected) =>
    expect(dayText(dayIn(zone, Date.parse(instant)))).toBe(expected),
  );

  it('is not known in a zone that does not exist', () =>
    expect(() => dayIn('America/Larkspur', 0)).toThrow(RangeError));
});
