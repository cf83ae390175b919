/** Encodings, separators, workbooks, and what is no sheet at all. Forms of files: common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import {
  type Cell,
  guessFamily,
  readGrid,
  readSheet,
  refusedCsv,
  SheetError,
} from '../../../db/files/sheet/index.ts';
import { codesOf, gridOf, read, rowOf, TODAY } from './sheets.ts';

const LINES = ['Hose No,Dia,Length,Location', 'A-1,1¾,50’,"Engine 31, bed"', 'A-2,2½,100 ft,Truck 3'];
const TABLE = [
  ['1.75', 50, 'Engine 31, bed'],
  ['2.5', 100, 'Truck 3'],
];

async function tableOf(bytes: Uint8Array) {
  const { rows } = readSheet(await readGrid(bytes, 'sheet.csv'), { family: 'hose', today: TODAY });
  return rows.map(r => [r.becomes.diameter_in, r.becomes.length_ft, r.fields.place]);
}

const utf8 = (text: string) => new TextEncoder().encode(text);
const withDelimiter = (delimiter: string) => LINES.map(l => l.replace(/,(?! )/g, delimiter)).join('\n');

describe('text', () => {
  it.each([',', ';', '\t', '|'])('separated by “%s” is read', async delimiter => {
    expect(await tableOf(utf8(withDelimiter(delimiter)))).toEqual(TABLE);
  });

  it.each([
    ['LF', '\n'],
    ['CRLF', '\r\n'],
    ['CR', '\r'],
  ])('with line ends %s is read', async (_, end) =>
    expect(await tableOf(utf8(LINES.join(end)))).toEqual(TABLE),
  );

  it('with a mark (BOM), semicolons and CRLF at once', async () =>
    expect(await tableOf(utf8(`\ufeff${withDelimiter(';').replaceAll('\n', '\r\n')}\r\n`))).toEqual(TABLE));

  it.each([
    ['UTF-16 little-endian with a mark', true, true],
    ['UTF-16 big-endian with a mark', false, true],
    ['UTF-16 little-endian without a mark', true, false],
    ['UTF-16 big-endian without a mark', false, false],
  ])('in %s', async (_, little, mark) => {
    const text = (mark ? '\ufeff' : '') + withDelimiter('\t');
    const bytes = new Uint8Array(text.length * 2);
    const view = new DataView(bytes.buffer);
    for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), little);
    expect(await tableOf(bytes)).toEqual(TABLE);
  });

  it('in Windows-1252, its curly feet mark and fractions too', async () => {
    const text = LINES.join('\r\n');
    const bytes = Uint8Array.from(text, c => (c === '’' ? 0x92 : c.charCodeAt(0)));
    expect(await tableOf(bytes)).toEqual(TABLE);
  });

  it('with a first line sep=; keeps the lines that a person sees', async () => {
    const reading = await read('hose', `sep=;\nHose No;Dia;Length\nA-1;3;50\n`);
    expect(reading.headingLine).toBe(2);
    expect(reading.rows.map(r => r.line)).toEqual([3]);
  });

  it('with line ends inside quotes, in headings and cells', async () => {
    const reading = await read(
      'hose',
      '"Hose\nNumber",Dia,"Length\n(ft)",Remarks\nA-1,3,50,"two\nlines"\nA-2,3,50,\n',
    );
    expect(reading.columns.map(c => c.field)).toEqual(['number', 'diameter_in', 'length_ft', 'remarks']);
    expect(reading.rows.map(r => [r.line, r.fields.remarks])).toEqual([
      [2, 'two lines'],
      [3, null],
    ]);
  });

  it('with inch marks that open no quote loses no line', async () => {
    const text = 'Hose #\tDia\tLength\tNotes\nA-1\t5"\t100\t"wet" tag\nA-2\t3"\t50\t\nA-3\t3\t50\tok\n';
    const { rows } = await read('hose', text);
    expect(rows.map(r => [r.number, r.becomes.diameter_in])).toEqual([
      ['A-1', '5.0'],
      ['A-2', '3.0'],
      ['A-3', '3.0'],
    ]);
  });

  it('with commas inside the cells of a semicolon sheet', async () => {
    const { rows } = await read(
      'hose',
      'Hose;Dia;Made by;Notes\nA-1;2,5;Maker C, Inc.;a, b, c\nA-2;1,75;Maker A;d, e\n',
    );
    expect(rows.map(r => [r.becomes.diameter_in, r.fields.maker])).toEqual([
      ['2.5', 'Maker C, Inc.'],
      ['1.75', 'Maker A'],
    ]);
  });

  it('with numbers guarded as ="0012"', async () => {
    const { rows } = await read('hose', 'Hose,Dia\n"=""0012""",3\n="0013",3\n');
    expect(rows.map(r => r.number)).toEqual(['0012', '0013']);
  });
});

describe('a workbook', () => {
  const utc = (y: number, m: number, d: number) => new Date(Date.UTC(y, m - 1, d));
  const cell = (value: Cell) => {
    if (value === null) return null;
    if (value instanceof Date) return { value, type: Date, format: 'mm/dd/yyyy' };
    if (typeof value === 'number') return { value, type: Number };
    return typeof value === 'boolean' ? { value, type: Boolean } : { value, type: String };
  };
  const workbook = async (rows: Cell[][]) =>
    new Uint8Array(await writeXlsxFile(rows.map(r => r.map(cell))).toBuffer());

  async function readBook(family: string, rows: Cell[][]) {
    return readSheet(await readGrid(await workbook(rows), 'book.xlsx'), { family, today: TODAY });
  }

  it('reads as the same table, its dates as days whatever the zone', async () => {
    const reading = await readBook('hose', [
      ['Larkspur Valley Fire District', null, null, null, null],
      [null, null, null, null, null],
      ['Hose No', 'Dia (in)', 'Length', 'Last Test', 'OK'],
      [101, 2.5, 50, utc(2026, 5, 6), true],
      [102, 1.75, 50, utc(2024, 2, 29), false],
      [null, null, null, null, null],
      ['B-103', '1 3/4', "50'", '5/6/26', null],
    ]);
    expect(reading.headingLine).toBe(3);
    expect(reading.rows.map(r => [r.line, r.number, ...Object.values(r.becomes)])).toEqual([
      [4, '101', '2.5', 50, null, null, '2026-05-06', 'pass'],
      [5, '102', '1.75', 50, null, null, '2024-02-29', 'fail'],
      [7, 'B-103', '1.75', 50, null, null, '2026-05-06', 'pass'],
    ]);
  });

  it('whose month dates are all kept as firsts gives months', async () => {
    const rows = [1, 2, 3].map(i => [`C-${i}`, utc(2012 + i, 4, 1), utc(2022, i, 1)] as Cell[]);
    const { rows: read } = await readBook('cylinder', [['Cyl #', 'Mfr date', 'Last hydro'], ...rows]);
    expect(read.map(r => [r.becomes.made, r.becomes.lastRequalification])).toEqual([
      ['2013-04', '2022-01'],
      ['2014-04', '2022-02'],
      ['2015-04', '2022-03'],
    ]);
  });

  it('whose dates are on other days too gives days', async () => {
    const rows = [1, 2, 3].map(i => [`C-${i}`, utc(2012 + i, 4, i), null] as Cell[]);
    const { rows: read } = await readBook('cylinder', [['Cyl #', 'Mfr date', 'Last hydro'], ...rows]);
    expect(read.map(r => r.becomes.made)).toEqual(['2013-04-01', '2014-04-02', '2015-04-03']);
  });

  it('with a number that the program made a date is refused', async () => {
    const { rows } = await readBook('hose', [
      ['Hose No', 'Dia', 'Length'],
      [utc(2026, 10, 12), 3, 50],
      ['10-13', 3, 50],
    ]);
    expect(rows[0] && codesOf(rows[0])).toEqual(['number unreadable']);
    expect(rows[1]?.ok).toBe(true);
  });

  it('with a size that the program made a date is refused', async () => {
    const { rows } = await readBook('hose', [
      ['Hose No', 'Dia', 'Length'],
      ['A-1', utc(2026, 3, 4), 50],
    ]);
    expect(rows[0] && codesOf(rows[0])).toEqual(['diameter unreadable']);
  });

  it('is read from the sheet that holds the table, past a cover page', async () => {
    const bytes = await writeXlsxFile([
      { data: [[{ value: 'Read me first', type: String }]], sheet: 'Cover' },
      { data: [['Hose', 'Dia', 'Length'].map(cell), ['A-1', 3, 50].map(cell)], sheet: 'Hose' },
    ]).toBuffer();
    const reading = readSheet(await readGrid(new Uint8Array(bytes), 'book.xlsx'), {
      family: 'hose',
      today: TODAY,
    });
    expect(reading.rows.map(r => r.number)).toEqual(['A-1']);
  });

  it('undoes the binary noise of a computed cell', async () => {
    const { rows } = await readBook('hose', [
      ['Hose', 'Dia', 'Length'],
      ['A-1', 0.1 + 0.2 + 1.45, 50.000000001],
    ]);
    expect([rows[0]?.becomes.diameter_in, rows[0]?.becomes.length_ft]).toEqual(['1.75', 50]);
  });
});

describe('what is no sheet is refused with what to do', () => {
  it.each([
    ['nothing', [], ''],
    ['a PDF', [0x25, 0x50, 0x44, 0x46, 0x2d, 0x31], 'PDF'],
    ['an old .xls', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1], '.xls'],
    ['a picture', [0x89, 0x50, 0x4e, 0x47, 0x0d], 'picture'],
    ['a broken workbook', [0x50, 0x4b, 0x03, 0x04, 1, 2, 3], 'workbook'],
    ['bytes of a program', [0x7f, 0x45, 0x4c, 0x46, 0, 0, 0, 1, 0, 2, 3, 0], 'not a sheet'],
    ['a web page', [...utf8('<html><table><tr><td>1</td></tr></table></html>')], 'web page'],
    ['JSON', [...utf8('[{"number":"A-1"}]')], 'JSON'],
    ['only commas', [...utf8(',,,\n,,,\n')], 'no filled cells'],
  ])('%s', async (_, bytes, word) => {
    const error: unknown = await readGrid(Uint8Array.from(bytes), 'file').catch((e: unknown) => e);
    expect(error).toBeInstanceOf(SheetError);
    if (!(error instanceof SheetError)) return;
    expect(error.wrong).toContain(word);
    expect(error.todo.length).toBeGreaterThan(10);
  });

  it('an unknown family and an unknown field', async () => {
    const grid = await gridOf('Hose,Dia\nA-1,3\n');
    expect(() => readSheet(grid, { family: 'boat', today: TODAY })).toThrow(SheetError);
    expect(() => readSheet(grid, { family: 'hose', today: TODAY, mapping: { '1': 'color' } })).toThrow(
      SheetError,
    );
  });
});

it('no grid of cells, however odd, makes it throw', () => {
  const words = [
    'Hose',
    'Dia',
    'Test',
    'Result',
    'Date',
    'Total:',
    'ENGINE 31',
    '31-1',
    '1 3/4',
    '50',
    '5/6/26',
    '28/4/26',
    'P',
    'FAIL - leak',
    '',
    '"',
    '2024',
    'Apr-16',
    '🚒',
    '-',
    '1e99',
    ':',
  ];
  const cell = fc.oneof(
    fc.constantFrom<Cell>(
      ...words,
      null,
      true,
      45399,
      -1,
      Number.NaN,
      Number.POSITIVE_INFINITY,
      new Date(Number.NaN),
    ),
    fc.string(),
    fc.double(),
    fc.date(),
  );
  fc.assert(
    fc.property(fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 12 }), cells => {
      for (const family of ['hose', 'ladder', 'cylinder', 'pack', 'equipment']) {
        const reading = readSheet({ cells }, { family, today: TODAY });
        for (const row of reading.rows) {
          expect(row.ok).toBe(row.problems.length === 0);
          expect(row.ok && row.number === null).toBe(false);
        }
        expect(refusedCsv(reading)).toContain('Reason');
      }
      guessFamily({ cells });
    }),
    { numRuns: 150 },
  );
});

it('5,000 rows are read in well under a second (here with room for a busy machine)', async () => {
  const rows = Array.from(
    { length: 5000 },
    (_, i) => `H-${i},1 3/4,50',Attack,Maker A,08/2${i % 4},5/${(i % 28) + 1}/26,300,P,Engine ${i % 40}`,
  );
  const grid = await gridOf(
    `Hose,Dia,Length,Use,Maker,Made,Last test,PSI,P/F,Location\n${rows.join('\n')}\n`,
  );
  const before = performance.now();
  const reading = readSheet(grid, { family: 'hose', today: TODAY });
  const took = performance.now() - before;
  expect(reading.rows.filter(r => r.ok)).toHaveLength(5000);
  expect(rowOf(reading, 'H-27').becomes.lastServiceTest).toBe('2026-05-28');
  expect(took).toBeLessThan(2000);
});
