/** Counted stock by the rules of the storeroom. Common practice, no source, where none is named. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Day, parseDay } from '../../../domain/calendar/day.ts';
import type { When } from '../../../domain/calendar/when.ts';
import { inOrder } from '../../../domain/facts.ts';
import { stateOf, toIssue } from '../../../domain/supply/lots.ts';
import { onHand, parsOf, type StockFact, standing, usedOf } from '../../../domain/supply/stock.ts';
import '../../seeded.ts';

const day = (text: string) => parseDay(text) as Day;
const TODAY = day('2026-11-25');
const on = (text: string) => text as When;

let told = 0;
type Body = StockFact extends infer F
  ? F extends { kind: infer K; values: infer V }
    ? { kind: K; values: V }
    : never
  : never;
const fact = (effective: string, said: Body): StockFact =>
  ({ effective: on(effective), clock: ++told, device: 'a', n: 0, ...said }) as StockFact;
const receive = (when: string, amount: number, lot: string | null = null, expires: string | null = null) =>
  fact(when, { kind: 'received', values: { place: 'store', lot, expires: expires as When | null, amount } });
const issue = (when: string, amount: number, lot: string | null = null, place = 'store') =>
  fact(when, { kind: 'issued', values: { place, taken: [{ lot, amount }] } });
const count = (when: string, amount: number, lot: string | null = null) =>
  fact(when, { kind: 'counted', values: { place: 'store', counts: [{ lot, expires: null, amount }] } });
const move = (when: string, amount: number, lot: string | null = null) =>
  fact(when, { kind: 'moved', values: { from: 'store', to: 'engine', taken: [{ lot, amount }] } });
const held = (facts: StockFact[]) =>
  Object.fromEntries(onHand(facts).map(l => [`${l.place} ${l.lot ?? '-'}`, l.amount]));

describe('what is on hand', () => {
  it('is what came and went where nobody has counted', () => {
    const facts = [receive('2026-01-05', 100), issue('2026-02-01', 30), move('2026-03-01', 20)];
    expect(held(facts)).toEqual({ 'store -': 50, 'engine -': 20 });
  });

  it('is what was counted, and what came and went after it: what was told of before the count is in the count', () => {
    const facts = [receive('2026-01-05', 100), count('2026-02-01', 80), issue('2026-02-02', 10)];
    expect(held(facts)).toEqual({ 'store -': 70 });
    expect(held([...facts, issue('2026-01-20', 15)])).toEqual({ 'store -': 70 });
  });

  it('is counted lot by lot: a lot that the count does not name was not counted', () => {
    const facts = [
      receive('2026-01-05', 10, 'A'),
      receive('2026-01-05', 10, 'B'),
      count('2026-02-01', 4, 'A'),
    ];
    expect(held(facts)).toEqual({ 'store A': 4, 'store B': 10 });
  });

  it('under zero is not hidden: a count is owed', () => {
    const [lot] = onHand([receive('2026-01-05', 5), issue('2026-02-01', 9)]);
    expect(lot?.amount).toBe(-4);
    expect(standing([lot as never], { par: 10, min: 5 }, TODAY)).toMatchObject({
      countOwed: true,
      onHand: -4,
      short: 10,
    });
  });

  it('gives a lot one date wherever it lies: the last that was told', () => {
    const facts = [receive('2026-01-05', 10, 'A', '2027-01'), move('2026-02-01', 4, 'A')];
    const recounted = fact('2026-03-01', {
      kind: 'counted',
      values: { place: 'engine', counts: [{ lot: 'A', expires: on('2028-01'), amount: 4 }] },
    });
    expect(onHand(facts).map(l => l.expires)).toEqual(['2027-01', '2027-01']);
    expect(onHand([...facts, recounted]).map(l => l.expires)).toEqual(['2028-01', '2028-01']);
  });
});

describe('a lot', () => {
  it('marked with a month is good through that month; from its last day on it has expired', () => {
    const state = (expires: string | null, today = TODAY) =>
      stateOf({ expires: expires as When | null }, today);
    expect(state('2026-11')).toBe('expires soon');
    expect(state('2026-11', day('2026-12-01'))).toBe('expired');
    expect(state('2026-11-24')).toBe('expired');
    expect(state('2026-11-25')).toBe('expires soon');
    expect(state('2028')).toBe('current');
    expect(state(null)).toBe('no expiry');
  });
});

describe('to issue', () => {
  const lots = onHand([
    receive('2026-03-01', 10, 'late', '2028-06'),
    receive('2026-02-01', 10, 'soon', '2027-01'),
    receive('2026-01-01', 10, 'gone', '2026-06'),
    receive('2025-01-01', 10, 'plain'),
    receive('2024-01-01', 10, 'older'),
  ]);

  it('the soonest expiry goes first, then the oldest lot; what never expires goes last', () => {
    expect(toIssue(lots, 35, TODAY).taken).toEqual([
      { lot: 'soon', amount: 10 },
      { lot: 'late', amount: 10 },
      { lot: 'older', amount: 10 },
      { lot: 'plain', amount: 5 },
    ]);
  });

  it('what has expired is never taken, and it is said that it lies there', () => {
    expect(toIssue(lots, 45, TODAY)).toMatchObject({ lacking: 5, expired: 10 });
    expect(toIssue(lots, 45, TODAY).taken.map(t => t.lot)).not.toContain('gone');
  });
});

describe('a place', () => {
  it('is short under its minimum and not at it, of what is in date; it lacks what there is to its par', () => {
    const lots = onHand([receive('2026-01-01', 4, 'A', '2027'), receive('2026-01-01', 9, 'B', '2026-01')]);
    expect(standing(lots, { par: 12, min: 5 }, TODAY)).toMatchObject({
      onHand: 13,
      usable: 4,
      expired: 9,
      short: 8,
      state: 'expired',
      soonest: '2026-01',
    });
    expect(standing(lots, { par: 12, min: 4 }, TODAY).short).toBe(0);
    expect(standing(lots, null, TODAY).short).toBe(0);
  });

  it('should hold what was said last', () => {
    const par = (when: string, n: number) =>
      fact(when, { kind: 'par', values: { place: 'store', par: n, min: 1 } });
    expect(parsOf([par('2026-05-01', 9), par('2026-01-01', 4)])).toEqual([
      { place: 'store', par: 9, min: 1 },
    ]);
  });

  it('is as fast as it issued in 180 days, today among them', () => {
    const facts = [
      issue('2026-11-25', 1),
      issue('2026-05-30', 2),
      issue('2026-05-29', 4),
      issue('2026-08', 8, null, 'engine'),
    ];
    expect([...usedOf(facts, TODAY)]).toEqual([
      ['store', 3],
      ['engine', 8],
    ]);
  });
});

/** The same by recounting each place and lot from its last count, the plainest way. */
function recount(facts: readonly StockFact[]): Record<string, number> {
  const changes = [...facts].sort(inOrder).flatMap((f): { key: string; to?: number; by?: number }[] => {
    const taken = (place: string, list: readonly { lot: string | null; amount: number }[], sign: number) =>
      list.map(t => ({ key: `${place} ${t.lot ?? '-'}`, by: sign * t.amount }));
    switch (f.kind) {
      case 'received':
        return taken(f.values.place, [f.values], 1);
      case 'issued':
      case 'written off':
        return taken(f.values.place, f.values.taken, -1);
      case 'moved':
        return [...taken(f.values.from, f.values.taken, -1), ...taken(f.values.to, f.values.taken, 1)];
      case 'counted':
        return f.values.counts.map(c => ({ key: `${f.values.place} ${c.lot ?? '-'}`, to: c.amount }));
      default:
        return [];
    }
  });
  const told: Record<string, number> = {};
  for (const key of new Set(changes.map(c => c.key))) {
    const own = changes.filter(c => c.key === key);
    const last = own.findLastIndex(c => c.to !== undefined);
    told[key] = own.slice(last + 1).reduce((sum, c) => sum + (c.by ?? 0), own[last]?.to ?? 0);
  }
  return told;
}

const place = fc.constantFrom('store', 'engine', 'truck');
const lot = fc.constantFrom('A', 'B', null);
const amount = fc.nat({ max: 50 });
const taken = fc.array(fc.record({ lot, amount }), { minLength: 1, maxLength: 3 });
const anyFact: fc.Arbitrary<StockFact> = fc
  .record({
    effective: fc
      .constantFrom('2025', '2026-01', '2026-01-09', '2026-01-09T10:00', '2026-03-01', '2026-11-24')
      .map(on),
    clock: fc.nat({ max: 30 }),
    device: fc.constantFrom('a', 'b'),
    said: fc.oneof(
      fc.record({
        kind: fc.constant('received' as const),
        values: fc.record({ place, lot, amount, expires: fc.constant(null) }),
      }),
      fc.record({
        kind: fc.constantFrom('issued' as const, 'written off' as const),
        values: fc.record({ place, taken }),
      }),
      fc.record({
        kind: fc.constant('moved' as const),
        values: fc.record({ from: place, to: place, taken }),
      }),
      fc.record({
        kind: fc.constant('counted' as const),
        values: fc.record({
          place,
          counts: fc.uniqueArray(fc.record({ lot, amount, expires: fc.constant(null) }), {
            selector: c => c.lot,
            minLength: 1,
          }),
        }),
      }),
    ),
  })
  .map(({ said, ...f }) => ({ ...f, n: 0, ...said }) as StockFact);
/** No two facts of a device bear one clock. */
const facts = fc.uniqueArray(anyFact, { selector: f => `${f.device} ${f.clock}`, maxLength: 40 });

describe('of any history', () => {
  it('a naive recount comes to the same, whatever order the facts are read in', () => {
    fc.assert(
      fc.property(facts, fc.infiniteStream(fc.nat()), (list, chance) => {
        const expected = recount(list);
        expect(held(list)).toEqual(expected);
        const keys = new Map(list.map(f => [f, chance.next().value]));
        const shuffled = [...list].sort((a, b) => (keys.get(a) ?? 0) - (keys.get(b) ?? 0));
        expect(held(shuffled)).toEqual(expected);
        expect(new Set(onHand(shuffled).map(l => JSON.stringify(l)))).toEqual(
          new Set(onHand(list).map(l => JSON.stringify(l))),
        );
      }),
      { numRuns: 400 },
    );
  });

  it('an issue takes what was asked or says what is lacking, and no lot gives more than it has', () => {
    fc.assert(
      fc.property(facts, fc.integer({ min: 1, max: 200 }), (list, asked) => {
        const lots = onHand(list).filter(l => l.place === 'store');
        const { taken: got, lacking } = toIssue(lots, asked, TODAY);
        expect(got.reduce((n, t) => n + t.amount, lacking)).toBe(asked);
        for (const t of got)
          expect(t.amount).toBeLessThanOrEqual(lots.find(l => l.lot === t.lot)?.amount ?? 0);
      }),
    );
  });
});
