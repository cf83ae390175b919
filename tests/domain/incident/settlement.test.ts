/** What settling does is worked out before it is signed, and nothing of it puts one thing in two places. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../../domain/calendar/day.ts';
import { owedAfterUse } from '../../../domain/incident/afterUse.ts';
import { type KnownThing, matchPickup } from '../../../domain/incident/pickup.ts';
import { choiceProblems, effectsOf } from '../../../domain/incident/settlement.ts';
import { SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';

const thing = (number: string, rig: string | null, more: Partial<KnownThing> = {}): KnownThing => ({
  item: `item ${number}`,
  number,
  family: 'hose',
  what: 'hose',
  attributes: {},
  condition: 'serviceable',
  place: rig && `${rig} bed`,
  rig,
  where: rig ?? '',
  ...more,
});
const NONE = { missing: [], which: [], foreign: [] };
const reading = (rig: string, number: string, more = {}) => ({ rig, number, at: null, used: false, ...more });

function night(read: readonly ReturnType<typeof reading>[], things: readonly KnownThing[]) {
  const rigs = ['E31', 'E33'].map(rig => ({
    rig,
    name: rig,
    read: read.filter(r => r.rig === rig).map(r => r.number),
    settled: false,
  }));
  return matchPickup({ rigs, agencies: [], families: ['hose'], things });
}

describe('settling', () => {
  it('lets what was found lie where it was read: its place where that was named, its own where it was believed', () => {
    const read = [reading('E31', '31-1'), reading('E31', '33-1', { at: 'E31 L2' }), reading('E31', '33-2')];
    const pickup = night(read, [thing('31-1', 'E31'), thing('33-1', 'E33'), thing('33-2', 'E33')]);
    const { lies } = effectsOf(pickup, read, NONE, () => null);
    expect(lies.map(l => [l.number, l.place, l.moved])).toEqual([
      ['31-1', 'E31 bed', false],
      ['33-1', 'E31 L2', true],
      // It is known on which rig and no more.
      ['33-2', 'E31', true],
    ]);
  });

  it('finds again what had been reported missing', () => {
    const read = [reading('E33', '31-1')];
    const pickup = night(read, [thing('31-1', 'E31', { condition: 'missing' })]);
    expect(effectsOf(pickup, read, NONE, () => null).lies).toMatchObject([{ number: '31-1', again: true }]);
  });

  it('reports nothing missing that nobody chose to report', () => {
    const pickup = night([], [thing('31-1', 'E31'), thing('31-2', 'E31')]);
    const choices = {
      ...NONE,
      missing: [
        { item: 'item 31-1', as: 'searched' as const, where: 'Both beds' },
        { item: 'item 31-2', as: 'leave' as const },
      ],
    };
    expect(choiceProblems(pickup, choices)).toEqual([]);
    const { missing, left } = effectsOf(pickup, [], choices, () => null);
    expect(missing).toMatchObject([{ number: '31-1', where: 'Both beds', reported: false }]);
    expect(left.map(l => l.number)).toEqual(['31-2']);
  });

  it('asks what becomes of each that is missing, and takes no other', () => {
    const pickup = night([reading('E31', '31-2')], [thing('31-1', 'E31'), thing('31-2', 'E31')]);
    const codes = (missing: { item: string; as: 'missing' | 'searched' }[]) =>
      choiceProblems(pickup, { ...NONE, missing }).map(p => p.code);
    expect(codes([])).toEqual(['not chosen']);
    expect(codes([{ item: 'item 31-1', as: 'searched' }])).toEqual(['where']);
    expect(
      codes([
        { item: 'item 31-1', as: 'missing' },
        { item: 'item 31-2', as: 'missing' },
      ]),
    ).toEqual(['not missing']);
    expect(
      codes([
        { item: 'item 31-1', as: 'missing' },
        { item: 'item 31-1', as: 'missing' },
      ]),
    ).toEqual(['twice']);
  });

  it('does nothing on a doubtful number until somebody says which it is', () => {
    const read = [reading('E31', '31-1'), reading('E33', '31-1')];
    const pickup = night(read, [thing('31-1', 'E31')]);
    expect(effectsOf(pickup, read, NONE, () => null)).toMatchObject({
      lies: [],
      undecided: [{ rig: 'E31' }, { rig: 'E33' }],
    });
    const which = [{ rig: 'E33', number: '31-1', item: 'item 31-1' }];
    expect(effectsOf(pickup, read, { ...NONE, which }, () => null).lies).toMatchObject([{ rig: 'E33' }]);
    // One thing cannot be both.
    const both = [...which, { rig: 'E31', number: '31-1', item: 'item 31-1' }];
    expect(choiceProblems(pickup, { ...NONE, which: both }).map(p => p.code)).toEqual(['twice']);
  });
});

describe('what was used owes its look by the adopted book', () => {
  const on = dayOf(2026, 11, 25);
  const adopted = (family: string) =>
    SHIPPED_REQUIREMENTS.filter(r => r.family === family).map(requirement => ({
      requirement,
      from: null,
      to: null,
    }));

  // 29 CFR 1910.134(h)(1)(iii): emergency-use respirators are cleaned and disinfected after each use. NFPA 1932 (read):
  // ladders are inspected at least monthly and after each use.
  it.each([
    ['facepiece', 'cleaning'],
    ['ladder', 'inspection'],
    ['hose', 'inspection'],
    ['nozzle', 'inspection'],
    ['cylinder', null],
  ])('%s: %s', (family, owes) => {
    expect(owedAfterUse(family, {}, adopted(family), on)).toBe(owes);
  });

  it('and nothing where the department has not adopted what asks for it, or has ended it', () => {
    expect(owedAfterUse('ladder', {}, [], on)).toBeNull();
    const ended = adopted('ladder').map(v => ({ ...v, to: dayOf(2026, 1, 1) }));
    expect(owedAfterUse('ladder', {}, ended, on)).toBeNull();
  });
});

it('whatever was read and chosen, one thing lies in one place and is not missing too', () => {
  const NUMBERS = ['1', '2', '3'];
  const cases = fc.record({
    read: fc.array(
      fc.record({ rig: fc.constantFrom('E31', 'E33'), number: fc.constantFrom(...NUMBERS, '9') }),
      {
        maxLength: 6,
      },
    ),
    things: fc.array(
      fc.record({ number: fc.constantFrom(...NUMBERS), rig: fc.constantFrom('E31', 'E33', null) }),
      { maxLength: 5 },
    ),
    /** Which of the offers is taken for each doubtful number; one too many takes none. */
    which: fc.array(fc.nat({ max: 3 }), { minLength: 6, maxLength: 6 }),
    as: fc.constantFrom('missing' as const, 'leave' as const),
  });
  let decided = 0;
  fc.assert(
    fc.property(cases, c => {
      const read = c.read.map(r => reading(r.rig, r.number));
      const pickup = night(
        read,
        c.things.map((t, i) => thing(t.number, t.rig, { item: `i${i}` })),
      );
      const missing = pickup.believed
        .filter(b => b.is === 'missing')
        .map(b => ({ item: b.thing.item, as: c.as }));
      const which = pickup.numbers
        .filter(n => n.is === 'duplicated')
        .flatMap(({ rig, number, could }, i) => {
          const item = could[c.which[i] ?? 9]?.item;
          return item === undefined ? [] : [{ rig, number, item }];
        });
      const choices = { missing, which, foreign: [] };
      if (choiceProblems(pickup, choices).length > 0) return;
      const does = effectsOf(pickup, read, choices, () => null);
      decided += which.length;
      const all = [...does.lies, ...does.missing, ...does.left].map(t => t.item);
      expect(new Set(all).size).toBe(all.length);
    }),
    { numRuns: 1500 },
  );
  expect(decided).toBeGreaterThan(100);
});
