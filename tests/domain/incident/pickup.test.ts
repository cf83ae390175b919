/**
 * After a mixed pick-up: every number that was read and every thing that was believed there is one thing or another,
 * and what is missing was likely exchanged for what is too many. Common practice, no source.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNear, sameNumber } from '../../../domain/incident/numbers.ts';
import { type KnownThing, matchPickup, type Scene } from '../../../domain/incident/pickup.ts';

const thing = (number: string, rig: string | null, more: Partial<KnownThing> = {}): KnownThing => ({
  item: `item ${number}`,
  number,
  family: 'hose',
  what: '1¾ in attack hose, 50 ft',
  attributes: {},
  condition: 'serviceable',
  place: rig,
  rig,
  where: rig ?? 'Station 31, hose rack',
  ...more,
});
const there = (rig: string, read: readonly string[] | null) => ({ rig, name: rig, read, settled: false });
const scene = (more: Partial<Scene>): Scene => ({
  rigs: [],
  agencies: [],
  families: ['hose'],
  things: [],
  ...more,
});
const numbers = (s: Partial<Scene>) => matchPickup(scene(s)).numbers.map(n => [n.rig, n.number, n.is]);
const believed = (s: Partial<Scene>) => matchPickup(scene(s)).believed.map(b => [b.thing.number, b.is, b.on]);
const likely = (s: Partial<Scene>, number: string) =>
  matchPickup(scene(s)).believed.find(b => b.thing.number === number)?.likely ?? [];

describe('a number that is read on a rig', () => {
  const things = [thing('31-107', 'E31'), thing('33-124', 'E33'), thing('31-200', null)];

  it('is its own, another rig’s, from elsewhere in the department, or nobody’s', () =>
    expect(
      numbers({ rigs: [there('E31', ['31-107', '33-124', '31-200', 'CB-9']), there('E33', null)], things }),
    ).toEqual([
      ['E31', '31-107', 'own'],
      ['E31', '33-124', 'other rig'],
      ['E31', '31-200', 'elsewhere'],
      ['E31', 'CB-9', 'foreign'],
    ]));

  it('is the same however it is written, and counts once', () =>
    expect(
      numbers({
        rigs: [there('E31', ['c 101', 'C101'])],
        things: [thing('C-101', 'E31'), thing('C101', 'E31')],
      }),
    ).toEqual([['E31', 'c 101', 'own']]));

  it('is doubtful where it was read on two rigs: one thing is in one place', () =>
    expect(numbers({ rigs: [there('E31', ['31-107']), there('E33', ['31-107'])], things })).toEqual([
      ['E31', '31-107', 'duplicated'],
      ['E33', '31-107', 'duplicated'],
    ]));

  it('is doubtful where two things bear it, the one believed there being offered first', () => {
    const two = [thing('32-118', null, { item: 'second' }), thing('32-118', 'E32', { item: 'first' })];
    const [read] = matchPickup(scene({ rigs: [there('E32', ['32-118'])], things: two })).numbers;
    expect(read).toMatchObject({ is: 'duplicated', could: [{ item: 'first' }, { item: 'second' }] });
  });

  it('offers for a foreign one the missing numbers that differ by one character, and no others', () => {
    const lost = [thing('31-107', 'E31'), thing('31-701', 'E31'), thing('31-170', 'E33')];
    const [read] = matchPickup(
      scene({ rigs: [there('E31', ['31-101']), there('E33', ['31-170'])], things: lost }),
    ).numbers;
    expect(read).toMatchObject({ is: 'foreign', near: [{ number: '31-107' }, { number: '31-701' }] });
  });
});

describe('numbers are near', () => {
  it.each([
    ['31-107', '31-101', true],
    ['31-107', '31-17', true],
    ['31-107', '31-1077', true],
    ['c-187', 'C-189', true],
    ['31-107', '31-107', false],
    ['31-107', '31-170', false],
    ['31-107', '31', false],
  ])('%s and %s: %s', (a, b, near) => {
    expect(isNear(a, b)).toBe(near);
    expect(isNear(b, a)).toBe(near);
  });
});

describe('a thing that was believed on a rig', () => {
  const things = [thing('31-107', 'E31'), thing('31-108', 'E31'), thing('33-124', 'E33')];

  it('is found, found elsewhere, or missing once the list of its rig is in', () =>
    expect(believed({ rigs: [there('E31', ['31-108', '33-124']), there('E33', [])], things })).toEqual([
      ['31-107', 'missing', null],
      ['31-108', 'found', 'E31'],
      ['33-124', 'found elsewhere', 'E31'],
    ]));

  it('is not missing while nobody has looked', () =>
    expect(believed({ rigs: [there('E31', null)], things })).toEqual([
      ['31-107', 'not looked for', null],
      ['31-108', 'not looked for', null],
    ]));

  it('is not looked for while it is away for repair, or where its family was not picked up', () =>
    expect(
      believed({
        rigs: [there('E31', [])],
        things: [
          thing('31-107', 'E31', { condition: 'at repair' }),
          thing('N-4', 'E31', { family: 'nozzle' }),
        ],
      }),
    ).toEqual([]));

  it('is not judged again once its rig was settled and nothing was read since', () =>
    expect(believed({ rigs: [{ ...there('E31', null), settled: true }], things })).toEqual([]));
});

describe('who likely has what is missing', () => {
  const things = [thing('31-107', 'E31'), thing('33-124', 'E33'), thing('34-5', 'E34')];

  it('is first the unit whose length lies in its place and whose list has not come in', () => {
    const holders = likely(
      { rigs: [there('E31', ['33-124']), there('E33', null), there('E34', null)], things },
      '31-107',
    );
    expect(holders.map(h => h.name)).toEqual(['E33', 'E34']);
    expect(holders[0]?.reasons).toEqual([
      'its list has not come in',
      '33-124 of E33 was read on E31: they were probably exchanged',
    ]);
  });

  it('is rather a unit that has left something else there than one that has left nothing', () => {
    const other = thing('33-9', 'E33', { what: '5 in supply hose, 100 ft' });
    const holders = likely(
      {
        rigs: [there('E31', ['33-9']), there('E34', null), there('E33', null)],
        things: [...things, other],
      },
      '31-107',
    );
    expect(holders.map(h => h.name)).toEqual(['E33', 'E34']);
    expect(holders[0]?.reasons.at(-1)).toBe('33-9 of E33 was read on E31');
  });

  it('is the other department whose bottle lies there before one of ours that has nothing to show for it', () => {
    const holders = likely(
      {
        rigs: [there('E32', ['CB-207']), there('E33', null)],
        agencies: ['Cottonwood Basin Fire'],
        things: [thing('C-187', 'E32')],
      },
      'C-187',
    );
    expect(holders.map(h => h.name)).toEqual(['Cottonwood Basin Fire', 'E33']);
    expect(holders[0]?.reasons).toEqual(['CB-207 on E32 is not ours: probably exchanged']);
  });

  it('is whoever read a number one character from it before all others', () => {
    const holders = likely(
      { rigs: [there('E31', ['33-124']), there('E33', null), there('E34', ['34-5', '31-101'])], things },
      '31-107',
    );
    expect(holders[0]).toMatchObject({
      name: 'E34',
      reasons: [
        '31-101 was read on it, one character from 31-107',
        'it has 1 of the kind more than is believed on it',
      ],
    });
  });

  it('is a rig that has more of the kind than it should, not one that has more of another', () => {
    const spare = [
      thing('31-200', null),
      thing('L-1', null, { family: 'ladder', what: 'roof ladder, 14 ft' }),
    ];
    const holders = likely(
      {
        rigs: [there('E31', []), there('E33', ['33-124', 'L-1']), there('E34', ['34-5', '31-200'])],
        things: [...things, ...spare],
      },
      '31-107',
    );
    expect(holders.map(h => h.name)).toEqual(['E34']);
  });

  it('says that nobody is named where a foreign number lies there and no other department is known', () =>
    expect(likely({ rigs: [there('E31', ['X-1'])], things }, '31-107')).toMatchObject([
      { rig: null, name: 'a department that is not named' },
    ]));
});

describe('whatever was read', () => {
  const RIGS = ['E31', 'E32', 'E33'];
  const NUMBERS = ['1', '2', '3', '4', '12', '13', 'a'];
  const cases = fc.record({
    rigs: fc.array(fc.option(fc.array(fc.constantFrom(...NUMBERS), { maxLength: 6 })), {
      minLength: 3,
      maxLength: 3,
    }),
    things: fc.array(
      fc.record({
        number: fc.constantFrom(...NUMBERS),
        rig: fc.constantFrom(...RIGS, null),
        family: fc.constantFrom('hose', 'hose', 'cylinder', 'nozzle'),
        condition: fc.constantFrom('serviceable', 'serviceable', 'missing', 'at repair', 'tagged out'),
      }),
      { maxLength: 9 },
    ),
    agencies: fc.array(fc.constantFrom('A', 'B'), { maxLength: 2 }),
  });
  const made = ({ rigs, things, agencies }: typeof cases extends fc.Arbitrary<infer T> ? T : never) =>
    scene({
      rigs: RIGS.map((rig, i) => there(rig, rigs[i] ?? null)),
      agencies,
      families: ['hose', 'cylinder'],
      things: things.map((t, i) => thing(t.number, t.rig, { ...t, item: `i${i}` } as Partial<KnownThing>)),
    });

  it('agrees with counting it out by hand', () => {
    fc.assert(
      fc.property(cases, c => {
        const s = made(c);
        const { numbers: told, believed: there } = matchPickup(s);
        // Every number of every list once, and every thing that is looked for once.
        const pairs = s.rigs.flatMap(r => [...new Set(r.read ?? [])].map(n => `${r.rig} ${n}`));
        expect(told.map(n => `${n.rig} ${n.number}`)).toEqual(pairs);
        const looked = s.things.filter(
          t => t.rig !== null && t.family !== 'nozzle' && t.condition !== 'at repair',
        );
        expect(there.map(b => b.thing.item)).toEqual(looked.map(t => t.item));
        for (const n of told) {
          const bearers = s.things.filter(t => t.number === n.number);
          const rigs = s.rigs.filter(r => r.read?.includes(n.number));
          const is =
            bearers.length === 0
              ? 'foreign'
              : bearers.length > 1 || rigs.length > 1
                ? 'duplicated'
                : bearers[0]?.rig === n.rig
                  ? 'own'
                  : bearers[0]?.rig
                    ? 'other rig'
                    : 'elsewhere';
          expect(n.is).toBe(is);
          expect(n.thing?.item ?? null).toBe(
            is === 'foreign' || is === 'duplicated' ? null : (bearers[0]?.item ?? null),
          );
        }
        for (const b of there) {
          const rigs = s.rigs.filter(r => r.read?.includes(b.thing.number));
          const bearers = s.things.filter(t => t.number === b.thing.number);
          const list = s.rigs.find(r => r.rig === b.thing.rig)?.read ?? null;
          const is =
            rigs.length === 0
              ? list === null
                ? 'not looked for'
                : 'missing'
              : rigs.length > 1 || bearers.length > 1
                ? 'doubtful'
                : rigs[0]?.rig === b.thing.rig
                  ? 'found'
                  : 'found elsewhere';
          expect(b.is).toBe(is);
          // Of what is not missing nobody is suspected, and nobody twice.
          if (is !== 'missing') expect(b.likely).toEqual([]);
          expect(new Set(b.likely.map(h => `${h.rig} ${h.name}`)).size).toBe(b.likely.length);
          for (const h of b.likely) expect(h.reasons.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 800 },
    );
  });

  it('is near exactly where one edit makes one number of the other', () => {
    const text = fc.stringMatching(/^[12A-]{0,5}$/);
    fc.assert(
      fc.property(text, text, (a, b) => {
        const [x, y] = [sameNumber(a), sameNumber(b)];
        const edits = new Set<string>();
        for (let i = 0; i <= x.length; i++)
          for (const c of ['1', '2', 'A', '-']) {
            edits.add(x.slice(0, i) + c + x.slice(i));
            edits.add(x.slice(0, i) + c + x.slice(i + 1));
            edits.add(x.slice(0, i) + x.slice(i + 1));
          }
        edits.delete(x);
        expect(isNear(a, b)).toBe(edits.has(y));
      }),
      { numRuns: 800 },
    );
  });
});
