/**
 * Kits: sealed with a numbered tag, as ready as their worst critical content, expiring with their earliest. Common
 * practice, no source; the roll-up is held against the same told the long way round.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, type Day, dayText, parseDay } from '../../../domain/calendar/day.ts';
import { lastDay, type When } from '../../../domain/calendar/when.ts';
import type { CarryLine } from '../../../domain/carry/types.ts';
import { type KitFact, kitFrom, kitStanding } from '../../../domain/kits/kit.ts';
import { KIT_TEMPLATES } from '../../../domain/kits/templates.ts';
import '../../seeded.ts';

const TODAY = parseDay('2026-11-25') as Day;

let told = 0;
type Body = KitFact extends infer F
  ? F extends { kind: infer K; values: infer V }
    ? { kind: K; values: V }
    : never
  : never;
const fact = (effective: string, said: Body): KitFact =>
  ({ effective: effective as When, clock: ++told, device: 'a', n: 0, ...said }) as KitFact;
const counts = (...rows: [line: string, amount: number, expires?: string][]) =>
  rows.map(([line, amount, expires = null]) => ({ line, amount, expires: expires as When | null }));
const sealed = (on: string, seal: string, ...rows: [string, number, string?][]) =>
  fact(on, { kind: 'sealed', values: { seal, counts: counts(...rows) } });
const seen = (on: string, seal: string | null, intact = true) =>
  fact(on, { kind: 'seal seen', values: { seal, intact } });
const opened = (on: string, why = 'used on a call') => fact(on, { kind: 'opened', values: { why } });

const line = (what: string, qty: number, more: Partial<CarryLine> = {}): CarryLine => ({
  line: what,
  what,
  family: null,
  like: {},
  qty,
  min: qty,
  place: 'main',
  critical: false,
  verify: 'count',
  reading: null,
  source: null,
  ...more,
});
const LIST = [
  line('tourniquet', 2, { critical: true, min: 1 }),
  line('gauze', 8, { min: 4 }),
  line('shears', 1),
];
const FULL: [string, number, string?][] = [
  ['tourniquet', 2, '2030-01'],
  ['gauze', 8, '2027-06'],
  ['shears', 1],
];
const stands = (facts: KitFact[], today = TODAY, list = LIST) =>
  kitStanding(list, kitFrom(facts), new Map(), today);

describe('a seal', () => {
  it('that is whole stands for the last full count, and says when it was last seen', () => {
    const known = kitFrom([sealed('2026-11-01', '4471', ...FULL), seen('2026-11-24', '4471')]);
    expect([known.state, known.seal, known.countedOn, known.seenOn]).toEqual([
      'sealed',
      '4471',
      '2026-11-01',
      '2026-11-24',
    ]);
  });

  it('is read as people write it: letter case, spaces and dashes do not make another one', () => {
    expect(kitFrom([sealed('2026-11-01', 'LV-4471'), seen('2026-11-24', 'lv 4471')]).state).toBe('sealed');
  });

  it('with another number is not the one that was put on: somebody has been in the kit', () => {
    const facts = [sealed('2026-11-01', '4471', ...FULL), seen('2026-11-24', '4417')];
    expect(kitFrom(facts)).toMatchObject({ state: 'seal differs', found: '4417', since: '2026-11-24' });
    expect(stands(facts).effect).toBe('blocks');
  });

  it('that was found broken stays broken, whatever is read off it later, until a new one is put on', () => {
    const broken = [
      sealed('2026-11-01', '4471', ...FULL),
      seen('2026-11-20', null, false),
      seen('2026-11-24', '4471'),
    ];
    expect(stands(broken)).toMatchObject({
      effect: 'blocks',
      reasons: ['seal 4471 found broken 20 Nov 2026: a full count and a new seal are owed'],
    });
    expect(stands([...broken, sealed('2026-11-25', '4472', ...FULL)]).effect).toBeNull();
  });

  it('of an opened kit stands for nothing: a full count and a new seal are owed', () => {
    const open = [sealed('2026-11-01', '4471', ...FULL), opened('2026-11-24T03:10')];
    expect(stands(open).reasons[0]).toMatch(/^opened .*used on a call.*full count and a new seal are owed$/);
    // What is told late of an earlier day changes nothing of it.
    expect(stands([...open, seen('2026-11-23', '4471')]).effect).toBe('blocks');
  });

  it('was never there on a kit that nobody has counted', () => {
    expect(stands([])).toMatchObject({ effect: 'blocks', expires: null });
  });
});

describe('a kit', () => {
  it('with everything in date and its seal whole has nothing against it', () => {
    expect(stands([sealed('2026-11-01', '4471', ...FULL)])).toMatchObject({
      effect: null,
      reasons: [],
      expires: { on: '2027-06', what: 'gauze' },
    });
  });

  it('is as ready as its worst critical content', () => {
    const with_ = (tourniquets: number, gauze: number) =>
      stands([sealed('2026-11-01', '1', ['tourniquet', tourniquets], ['gauze', gauze], ['shears', 1])])
        .effect;
    expect(with_(2, 8)).toBeNull();
    // Above its least a line still serves.
    expect(with_(1, 8)).toBe('notes');
    expect(with_(2, 4)).toBe('notes');
    expect(with_(2, 3)).toBe('limits');
    expect(with_(0, 8)).toBe('blocks');
  });

  it('loses what has expired: a date by the month is good through that month', () => {
    const facts = [sealed('2026-11-01', '1', ['tourniquet', 2, '2026-11'], ['gauze', 8], ['shears', 1])];
    const day = (text: string) => parseDay(text) as Day;
    expect(stands(facts, day('2026-11-30')).effect).toBeNull();
    expect(stands(facts, day('2026-12-01'))).toMatchObject({
      effect: 'blocks',
      reasons: ['tourniquet: 0 of 2, at least 1, 2 expired, critical'],
    });
  });

  it('whose template has gained a line since is not counted for that line', () => {
    const facts = [sealed('2026-11-01', '4471', ...FULL)];
    const more = [...LIST, line('chest seal', 2, { critical: true })];
    expect(stands(facts, TODAY, more)).toMatchObject({
      effect: 'blocks',
      reasons: ['chest seal: not counted since it came on the list, critical'],
    });
  });

  it('has of a tracked line what serves in it, whatever was counted', () => {
    const list = [line('AED', 1, { family: 'aed', critical: true })];
    const known = kitFrom([sealed('2026-11-01', '1')]);
    expect(kitStanding(list, known, new Map([['AED', 1]]), TODAY).effect).toBeNull();
    expect(kitStanding(list, known, new Map([['AED', 0]]), TODAY).effect).toBe('blocks');
  });

  it('stands as its contents do, told the long way round, and expires with the earliest of them', () => {
    const content = fc.record({
      qty: fc.integer({ min: 0, max: 6 }),
      min: fc.integer({ min: 0, max: 6 }),
      critical: fc.boolean(),
      batches: fc.array(
        fc.record({
          amount: fc.integer({ min: 0, max: 4 }),
          ends: fc.option(fc.integer({ min: -40, max: 40 })),
        }),
        { minLength: 1, maxLength: 3 },
      ),
    });
    fc.assert(
      fc.property(fc.array(content, { minLength: 1, maxLength: 5 }), kinds => {
        const list = kinds.map((k, i) =>
          line(`l${i}`, k.qty, { min: Math.min(k.min, k.qty), critical: k.critical }),
        );
        const all = kinds.flatMap((k, i) =>
          k.batches.map(b => ({
            line: `l${i}`,
            amount: b.amount,
            expires: b.ends === null ? null : (dayText(addDays(TODAY, b.ends)) as When),
          })),
        );
        const known = kitFrom([fact('2026-11-01', { kind: 'sealed', values: { seal: '1', counts: all } })]);
        const told = kitStanding(list, known, new Map(), TODAY);
        const good = (l: CarryLine) =>
          all.reduce(
            (n, b) =>
              b.line === l.line && (b.expires === null || lastDay(b.expires) >= TODAY) ? n + b.amount : n,
            0,
          );
        const worst = list.some(l => l.critical && good(l) < l.min)
          ? 'blocks'
          : list.some(l => good(l) < l.min)
            ? 'limits'
            : list.some(l => good(l) < l.qty)
              ? 'notes'
              : null;
        const dates = all.flatMap(b => (b.amount > 0 && b.expires ? [b.expires as string] : [])).sort();
        return told.effect === worst && (told.expires?.on ?? null) === (dates[0] ?? null);
      }),
    );
  });
});

describe('templates to begin from', () => {
  it('name each line once in its pocket, with no minimum above what is packed, and say that they are practice', () => {
    for (const { what, lines } of KIT_TEMPLATES) {
      const names = lines.map(l => `${l.place} ${l.what}`);
      expect(new Set(names).size, what).toBe(names.length);
      expect(
        lines.every(l => l.min >= 1 && l.min <= l.qty && l.source?.confidence === 'common practice'),
      ).toBe(true);
      expect(
        lines.some(l => l.critical),
        `${what} has something critical`,
      ).toBe(true);
    }
  });
});
