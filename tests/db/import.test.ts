/** A sheet through the store: what it becomes, what it meets, what it offers. */
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import type { ActAnswer, ImportPreview, ItemPage, ItemSummary } from '../../db/api.ts';
import { placeReader } from '../../db/files/import/places.ts';
import { act, prepare } from '../../db/store/act.ts';
import { newDepartment, type TestDepartment } from './kit/department.ts';

let department: TestDepartment;
beforeEach(() => {
  department = newDepartment();
});

const sheet = (name: string) => readFileSync(new URL(`../fixtures/sheets/${name}`, import.meta.url), 'utf8');
const base64 = (text: string) => Buffer.from(text, 'utf8').toString('base64');

async function preview(text: string, family: string): Promise<ImportPreview> {
  return department.ask('import.preview', { name: 'sheet.csv', bytes: base64(text), family });
}
async function commit(
  text: string,
  family: string,
  accept: { places: 'all' | string[]; permits: 'all' | string[] } = { places: 'all', permits: 'all' },
): Promise<ActAnswer> {
  const body = { name: 'sheet.csv', bytes: base64(text), family, accept };
  const ready = await prepare({ by: department.admin, deeds: [{ action: 'import.commit', body }] });
  const answer = ready.ok ? act(department.db, department.clock, ready.value) : ready;
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.value;
}
async function page(number: string, family: string): Promise<ItemPage> {
  const found = await department.ask<ItemSummary[]>('item.find', { number, family });
  return department.ask('item.page', { item: found[0]?.item ?? '' });
}

interface Expected {
  files: Record<
    string,
    {
      row: number;
      ok: boolean;
      number: string;
      becomes: Record<string, unknown>;
      due: Record<string, string | null>;
      state: string | null;
    }[]
  >;
}
const expected = JSON.parse(sheet('expected.json')) as Expected;

// The sheets and what each row must become are invented and were written apart from the importer.
describe.each([
  ['hose.csv', 'hose'],
  ['cylinders.csv', 'cylinder'],
  ['ladders.csv', 'ladder'],
])('%s', (file, family) => {
  it('becomes what it must, with the dates and states that follow', async () => {
    const shown = await preview(sheet(file), family);
    await commit(sheet(file), family);
    for (const row of expected.files[file] ?? []) {
      const told = shown.rows[row.row - 1];
      expect(told?.ok, `row ${row.row}`).toBe(row.ok);
      if (!row.ok) {
        expect(told?.problems[0]?.wrong).toBeTruthy();
        expect(told?.problems[0]?.todo).toBeTruthy();
        continue;
      }
      expect(told?.becomes, `row ${row.row}`).toEqual(row.becomes);
      const now = await page(row.number.trim(), family);
      const dates = Object.fromEntries(
        Object.keys(row.due).map(title => [
          title,
          now.due.find(d => d.title.toLowerCase() === title)?.dueOn ?? null,
        ]),
      );
      expect(dates, `row ${row.row}`).toEqual(row.due);
      if (row.state !== null) expect(now.state, `row ${row.row}`).toBe(row.state);
    }
  });

  it('adds nothing the second time, and says so', async () => {
    await commit(sheet(file), family);
    const before = department.count('entries');
    expect((await preview(sheet(file), family)).rows.filter(r => r.ok).every(r => r.meets === 'same')).toBe(
      true,
    );
    expect((await commit(sheet(file), family)).entries).toEqual([]);
    expect(department.count('entries')).toBe(before);
  });
});

const HOSE = 'Hose No,Dia,Length,Made,Last Test,Result,Location\n';

describe('a number that is known', () => {
  beforeEach(async () => {
    await commit(`${HOSE}31-1,1.75,50,03/2020,06/14/2025,P,Engine 31 crosslay 1\n`, 'hose');
  });

  it('next year’s sheet adds next year’s test and leaves the thing where it is', async () => {
    const next = `${HOSE}31-1,1 3/4,50 ft,Mar-20,06/20/2026,Pass,Engine 33 crosslay 1\n`;
    const shown = await preview(next, 'hose');
    expect(shown.rows[0]).toMatchObject({ ok: true, meets: 'known', adds: 1 });
    await commit(next, 'hose');
    const now = await page('31-1', 'hose');
    expect(now.due.find(d => d.title === 'Service test')).toMatchObject({
      lastOn: '2026-06-20',
      dueOn: '2027-06-20',
    });
    expect(now.place).toBe('Engine 31, crosslay 1');
  });

  it('refuses another thing with the same number, side by side', async () => {
    const other = `${HOSE}31-1,2.5,50,09/2018,06/20/2026,P,Engine 33 crosslay 1\n`;
    const [row] = (await preview(other, 'hose')).rows;
    expect(row).toMatchObject({ ok: false });
    expect(row?.conflict).toEqual([
      { field: 'Inside diameter', sheet: '2.5', known: '1.75' },
      { field: 'Made', sheet: 'Sep 2018', known: 'Mar 2020' },
    ]);
    expect((await commit(other, 'hose')).entries).toEqual([]);
  });

  it('refuses a test whose outcome differs from the one on record for that day', async () => {
    const [row] = (await preview(`${HOSE}31-1,1.75,50,03/2020,06/14/2025,FAIL,Engine 31\n`, 'hose')).rows;
    expect(row?.conflict).toEqual([{ field: 'Service test of 14 Jun 2025', sheet: 'fail', known: 'pass' }]);
  });

  it('gives refused rows back as a sheet with reasons', async () => {
    const { refusedCsv } = await preview(
      `${HOSE}31-1,2.5,50,09/2018,,,Engine 33\n31-2,big,50,09/2018,,,\n`,
      'hose',
    );
    expect(refusedCsv.split('\n')[0]).toContain('Reason');
    expect(refusedCsv).toContain('31-1 is known and differs');
    expect(refusedCsv).toContain('31-2');
  });
});

describe('what a status column tells', () => {
  const told =
    'Hose No,Dia,Length,Made,Last Test,Result,Status\n31-1,1.75,50,03/2020,,,retired\n31-2,1.75,50,03/2020,,,out of service\n31-3,1.75,50,03/2020,,,spare\n';

  it('is told as a deed of its own, and the same sheet again adds nothing', async () => {
    await commit(told, 'hose');
    expect((await page('31-1', 'hose')).condition).toBe('retired');
    expect((await page('31-1', 'hose')).due).toEqual([]);
    expect((await page('31-2', 'hose')).condition).toBe('tagged out');
    expect((await page('31-3', 'hose')).assignment).toBe('ready spare');
    expect((await commit(told, 'hose')).entries).toEqual([]);
  });

  it('lets a number be given anew once its thing is gone', async () => {
    await commit(told, 'hose');
    const [row] = (await preview(`${HOSE}31-1,2.5,50,06/2025,,,Engine 31\n`, 'hose')).rows;
    expect(row).toMatchObject({ ok: true, meets: 'new' });
  });
});

describe('permits', () => {
  it('stand under their older letters too: an exemption is the special permit of the same number', async () => {
    const older = 'Cyl #,Serial,Spec,Svc PSI,Mfr date,Last hydro\nC-9,K9,DOT-E 10915,4500,03/2020,\n';
    await commit(cylinders, 'cylinder');
    await commit(older, 'cylinder');
    expect((await page('C-9', 'cylinder')).lifeEndsOn).toBe('2035-03-31');
  });

  const cylinders = 'Cyl #,Serial,Spec,Svc PSI,Mfr date,Last hydro\nC-1,K1,DOT-SP 10915,4500,03/2020,\n';

  it('are offered and judge nothing until they are accepted', async () => {
    const { offers } = await preview(cylinders, 'cylinder');
    expect(offers.map(o => [o.kind, o.name])).toEqual([['permit', 'DOT-SP 10915']]);
    await commit(cylinders, 'cylinder', { places: 'all', permits: [] });
    expect((await page('C-1', 'cylinder')).due.map(d => d.state)).toEqual(['not judged', 'not judged']);
  });
});

describe('places as people write them', () => {
  it.each([
    ['Engine 31, crosslay 1', 'Engine 31, crosslay 1'],
    ['ENG 31 / Crosslay 1', 'Engine 31, Crosslay 1'],
    ['E31: crosslay 1', 'Engine 31, crosslay 1'],
    ['Engine #31', 'Engine 31'],
    ['Sta. 31 - hose rack', 'Station 31, hose rack'],
    ['Tower Ladder 33 L4', 'Tower 33, L4'],
    ['reserve r-1 crosslay 2', 'Reserve R-1, crosslay 2'],
    ['Fill room', 'Fill room'],
    // A lone compartment is not a unit.
    ['L1', 'L1'],
  ])('%s', (said, path) => {
    expect(placeReader(department.db)(said)).toMatchObject({ path });
  });

  it('are found again whatever the punctuation and letter case', async () => {
    await commit(`${HOSE}31-1,1.75,50,03/2020,,,Engine 31 crosslay 1\n`, 'hose');
    const read = placeReader(department.db);
    expect(read('E-31, Crosslay 1')).toEqual(read('engine 31 crosslay 1'));
    expect(read('engine 31 crosslay 1')).toHaveProperty('known');
  });
});

it('takes a permit with a sheet whose cylinders are all known already', async () => {
  const cylinders = 'Cyl #,Serial,Spec,Svc PSI,Mfr date,Last hydro\nC-1,K1,DOT-SP 10915,4500,03/2020,\n';
  await commit(cylinders, 'cylinder', { places: 'all', permits: [] });
  expect((await page('C-1', 'cylinder')).state).toBe('not judged');
  await commit(cylinders, 'cylinder');
  expect((await page('C-1', 'cylinder')).lifeEndsOn).toBe('2035-03-31');
  expect((await commit(cylinders, 'cylinder')).entries).toEqual([]);
});
