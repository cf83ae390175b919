/** Day first or month first: told from the column, asked once where only a person can tell. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Day, dayOf, dayText, partsOf } from '../../../domain/calendar/day.ts';
import { codesOf, read, rowOf, TODAY } from './sheets.ts';

const sheet = (dates: string[], headings = 'Hose,Last test') =>
  `${headings}\n${dates.map((d, i) => `A-${i + 1},${d}`).join('\n')}\n`;
const tests = (rows: { fields: Record<string, unknown> }[]) => rows.map(r => r.fields['last service test']);

it('is US order where nothing says otherwise, and nothing is asked', async () => {
  const { rows, questions } = await read('hose', sheet(['05/06/2026', '1/2/26', '03-04-2025']));
  expect(tests(rows)).toEqual(['2026-05-06', '2026-01-02', '2025-03-04']);
  expect(questions).toEqual([]);
});

it('is day first where a value only makes sense so and none speaks against it', async () => {
  const { rows, questions } = await read('hose', sheet(['05/06/2026', '28/04/2026', '03-04-2025']));
  expect(tests(rows)).toEqual(['2026-06-05', '2026-04-28', '2025-04-03']);
  expect(questions).toEqual([]);
});

it('is told column by column', async () => {
  const { rows } = await read(
    'hose',
    sheet(['15/07/2019,04/28/2026', '05/06/2019,05/06/2026'], 'Hose,In service,Last test'),
  );
  expect(rows.map(r => [r.becomes.inService, r.becomes.lastServiceTest])).toEqual([
    ['2019-07-15', '2026-04-28'],
    ['2019-06-05', '2026-05-06'],
  ]);
});

it('a date that exists in neither order decides nothing', async () => {
  const { rows, questions } = await read(
    'hose',
    sheet(['05/06/2026', '30/02/2026', '2/30/2026', '31/31/2026']),
  );
  expect(tests(rows)).toEqual(['2026-05-06', null, null, null]);
  expect(rows.map(r => codesOf(r)[0])).toEqual([
    undefined,
    'impossible date',
    'impossible date',
    'impossible date',
  ]);
  expect(questions).toEqual([]);
});

describe('a column that holds both habits', () => {
  const mixed = ['05/06/2026', '04/28/2026', '04/29/2026', '28/04/2026', '04/30/2026', '7 May 2026'];

  it('is asked, and the contrary row marked; the rest is read as most of it is written', async () => {
    const reading = await read('hose', sheet(mixed));
    expect(reading.questions).toEqual([
      {
        kind: 'day order',
        column: 1,
        heading: 'Last test',
        examples: ['28/04/2026', '04/28/2026', '05/06/2026'],
      },
    ]);
    expect(reading.rows.map(r => r.ok)).toEqual([true, true, true, false, true, true]);
    expect(codesOf(rowOf(reading, 'A-4'))).toEqual(['day order undecided']);
    expect(rowOf(reading, 'A-1').becomes.lastServiceTest).toBe('2026-05-06');
  });

  it('evenly, holds back every date that could be either', async () => {
    const reading = await read(
      'hose',
      sheet(['05/06/2026', '04/28/2026', '04/29/2026', '28/04/2026', '29/04/2026', '04/04/2026']),
    );
    expect(reading.questions).toHaveLength(1);
    expect(reading.rows.map(r => r.ok)).toEqual([false, true, true, false, false, true]);
    expect(tests(reading.rows)[0]).toBeNull();
  });

  it('is read as a person answers, and not asked again', async () => {
    const day = await read('hose', sheet(mixed), { dayOrder: { '1': 'day first' } });
    expect(day.questions).toEqual([]);
    expect(tests(day.rows)[0]).toBe('2026-06-05');
    expect(day.rows.map(r => codesOf(r)[0])).toEqual([
      undefined,
      'impossible date',
      'impossible date',
      undefined,
      'impossible date',
      undefined,
    ]);
    const month = await read('hose', sheet(mixed), { dayOrder: { '1': 'month first' } });
    expect(month.questions).toEqual([]);
    expect(tests(month.rows)[0]).toBe('2026-05-06');
    expect(codesOf(rowOf(month, 'A-4'))).toEqual(['impossible date']);
  });
});

describe('a column that could be either, beside one that is day first', () => {
  const text = sheet(
    ['15/07/2019,05/06/2026', '16/07/2019,04/04/2026', '17/07/2019,'],
    'Hose,In service,Last test',
  );

  it('is asked once; dates that are the same both ways stand', async () => {
    const reading = await read('hose', text);
    expect(reading.questions).toMatchObject([{ column: 2, heading: 'Last test', examples: ['05/06/2026'] }]);
    expect(codesOf(rowOf(reading, 'A-1'))).toEqual(['day order undecided']);
    expect(rowOf(reading, 'A-2').becomes.lastServiceTest).toBe('2026-04-04');
    expect(rowOf(reading, 'A-3').ok).toBe(true);
  });

  it.each([
    ['day first', '2026-06-05'],
    ['month first', '2026-05-06'],
  ] as const)('answered %s reads %s', async (answer, on) => {
    const reading = await read('hose', text, { dayOrder: { '2': answer } });
    expect(reading.questions).toEqual([]);
    expect(rowOf(reading, 'A-1').becomes.lastServiceTest).toBe(on);
  });

  it('is not asked where every date is written out', async () => {
    const clear = sheet(['15/07/2019,6-May-26', '16/07/2019,2026-05-07'], 'Hose,In service,Last test');
    expect((await read('hose', clear)).questions).toEqual([]);
  });
});

it('of any column of days with one above 12 is settled, and the question comes only from both habits', () =>
  fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.integer({ min: dayOf(2000, 1, 1), max: TODAY }), fc.boolean()), {
        minLength: 1,
        maxLength: 15,
      }),
      async list => {
        const written = list.map(([n, dayFirst]) => {
          const { year, month, day } = partsOf(n as Day);
          return dayFirst ? `${day}/${month}/${year}` : `${month}/${day}/${year}`;
        });
        const { questions, rows } = await read('hose', sheet(written));
        const decides = (dayFirst: boolean) =>
          list.some(([n, first]) => first === dayFirst && partsOf(n as Day).day > 12);
        expect(questions).toHaveLength(decides(true) && decides(false) ? 1 : 0);
        // A date whose day is above 12 is never read as another day, whatever its column does.
        for (const [i, [n]] of list.entries()) {
          const got = rows[i]?.fields['last service test'];
          if (partsOf(n as Day).day > 12 && got !== null) expect(got).toBe(dayText(n as Day));
        }
      },
    ),
    { numRuns: 150 },
  ));
