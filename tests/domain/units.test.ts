/** Measures against NIST SP 811 (2008), Appendix B.8, and worked figures of the trade. */
import { describe, expect, it } from 'vitest';
import { showMeasure } from '../../domain/units.ts';

describe('a measure', () => {
  it.each([
    ['2216', 'psi', '2,216 psi'],
    ['1.75', 'in', '1.75 in'],
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
    ['2.5', 'in', '64 mm (2.5 in)'],
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
