/** An SCBA cylinder’s gauge against 90 percent of its rated pressure, 29 CFR 1910.134(h)(3)(iii), read. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rechargeAt_psi } from '../../../domain/acceptance/cylinder.ts';
import { judgePressure } from '../../../domain/checkoffs/pressure.ts';

const told = (read: string, rated: string) => {
  const { percent, passes, recharge } = judgePressure(read, rated);
  return [percent, passes, recharge];
};

describe('a 4500 psi cylinder', () => {
  it('does not pass at 4049 psi, under nine tenths, and passes at 4050', () => {
    expect(told('4049', '4500')).toEqual(['89.97', false, true]);
    expect(told('4050', '4500')).toEqual(['90', true, true]);
  });

  it('is to be recharged when it falls to 90 percent: at 4050 psi, and not at 4051', () =>
    expect(told('4051', '4500')).toEqual(['90.02', true, false]));

  it('says its figure, its limit and the clause', () => {
    expect(judgePressure('4049', '4500').because).toBe(
      '4049 psi is under 4050 psi, 90 percent of 4500 psi: to be recharged (29 CFR 1910.134(h)(3)(iii))',
    );
    expect(judgePressure('4050', '4500').because).toBe(
      '4050 psi is exactly 4050 psi, 90 percent of 4500 psi: to be recharged (29 CFR 1910.134(h)(3)(iii))',
    );
    expect(judgePressure('4400', '4500').because).toBe(
      '4400 psi is over 4050 psi, 90 percent of 4500 psi: not yet to be recharged (29 CFR 1910.134(h)(3)(iii))',
    );
  });
});

it('a 2216 psi cylinder has its limit at 1994.4 psi, to the tenth', () => {
  expect(['1994.3', '1994.4', '1994.5', '1994'].map(p => judgePressure(p, '2216').passes)).toEqual([
    false,
    true,
    true,
    false,
  ]);
});

it('is never shown at 90 percent while it is under it', () => {
  expect(told('4049.999', '4500')).toEqual(['89.99', false, true]);
  expect(told('0', '4500')).toEqual(['0', false, true]);
  expect(told('4600', '4500')).toEqual(['102.22', true, false]);
});

it('stands on the recharge point of the rule book for every pressure', () =>
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 10_000 }),
      fc.integer({ min: 0, max: 110_000 }),
      (rated, tenths) => {
        const read = `${Math.floor(tenths / 10)}.${tenths % 10}`;
        const { passes, recharge } = judgePressure(read, String(rated));
        const limit = Math.round(Number(rechargeAt_psi(rated)) * 10);
        expect([passes, recharge]).toEqual([tenths >= limit, tenths <= limit]);
      },
    ),
  ));

it('is not judged from a pressure that cannot be', () => {
  for (const [read, rated] of [
    ['', '4500'],
    ['-1', '4500'],
    ['4,050', '4500'],
    ['4050', '0'],
    ['4050', '-4500'],
    ['4050', 'full'],
  ] as const)
    expect(() => judgePressure(read, rated)).toThrow(RangeError);
});
