/** What is ordered, what is moved first, and what a box is. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { type Day, parseDay } from '../../../domain/calendar/day.ts';
import type { When } from '../../../domain/calendar/when.ts';
import { amountWords, mixedUp, readAmount } from '../../../domain/supply/boxes.ts';
import type { OnHand } from '../../../domain/supply/lots.ts';
import { betterPlaces, toReorder } from '../../../domain/supply/reorder.ts';

const TODAY = parseDay('2026-11-25') as Day;
const at = (place: string, usable: number, par: number | null, min: number | null) => ({
  place,
  usable,
  par,
  min,
});
const gloves = (...places: ReturnType<typeof at>[]) => ({ stock: 'gloves', perBox: 100, places });

describe('reordering', () => {
  it('lists what is under its minimum, up to its par, and nothing that is merely under its par', () => {
    const [row, ...others] = toReorder([
      gloves(at('31', 100, 600, 300), at('32', 400, 600, 300)),
      { stock: 'batteries', perBox: null, places: [at('31', 40, 48, 24)] },
    ]);
    expect(others).toEqual([]);
    expect(row).toMatchObject({ wanted: 500, order: 500, boxes: 5 });
    expect(row?.places.map(p => [p.place, p.wants])).toEqual([['31', 500]]);
  });

  it('for the department takes off what lies over par elsewhere, and orders whole boxes', () => {
    const [row] = toReorder([gloves(at('31', 50, 600, 300), at('33', 830, 600, 300))]);
    expect(row).toMatchObject({ wanted: 550, spare: [{ place: '33', over: 230 }], order: 320, boxes: 4 });
    expect(toReorder([gloves(at('31', 50, 100, 80), at('33', 830, 600, 300))])[0]).toMatchObject({
      wanted: 50,
      order: 0,
      boxes: 0,
    });
  });

  it('counts nothing as spare where nobody has said what the place should hold', () => {
    expect(toReorder([gloves(at('31', 0, 100, 50), at('attic', 900, null, null))])[0]?.order).toBe(100);
  });

  it('does not order twice what is under zero: it is owed a count', () => {
    expect(toReorder([gloves(at('31', -40, 100, 50))])[0]?.order).toBe(100);
  });
});

const lot = (place: string, name: string, amount: number, expires: string | null): OnHand => ({
  place,
  lot: name,
  expires: expires as When | null,
  amount,
  counted: null,
  since: '2026-01-01' as When,
});

describe('a lot that will not be used up in time', () => {
  // 60 days are left; 180 days of issuing say how fast each place is.
  const soon = '2027-01-23';

  it('is better off where more is used, as many as would be used there', () => {
    const used = new Map([
      ['quiet', 3],
      ['busy', 90],
    ]);
    expect(betterPlaces([lot('quiet', 'A', 12, soon)], used, TODAY)).toEqual([
      { lot: 'A', from: 'quiet', to: 'busy', amount: 11, left: 11 },
    ]);
  });

  it('is not sent where what lies there already expires as soon', () => {
    const used = new Map([['busy', 90]]);
    const there = [lot('quiet', 'A', 12, soon), lot('busy', 'B', 25, '2027-01-10')];
    expect(betterPlaces(there, used, TODAY).map(m => m.amount)).toEqual([5]);
    expect(betterPlaces([...there, lot('busy', 'C', 5, '2027-01-01')], used, TODAY)).toEqual([]);
  });

  it('stays where it will be used, where nobody is faster, and where its date is far', () => {
    const used = new Map([
      ['quiet', 60],
      ['busy', 90],
    ]);
    expect(betterPlaces([lot('quiet', 'A', 12, soon)], used, TODAY)).toEqual([]);
    expect(betterPlaces([lot('busy', 'A', 99, soon)], used, TODAY)).toEqual([]);
    expect(betterPlaces([lot('quiet', 'A', 999, '2028')], used, TODAY)).toEqual([]);
    expect(betterPlaces([lot('quiet', 'A', 999, null)], used, TODAY)).toEqual([]);
  });

  it('is not moved once it has expired', () => {
    expect(betterPlaces([lot('quiet', 'A', 12, '2026-10')], new Map([['busy', 90]]), TODAY)).toEqual([]);
  });
});

describe('a box', () => {
  it('entered as each is seen, and each entered as boxes', () => {
    expect(mixedUp(3, 300, 100)).toBe('boxes as each');
    expect(mixedUp(30_000, 300, 100)).toBe('each as boxes');
    expect(mixedUp(260, 300, 100)).toBeNull();
    expect(mixedUp(40, 300, 100)).toBeNull();
    expect(mixedUp(0, 300, 100)).toBeNull();
    expect(mixedUp(3, 300, null)).toBeNull();
    // Half of a pair may well have been used.
    expect(mixedUp(5, 10, 2)).toBeNull();
  });

  it('is read and said as people do', () => {
    expect(readAmount('40', 100)).toBe(40);
    expect(readAmount('1,200', null)).toBe(1200);
    expect(readAmount('3 boxes', 100)).toBe(300);
    expect(readAmount('1 box and 12', 100)).toBe(112);
    expect(readAmount('2 bx + 5 each', 50)).toBe(105);
    for (const wrong of ['', '3 boxes', '1.5', '-2', 'some', '4 pails'])
      expect(readAmount(wrong, null)).toBeNull();
    expect([
      amountWords(312, 100),
      amountWords(100, 100),
      amountWords(40, 100),
      amountWords(7, null),
    ]).toEqual(['3 boxes and 12', '1 box', '40', '7']);
  });
});
