import { describe, expect, it } from 'vitest';
import { readBook } from '../../db/caches/book.ts';
import { asItemFacts, factsAsOf, factsOf } from '../../db/caches/facts.ts';
import { dayIn } from '../../db/store/clock.ts';
import { one } from '../../db/store/statements.ts';
import { dayText } from '../../domain/calendar/day.ts';
import { derive } from '../../domain/derive/thing.ts';
import { aHose, departmentInMemory, type TestDepartment } from './kit/department.ts';
import { NOON } from './kit/opening.ts';

const HOUR = 3_600_000;

function ready() {
  const { d, g } = departmentInMemory();
  return { d, g, hose: aHose(d, '31-107', { place: g.bed }) };
}

function keyOf(d: TestDepartment, item: string): number {
  return one<{ key: number }>(d.db, 'SELECT key FROM things WHERE id = ?', item)?.key ?? -1;
}

/** The thing as the department would have shown it: by what it knew at an instant, of how it was on a day. */
function shown(d: TestDepartment, item: string, known: number, effective: string) {
  return derive(asItemFacts(factsAsOf(d.db, keyOf(d, item), known, effective)), readBook(d.db));
}

describe('what is effective', () => {
  it('is shown in the order of the days, whatever the order in which it was told', () => {
    const { d, g, hose } = ready();
    d.must('item.move', { item: hose, to: g.rack, on: '2026-06-20' });
    d.must('item.move', { item: hose, to: g.vendor, on: '2026-03-01' });
    const now = derive(asItemFacts(factsOf(d.db, keyOf(d, hose))), readBook(d.db));
    expect(now?.places.map(p => [p.value.place, p.from, p.until])).toEqual([
      [g.bed, '2021-11-09', '2026-03-01'],
      [g.vendor, '2026-03-01', '2026-06-20'],
      [g.rack, '2026-06-20', null],
    ]);
    expect(now?.place?.place).toBe(g.rack);
  });

  it('on one day is shown in the order it was told', () => {
    const { d, hose } = ready();
    d.must('item.tagOut', { item: hose, reason: 'Cut', on: '2026-06-20' });
    d.must('item.return', { item: hose, on: '2026-06-20' });
    expect(d.conditionOf(hose)).toBe('serviceable');
    d.must('item.tagOut', { item: hose, reason: 'Cut again', on: '2026-06-20' });
    expect(d.conditionOf(hose)).toBe('tagged out');
  });

  it('on a day known to the month comes before the days inside it', () => {
    const { d, g, hose } = ready();
    d.must('item.move', { item: hose, to: g.rack, on: '2026-06-02' });
    d.must('item.move', { item: hose, to: g.vendor, on: '2026-06' });
    expect(one(d.db, "SELECT place FROM items WHERE family <> 'apparatus'")).toEqual({ place: g.rack });
  });

  it('with a clock time is ordered within its day', () => {
    const { d, g, hose } = ready();
    d.must('item.move', { item: hose, to: g.rack, on: '2026-06-02T16:00' });
    d.must('item.move', { item: hose, to: g.vendor, on: '2026-06-02T03:10' });
    expect(one(d.db, "SELECT place FROM items WHERE family <> 'apparatus'")).toEqual({ place: g.rack });
  });
});

describe('what was known', () => {
  it('at an instant leaves out what was told after it', () => {
    const { d, g, hose } = ready();
    const before = d.clock.ms;
    d.clock.ms += HOUR;
    d.must('item.move', { item: hose, to: g.rack, on: '2026-03-01' });
    expect(shown(d, hose, before, '2026-11-25')?.place?.place).toBe(g.bed);
    expect(shown(d, hose, d.clock.ms, '2026-11-25')?.place?.place).toBe(g.rack);
    expect(shown(d, hose, d.clock.ms, '2026-02-28')?.place?.place).toBe(g.bed);
  });

  it('of a deed that was voided later is still what was known in between', () => {
    const { d, hose } = ready();
    const record = d.must('record.add', {
      item: hose,
      activity: 'service test',
      outcome: 'fail',
      on: '2026-06-14',
    });
    const between = d.clock.ms;
    d.clock.ms += HOUR;
    d.must('void', { target: record, why: 'Another hose' });
    expect(shown(d, hose, between, '2026-11-25')?.condition).toBe('retest owed');
    expect(shown(d, hose, between, '2026-06-13')?.condition).toBe('serviceable');
    expect(shown(d, hose, d.clock.ms, '2026-11-25')?.condition).toBe('serviceable');
  });

  it('and what was so are two questions: a back-dated correction changes the second, not the first', () => {
    const { d, hose } = ready();
    d.must('record.add', { item: hose, activity: 'service test', outcome: 'pass', on: '2026-06-14' });
    const asked = d.clock.ms;
    d.clock.ms += 24 * HOUR;
    d.must('record.add', { item: hose, activity: 'service test', outcome: 'fail', on: '2026-06-20' });
    const then = shown(d, hose, asked, '2026-06-30');
    const now = shown(d, hose, d.clock.ms, '2026-06-30');
    expect([then?.condition, now?.condition]).toEqual(['serviceable', 'retest owed']);
    expect(then?.due.map(r => r.basis)).not.toContain('retest');
    expect(now?.due.map(r => r.basis)).toContain('retest');
  });

  it('before the thing was received is nothing', () => {
    const { d, hose } = ready();
    expect(shown(d, hose, NOON - 365 * 24 * HOUR, '2026-11-25')).toBeNull();
  });
});

describe('today', () => {
  it('is the day in the department’s zone, to the minute at midnight and across both changes of the clock', () => {
    // IANA time zone database: Denver is UTC-7, and UTC-6 from 8 March to 1 November 2026; Kathmandu is UTC+5:45.
    for (const [zone, instant, day] of [
      ['America/Denver', Date.UTC(2026, 10, 25, 6, 59, 59, 999), '2026-11-24'],
      ['America/Denver', Date.UTC(2026, 10, 25, 7), '2026-11-25'],
      ['America/Denver', Date.UTC(2026, 5, 14, 5, 59, 59, 999), '2026-06-13'],
      ['America/Denver', Date.UTC(2026, 5, 14, 6), '2026-06-14'],
      ['America/Denver', Date.UTC(2026, 2, 8, 9, 1), '2026-03-08'],
      ['Asia/Kathmandu', Date.UTC(2026, 10, 25, 18, 14, 59, 999), '2026-11-25'],
      ['Asia/Kathmandu', Date.UTC(2026, 10, 25, 18, 15), '2026-11-26'],
    ] as const) {
      expect(dayText(dayIn(zone, instant)), `${zone} ${instant}`).toBe(day);
      expect(dayText(dayIn(zone, instant))).toBe(day);
    }
  });

  it('changes on a quarter of an hour of UTC in every zone, as the store counts on', () => {
    for (const timeZone of Intl.supportedValuesOf('timeZone')) {
      const format = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'longOffset' });
      for (const year of [2026, 2040])
        for (const month of [0, 6]) {
          const told = format.formatToParts(Date.UTC(year, month, 1)).find(p => p.type === 'timeZoneName');
          // `GMT`, or `GMT+05:45`; seconds would stand behind the minutes.
          expect(told?.value, timeZone).toMatch(/^GMT([+-]\d{2}:(00|15|30|45))?$/);
        }
    }
  });
});
