/** A rig's list: places as they nest, what is wrong told at every level. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { LeftThing, RigItem, RigPlace } from '../../db/api-desk.ts';
import { heaviestWrong, markOf } from '../../domain/derive/marks.ts';
import { placeTree } from '../../domain/rigs/tree.ts';
import { meterForm } from '../../renderer/parts/meters/meterForm.ts';
import { bringHomeForm, moveForm, rideForm } from '../../renderer/screens/rigs/forms.ts';
import { linesOf } from '../../renderer/screens/rigs/lines.ts';

const TODAY = '2026-11-25';

function item(number: string, more: Partial<RigItem> = {}): RigItem {
  return {
    item: `id-${number}`,
    number,
    family: 'hose',
    what: '1¾ in attack hose, 50 ft',
    condition: 'serviceable',
    assignment: 'first line',
    state: 'current',
    how: 'sight',
    since: '2026-01-01',
    ...more,
  };
}
const place = (id: string, parent: string, items: RigItem[] = []): RigPlace => ({
  id,
  name: id,
  kind: 'compartment',
  parent,
  items,
});
const PLACES = [
  place('L1', 'rig', [item('31-1')]),
  place('tray', 'L1', [item('31-2', { state: 'overdue' })]),
  place('bag', 'tray', [item('31-3', { condition: 'missing' })]),
  place('L2', 'rig'),
];

describe('a rig’s places', () => {
  it('stand under what they lie in, each with all that it holds', () => {
    expect(placeTree(PLACES, 'rig').map(n => [n.place.id, n.depth, n.everything.map(i => i.number)])).toEqual(
      [
        ['L1', 0, ['31-1', '31-2', '31-3']],
        ['tray', 1, ['31-2', '31-3']],
        ['bag', 2, ['31-3']],
        ['L2', 0, []],
      ],
    );
  });

  it('are none of them lost where the place around one is gone', () => {
    expect(placeTree([place('tray', 'gone')], 'rig').map(n => n.depth)).toEqual([0]);
  });

  it('are listed with their things; what is in no place comes first', () => {
    const lines = linesOf({ id: 'rig', name: 'Engine 31', places: PLACES, loose: [item('31-9')] });
    expect(lines.map(l => l.heading?.name ?? l.item?.number)).toEqual([
      'On Engine 31, in no place of it',
      '31-9',
      'L1',
      '31-1',
      'tray',
      '31-2',
      'bag',
      '31-3',
      'L2',
    ]);
  });
});

describe('what is wrong', () => {
  it('with a thing is the heavier of its condition and its dates', () => {
    expect(markOf(item('1', { state: 'overdue', condition: 'tagged out' }))).toBe('overdue');
    expect(markOf(item('1', { state: 'current', condition: 'tagged out' }))).toBe('tagged out');
    expect(markOf(item('1', { state: 'life ended', condition: 'missing' }))).toBe('life ended');
  });

  it('in a place is its heaviest; what is only due soon is not wrong', () => {
    expect(heaviestWrong([item('1', { state: 'due soon' }), item('2')])).toBeNull();
    expect(heaviestWrong([item('1', { condition: 'missing' }), item('2', { state: 'never done' })])).toBe(
      'never done',
    );
  });
});

describe('a deed on a rig', () => {
  const rig = { id: 'r2', name: 'Reserve R-2', unit: 'Engine 34', unitId: 'u34' };

  it('moves several things in one act, so that all are moved or none', () => {
    expect(moveForm([item('1'), item('2')]).deeds({ to: 'rack', how: 'count', on: '' }, TODAY)).toEqual([
      { action: 'item.move', body: { item: 'id-1', to: 'rack', how: 'count', on: TODAY } },
      { action: 'item.move', body: { item: 'id-2', to: 'rack', how: 'count', on: TODAY } },
    ]);
  });

  it('lets a crew leave a rig without another', () => {
    const form = rideForm(rig, [{ id: 'u34', name: 'Engine 34', station: null }]);
    expect(form.deeds({ unit: 'nobody', on: '', note: '' }, TODAY)).toEqual([
      { action: 'rig.ride', body: { rig: 'r2', unit: null, on: TODAY } },
    ]);
  });

  it('sends a reading that is no figure as it was typed, for the store to refuse', () => {
    const sent = (reading: string) =>
      meterForm({ item: rig.id, number: rig.name, isRig: true }, ['miles']).deeds(
        { meter: 'miles', reading, meterReplaced: '', on: '' },
        TODAY,
      )[0]?.body.reading;
    expect([sent('80,503'), sent('8o,503')]).toEqual([80_503, '8o,503']);
  });

  it('brings a thing home to the rig it came from', () => {
    const left = { item: 'i', number: 'TIC-4', homeRig: 'e34', home: 'Engine 34' } as LeftThing;
    expect(bringHomeForm(left).deeds({ how: 'sight', on: '' }, TODAY)).toEqual([
      { action: 'item.move', body: { item: 'i', to: 'e34', how: 'sight', on: TODAY } },
    ]);
  });

  it('finds what was reported missing where it is brought home', () => {
    const left = {
      item: 'i',
      number: 'TIC-4',
      homeRig: 'e34',
      home: 'Engine 34',
      condition: 'missing',
    } as LeftThing;
    expect(bringHomeForm(left).deeds({ how: 'number read', on: '', note: 'Under the seat' }, TODAY)).toEqual([
      {
        action: 'item.found',
        body: { item: 'i', how: 'number read', on: TODAY, place: 'e34', note: 'Under the seat' },
      },
    ]);
  });
});
