/** Partial dates: as precisely as the day is known on the floor. Forms follow ISO 8601. */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { firstDay, lastDay, parseWhen, precisionOf } from '../../../domain/calendar/when.ts';
import { when } from '../notation.ts';

describe('a partial date', () => {
  it('says how precisely it is known', () =>
    expect(['2024', '2024-01', '2024-01-17', '2024-01-17T03:10'].map(t => precisionOf(when(t)))).toEqual([
      'year',
      'month',
      'day',
      'minute',
    ]));

  it.each([
    ['2024', '2024-01-01', '2024-12-31'],
    ['2024-02', '2024-02-01', '2024-02-29'],
    ['2023-02', '2023-02-01', '2023-02-28'],
    ['2100-02', '2100-02-01', '2100-02-28'],
    ['2024-12', '2024-12-01', '2024-12-31'],
    ['2024-01-17', '2024-01-17', '2024-01-17'],
    ['2024-04-30T23:59', '2024-04-30', '2024-04-30'],
    ['2024-05-01T00:00', '2024-05-01', '2024-05-01'],
  ])('%s can mean %s at the earliest and %s at the latest', (text, first, last) =>
    expect([dayText(firstDay(when(text))), dayText(lastDay(when(text)))]).toEqual([first, last]),
  );

  it.each([
    '24',
    '2024-1',
    '2024-13',
    '2024-00',
    '2023-02-29',
    '2024-04-31',
    '2024-01-17T3:10',
    '2024-01-17T24:00',
    '2024-01-17T23:60',
    '2024-01-17 03:10',
    '2024-01-17T03:10Z',
    '2024-01-17T03:10:00',
    '',
  ])('is not read from "%s"', text => expect(parseWhen(text)).toBeNull());

  it('has 29 February in a leap year, and minutes to 23:59', () =>
    expect([parseWhen('2024-02-29'), parseWhen('2024-02-29T23:59')]).toEqual([
      '2024-02-29',
      '2024-02-29T23:59',
    ]));

  it('sorts as text: a coarse date before the finer ones inside it, and after all that came before', () => {
    const sorted = [
      '2023-12-31',
      '2024',
      '2024-01',
      '2024-01-17',
      '2024-01-17T03:10',
      '2024-01-18',
      '2024-02',
    ];
    expect([...sorted].reverse().sort()).toEqual(sorted);
  });
});
