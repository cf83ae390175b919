/** Measures against NIST SP 811 (2008), Appendix B.8, and worked figures of the trade. */
import { describe, expect, it } from 'vitest';
import { showMeasure, showValue } from '../../domain/units.ts';

describe('a measure', () => {
  it.each([
    ['2216', 'psi', '2,216 psi'],
    ['1.75', 'in', '1¾ in'],
    [50, 'ft', '50 ft'],
    ['soft', undefined, 'soft'],
  ])('of %s %s reads %s in US customary units', (figure, unit, shown) => {
    expect(showMeasure(figure, unit, 'US')).toBe(shown);
  });

  // 1 psi = 6.894 757 E+03 Pa; 1 ft = 3.048 E-01 m; 1 in = 2.54 E-02 m; 1 lb = 4.535 924 E-01 kg;
  // 1 gal/min = 6.309 020 E-05 m3/s (NIST SP 811, B.8).
  it.each([
    ['1000', 'psi', '68.9 bar (1,000 psi)'],
    ['4500', 'psi', '310.3 bar (4,500 psi)'],
    ['50', 'ft', '15.24 m (50 ft)'],
    ['2.5', 'in', '64 mm (2½ in)'],
    ['10', 'lb', '4.5 kg (10 lb)'],
    ['1000', 'gpm', '3,785 L/min (1,000 gpm)'],
  ])('of %s %s reads %s in SI, the given figure beside it', (figure, unit, shown) => {
    expect(showMeasure(figure, unit, 'SI')).toBe(shown);
  });

  it('in a unit that SI shares, or has no counterpart here, stays as it was given', () => {
    expect(showMeasure('12', 'cc', 'SI')).toBe('12 cc');
    expect(showMeasure('5', 'min', 'SI')).toBe('5 min');
    expect(showMeasure('unknown', 'psi', 'SI')).toBe('unknown psi');
  });
});

describe('a value', () => {
  const pressure = { key: 'p', title: 'Test pressure', type: 'whole', unit: 'psi' } as const;
  it('reads as what it is: a measure, a choice, a date, a tick, or nothing known', () => {
    const use = {
      key: 'use',
      title: 'Use',
      type: 'choice',
      choices: [{ value: 'attack', title: 'Attack' }],
    } as const;
    expect(showValue(pressure, 300, 'SI')).toBe('20.7 bar (300 psi)');
    expect(showValue(use, 'attack', 'SI')).toBe('Attack');
    expect(showValue({ key: 'made', title: 'Made', type: 'when' }, '2018-04', 'US')).toBe('Apr 2018');
    expect(showValue({ key: 'star', title: 'Star mark', type: 'flag' }, true, 'US')).toBe('yes');
    expect(showValue(pressure, null, 'SI')).toBe('–');
  });

  it('of an identifying number is not grouped as a measure is', () =>
    expect(showValue({ key: 'lot', title: 'Lot', type: 'text' }, '40410', 'SI')).toBe('40410'));
});
