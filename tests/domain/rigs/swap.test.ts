/** Which spare to take first, and what speaks against each. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { movedWithin, sizedWithin } from '../../../domain/rigs/drawing.ts';
import { against, inOrderToTake, type Swappable, weightOf } from '../../../domain/rigs/swap.ts';

const thing = (more: Partial<Swappable> = {}): Swappable => ({
  kind: '1¾ in attack hose, 50 ft',
  station: 'Station 31',
  condition: 'serviceable',
  assignment: 'ready spare',
  state: 'current',
  ...more,
});
const CURRENT = thing({ assignment: 'first line', state: 'overdue' });

describe('a spare', () => {
  it('is taken in this order: of its kind, serving, ready, near, with the least against it', () => {
    const wanted = [
      thing(),
      thing({ state: 'due soon' }),
      thing({ station: 'Station 33' }),
      thing({ assignment: 'reserve' }),
      thing({ assignment: 'first line' }),
      thing({ state: 'overdue' }),
      thing({ assignment: 'first line', condition: 'tagged out' }),
      thing({ kind: '5 in supply hose, 100 ft' }),
    ];
    for (const turn of [1, 3, 5]) {
      const mixed = wanted
        .map((_, i) => wanted[(i * turn + turn) % wanted.length])
        .filter(t => t !== undefined);
      expect(inOrderToTake(CURRENT, mixed)).toEqual(wanted);
    }
  });

  it('that is ready has nothing against it', () => {
    expect(against(CURRENT, thing(), null)).toEqual([]);
    expect(against(CURRENT, thing({ state: 'due soon' }), null)).toEqual([]);
  });

  it('worse than what is there says so, and why', () => {
    expect(against(CURRENT, thing({ condition: 'tagged out' }), null)).toEqual([
      'worse than what is there',
      'tagged out',
    ]);
    expect(against(thing(), thing({ state: 'overdue' }), null)).toEqual([
      'worse than what is there',
      'overdue',
    ]);
    // A retest that is owed is told once, though it is both its condition and its state.
    expect(against(CURRENT, thing({ condition: 'retest owed', state: 'retest owed' }), null)).toEqual([
      'worse than what is there',
      'retest owed',
    ]);
  });

  it('as bad as what is there is not worse, but is told', () => {
    expect(against(CURRENT, thing({ state: 'never done' }), null)).toEqual(['never done']);
  });

  it('off another rig leaves it short; another kind is told', () => {
    expect(against(CURRENT, thing({ assignment: 'first line' }), 'Engine 33')).toEqual([
      'Engine 33 would be short',
    ]);
    expect(against(CURRENT, thing({ kind: '5 in supply hose, 100 ft' }), null)).toEqual([
      'not the same kind',
    ]);
  });

  it('weighs as the heavier of its condition and its dates', () => {
    expect(weightOf(thing({ condition: 'limited use', state: 'life ended' }))).toBe(
      weightOf(thing({ condition: 'at repair' })),
    );
    expect(weightOf(thing({ condition: 'retest owed' }))).toBeGreaterThan(
      weightOf(thing({ state: 'overdue' })),
    );
  });
});

describe('a box that is dragged', () => {
  const box = { place: 'L1', view: 'driver side', x: 2, y: 1, w: 3, h: 2 } as const;

  it('goes no further than the edge of its view', () => {
    expect(movedWithin(box, 99, -99)).toMatchObject({ x: 9, y: 0, w: 3, h: 2 });
    expect(movedWithin(box, -1, 1)).toMatchObject({ x: 1, y: 2 });
  });

  it('is no smaller than a cell and no larger than its view has room', () => {
    expect(sizedWithin(box, -99, -99)).toMatchObject({ x: 2, y: 1, w: 1, h: 1 });
    expect(sizedWithin(box, 99, 99)).toMatchObject({ x: 2, y: 1, w: 10, h: 3 });
  });
});
