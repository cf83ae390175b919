/**
 * The rule book and `derive` against a second, naive implementation written from the fact sheets, on seeded things
 * and on the days where something changes.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { stateOn } from '../../../domain/derive/due.ts';
import { derive, inForce } from '../../../domain/derive/thing.ts';
import type { Fact } from '../../../domain/facts.ts';
import type { Book } from '../../../domain/rulebook/book.ts';
import { book, day, shipped, when } from '../notation.ts';
import { type Case, type Deed, type Owing, owedOn } from './naive.ts';
import { daysOn, endOf, tomorrow } from './walk.ts';

const THINGS = 24_000;

/** Mulberry32, seeded, so that a failing case can be found again. */
function dice(seed: number) {
  let state = seed;
  const below = (n: number): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4_294_967_296) * n);
  };
  return {
    below,
    one: <T>(list: readonly [T, ...T[]]): T => list[below(list.length)] ?? list[0],
    chance: (percent: number) => below(100) < percent,
  };
}
type Dice = ReturnType<typeof dice>;

const two = (n: number) => String(n).padStart(2, '0');

/** A date of any precision, often at the end of a month; so many of a hundred in the years around July 1987. */
function someDate({ below, chance, one }: Dice, since = 2016, old = 6): string {
  const year = chance(old) ? 1984 + below(6) : since + below(2028 - since);
  const month = `${year}-${two(1 + below(12))}`;
  if (chance(5)) return String(year);
  if (chance(15)) return month;
  const on = chance(35) ? endOf(month) : `${month}-${two(1 + below(28))}`;
  return chance(10) ? `${on}T${one(['00:00', '03:10', '23:59'])}` : on;
}

const ACTIVITIES: Record<string, [string, ...string[]]> = {
  hose: ['service test', 'inspection'],
  ladder: ['service test', 'inspection'],
  pack: ['inspection', 'operational check', 'flow test'],
  cylinder: ['requalification', 'crack examination', 'inspection'],
};
const SPECS = [
  ...['3', '3A', '3AA', '3AL', '3AX', '3AAX', '3B', '3BN', '3E', '3HT', '3T', '4AA480', '4B', '4BA', '4BW'],
  ...['4B240ET', '4D', '4DA', '4DS', '4E', '4L', '8', '8AL', 'UN seamless', 'UN composite', 'foreign'],
  ...['DOT-SP 10915', 'DOT-SP 14232', 'DOT-E 7277', '3AA', '3HT'],
] as unknown as [string, ...string[]];

function someCase(d: Dice): Case {
  const family = d.one(['hose', 'ladder', 'pack', 'cylinder', 'cylinder']);
  const attributes: Case['attributes'] = {};
  const since = family === 'cylinder' ? 2000 : 2014;
  if (d.chance(80)) attributes.made = someDate(d, since, family === 'hose' ? 20 : 6).slice(0, 10);
  if (d.chance(70)) attributes.inService = someDate(d, 2015).slice(0, 10);
  if (family === 'hose') attributes.use = d.one(['attack', 'supply', 'occupant', 'forestry']);
  if (family === 'ladder' && d.chance(60)) attributes.heatLabelExpires = someDate(d, 2020).slice(0, 10);
  if (family === 'cylinder') {
    if (d.chance(60)) attributes.spec = d.one(SPECS);
    if (d.chance(80))
      attributes.construction = d.one([
        'steel',
        'aluminum',
        'hoop',
        'fiberglass',
        'aramid',
        'carbon',
        'foreign',
      ]);
    if (d.chance(40)) attributes.star = d.chance(60);
    if (d.chance(40)) attributes.lifeLabel_months = d.one([180, 240, 360]);
    if (d.chance(30)) attributes.alloy = d.one(['6351-T6', '6061-T6']);
  }
  // A few dates only, so that deeds often fall on one day.
  const dates: [string, ...string[]] = [someDate(d), someDate(d), someDate(d)];
  const deeds = Array.from(
    { length: d.below(7) },
    (): Deed => ({
      on: d.chance(70) ? d.one(dates) : someDate(d),
      what: d.one(['pass', 'pass', 'pass', 'fail', 'not completed', 'owes']),
      activity: d.one(ACTIVITIES[family] ?? ['']),
    }),
  );
  const permits: Case['permits'] = {};
  for (const spec of ['DOT-SP 10915', 'DOT-SP 14232', 'DOT-E 7277'])
    if (d.chance(60))
      permits[spec] = { months: d.one([36, 60]), life: d.one<number | null | 'label'>([180, null, 'label']) };
  return {
    family,
    attributes,
    deeds,
    permits,
    monthStartFrom: d.one([null, '2000-01-01', `${2018 + d.below(12)}-0${1 + d.below(9)}-15`]),
    halfYearFrom: d.one([null, `${2018 + d.below(12)}-0${1 + d.below(9)}-15`]),
  };
}

/** What the naive walk knows: a department that has adopted these and nothing else. */
const WALKED = [
  ...['hose.service-test', 'hose.occupant-service-test', 'hose.inspection', 'hose.end-of-life'],
  ...['ladder.service-test', 'ladder.inspection', 'ladder.heat-label'],
  ...['pack.inspection', 'pack.operational-check', 'pack.flow-test'],
  ...['cylinder.requalification', 'cylinder.crack-examination', 'cylinder.end-of-life'],
];

function bookOf(c: Case): Book {
  const yearly = shipped('ladder.service-test');
  const clock = {
    kind: 'since last',
    every: { months: 6 },
    first: { counts: 'in service', plus: { months: 0 } },
  } as const;
  return book({
    only: WALKED,
    permits: Object.entries(c.permits).map(([permit, { months, life }]) => ({
      ...{ permit, construction: 'carbon', months, lifeMonths: life },
      basis: 'the label',
    })),
    policies:
      c.monthStartFrom === null
        ? []
        : [{ policy: 'life ends', choice: 'month start', from: day(c.monthStartFrom) }],
    adoptions:
      c.halfYearFrom === null ? [] : [{ requirement: { ...yearly, clock }, from: day(c.halfYearFrom) }],
  });
}

function factsOf(c: Case): Fact[] {
  const base = { device: 'aaaaa', n: 0, recordedAt: 0 };
  return [
    {
      ...base,
      ...{ id: 'thing', kind: 'identity', effective: when('1900'), clock: 0 },
      values: { family: c.family, number: '1', attributes: c.attributes },
    },
    ...c.deeds.map((deed, i): Fact => {
      const at = { ...base, id: `deed ${i}`, effective: when(deed.on), clock: i + 1 };
      return deed.what === 'owes'
        ? { ...at, kind: 'owed', values: { activities: [deed.activity], because: 'overload' } }
        : { ...at, kind: 'record', values: { activity: deed.activity, outcome: deed.what } };
    }),
  ];
}

function derivedOn(facts: Fact[], by: Book, on: string): Owing[] {
  const rows = (derive(facts, by)?.due ?? []).filter(r => inForce(r, day(on)));
  return rows
    .map(r => ({
      requirement: r.requirement,
      due: r.dueOn === null ? null : dayText(r.dueOn),
      state: stateOn(r, day(on)),
    }))
    .sort((a, b) => (a.requirement < b.requirement ? -1 : 1));
}

/** The days on which something may change: around a due day and its warnings, and around a change of the rules. */
function tellingDay(d: Dice, c: Case, owings: Owing[]): string {
  const due = owings.flatMap(o => o.due ?? []);
  const at = due[d.below(Math.max(due.length, 1))];
  if (at === undefined || d.chance(25)) return daysOn('2018-01-01', d.below(4000));
  const before = d.one([0, 0, 1, 2, 3, 10, 11, 60, 61, 180, 181]);
  if (d.chance(25)) return tomorrow(at);
  if (c.halfYearFrom !== null && d.chance(10)) return c.halfYearFrom;
  return dayText(((day(at) as number) - before) as ReturnType<typeof day>);
}

describe('derive', () => {
  it(`agrees with a naive walk from day to day on ${THINGS} seeded things`, () => {
    const d = dice(20_261_125);
    const seen = new Map<string, number>();
    for (let i = 0; i < THINGS; i += 1) {
      const c = someCase(d);
      const by = bookOf(c);
      const facts = factsOf(c);
      const on = tellingDay(d, c, owedOn(c, '2024-02-29'));
      const naive = owedOn(c, on);
      const ours = derivedOn(facts, by, on);
      if (JSON.stringify(ours) !== JSON.stringify(naive))
        expect({ i, on, c, owed: ours }).toEqual({ i, on, c, owed: naive });
      for (const { requirement, state } of naive) {
        seen.set(requirement, (seen.get(requirement) ?? 0) + 1);
        seen.set(state, (seen.get(state) ?? 0) + 1);
      }
    }
    // The comparison is worth something only where each rule and each state came up often.
    const states = [
      'life ended',
      'retest owed',
      'never done',
      'overdue',
      'not judged',
      'due soon',
      'current',
    ];
    for (const name of [...states, ...WALKED])
      expect([name, (seen.get(name) ?? 0) > 250]).toEqual([name, true]);
  }, 30_000);
});
