/** The shortest fix, on departments small enough to solve by hand. The default order is our choice, no source. */
import { describe, expect, it } from 'vitest';
import {
  type Cost,
  orderByWants,
  ownFix,
  type Source,
  shortestFix,
  type UnitWants,
} from '../../../domain/coverage/fix.ts';

/** `'Engine 31: 2 pack, 1 hose'`; a want is named by its place in the line. */
function unit(line: string): UnitWants {
  const [name = '', wants = ''] = line.split(': ');
  return {
    unit: name,
    wants: wants
      .split(', ')
      .filter(w => w !== '')
      .map((w, i) => {
        const [count = '', kind = ''] = w.split(' ');
        return { want: `${kind} ${i + 1}`, kind, count: Number(count) };
      }),
  };
}

/** `'Station 31: 2 pack'`: what stands at one place of one kind; the whole line is its id. */
function source(line: string): Source {
  const [count = '', kind = ''] = line.split(': ')[1]?.split(' ') ?? [];
  return { source: line, kind, count: Number(count) };
}

/** Miles from each unit to each place, in the order of the places. */
function miles(places: readonly string[], table: Record<string, readonly number[]>): Cost {
  return (of, from) => table[of]?.[places.indexOf(from.source.split(': ')[0] ?? '')] ?? 99;
}

const PLACES = ['Station 31', 'Station 33', 'Reserve 38'];
const MILES = miles(PLACES, { 'Engine 31': [0, 4, 6], 'Tower 33': [4, 0, 9], 'Brush 35': [5, 7, 20] });
const fix = (units: string[], sources: string[], cost = MILES) =>
  shortestFix(units.map(unit), sources.map(source), cost);
/** Moves as `want < source x count`, by unit. */
const moves = (...args: Parameters<typeof fix>) =>
  fix(...args).map(f => f.moves.map(m => `${m.want} < ${m.source} x ${m.count}`));

describe('the shortest fix of a department', () => {
  it('takes from the shelf of the own station before any other', () =>
    expect(fix(['Engine 31: 1 pack'], ['Station 33: 3 pack', 'Station 31: 1 pack'])).toEqual([
      {
        unit: 'Engine 31',
        ready: true,
        moves: [{ want: 'pack 1', source: 'Station 31: 1 pack', count: 1 }],
        cost: 0,
        lacking: [],
      },
    ]));

  it('sends the unit elsewhere that loses less by it, though it is served first and stands nearer', () => {
    // Engine 31 is two miles from the spare and could go three; Tower 33 is four miles from it and would go thirty.
    const cost = miles(['Depot', 'Annex'], { 'Engine 31': [2, 3], 'Tower 33': [4, 30] });
    const fixed = fix(
      ['Engine 31: 1 imager', 'Tower 33: 1 imager'],
      ['Depot: 1 imager', 'Annex: 1 imager'],
      cost,
    );
    expect(fixed.map(f => [f.unit, f.moves[0]?.source, f.cost])).toEqual([
      ['Engine 31', 'Annex: 1 imager', 3],
      ['Tower 33', 'Depot: 1 imager', 4],
    ]);
  });

  it('passes things on along a chain of units where that is nearest over all', () => {
    const cost = miles(['Depot', 'Annex', 'Yard'], {
      'Engine 31': [0, 1, 50],
      'Engine 32': [50, 0, 1],
      'Engine 34': [0, 50, 50],
    });
    const fixed = fix(
      ['Engine 31: 1 fan', 'Engine 32: 1 fan', 'Engine 34: 1 fan'],
      ['Depot: 1 fan', 'Annex: 1 fan', 'Yard: 1 fan'],
      cost,
    );
    expect(fixed.map(f => f.moves[0]?.source)).toEqual(['Annex: 1 fan', 'Yard: 1 fan', 'Depot: 1 fan']);
  });

  it('splits a line over places, the nearest first, and gives the nearest to the first line', () =>
    expect(
      moves(['Tower 33: 3 pack, 2 pack'], ['Reserve 38: 9 pack', 'Station 31: 2 pack', 'Station 33: 2 pack']),
    ).toEqual([
      [
        'pack 1 < Station 33: 2 pack x 2',
        'pack 1 < Station 31: 2 pack x 1',
        'pack 2 < Station 31: 2 pack x 1',
        'pack 2 < Reserve 38: 9 pack x 1',
      ],
    ]));

  it('readies the unit served first, though that walks farther and readies fewer', () => {
    const fixed = fix(
      ['Brush 35: 2 radio', 'Engine 31: 1 radio', 'Tower 33: 1 radio'],
      ['Station 31: 1 radio', 'Station 33: 1 radio'],
    );
    expect(fixed.map(f => [f.ready, f.cost])).toEqual([
      [true, 12],
      [false, 0],
      [false, 0],
    ]);
  });

  it('uses up nothing for a unit that would stay short of anything, and serves the next from it', () => {
    const fixed = fix(
      ['Engine 31: 1 pack, 1 nozzle', 'Tower 33: 1 pack'],
      ['Station 31: 1 pack', 'Station 31: 0 nozzle'],
    );
    expect(fixed.map(f => [f.ready, f.moves.length])).toEqual([
      [false, 0],
      [true, 1],
    ]);
    expect(fixed[0]?.lacking).toEqual([{ kind: 'nozzle', wanted: 1, had: 0, takenBy: [] }]);
  });

  it('says of each kind that is short how many are wanted and to be had, and which units served earlier take them', () => {
    const fixed = fix(
      ['Engine 31: 2 pack', 'Tower 33: 1 pack, 1 hose', 'Engine 36: 2 pack, 1 hose, 3 axe, 1 pack'],
      ['Station 31: 3 pack', 'Reserve 38: 2 pack', 'Station 33: 4 hose', 'Station 33: 2 axe'],
    );
    expect(fixed[2]).toEqual({
      unit: 'Engine 36',
      ready: false,
      moves: [],
      cost: 0,
      lacking: [
        {
          kind: 'pack',
          wanted: 3,
          had: 5,
          takenBy: [
            { unit: 'Engine 31', count: 2 },
            { unit: 'Tower 33', count: 1 },
          ],
        },
        { kind: 'axe', wanted: 3, had: 2, takenBy: [] },
      ],
    });
  });

  it('takes no thing of another kind, however near', () =>
    expect(moves(['Engine 31: 1 pack'], ['Station 31: 5 cylinder', 'Reserve 38: 1 pack'])).toEqual([
      ['pack 1 < Reserve 38: 1 pack x 1'],
    ]));

  it('finds a unit that wants nothing ready, and answers for no units and no spares', () => {
    expect(fix(['Engine 31'], [])).toEqual([
      { unit: 'Engine 31', ready: true, moves: [], cost: 0, lacking: [] },
    ]);
    expect(fix([], ['Station 31: 1 pack'])).toEqual([]);
  });

  it('leaves an earlier unit where it is and takes the lower id, where nothing is saved by another way', () => {
    const sources = ['Station 33: 1 pack', 'Station 31: 1 pack', 'Reserve 38: 1 pack'];
    const alike = fix(['Tower 33: 1 pack', 'Engine 31: 1 pack'], sources, () => 5);
    expect(alike.map(f => f.moves[0]?.source)).toEqual(['Reserve 38: 1 pack', 'Station 31: 1 pack']);
    expect(fix(['Tower 33: 1 pack', 'Engine 31: 1 pack'], sources.reverse(), () => 5)).toEqual(alike);
  });

  it.each([
    ['a count below 1', ['Engine 31: 0 pack'], ['Station 31: 1 pack'], MILES],
    ['half a thing', ['Engine 31: 1 pack'], ['Station 31: 1.5 pack'], MILES],
    ['fewer than none', ['Engine 31: 1 pack'], ['Station 31: -1 pack'], MILES],
    ['a distance below 0', ['Engine 31: 1 pack'], ['Station 31: 1 pack'], () => -1],
    ['a distance that is no number', ['Engine 31: 1 pack'], ['Station 31: 1 pack'], () => Number.NaN],
    ['a unit named twice', ['Engine 31: 1 pack', 'Engine 31: 1 axe'], [], MILES],
    ['a source named twice', ['Engine 31: 1 pack'], ['Station 31: 1 pack', 'Station 31: 1 pack'], MILES],
  ])('refuses %s', (_, units, sources, cost) => expect(() => fix(units, sources, cost)).toThrow(RangeError));

  it('refuses two wants of one name within a unit, not in two units', () => {
    const want = { want: 'line 4', kind: 'axe', count: 1 };
    expect(() => shortestFix([{ unit: 'Engine 31', wants: [want, want] }], [], MILES)).toThrow(RangeError);
    const two = ['Engine 31', 'Tower 33'].map(name => ({ unit: name, wants: [want] }));
    expect(shortestFix(two, [source('Station 31: 2 axe')], MILES).every(f => f.ready)).toBe(true);
  });
});

describe('the fix of one unit alone', () => {
  it('knows of no other', () => {
    const tower = unit('Tower 33: 1 pack');
    const sources = [source('Station 33: 1 pack')];
    const [, served] = shortestFix([unit('Engine 31: 1 pack'), tower], sources, MILES);
    expect(served?.ready).toBe(false);
    expect(ownFix(tower, sources, MILES)).toMatchObject({ ready: true, cost: 0, lacking: [] });
  });

  it('says what lacks in the whole department, taken by nobody', () =>
    expect(ownFix(unit('Tower 33: 3 pack'), [source('Station 33: 2 pack')], MILES)).toMatchObject({
      ready: false,
      lacking: [{ kind: 'pack', wanted: 3, had: 2, takenBy: [] }],
    }));
});

describe('the order where the department has chosen none', () => {
  const names = (lines: string[]) => orderByWants(lines.map(unit)).map(u => u.unit);

  it('serves first whoever lacks fewest things, then by name, 9 before 31', () =>
    expect(
      names(['Engine 31: 2 axe', 'Tower 33: 1 axe, 2 axe', 'Engine 9: 1 axe, 1 fan', 'Brush 35']),
    ).toEqual(['Brush 35', 'Engine 9', 'Engine 31', 'Tower 33']));

  it('leaves the list it was given as it is', () => {
    const given = [unit('Tower 33: 2 axe'), unit('Engine 31: 1 axe')];
    orderByWants(given);
    expect(given.map(u => u.unit)).toEqual(['Tower 33', 'Engine 31']);
  });

  it('does not always make the most units ready where kinds differ', () => {
    const units = ['Engine 31: 3 axe', 'Tower 33: 3 fan', 'Brush 35: 1 axe, 1 fan'].map(unit);
    const sources = ['Station 31: 3 axe', 'Station 31: 3 fan'].map(source);
    const ready = (served: UnitWants[]) => shortestFix(served, sources, MILES).filter(f => f.ready).length;
    expect(ready(orderByWants(units))).toBe(1);
    expect(ready(units)).toBe(2);
  });
});
