import { expect, it } from 'vitest';
import { isStale } from '../../renderer/api/touched.ts';

it('asks again for the dates when what is due was touched', () => {
  expect(isStale('due.list', { family: 'hose' }, ['due'])).toBe(true);
  expect(isStale('members.list', {}, ['due'])).toBe(false);
});

it('asks again only for the thing that was touched', () => {
  expect(isStale('item.page', { item: 'k3f9a-2' }, ['item:k3f9a-2'])).toBe(true);
  expect(isStale('item.page', { item: 'k3f9a-7' }, ['item:k3f9a-2'])).toBe(false);
  expect(isStale('due.explain', { number: '31-107' }, ['item:k3f9a-2'])).toBe(true);
});

it('holds notices against things again when a thing or a notice was touched', () => {
  for (const name of ['items', 'places', 'notices'])
    expect(isStale('notice.page', { notice: 'k3f9a-4' }, [name]), name).toBe(true);
  expect(isStale('notices.list', {}, ['due'])).toBe(false);
});

it('asks for everything again after a name it does not know', () => {
  expect(isStale('vocabulary.list', {}, ['*'])).toBe(true);
});
