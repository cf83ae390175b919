/** What a thing can be swapped with, and the swap itself: both are moved or neither. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { ItemSummary } from '../../db/api.ts';
import type { Spares } from '../../db/api-desk.ts';
import { aHose, layGround, newDepartment } from './kit/department.ts';

const TESTED = { activity: 'service test', outcome: 'pass', on: '2026-06-20' };

function department() {
  const d = newDepartment();
  const ground = layGround(d);
  const tested = (number: string, place: string, more: Record<string, unknown> = {}) => {
    const item = aHose(d, number, { place, ...more });
    d.must('record.add', { item, ...TESTED });
    return item;
  };
  return { d, ground, tested };
}

describe('what a hose on a rig can be swapped with', () => {
  it('is every other of its family that is elsewhere and there to be taken, the ready and tested first', async () => {
    const { d, ground, tested } = department();
    const mine = tested('31-1', ground.bed, { assignment: 'first line' });
    tested('31-2', ground.bed, { assignment: 'first line' });
    tested('31-3', ground.rig);
    // The number would put the untested one first.
    aHose(d, '31-4', { place: ground.rack, assignment: 'ready spare' });
    tested('31-9', ground.rack, { assignment: 'ready spare' });
    const cut = tested('31-5', ground.rack, { assignment: 'ready spare' });
    d.must('item.tagOut', { item: cut, reason: 'Cut' });
    const lost = tested('31-6', ground.rack);
    d.must('item.missing', { item: lost });
    const gone = tested('31-7', ground.rack);
    d.must('item.retire', { item: gone, reason: 'Worn' });

    const { total, current, spares } = await d.ask<Spares>('item.spares', { item: mine });
    expect(current).toMatchObject({ number: '31-1', rig: 'Engine 31', placeId: ground.bed });
    expect(spares.map(s => [s.number, s.against])).toEqual([
      ['31-9', []],
      ['31-4', ['worse than what is there', 'never done']],
      ['31-5', ['worse than what is there', 'tagged out']],
    ]);
    expect(total).toBe(3);
    expect(spares[0]).toMatchObject({ place: 'Station 31, hose rack', placeId: ground.rack, rig: null });
  });

  it('is narrowed by words of number, kind and place; each must fit', async () => {
    const { d, ground, tested } = department();
    const mine = tested('31-1', ground.bed);
    tested('31-8', ground.rack);
    tested('31-9', ground.rack);
    const numbers = async (text: string) =>
      (await d.ask<Spares>('item.spares', { item: mine, text })).spares.map(s => s.number);
    expect(await numbers('RACK 31-9')).toEqual(['31-9']);
    expect(await numbers('attack hose')).toEqual(['31-8', '31-9']);
    expect(await numbers('attack foam')).toEqual([]);
    const one = await d.ask<Spares>('item.spares', { item: mine, limit: 1 });
    expect([one.spares.length, one.total]).toEqual([1, 2]);
  });
});

describe('a swap', () => {
  it('of which one half is refused moves neither', async () => {
    const { d, ground, tested } = department();
    const mine = tested('31-1', ground.bed);
    const spare = tested('31-9', ground.rack);
    const placeOf = async (number: string) =>
      (await d.ask<ItemSummary[]>('item.find', { number }))[0]?.placeId;
    const places = async () => [await placeOf('31-1'), await placeOf('31-9')];
    const swap = (back: string) =>
      d.act([
        { action: 'item.move', body: { item: spare, to: ground.bed } },
        { action: 'item.move', body: { item: mine, to: back } },
      ]);
    expect(swap('nowhere').ok).toBe(false);
    expect(await places()).toEqual([ground.bed, ground.rack]);
    expect(swap(ground.rack).ok).toBe(true);
    expect(await places()).toEqual([ground.rack, ground.bed]);
  });
});
