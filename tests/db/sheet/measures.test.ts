/**
 * Measures as people write them. Conversions: 1 in = 25.4 mm and 1 ft = 0.3048 m exactly (NIST SP 811, from memory);
 * 1 bar = 14.5038 psi (same). Trade sizes in millimeters (65 mm is 2½ in): as hose standards print both, from memory.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codesOf, read, rowOf } from './sheets.ts';

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

async function field(family: string, heading: string, text: string, name: string) {
  const row = rowOf(await read(family, `Number,${heading},Remarks\nA-1,${quoted(text)},\n`), 'A-1');
  return row.ok ? row.fields[name] : codesOf(row)[0];
}

describe('a diameter', () => {
  it.each([
    ['3', '3.0'],
    ['1 3/4', '1.75'],
    ['1-3/4', '1.75'],
    ['1 - 3/4', '1.75'],
    ['1¾', '1.75'],
    ['1 ¾', '1.75'],
    ['1¾"', '1.75'],
    ['1 3⁄4', '1.75'],
    ['1 and 3/4', '1.75'],
    ['1.75', '1.75'],
    ['1,75', '1.75'],
    ['1.75"', '1.75'],
    ['1.75 in.', '1.75'],
    ['1 3/4 inch', '1.75'],
    ['1–3/4', '1.75'],
    ['2 1/2"', '2.5'],
    ['2-1/2', '2.5'],
    ['2½', '2.5'],
    ['2.5”', '2.5'],
    ["2 1/2''", '2.5'],
    ['2.5 in', '2.5'],
    ['2.50', '2.5'],
    ['5"', '5.0'],
    ['5” LDH', '5.0'],
    ['3/4', '0.75'],
    ['.75', '0.75'],
    ['65 mm', '2.5'],
    ['45mm', '1.75'],
    ['38 mm', '1.5'],
    ['70 mm', '2.76'],
    ['12.7 cm', '5.0'],
  ])('%s is %s in', async (text, inches) =>
    expect(await field('hose', 'Dia', text, 'diameter_in')).toBe(inches),
  );

  it.each([
    ['big', 'diameter unreadable'],
    ['13/4', 'diameter unreadable'],
    ['2.5.1', 'diameter unreadable'],
    ['1 3/', 'diameter unreadable'],
    ['4-Mar', 'diameter unreadable'],
    ['2 or 3', 'diameter unreadable'],
    ['0', 'diameter not positive'],
    ['-2.5', 'diameter not positive'],
    ['65', 'diameter implausible'],
    ['175', 'diameter implausible'],
    ['300 psi', 'diameter unreadable'],
  ])('%s is refused: %s', async (text, code) =>
    expect(await field('hose', 'Dia', text, 'diameter_in')).toBe(code),
  );

  it('takes its unit from the heading', async () => {
    expect(await field('hose', 'Dia (mm)', '65', 'diameter_in')).toBe('2.5');
    expect(await field('hose', 'Size mm', '38', 'diameter_in')).toBe('1.5');
    expect(await field('hose', 'Dia (mm)', '2.5"', 'diameter_in')).toBe('2.5');
  });

  it('of any size in sixteenths reads back from every way of writing it', () =>
    fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 8, max: 12 * 16 }),
        fc.constantFrom(' ', '-'),
        fc.constantFrom('', '"', ' in', '”'),
        async (n, join, mark) => {
          const [whole, top] = [Math.floor(n / 16), n % 16];
          const fraction = top === 0 ? `${whole}` : whole === 0 ? `${top}/16` : `${whole}${join}${top}/16`;
          expect(Number(await field('hose', 'Dia', `${fraction}${mark}`, 'diameter_in'))).toBeCloseTo(
            n / 16,
            6,
          );
          expect(Number(await field('hose', 'Dia', `${n / 16}${mark}`, 'diameter_in'))).toBeCloseTo(
            n / 16,
            6,
          );
        },
      ),
      { numRuns: 60 },
    ));
});

describe('a length', () => {
  it.each([
    ['50', '50'],
    ["50'", '50'],
    ['50’', '50'],
    ['50′', '50'],
    ['50`', '50'],
    ['50 ft', '50'],
    ['50ft.', '50'],
    ['50 feet', '50'],
    ['50 FT', '50'],
    ['50.0', '50'],
    ['50\' 6"', '50.5'],
    ['24\' 0"', '24'],
    ['16 ft 6 in', '16.5'],
    ['15.24 m', '50'],
    ['15.2 m', '50'],
    ['30.5 meters', '100'],
    ['15 m', '49.2'],
    ['1,000', '1000'],
    ['600"', '50'],
  ])('%s is %s ft', async (text, feet) =>
    expect(await field('hose', 'Length', text, 'length_ft')).toBe(feet),
  );

  it.each([
    ['tall', 'length unreadable'],
    ['-50', 'length not positive'],
    ['(50)', 'length not positive'],
    ['0', 'length not positive'],
    ['0.0', 'length not positive'],
    ['1,00', 'length implausible'],
    ['50"', 'length implausible'],
    ['5000', 'length implausible'],
    ['50/100', 'length implausible'],
    ['2 @ 50', 'length unreadable'],
    ['5O', 'length unreadable'],
  ])('%s is refused: %s', async (text, code) =>
    expect(await field('hose', 'Length', text, 'length_ft')).toBe(code),
  );

  it('takes its unit from the heading', async () => {
    expect(await field('hose', 'Length (m)', '30.48', 'length_ft')).toBe('100');
    expect(await field('hose', 'Len, ft', '50', 'length_ft')).toBe('50');
    expect(await field('ladder', 'Length (m)', '7.3', 'length_ft')).toBe('24');
    expect(await field('hose', 'Length (m)', "50'", 'length_ft')).toBe('50');
  });
});

describe('a pressure', () => {
  it.each([
    ['4500', 4500],
    ['4,500', 4500],
    ['4 500', 4500],
    ['4500 psi', 4500],
    ['4500psig', 4500],
    ['4,500 PSI', 4500],
    ['4500.0', 4500],
    ['4500#', 4500],
    ['310 bar', 4500],
    ['153 bar', 2216],
    ['300 bar', 4351],
    ['31 MPa', 4496],
  ])('%s is %i psi', async (text, psi) =>
    expect(await field('cylinder', 'Service pressure', text, 'servicePressure_psi')).toBe(psi),
  );

  it.each([
    ['4,5OO', 'pressure unreadable'],
    ['high', 'pressure unreadable'],
    ['4500/2216', 'pressure unreadable'],
    ['-4500', 'pressure not positive'],
    ['0', 'pressure not positive'],
    ['4.5', 'pressure implausible'],
    ['45000', 'pressure implausible'],
    ['30 min', 'pressure unreadable'],
  ])('%s is refused: %s', async (text, code) =>
    expect(await field('cylinder', 'Service pressure', text, 'servicePressure_psi')).toBe(code),
  );

  it('says where a letter stands for a digit', async () => {
    const { rows } = await read('cylinder', 'Cyl #,Svc PSI\nC-1,"4,5OO"\n');
    expect(rows[0]?.problems[0]?.wrong).toBe('Service pressure “4,5OO” has a letter where a digit belongs.');
  });

  it('in bar by the heading', async () =>
    expect(await field('hose', 'Test pressure (bar)', '20.7', 'testPressure_psi')).toBe(300));
});

describe('times', () => {
  it.each([
    ['30', 30],
    ['30 min', 30],
    ['30 minutes', 30],
    ['1 hr', 60],
    ['0.5 h', 30],
  ])('%s is %i rated minutes', async (text, min) =>
    expect(await field('cylinder', 'Rated min', text, 'ratedDuration_min')).toBe(min),
  );

  it.each([
    ['3', 180],
    ['3 min', 180],
    ['180', 180],
    ['300 s', 300],
  ])('a hold of %s is %i s', async (text, seconds) =>
    expect(await field('hose', 'Hold time', text, 'held_s')).toBe(seconds),
  );

  it.each([
    ['15', 180],
    ['15 yr', 180],
    ['15 years', 180],
    ['180', 180],
    ['no limit', null],
  ])('a label life of %s is %s months', async (text, months) =>
    expect(await field('cylinder', 'Service life', text, 'lifeLabel_months')).toBe(months),
  );
});

describe('two measures in one cell', () => {
  it('a hose size and length', async () => {
    const { rows } = await read('hose', 'Hose,Size\nA-1,"1 3/4"" x 50\'"\nA-2,5 x 100\n');
    expect(rows.map(r => [r.becomes.diameter_in, r.becomes.length_ft])).toEqual([
      ['1.75', 50],
      ['5.0', 100],
    ]);
  });

  it('a cylinder’s pressure and minutes', async () => {
    const { rows } = await read(
      'cylinder',
      'Bottle,Size\nB-1,4500/45\nB-2,30/2216\nB-3,"4,500 psi / 60 min"\n',
    );
    expect(rows.map(r => [r.fields.servicePressure_psi, r.fields.ratedDuration_min])).toEqual([
      [4500, 45],
      [2216, 30],
      [4500, 60],
    ]);
  });

  it('a ladder’s length in its type', async () => {
    const { rows } = await read(
      'ladder',
      "Ladder,Description\nL-1,24' extension\nL-2,14 ft roof\nL-3,10-foot attic\n",
    );
    expect(rows.map(r => [r.fields.type, r.becomes.length_ft])).toEqual([
      ['extension', 24],
      ['roof', 14],
      ['folding', 10],
    ]);
  });
});
