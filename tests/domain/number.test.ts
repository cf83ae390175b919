/** Numbers as labels, in the order people expect. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { numberSort } from '../../domain/number.ts';

const sorted = (list: string[]) => [...list].sort((a, b) => (numberSort(a) < numberSort(b) ? -1 : 1));

describe('numbers', () => {
  it('sort 9 before 10, and 31-9 before 31-107', () => {
    expect(sorted(['10', '9', '100', '1'])).toEqual(['1', '9', '10', '100']);
    expect(sorted(['31-107', '31-9', '4-200', '31-10'])).toEqual(['4-200', '31-9', '31-10', '31-107']);
  });

  it('sort letters without regard to case, and digits before them', () =>
    expect(sorted(['R-2', 'c-10', 'C-9', 'r-1', '7'])).toEqual(['7', 'C-9', 'c-10', 'r-1', 'R-2']));

  it('with leading zeros sort as the same number', () => expect(numberSort('007')).toBe(numberSort('7')));

  it('may have more than one run of digits, and none', () =>
    expect([numberSort('E3-B12'), numberSort('Spare')]).toEqual(['e0000000003-b0000000012', 'spare']));
});
