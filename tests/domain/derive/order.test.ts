/**
 * `derive` reads facts in one order whatever order they came in, and gives nothing to a fact that was voided: it is
 * then simply not among the facts.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derive } from '../../../domain/derive/thing.ts';
import { CONDITIONS, type Fact, inOrder, OUTCOMES } from '../../../domain/facts.ts';
import { book, factsFrom, SHIPPED, thing, when } from '../notation.ts';

const DATES = [
  '2024',
  '2024-05',
  '2024-05-10',
  '2024-05-10T03:10',
  '2024-05-11',
  '2025-01-31',
  '2025-02',
  '2026',
];
const ATTRIBUTES: Record<string, object> = {
  ladder: { made: '2019-04', inService: '2020-01-31', heatLabelExpires: '2026-06' },
  hose: { made: '2019-04', use: 'attack', inService: '2020-01-31' },
  pack: { inService: '2020-01-31' },
  cylinder: { construction: 'carbon', made: '2012-02', alloy: '6351-T6' },
};
const ACTIVITIES: Record<string, string[]> = {
  ladder: ['inspection', 'service test'],
  hose: ['inspection', 'service test'],
  pack: ['inspection', 'operational check', 'flow test'],
  cylinder: ['requalification', 'crack examination', 'inspection'],
};

/** What a fact of one thing says, and when: one of a few dates, so that many fall on the same day. */
function saidOf(family: string) {
  const activity = fc.constantFrom(...(ACTIVITIES[family] ?? []));
  const said = fc.oneof(
    fc.record({
      kind: fc.constant('record'),
      values: fc.record({ activity, outcome: fc.constantFrom(...OUTCOMES) }),
    }),
    fc.record({
      kind: fc.constant('owed'),
      values: fc.record({
        activities: fc.uniqueArray(activity, { minLength: 1 }),
        because: fc.constantFrom('overload', 'impact'),
      }),
    }),
    fc.record({
      kind: fc.constant('condition'),
      values: fc.record({ condition: fc.constantFrom(...CONDITIONS) }),
    }),
    fc.record({
      kind: fc.constant('place'),
      values: fc.record({ place: fc.constantFrom('hosebed', 'rack'), how: fc.constant('sight') }),
    }),
    fc.record({
      kind: fc.constant('identity'),
      values: fc.record({ attributes: fc.record({ remarks: fc.string() }) }),
    }),
  );
  return fc.tuple(fc.constantFrom(...DATES), said);
}

/** Entries of two devices that often share a clock, one of them saying two things: no two facts are alike in order. */
const WRITERS = [
  { device: 'aaaaa', n: 0 },
  { device: 'aaaaa', n: 1 },
  { device: 'bbbbb', n: 0 },
] as const;

interface History {
  family: string;
  facts: Fact[];
}

const history: fc.Arbitrary<History> = fc.constantFrom(...Object.keys(ATTRIBUTES)).chain(family =>
  fc.array(saidOf(family), { maxLength: 14 }).map(list => {
    const facts = [
      {
        ...{ id: 'thing', kind: 'identity', effective: '0000', clock: 0, recordedAt: 0 },
        ...WRITERS[0],
        values: { family, number: '1', attributes: ATTRIBUTES[family] },
      },
      ...list.map(([effective, said], i) => ({
        ...{ id: `fact ${i}`, effective, clock: 1 + Math.floor(i / 3), recordedAt: i },
        ...WRITERS[i % 3],
        ...said,
      })),
    ];
    return { family, facts: facts as unknown as Fact[] };
  }),
);

describe('derive', () => {
  it('gives the same answer whatever order the facts came in', () => {
    const shuffled = history.chain(({ facts }) =>
      fc.tuple(fc.constant(facts), fc.shuffledSubarray(facts, { minLength: facts.length })),
    );
    fc.assert(
      fc.property(shuffled, ([facts, other]) => {
        expect(derive(other, SHIPPED)).toEqual(derive(facts, SHIPPED));
      }),
      { numRuns: 3000, seed: 20_261_125 },
    );
  });

  it('does not change the facts it was given', () => {
    fc.assert(
      fc.property(history, ({ facts }) => {
        const before = structuredClone(facts);
        derive(facts, SHIPPED);
        expect(facts).toEqual(before);
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  it('owes what failed last of all, and nothing that passed last of all', () => {
    const last = (activity: string, outcome: 'pass' | 'fail'): Fact => ({
      ...{ id: 'last', effective: when('2030-01-01'), clock: 1000, device: 'aaaaa', n: 0, recordedAt: 0 },
      kind: 'record',
      values: { activity, outcome },
    });
    fc.assert(
      fc.property(history, ({ family, facts }) => {
        for (const activity of ACTIVITIES[family] ?? []) {
          const owes = (outcome: 'pass' | 'fail') =>
            derive([...facts, last(activity, outcome)], SHIPPED)?.owed.some(o => o.activity === activity);
          expect([owes('pass'), owes('fail')]).toEqual([false, true]);
        }
      }),
      { numRuns: 500, seed: 11 },
    );
  });
});

describe('the order of facts', () => {
  const at = (effective: string, clock: number, device: string, n: number): Fact =>
    ({
      id: `${effective} ${clock} ${device} ${n}`,
      kind: 'record',
      effective,
      clock,
      device,
      n,
      recordedAt: 0,
      values: { activity: 'inspection', outcome: 'pass' },
    }) as Fact;

  it('is the day it was so, then the Lamport clock, then the device, then the place in its entry', () => {
    const sorted = [
      at('2024', 9, 'z', 9),
      at('2024-05-10', 1, 'b', 5),
      at('2024-05-10', 2, 'a', 0),
      at('2024-05-10', 2, 'a', 1),
      at('2024-05-10', 2, 'b', 0),
      at('2024-05-10', 10, 'a', 0),
      at('2024-05-11', 1, 'a', 0),
    ];
    expect([...sorted].reverse().sort(inOrder)).toEqual(sorted);
  });
});

describe('a thing over time', () => {
  const hose = thing(`
    hose 31-107: use attack, made 2020-01
    2024-01-02  at       hosebed
    2024-01-02  as       first line
    2024-03-05  is       tagged out
    2024-03-09  at       shop
    2024-03-20  is       serviceable
    2024-03-21  at       rack
    2024-03-21  as       ready spare
    2024-03-22  renumbered  31-207
    always      amended  length_ft 50, made 2020-02
    2024-04-01  amended  length_ft 45, remarks shortened`);

  it('was in each place from one day until the next, and is where it was last known to be', () => {
    expect(hose.places.map(s => [s.value.place, s.from, s.until])).toEqual([
      ['hosebed', '2024-01-02', '2024-03-09'],
      ['shop', '2024-03-09', '2024-03-21'],
      ['rack', '2024-03-21', null],
    ]);
    expect(hose.place).toEqual({ place: 'rack', how: 'sight', since: '2024-03-21' });
  });

  it('had one assignment and one condition at a time', () => {
    expect(hose.assignments.map(s => [s.value, s.from, s.until])).toEqual([
      ['first line', '2024-01-02', '2024-03-21'],
      ['ready spare', '2024-03-21', null],
    ]);
    expect(hose.conditions.map(s => [s.value.condition, s.until])).toEqual([
      ['tagged out', '2024-03-20'],
      ['serviceable', null],
    ]);
    expect([hose.assignment, hose.condition, hose.conditionSince]).toEqual([
      'ready spare',
      'serviceable',
      '2024-03-20',
    ]);
  });

  it('has the number and the attributes it was last given, the others kept', () => {
    expect(hose.number).toBe('31-207');
    expect(hose.attributes).toEqual({
      use: 'attack',
      made: '2020-02',
      length_ft: '45',
      remarks: 'shortened',
    });
  });

  it('of which nothing is known is serviceable, nowhere and assigned to nothing', () => {
    const bare = thing('hose 31-107', book());
    expect([bare.place, bare.assignment, bare.condition, bare.conditionSince, bare.serial]).toEqual([
      null,
      null,
      'serviceable',
      null,
      null,
    ]);
  });

  it('keeps its serial until another or none is told', () => {
    const [identity] = factsFrom('hose 31-107');
    const serial = (n: number, value: string | null): Fact => ({
      ...(identity as Fact),
      id: `s${n}`,
      clock: n,
      kind: 'identity',
      values: { serial: value },
    });
    const facts = [identity as Fact, serial(1, 'AA-1')];
    expect(derive(facts, SHIPPED)?.serial).toBe('AA-1');
    expect(derive([...facts, serial(2, null)], SHIPPED)?.serial).toBeNull();
  });
});
