/**
 * The department's three sheets against what they must become. Source: `tests/fixtures/sheets/expected.json`,
 * which came with the sheets and was made independently of this reader.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { guessFamily, readGrid, readSheet } from '../../../db/files/sheet/index.ts';
import { codesOf, day } from './sheets.ts';

interface Expected {
  row: number;
  ok: boolean;
  number?: string;
  becomes?: Record<string, unknown>;
  reason?: string;
}

const folder = new URL('../../fixtures/sheets/', import.meta.url);
const published = JSON.parse(readFileSync(new URL('expected.json', folder), 'utf8')) as {
  today: string;
  files: Record<string, Expected[]>;
};
/** The reader's code for each reason, so that a row refused for another reason does not pass. */
const CODES: Record<string, string> = {
  'impossible date': 'impossible date',
  'month 13': 'impossible date',
  'number missing': 'number missing',
  'duplicate number': 'duplicate number',
  'date in the future': 'date in the future',
  'diameter unreadable': 'diameter unreadable',
  'length unreadable': 'length unreadable',
  'length must be positive': 'length not positive',
  'pressure unreadable': 'pressure unreadable',
  'tested before it was made': 'tested before made',
  'requalified before it was made': 'requalified before made',
};

async function reading(file: string, family: string) {
  const grid = await readGrid(readFileSync(new URL(file, folder)), file);
  return readSheet(grid, { family, today: day(published.today) });
}

describe.each([
  ['hose.csv', 'hose', 120],
  ['cylinders.csv', 'cylinder', 95],
  ['ladders.csv', 'ladder', 26],
] as const)('%s', (file, family, count) => {
  const expected = published.files[file] ?? [];

  it(`has ${count} rows, each as published`, async () => {
    const { rows, questions, leftOut } = await reading(file, family);
    expect(expected).toHaveLength(count);
    expect(rows).toHaveLength(count);
    expect(questions).toEqual([]);
    expect(leftOut).toEqual([]);
    for (const want of expected) {
      const row = rows[want.row - 1];
      expect(row?.row).toBe(want.row);
      expect([want.row, row?.ok]).toEqual([want.row, want.ok]);
      if (!row) continue;
      if (want.ok) {
        expect(row.number).toBe(want.number);
        // What a cylinder is made of is the permit table's to say, not the sheet's.
        const becomes = family === 'cylinder' ? { ...want.becomes, construction: null } : want.becomes;
        expect([want.row, row.becomes]).toEqual([want.row, becomes]);
      } else {
        expect([want.row, codesOf(row)[0]]).toEqual([want.row, CODES[want.reason ?? '']]);
      }
    }
  });

  it('is known for what it is', async () => {
    expect(guessFamily(await readGrid(readFileSync(new URL(file, folder)), file))).toBe(family);
  });

  it('reads every column it has a field for', async () => {
    const { columns } = await reading(file, family);
    expect(columns.filter(c => c.field === null).map(c => c.heading)).toEqual([]);
  });
});

it('names every contradiction of a row, what was done first', async () => {
  const row = (await reading('hose.csv', 'hose')).rows[31];
  expect(row && codesOf(row)).toEqual(['tested before made', 'placed in service before made']);
});

it('does not take a carry list for one of the families', async () => {
  const name = 'carry-engine-31.csv';
  expect(guessFamily(await readGrid(readFileSync(new URL(name, folder)), name))).toBeNull();
});

it('says what is wrong and what to do, with the column', async () => {
  const { rows } = await reading('hose.csv', 'hose');
  const said = rows.filter(row => !row.ok).map(row => row.problems[0]);
  expect(said.map(p => p?.column)).toEqual([
    'Last Test',
    'Hose No',
    'Dia (in)',
    'Last Test',
    'Length',
    'Last Test',
    'Hose No',
  ]);
  expect(said[0]?.wrong).toBe('Last service test 2/30/2026 does not exist: February 2026 has 28 days.');
  for (const p of said)
    expect([p?.wrong.length, p?.todo.length].every(n => n !== undefined && n > 10)).toBe(true);
});
