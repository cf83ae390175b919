/**
 * The published sheets in disguise: columns in any order, under other headings, with other separators, titles,
 * totals and blank lines. What the rows become must not change. Source of the expected values: as in
 * `published.test.ts`; the other headings are common practice, no source.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { guessFamily, readSheet } from '../../../db/files/sheet/index.ts';
import { gridOf, TODAY } from './sheets.ts';

const folder = new URL('../../fixtures/sheets/', import.meta.url);

/** For every heading of the sheet, others that mean the same. */
const HEADINGS: Record<string, Record<string, string[]>> = {
  'hose.csv': {
    'Hose No': ['Hose #', 'Hose ID', 'Tag #', 'Asset Tag', 'ID', 'Section No.', 'HOSE NUMBER'],
    'Dia (in)': ['Size', 'Diameter', 'I.D.', 'Hose Size', 'Dia.', 'Diam (inches)'],
    Length: ['Len', 'Section Length', 'Length (ft)', 'Lgth.', 'Feet'],
    Use: ['Type', 'Kind', 'Hose Type', 'Usage'],
    Maker: ['Mfr', 'Manufacturer', 'Brand', 'Make', 'Mfg'],
    Made: ['DOM', 'Date of Manufacture', 'Mfg Date', 'Mfd', 'Manufactured'],
    'In Svc': ['In Service', 'Placed in Service', 'Put in Svc', 'In-Service Date', 'Date in Service'],
    'Last Test': [
      'Last Tested',
      'Hydro',
      'Service Test',
      'Test Date',
      'Last Hydro Date',
      'Date Tested',
      'Proof',
    ],
    'Test PSI': ['PSI', 'Test Pressure', 'Pressure (psi)', 'Test Press.'],
    Result: ['P/F', 'Pass/Fail', 'Test Result', 'Status', 'Results'],
    Location: ['Loc', 'Apparatus', 'Unit/Location', 'Assigned To', 'Where', 'Truck'],
    Remarks: ['Notes', 'Comments', 'Remark', 'Misc'],
  },
  'cylinders.csv': {
    'Cyl #': ['Bottle', 'Bottle #', 'Cylinder ID', 'Cylinder No.', 'Tank #', 'Asset #'],
    Serial: ['S/N', 'Serial #', 'SN', 'Serial No.', 'Ser. No.'],
    Spec: ['DOT #', 'Specification', 'DOT Spec', 'Permit', 'DOT'],
    'Svc PSI': ['Service Pressure', 'Working pressure', 'WP', 'Press', 'Pressure', 'PSI'],
    'Rated min': ['Duration', 'Minutes', 'Rated Duration (min)', 'Time'],
    'Mfr date': ['DOM', 'Mfg', 'Born', 'Made', 'Date of Mfg.', 'Manufacture Date'],
    'Last hydro': ['Hydro', 'Retest', 'Last Hydro Date', 'Requal', 'Hydro Date', 'Last Test'],
    RIN: ['RIN #', 'Retester ID', 'Hydro by', 'Requalifier'],
    'Assigned to': ['Assigned', 'Truck', 'Location', 'Apparatus', 'Unit', 'Rig'],
  },
  'ladders.csv': {
    'Ladder ID': ['Ladder #', 'Ladder', 'ID', 'No.', 'Tag'],
    Type: ['Kind', 'Style', 'Ladder Type', 'Description'],
    'Length ft': ['Length', 'Size', 'Len', 'Length (ft)'],
    Material: ["Mat'l", 'Construction', 'Matl.', 'Made of'],
    Made: ['DOM', 'Mfg', 'Year Made', 'Mfr Date', 'Built'],
    'Heat label expires': [
      'Label exp.',
      'Heat Sensor Exp',
      'Exp',
      'Heat label',
      'Heat Sensor Label Expiration',
    ],
    'Last visual': ['Visual', 'Last Inspection', 'Monthly Inspection', 'Last Insp.'],
    'Last service test': ['Load test', 'Test Date', 'Service Test', 'Last Test', 'Annual test'],
    Result: ['P/F', 'Test Result', 'Pass/Fail'],
    Rig: ['Apparatus', 'Location', 'Assigned', 'Unit', 'Truck'],
  },
};

interface Disguise {
  order: number[];
  names: number[];
  delimiter: string;
  titles: number;
  footer: boolean;
  crlf: boolean;
}

const disguise = (width: number): fc.Arbitrary<Disguise> =>
  fc.record({
    order: fc.shuffledSubarray([...Array(width).keys()], { minLength: width }),
    names: fc.array(fc.nat(20), { minLength: width, maxLength: width }),
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    titles: fc.nat(3),
    footer: fc.boolean(),
    crlf: fc.boolean(),
  });

describe.each([
  ['hose.csv', 'hose', 1],
  ['cylinders.csv', 'cylinder', 0],
  ['ladders.csv', 'ladder', 0],
] as const)('%s in disguise', (file, family, headingAt) => {
  const text = readFileSync(new URL(file, folder), 'utf8').replace(/^\ufeff/, '');
  const lines = Papa.parse<string[]>(text).data.filter(row => row.length > 1);
  const headings = lines[headingAt] ?? [];
  const body = lines.slice(headingAt + 1);

  function dressed({ order, names, delimiter, titles, footer, crlf }: Disguise): string {
    const title = ['Larkspur Valley', `${family} record 2026`, ''].slice(0, titles).map(t => [t]);
    const head = order.map(i => {
      const heading = headings[i] ?? '';
      const others = HEADINGS[file]?.[heading] ?? [];
      return others[(names[i] ?? 0) % (others.length + 1)] ?? heading;
    });
    const rows = body.map(row => order.map(i => row[i] ?? ''));
    const end = footer ? [[], ['Total: 240'], ['Printed by the clerk']] : [];
    return Papa.unparse([...title, head, ...rows, ...end], { delimiter, newline: crlf ? '\r\n' : '\n' });
  }

  it('becomes the same, is refused the same, and is known for what it is', async () => {
    expect(guessFamily(await gridOf(text))).toBe(family);
    const plain = readSheet(await gridOf(text), { family, today: TODAY });
    const want = plain.rows.map(r => [
      r.row,
      r.number,
      r.ok,
      r.becomes,
      r.problems.map(p => p.code),
      r.records,
    ]);
    await fc.assert(
      fc.asyncProperty(disguise(headings.length), async how => {
        const grid = await gridOf(dressed(how));
        const { rows, questions } = readSheet(grid, { family, today: TODAY });
        expect(questions).toEqual([]);
        const got = rows.map(r => [r.row, r.number, r.ok, r.becomes, r.problems.map(p => p.code), r.records]);
        expect(got.length).toBe(want.length);
        for (const [i, row] of got.entries()) expect(sorted(row)).toEqual(sorted(want[i]));
        // Without a title that says it, other headings may leave it open; never is it taken for another.
        const guessed = guessFamily(grid);
        if (how.titles >= 2 || guessed !== null) expect(guessed).toBe(family);
      }),
      { numRuns: 20 },
    );
  }, 60_000);
});

/** Problems and records in an order of their own: the columns' order is theirs and is shuffled. */
function sorted(row: unknown[] | undefined): unknown[] {
  const text = (value: unknown) => JSON.stringify(value);
  return (row ?? []).map(cell =>
    Array.isArray(cell) ? [...cell].sort((a, b) => (text(a) < text(b) ? -1 : 1)) : cell,
  );
}
