/** Dates as typed in the US (month first); 14 Jun 2026 and ISO 8601 as written. The store judges what comes out. */
import { expect, it } from 'vitest';
import { readDate } from '../../renderer/parts/form/readDate.ts';

const read = (typed: string) => readDate(typed, '2026-11-25').text;

it.each([
  ['6/14/2026', '2026-06-14'],
  ['6/14/26', '2026-06-14'],
  ['14 Jun 2026', '2026-06-14'],
  ['June 14, 2026', '2026-06-14'],
  ['Jun 2026', '2026-06'],
  ['6/2026', '2026-06'],
  ['2026', '2026'],
  ['2026-06-14', '2026-06-14'],
  ['2026-06-14 03:10', '2026-06-14T03:10'],
])('reads %s as %s', (typed, text) => expect(read(typed)).toBe(text));

it('takes an empty field and the word for today', () => {
  expect(read('')).toBe('2026-11-25');
  expect(readDate('today', '2026-11-25').words).toBe('Today, 25 Nov 2026');
});

it('hands on a date that does not exist, so that the store refuses it by name', () => {
  expect(read('30 Feb 2026')).toBe('2026-02-30');
  expect(readDate('2/30/2026', '2026-11-25').words).toContain('Not a date');
});
