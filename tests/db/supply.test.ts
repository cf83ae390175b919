/** Counted stock through the two doors: what a storeroom does, and what it must not do quietly. */
import { describe, expect, it } from 'vitest';
import type { HistoryLine, Questions } from '../../db/api.ts';
import type { SupplyLine, SupplyShelf } from '../../db/api-supply.ts';
import type { Ground, TestDepartment } from './kit/department.ts';
import { departmentInMemory } from './kit/department.ts';

const LIKE = { unit: 'box', perBox: 100 };

function storeroom() {
  const { d, g } = departmentInMemory();
  const gloves = d.must('stock.add', { what: 'Exam gloves, large', ...LIKE, on: '2026-01-01' });
  return { d, g, gloves };
}
const receive = (d: TestDepartment, g: Ground, stock: string, more: Record<string, unknown> = {}) =>
  d.must('stock.receive', { stock, place: g.rack, amount: 300, on: '2026-02-01', ...more });
const line = async (d: TestDepartment, place: string): Promise<SupplyLine | undefined> =>
  (await d.ask<Questions['supply.list']['gives']>('supply.list', {})).rows.find(r => r.place === place);
const lots = async (d: TestDepartment, place: string) =>
  Object.fromEntries(((await line(d, place))?.lots ?? []).map(l => [l.lot ?? '-', l.onHand]));

describe('stock', () => {
  it('is received, issued, moved, counted and written off, and told in words', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { lot: 'a7', expires: '2028-03' });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 40, to: g.unit, note: 'After a call' });
    d.must('stock.move', { stock: gloves, from: g.rack, to: g.bed, amount: 100 });
    d.must('stock.count', { stock: gloves, place: g.rack, counts: [{ lot: 'A7', amount: 150 }] });
    d.must('stock.writeOff', { stock: gloves, place: g.rack, amount: 12, why: 'Torn' });
    expect([await lots(d, g.rack), await lots(d, g.bed)]).toEqual([{ A7: 138 }, { A7: 100 }]);
    const told = await d.ask<HistoryLine[]>('supply.history', { stock: gloves });
    expect(told.map(l => l.what)).toEqual([
      'Wrote off 12 of lot A7 at Station 31, hose rack: Torn',
      'Counted 1 box and 50 of lot A7 at Station 31, hose rack',
      'Moved 1 box of lot A7 from Station 31, hose rack to Engine 31, hosebed driver side',
      'Issued 40 of lot A7 from Station 31, hose rack to Engine 31: After a call',
      'Received 3 boxes of lot A7, expires Mar 2028 at Station 31, hose rack',
      'Kept as Exam gloves, large, 100 to the box',
    ]);
  });

  it('goes the soonest expiry first; an expired lot is taken only where somebody names it', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { amount: 10, lot: 'LATE', expires: '2029-01' });
    receive(d, g, gloves, { amount: 10, lot: 'SOON', expires: '2027-01' });
    receive(d, g, gloves, { amount: 10, lot: 'GONE', expires: '2026-03' });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 14 });
    expect(await lots(d, g.rack)).toEqual({ GONE: 10, LATE: 6 });
    const [problem] = d.refused('stock.issue', { stock: gloves, place: g.rack, amount: 7 });
    expect(problem).toMatchObject({
      code: 'expired',
      message: 'Of 7 only 6 there are in date; 10 have expired.',
    });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 6, on: '2026-11-24' });
    expect(d.refused('stock.issue', { stock: gloves, place: g.rack, amount: 2 })[0]?.message).toBe(
      'None there is in date: 10 have expired.',
    );
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 2, lot: 'gone' });
    expect(await lots(d, g.rack)).toEqual({ GONE: 8 });
  });

  it('of which more was taken than was known stands under zero until it is counted', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { amount: 5 });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 8 });
    expect(await line(d, g.rack)).toMatchObject({ onHand: -3, countOwed: true });
    d.must('stock.count', { stock: gloves, place: g.rack, counts: [{ amount: 2 }] });
    expect(await line(d, g.rack)).toMatchObject({ onHand: 2, countOwed: false, counted: '2026-11-25' });
  });

  it('that is told late stands in the count that came after it', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { amount: 20 });
    d.must('stock.count', { stock: gloves, place: g.rack, counts: [{ amount: 15 }], on: '2026-06-01' });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 5, on: '2026-05-20' });
    expect(await lots(d, g.rack)).toEqual({ '-': 15 });
  });

  it('that was entered by mistake is voided, and a lot is what it was', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves);
    const issued = d.must('stock.issue', { stock: gloves, place: g.rack, amount: 50 });
    d.must('void', { target: issued, why: 'It was the medium ones' });
    expect(await lots(d, g.rack)).toEqual({ '-': 300 });
    expect(d.codes('void', { target: gloves, why: 'Not kept' })).toEqual(['depended on']);
  });

  it('without a lot number goes by its expiry, so that its date is not lost', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { amount: 10, expires: '2027-02' });
    receive(d, g, gloves, { amount: 10, expires: '2028-02' });
    d.must('stock.issue', { stock: gloves, place: g.rack, amount: 12 });
    expect(await lots(d, g.rack)).toEqual({ '2028-02': 8 });
  });
});

describe('a deed on stock is refused', () => {
  it('where its amount is none, under zero or a fraction', () => {
    const { d, g, gloves } = storeroom();
    const of = (amount: unknown) =>
      d.refused('stock.receive', { stock: gloves, place: g.rack, amount })[0]?.message;
    expect(of(1.5)).toBe('amount is no whole number. Count in each.');
    expect(d.codes('stock.receive', { stock: gloves, place: g.rack, amount: 0 })).toEqual(['bad value']);
    expect(d.codes('stock.issue', { stock: gloves, place: g.rack, amount: -2 })).toEqual(['bad value']);
    expect(d.codes('stock.count', { stock: gloves, place: g.rack, counts: [{ amount: -1 }] })).toEqual([
      'bad value',
    ]);
  });

  it('where the place is none, or the stock', () => {
    const { d, g, gloves } = storeroom();
    expect(d.codes('stock.receive', { stock: gloves, place: g.unit, amount: 1 })).toEqual(['not found']);
    expect(d.codes('stock.par', { stock: gloves, place: 'nowhere', par: 2, min: 1 })).toEqual(['not found']);
    expect(d.codes('stock.receive', { stock: g.rack, place: g.rack, amount: 1 })).toEqual(['not found']);
    expect(d.codes('stock.issue', { stock: gloves, place: g.rack, amount: 1, to: d.admin })).toEqual([
      'not found',
    ]);
    expect(d.codes('stock.move', { stock: gloves, from: g.rack, to: g.rack, amount: 1 })).toEqual([
      'same place',
    ]);
  });

  it('where a lot was never heard of, or has another date than it is known by', () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { lot: 'A7', expires: '2028-03' });
    const [unknown] = d.refused('stock.issue', { stock: gloves, place: g.rack, amount: 1, lot: 'A1' });
    expect(unknown).toMatchObject({ code: 'unknown lot', todo: 'There lie: A7.' });
    const again = { stock: gloves, place: g.rack, amount: 1, lot: 'A7' };
    expect(d.codes('stock.receive', { ...again, expires: '2029-03' })).toEqual(['another expiry']);
    d.must('stock.receive', { ...again, expires: '2028-03' });
    d.must('stock.count', {
      stock: gloves,
      place: g.rack,
      counts: [{ lot: 'A7', expires: '2029-03', amount: 300 }],
    });
    d.must('stock.receive', { ...again, expires: '2029-03' });
  });

  it('where several lots lie there and the one that is written off is not named', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { lot: 'B', expires: '2028-03' });
    receive(d, g, gloves, { lot: 'A', expires: '2026-03' });
    const off = { stock: gloves, place: g.rack, amount: 1, why: 'Expired' };
    expect(d.refused('stock.writeOff', off)[0]).toMatchObject({
      code: 'which lot',
      todo: 'Name the one: A, B.',
    });
    // What has no lot is named by saying so.
    receive(d, g, gloves, { amount: 4 });
    d.must('stock.writeOff', { ...off, amount: 3, lot: null });
    expect(await lots(d, g.rack)).toEqual({ A: 300, B: 300, '-': 1 });
  });

  it('where its minimum is over its par, its name is taken, or its box has no size', () => {
    const { d, g, gloves } = storeroom();
    expect(d.codes('stock.par', { stock: gloves, place: g.rack, par: 2, min: 3 })).toEqual(['minimum above']);
    expect(d.codes('stock.add', { what: 'exam gloves, LARGE' })).toEqual(['name in use']);
    expect(d.codes('stock.add', { what: 'Tape', unit: 'box' })).toEqual(['no box size']);
    expect(d.codes('stock.add', { what: 'Tape', perBox: 6 })).toEqual(['not in boxes']);
    expect(d.codes('stock.amend', { stock: gloves })).toEqual(['nothing to amend']);
    d.must('stock.amend', { stock: gloves, unit: 'each' });
    expect(d.codes('stock.amend', { stock: gloves, unit: 'box' })).toEqual(['no box size']);
  });

  it('where what is done is said to be tomorrow', () => {
    const { d, g, gloves } = storeroom();
    const codes = d.codes('stock.receive', { stock: gloves, place: g.rack, amount: 1, on: '2026-11-26' });
    expect(codes).toEqual(['future date']);
  });
});

describe('a count', () => {
  it('of what needs two is refused without another member, and says what this is not', () => {
    const { d, g } = storeroom();
    const kits = d.must('stock.add', { what: 'Naloxone kit', twoCount: true });
    const other = d.must('member.add', { number: '7', name: 'Ana Ruiz', position: 'driver' });
    const count = { stock: kits, place: g.rack, counts: [{ amount: 6 }] };
    const [problem] = d.refused('stock.count', count);
    expect(problem).toMatchObject({ code: 'two count', field: 'witness' });
    expect(problem?.todo).toContain('no controlled-substance register');
    expect(d.codes('stock.count', { ...count, witness: d.admin })).toEqual(['same member']);
    expect(d.codes('stock.count', { ...count, witness: g.rack })).toEqual(['not found']);
    d.must('stock.count', { ...count, witness: other });
  });

  it('that looks like boxes is asked about once, and taken where it was counted so', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves);
    const count = { stock: gloves, place: g.rack, counts: [{ amount: 3 }] };
    expect(d.refused('stock.count', count)[0]?.message).toBe(
      '3 looks like boxes: 3 boxes were on hand, 300 each.',
    );
    d.must('stock.count', { ...count, asCounted: true });
    expect(await lots(d, g.rack)).toEqual({ '-': 3 });
  });

  it('names no lot twice', () => {
    const { d, g, gloves } = storeroom();
    const counts = [
      { lot: 'a', amount: 1 },
      { lot: 'A', amount: 2 },
    ];
    expect(d.codes('stock.count', { stock: gloves, place: g.rack, counts })).toEqual(['counted twice']);
  });
});

describe('the lists', () => {
  it('put what is short first, and order it up to par less what is spare elsewhere', async () => {
    const { d, g, gloves } = storeroom();
    const tape = d.must('stock.add', { what: 'Barrier tape' });
    receive(d, g, gloves, { amount: 50 });
    receive(d, g, gloves, { amount: 80, place: g.bed });
    d.must('stock.par', { stock: gloves, place: g.rack, par: 600, min: 300 });
    d.must('stock.par', { stock: gloves, place: g.bed, par: 50, min: 20 });
    const { rows, kinds } = await d.ask<Questions['supply.list']['gives']>('supply.list', {});
    expect(kinds).toBe(2);
    expect(rows.map(r => [r.what, r.placeName, r.short])).toEqual([
      ['Exam gloves, large', 'Station 31, hose rack', 550],
      ['Barrier tape', null, 0],
      ['Exam gloves, large', 'Engine 31, hosebed driver side', 0],
    ]);
    const reorder = await d.ask<Questions['supply.reorder']['gives']>('supply.reorder', {});
    expect(reorder.rows).toMatchObject([{ wanted: 550, order: 520, boxes: 6, spare: [{ over: 30 }] }]);
    d.must('stock.amend', { stock: tape, kept: false });
    expect((await d.ask<Questions['supply.list']['gives']>('supply.list', {})).rows).toHaveLength(2);
  });

  it('tell of a lot that would be used up sooner elsewhere', async () => {
    const { d, g, gloves } = storeroom();
    receive(d, g, gloves, { amount: 40, lot: 'A', expires: '2027-01' });
    receive(d, g, gloves, { amount: 400, place: g.bed, on: '2026-09-01' });
    d.must('stock.issue', { stock: gloves, place: g.bed, amount: 300, on: '2026-10-01' });
    const { better } = await d.ask<Questions['supply.reorder']['gives']>('supply.reorder', {});
    expect(better).toMatchObject([{ lot: 'A', from: g.rack, to: g.bed, amount: 40, left: 40 }]);
  });

  it('tell the ready spares of a station, and cylinders by their fill', async () => {
    const { d, g } = storeroom();
    const empty = d.must('place.add', {
      name: 'empty rack',
      kind: 'rack',
      under: g.station,
      on: '2015-01-01',
    });
    const bottle = (number: string, place: string) =>
      d.must('item.receive', {
        family: 'cylinder',
        number,
        attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2024-01' },
        place,
        on: '2026-01-05',
      });
    bottle('C-1', empty);
    bottle('C-2', g.rack);
    const full = bottle('C-3', empty);
    d.must('record.add', { item: full, activity: 'recharge', outcome: 'pass', on: '2026-02-01' });
    for (const number of ['N-1', 'N-2'])
      d.must('item.receive', { family: 'nozzle', number, place: g.rack, assignment: 'ready spare' });
    const tagged = d.must('item.receive', {
      family: 'nozzle',
      number: 'N-3',
      place: g.rack,
      assignment: 'ready spare',
    });
    d.must('item.tagOut', { item: tagged, reason: 'Ball stuck' });
    const shelf = await d.ask<SupplyShelf>('supply.shelf', {});
    expect(shelf.spares.map(s => [s.title, s.station, s.ready + s.not])).toEqual([
      ['Nozzle', 'Station 31', 3],
    ]);
    expect(shelf.spares[0]?.numbers).not.toContain('N-3');
    expect(shelf.cylinders.map(c => c.by)).toEqual([{ full: 1, 'to be filled': 1, 'not known': 1 }]);
  });
});
