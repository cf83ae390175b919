/** Meters: they run forward, a correction is a void, and a projection is a range. The program's own rules. */
import { describe, expect, it } from 'vitest';
import type { MeterPage } from '../../db/api-rules.ts';
import { departmentInMemory } from './kit/department.ts';

function read() {
  const { d, g } = departmentInMemory();
  const at = (reading: number, on: string, more: object = {}) => ({
    ...{ rig: g.rig, meter: 'miles', reading, on },
    ...more,
  });
  const miles = async (on?: string) => {
    const pages = await d.ask<MeterPage[]>('item.meters', { item: g.rig, ...(on ? { on } : {}) });
    return pages.find(p => p.meter === 'miles');
  };
  return { d, g, at, miles };
}

describe('a meter', () => {
  it('is refused backward both ways: below the one before, and above the one after', () => {
    const { d, at } = read();
    d.must('rig.read', at(41_000, '2026-03-01'));
    d.must('rig.read', at(42_000, '2026-06-01'));
    expect(d.codes('rig.read', at(41_999, '2026-07-01'))).toEqual(['meter backward']);
    expect(d.codes('rig.read', at(42_001, '2026-04-01'))).toEqual(['meter backward']);
    expect(d.codes('rig.read', at(40_999, '2026-04-01'))).toEqual(['meter backward']);
    d.must('rig.read', at(41_500, '2026-04-01'));
    d.must('rig.read', at(42_000, '2026-07-01'));
  });

  it('that was replaced counts on; the new one may not be read above what it later shows', async () => {
    const { d, at, miles } = read();
    d.must('rig.read', at(41_000, '2026-03-01'));
    d.must('rig.read', at(12, '2026-04-01', { meterReplaced: true }));
    d.must('rig.read', at(112, '2026-05-01'));
    // Before the replacement the old meter may have shown more.
    d.must('rig.read', at(41_300, '2026-03-20'));
    expect((await miles())?.points.map(p => [p.reading, p.total])).toEqual([
      [41_000, 41_000],
      [41_300, 41_300],
      [12, 41_300],
      [112, 41_400],
    ]);
    expect(d.codes('rig.read', at(113, '2026-04-15'))).toEqual(['meter backward']);
    expect(d.codes('rig.read', at(11, '2026-04-15'))).toEqual(['meter backward']);
  });

  it('misread is voided, and what it forbade is taken', async () => {
    const { d, at, miles } = read();
    d.must('rig.read', at(41_000, '2026-03-01'));
    const wrong = d.must('rig.read', at(91_000, '2026-04-01', { readTwice: true }));
    expect(d.codes('rig.read', at(41_700, '2026-05-01'))).toEqual(['meter backward']);
    d.must('void', { target: wrong, why: 'Misread' });
    d.must('rig.read', at(41_700, '2026-05-01'));
    expect((await miles())?.points.map(p => p.reading)).toEqual([41_000, 41_700]);
  });

  it('rises by no more than a day’s hours a day, or it must have been read twice', () => {
    const { d, at } = read();
    const hours = (reading: number, on: string, more: object = {}) => ({
      ...at(reading, on, more),
      meter: 'engine hours',
    });
    d.must('rig.read', hours(4_000, '2026-03-01'));
    // Two days, the first one whole: 48 hours and no more.
    expect(d.codes('rig.read', hours(4_049, '2026-03-02'))).toEqual(['meter leaps']);
    d.must('rig.read', hours(4_048, '2026-03-02'));
    expect(d.codes('rig.read', hours(9_000, '2026-03-02'))).toEqual(['meter leaps']);
    d.must('rig.read', hours(9_000, '2026-03-02', { readTwice: true }));
    d.must('rig.read', hours(20_000, '2026-03-03', { meterReplaced: true }));
    // Of miles, 1,000 a day: common practice, no source.
    d.must('rig.read', at(102_475, '2026-03-05'));
    expect(d.codes('rig.read', at(999_999, '2026-03-25'))).toEqual(['meter leaps']);
  });

  it('of a tool is one that its family has, and goes forward too', () => {
    const { d, g } = departmentInMemory();
    const item = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-1',
      place: g.rack,
      on: '2026-01-01',
    });
    const fills = (reading: number, on: string) => ({ item, meter: 'fills', reading, on });
    d.must('item.read', fills(10, '2026-02-01'));
    expect(d.codes('item.read', fills(9, '2026-03-01'))).toEqual(['meter backward']);
    expect(d.codes('item.read', { ...fills(11, '2026-03-01'), meter: 'miles' })).toEqual(['no such meter']);
    expect(d.codes('item.read', fills(11, '2026-11-26'))).not.toEqual([]);
  });
});
