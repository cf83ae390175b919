import { describe, expect, it } from 'vitest';
import { narrow } from '../../renderer/parts/picker/narrow.ts';
import { ALL_SLOTS, slotChoices, withChoice } from '../../renderer/screens/coming-due/choices.ts';
import {
  type DueSearch,
  type FilterNames,
  filterArgs,
  listArgs,
  readSearch,
  sentence,
  sortedBy,
  TO_DO,
  withoutLast,
} from '../../renderer/screens/coming-due/filter.ts';

const NAMES: FilterNames = {
  families: [
    { id: 'hose', title: 'Hose', plural: 'Hose' },
    { id: 'ladder', title: 'Ground ladder', plural: 'Ground ladders' },
  ],
  units: [
    { id: 'u1', name: 'Battalion 31' },
    { id: 'u2', name: 'Engine 31' },
  ],
  rigs: [],
  stations: [{ id: 's31', name: 'Station 31' }],
  requirements: [{ id: 'hose.service-test', title: 'Service test', family: 'hose' }],
};

const all = ALL_SLOTS.flatMap(slot => slotChoices(slot, NAMES));
/** Type into the filter box and take the first that is offered. */
const type = (search: DueSearch, text: string) => withChoice(search, narrow(all, text)[0]?.value ?? '');

describe('the filter is one sentence', () => {
  it('begins with whatever is to be done', () => {
    expect(sentence({}, NAMES)).toBe(
      'Show what is to be done for everything on any unit at any station, due at any time.',
    );
    expect(filterArgs({})).toEqual({ state: [...TO_DO] });
  });

  it('is built by typing a few letters of each part', () => {
    let search: DueSearch = {};
    for (const text of ['over', 'hos', 'engine 31']) search = type(search, text);
    expect(sentence(search, NAMES)).toBe(
      'Show what is overdue for hose on Engine 31 at any station, due at any time.',
    );
    expect(filterArgs(search)).toEqual({ state: ['overdue'], family: 'hose', unit: 'u2' });
  });

  it('takes a second state beside the first, and out again', () => {
    const two = type(type({}, 'over'), 'never');
    expect(two.state).toEqual(['overdue', 'never done']);
    expect(type(two, 'over').state).toEqual(['never done']);
    expect(type(type(two, 'over'), 'never').state).toBeUndefined();
  });

  it('takes out the last part with Backspace, the state last of all', () => {
    const search: DueSearch = { state: ['overdue'], unit: 'u2', within: 30 };
    expect(withoutLast(search).within).toBeUndefined();
    expect(withoutLast(withoutLast(search)).unit).toBeUndefined();
    expect(withoutLast(withoutLast(withoutLast(search)))).toEqual(
      expect.objectContaining({ state: undefined }),
    );
  });

  it('asks for every state only where that is said', () => {
    expect(filterArgs(type({}, 'every duty'))).toEqual({});
  });
});

describe('the order of the list', () => {
  it('goes up, down, and back to the dates', () => {
    const up = sortedBy({}, 'number');
    expect(listArgs(up)).toMatchObject({ sort: 'number' });
    const down = sortedBy(up, 'number');
    expect(listArgs(down)).toMatchObject({ sort: 'number', descending: true });
    expect(listArgs(sortedBy(down, 'number'))).toMatchObject({ sort: 'due' });
  });

  it('is by date where the list is grouped by month, whatever was chosen before', () => {
    expect(listArgs({ by: 'month', sort: 'number' })).toMatchObject({ sort: 'due' });
  });
});

describe('the address', () => {
  it('brings back what it was made from', () => {
    const search = {
      state: ['overdue' as const],
      family: 'hose',
      within: 60,
      by: 'unit' as const,
      descending: true as const,
    };
    expect(readSearch(search)).toEqual(search);
  });

  it('leaves out what it does not understand', () => {
    expect(readSearch({ state: ['broken'], within: -1, by: 'color', family: 7 })).toEqual({});
  });
});

describe('narrowing a list by typing', () => {
  const options = ['Engine 31', 'Engine 33', 'Battalion 31', 'Station 31'].map(label => ({
    value: label,
    label,
  }));
  const found = (text: string) => narrow(options, text).map(o => o.label);

  it('fits each typed word to the beginning of a word', () => {
    expect(found('eng 31')).toEqual(['Engine 31']);
    expect(found('31')).toEqual(['Engine 31', 'Battalion 31', 'Station 31']);
    expect(found('ngine')).toEqual([]);
  });

  it('knows e31 for Engine 31', () => {
    expect(found('e31')).toEqual(['Engine 31']);
  });
});
