/** A rig's line drawing: a first arrangement by the names of places. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import {
  type Box,
  firstDrawing,
  fits,
  GRID,
  inNextView,
  moved,
  overlaps,
  sized,
  VIEWS,
  viewOf,
} from '../../../domain/rigs/drawing.ts';

describe('a place', () => {
  it.each([
    ['L3', 'driver side'],
    ['R1', 'officer side'],
    ['rear preconnect', 'rear'],
    ['hosebed officer side', 'top'],
    ['crosslay 2', 'top'],
    ['ladder rack', 'top'],
    ['cab', 'cab'],
    ['seat 4', 'cab'],
    ['front bumper', 'cab'],
    ['rescue box', 'driver side'],
  ] as const)('called %s is drawn in the %s', (name, view) => expect(viewOf(name)).toBe(view));
});

describe('a first drawing', () => {
  it('puts every place inside its view, none over another', () => {
    const places = [
      ...Array.from({ length: 40 }, (_, i) => ({ id: String(i), name: `${'LR'[i % 2]}${i}` })),
      // More in one view than it has columns.
      ...Array.from({ length: 26 }, (_, i) => ({ id: `t${i}`, name: `roof tray ${i}` })),
    ];
    const boxes = firstDrawing(places);
    expect(boxes).toHaveLength(66);
    for (const box of boxes) expect(fits(box), JSON.stringify(box)).toBe(true);
    for (const a of boxes)
      for (const b of boxes)
        if (a !== b && a.view === b.view)
          expect(
            a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y,
            `${a.place} ${b.place}`,
          ).toBe(true);
  });

  it('is arranged by whole cells, and no box leaves its view', () => {
    const box: Box = { place: 'L1', view: 'driver side', x: 0, y: 0, w: 2, h: 1 };
    expect(moved(box, 3, 1)).toMatchObject({ x: 3, y: 1 });
    expect(moved(box, -1, 0)).toEqual(box);
    expect(moved({ ...box, x: GRID.columns - 2 }, 1, 0)).toMatchObject({ x: GRID.columns - 2 });
    expect(sized(box, 1, 2)).toMatchObject({ w: 3, h: 3 });
    expect(sized(box, -2, 0)).toEqual(box);
    expect(sized({ ...box, h: GRID.rows }, 0, 1)).toMatchObject({ h: GRID.rows });
    const round = VIEWS.reduce(inNextView, box);
    expect(round).toEqual(box);
  });

  it('tells two boxes over one cell of a view, and not two that only touch', () => {
    const box = (place: string, view: Box['view'], x: number, w: number): Box => ({
      place,
      view,
      x,
      y: 0,
      w,
      h: 1,
    });
    expect(
      overlaps([
        box('L1', 'driver side', 0, 3),
        box('L2', 'driver side', 2, 2),
        box('L3', 'driver side', 4, 2),
        box('R1', 'officer side', 0, 12),
      ]),
    ).toEqual([['L1', 'L2']]);
  });

  it('knows what lies outside', () => {
    expect(fits({ x: 0, y: 0, w: GRID.columns, h: GRID.rows })).toBe(true);
    expect(fits({ x: 1, y: 0, w: GRID.columns, h: 1 })).toBe(false);
    expect(fits({ x: 0, y: 0, w: 0, h: 1 })).toBe(false);
  });
});
