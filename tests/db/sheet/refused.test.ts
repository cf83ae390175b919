/** The refused rows as a sheet: mended there, they come in; unmended, they are refused again for the same. */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { readGrid, readSheet, refusedCsv } from '../../../db/files/sheet/index.ts';
import { codesOf, gridOf, read, TODAY } from './sheets.ts';

const cellsOf = (csv: string) =>
  Papa.parse<string[]>(csv.replace(/^\ufeff/, ''), { skipEmptyLines: true }).data;

it('holds the headings, the refused rows and the reason', async () => {
  const csv = refusedCsv(await read('hose', 'Hose,Dia,Remarks\nA,3,\nB,big,"a, b"\n'));
  expect(csv.startsWith('\ufeff')).toBe(true);
  expect(cellsOf(csv)).toEqual([
    ['Hose', 'Dia', 'Remarks', 'Reason'],
    [
      'B',
      'big',
      'a, b',
      'Dia: Inside diameter “big” cannot be read. Enter inches, such as 1 3/4 or 2.5, or give the unit (65 mm).',
    ],
  ]);
});

describe.each([
  ['hose.csv', 'hose'],
  ['cylinders.csv', 'cylinder'],
  ['ladders.csv', 'ladder'],
])('of %s', (file, family) => {
  it('are refused again as they are, save the doubled number, whose first is not there', async () => {
    const first = readSheet(
      await readGrid(readFileSync(new URL(`../../fixtures/sheets/${file}`, import.meta.url)), file),
      { family, today: TODAY },
    );
    const again = await read(family, refusedCsv(first));
    const refused = first.rows.filter(r => !r.ok);
    expect(again.columns.map(c => c.field)).toEqual([...first.columns.map(c => c.field), null]);
    expect(again.rows.map(codesOf)).toEqual(
      refused.map(r => codesOf(r).filter(code => code !== 'duplicate number')),
    );
    expect(again.rows.map(r => r.becomes)).toEqual(refused.map(r => r.becomes));
  });
});

it('come in once mended', async () => {
  const csv = refusedCsv(await read('hose', 'Hose,Dia,Last test\nA,big,5/6/26\nB,3,2/30/26\n,3,5/6/26\n'));
  const mended = csv.replace('big', '2 1/2').replace('2/30/26', '2/28/26').replace('\n,3', '\nC,3');
  const { rows } = await read('hose', mended);
  expect(rows.map(r => [r.number, r.ok, r.becomes.diameter_in, r.becomes.lastServiceTest])).toEqual([
    ['A', true, '2.5', '2026-05-06'],
    ['B', true, '3.0', '2026-02-28'],
    ['C', true, '3.0', '2026-05-06'],
  ]);
});

describe('lose nothing that only the rest of the sheet told', () => {
  it('day-first dates are written out', async () => {
    const first = await read('hose', 'Hose,Dia,Last test\nA,3,28/04/2026\nB,big,05/06/2026\n');
    const { rows } = await read('hose', refusedCsv(first).replace('big', '3'));
    expect(rows.map(r => [r.ok, r.becomes.lastServiceTest])).toEqual([[true, '2026-06-05']]);
  });

  it('dates whose order was answered are written out', async () => {
    const first = await read('hose', 'Hose,Dia,Last test\nA,big,05/06/2026\nB,3,06/05/2026\n', {
      dayOrder: { '2': 'day first' },
    });
    const { rows } = await read('hose', refusedCsv(first).replace('big', '3'));
    expect(rows[0]?.becomes.lastServiceTest).toBe('2026-06-05');
  });

  it('months that the program keeps as days are written out', async () => {
    const first = await read('cylinder', 'Cyl #,Made,Svc PSI\n1,43556,4500\n2,43586,4500\n3,43617,4SOO\n');
    expect(first.rows.map(r => r.becomes.made)).toEqual(['2019-04', '2019-05', '2019-06']);
    const { rows } = await read('cylinder', refusedCsv(first).replace('4SOO', '4500'));
    expect(rows.map(r => [r.ok, r.becomes.made])).toEqual([[true, '2019-06']]);
  });

  it('a place from a title between the rows gets a column', async () => {
    const first = await read('hose', 'Hose,Dia,Len\nENGINE 31,,\nA,3,50\nB,big,50\n');
    const { rows } = await read('hose', refusedCsv(first).replace('big', '3'));
    expect(rows.map(r => [r.number, r.ok, r.fields.place])).toEqual([['B', true, 'ENGINE 31']]);
  });

  it('the day in a title gets a column', async () => {
    const first = await read('hose', 'Test date: 5/6/26,,\nHose,Dia,P/F\nA,3,P\nB,big,F\n');
    const { rows } = await read('hose', refusedCsv(first).replace('big', '3'));
    expect(rows.map(r => [r.ok, r.becomes.lastServiceTest, r.becomes.outcome])).toEqual([
      [true, '2026-05-06', 'fail'],
    ]);
  });
});

it('is a sheet with no rows where nothing was refused', async () => {
  const csv = refusedCsv(await read('hose', 'Hose,Dia\nA,3\n'));
  expect(cellsOf(csv)).toEqual([['Hose', 'Dia', 'Reason']]);
  expect(readSheet(await gridOf(csv), { family: 'hose', today: TODAY }).rows).toEqual([]);
});
