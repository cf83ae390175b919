/** A rig's line drawing: a first arrangement by the names of places. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { firstDrawing, fits, GRID, viewOf } from '../../../domain/rigs/drawing.ts';

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
    const places = Array.from({ length: 40 }, (_, i) => ({ id: String(i), name: `${'LR'[i % 2]}${i}` }));
    const boxes = firstDrawing(places);
    expect(boxes).toHaveLength(40);
    for (const box of boxes) expect(fits(box), JSON.stringify(box)).toBe(true);
    for (const a of boxes)
      for (const b of boxes)
        if (a !== b && a.view === b.view)
          expect(
            a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y,
            `${a.place} ${b.place}`,
          ).toBe(true);
  });

  it('knows what lies outside', () => {
    expect(fits({ x: 0, y: 0, w: GRID.columns, h: GRID.rows })).toBe(true);
    expect(fits({ x: 1, y: 0, w: GRID.columns, h: 1 })).toBe(false);
    expect(fits({ x: 0, y: 0, w: 0, h: 1 })).toBe(false);
  });
});
