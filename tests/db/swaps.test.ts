/** Twelve down, twelve up, numbers owed: nobody reads numbers at three in the morning. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { SwapLine } from '../../db/api-checks.ts';
import { aHose, layGround, newDepartment } from './kit/department.ts';

function night() {
  const d = newDepartment();
  const g = layGround(d);
  const down = ['31-1', '31-2', '31-3'].map(n => aHose(d, n, { place: g.bed }));
  const up = ['31-7', '31-8', '31-9'].map(n => aHose(d, n, { place: g.rack, assignment: 'ready spare' }));
  const swap = d.must('swap.many', {
    of: g.unit,
    family: 'hose',
    down: 3,
    up: 3,
    place: g.rack,
    on: '2026-11-25T03:10',
  });
  const open = () => d.ask<SwapLine[]>('swaps.list', { open: true });
  const placeOf = async (item: string) =>
    (await d.ask<{ placeId: string | null }>('item.page', { item })).placeId;
  const settle = (more: Record<string, unknown>) => ({ swap, on: '2026-11-25T07:00', ...more });
  return { d, g, down, up, swap, open, placeOf, settle };
}

describe('a swap of many', () => {
  it('moves nothing until numbers are read: until then they are owed', async () => {
    const { g, down, open, placeOf } = night();
    expect((await open())[0]).toMatchObject({
      name: 'Engine 31',
      owed: { down: 3, up: 3 },
      rack: 'Station 31, hose rack',
    });
    expect(await placeOf(down[0] ?? '')).toBe(g.bed);
  });

  it('is settled number by number, some now and the rest later', async () => {
    const { d, g, down, up, open, placeOf, settle } = night();
    d.must('swap.settle', settle({ down: ['31-1', '31-3'], up: ['31-7'], to: g.bed }));
    expect((await open())[0]?.owed).toEqual({ down: 1, up: 2 });
    expect(await placeOf(down[0] ?? '')).toBe(g.rack);
    expect(await placeOf(down[1] ?? '')).toBe(g.bed);
    expect(await placeOf(up[0] ?? '')).toBe(g.bed);
    d.must('swap.settle', settle({ down: ['31-2'], up: ['31-8', '31-9'], to: g.bed }));
    expect(await open()).toEqual([]);
  });

  it('takes no number that is not there, none twice, and no more than were swapped', () => {
    const { d, g, settle } = night();
    const codes = (more: Record<string, unknown>) => d.codes('swap.settle', settle({ to: g.bed, ...more }));
    expect(codes({ down: ['99-1'] })).toEqual(['not found']);
    expect(codes({ down: ['31-1', '31-1'] })).toEqual(['twice']);
    expect(codes({ down: ['31-1', '31-2', '31-3', '31-7'] })).toEqual(['too many']);
    expect(d.codes('swap.settle', settle({ up: ['31-7'] }))).toEqual(['missing']);
    expect(codes({})).toEqual(['nothing']);
  });

  it('whose numbers nobody will ever know is closed with the reason', async () => {
    const { d, open, settle } = night();
    d.must('swap.settle', settle({ giveUp: 'Picked up by two engines in the rain' }));
    expect(await open()).toEqual([]);
    const [all] = await d.ask<SwapLine[]>('swaps.list', {});
    expect(all?.giveUp).toBe('Picked up by two engines in the rain');
  });
});
