/**
 * Dates as people type them. That a text names this very day is checked against date-fns, an independent library:
 * it writes the text, the reader reads it. Forms and habits: common practice, no source. Serial numbers: ECMA-376
 * Part 1, 18.17.4.1 (1900 system; from memory), and the published sheets (45399 is 2024-04-17).
 */

import { format } from 'date-fns';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateShapeOf } from '../../../db/files/sheet/typed-dates.ts';
import { addDays, type Day, dayOf, dayText, partsOf } from '../../../domain/calendar/day.ts';
import { codesOf, day, read, rowOf, TODAY } from './sheets.ts';

/** One date in the last-test column of a sheet with a known hose. */
async function lastTest(text: string, made = '', today: Day = TODAY) {
  const row = rowOf(await read('hose', `Hose,Made,Last test\nA-1,${made},"${text}"\n`, { today }), 'A-1');
  return row.ok ? row.fields['last service test'] : codesOf(row)[0];
}

async function made(text: string, test = '') {
  const row = rowOf(await read('hose', `Hose,Made,Last test\nA-1,"${text}",${test}\n`), 'A-1');
  return row.ok ? row.becomes.made : codesOf(row)[0];
}

describe('a day', () => {
  it.each([
    ['05/06/2026', '2026-05-06'],
    ['5/6/2026', '2026-05-06'],
    ['5/6/26', '2026-05-06'],
    ['5-6-26', '2026-05-06'],
    ['05.06.26', '2026-05-06'],
    ['5 6 26', '2026-05-06'],
    ['5/6/’26', '2026-05-06'],
    ['12/31/25', '2025-12-31'],
    ['2026-05-06', '2026-05-06'],
    ['2026/5/6', '2026-05-06'],
    ['2026.05.06', '2026-05-06'],
    ['20260506', '2026-05-06'],
    ['05062026', '2026-05-06'],
    ['2026-05-06T08:15:00Z', '2026-05-06'],
    ['2026-05-06 08:15:00', '2026-05-06'],
    ['5/6/2026 2:15 PM', '2026-05-06'],
    ['5/6/2026 0:00', '2026-05-06'],
    ['46148', '2026-05-06'],
    ['46148.59', '2026-05-06'],
    ['45399', '2024-04-17'],
    ['6-May-26', '2026-05-06'],
    ['06-May-2026', '2026-05-06'],
    ['6 May 2026', '2026-05-06'],
    ['6MAY2026', '2026-05-06'],
    ['May 6, 2026', '2026-05-06'],
    ['May 6th, 2026', '2026-05-06'],
    ['May-6-26', '2026-05-06'],
    ['6th of May 2026', '2026-05-06'],
    ['Wed, May 6, 2026', '2026-05-06'],
    ['Wednesday 6 May 2026', '2026-05-06'],
    ['Sept. 9, 2025', '2025-09-09'],
    ['2026-May-06', '2026-05-06'],
    ['98/05/06', '1998-05-06'],
    ['2/29/2024', '2024-02-29'],
    ['2/29/24', '2024-02-29'],
    ['tested 5/6/26', '2026-05-06'],
  ])('%s is %s', async (text, on) => expect(await lastTest(text)).toBe(on));

  it.each([
    ['2/30/2026', 'impossible date'],
    ['2/29/2025', 'impossible date'],
    ['2/29/25', 'impossible date'],
    ['13/2014', 'impossible date'],
    ['2014-13', 'impossible date'],
    ['2026-02-30', 'impossible date'],
    ['31-Jun-25', 'impossible date'],
    ['0/6/2026', 'impossible date'],
    ['5/0/2026', 'impossible date'],
    ['5/6/1826', 'impossible date'],
    ['6/14/2031', 'date in the future'],
    ['11/26/2026', 'date in the future'],
    ['12/26', 'date in the future'],
    ['5/6', 'date unreadable'],
    ['16-Apr', 'date unreadable'],
    ['May 6th', 'date unreadable'],
    ['5/6/202', 'date unreadable'],
    ['5/6/20266', 'date unreadable'],
    ['5/6/25, 5/7/26', 'date unreadable'],
    ['5/6/25 & 5/7/26', 'date unreadable'],
    ['spring', 'date unreadable'],
    ['last year', 'date unreadable'],
    ['26', 'date unreadable'],
    ['-5', 'date unreadable'],
  ])('%s is refused: %s', async (text, code) => expect(await lastTest(text)).toBe(code));

  it.each([
    '',
    '-',
    '--',
    '—',
    'N/A',
    'n/a',
    '#N/A',
    'none',
    'None',
    'new',
    'NEW',
    'unknown',
    '?',
    '??',
    'TBD',
    'never',
    '0',
    '00/00/0000',
    '1/0/1900',
  ])('“%s” is no date, and no fault', async text => expect(await lastTest(text)).toBeNull());

  it('may be today, not tomorrow', async () => {
    expect(await lastTest('11/25/2026')).toBe('2026-11-25');
    expect(await lastTest('11/26/2026')).toBe('date in the future');
    expect(await lastTest('11/2026')).toBe('2026-11');
    expect(await lastTest('2026')).toBe('2026');
  });
});

describe('a month or a year', () => {
  it.each([
    ['08/2023', '2023-08'],
    ['8/2023', '2023-08'],
    ['08-2023', '2023-08'],
    ['2023-08', '2023-08'],
    ['2023/08', '2023-08'],
    ['202308', '2023-08'],
    ['09/06', '2006-09'],
    ['0823', '2023-08'],
    ['08 23', '2023-08'],
    ["08/'23", '2023-08'],
    ['Apr-16', '2016-04'],
    ['Apr 16', '2016-04'],
    ["Apr '16", '2016-04'],
    ['APR2016', '2016-04'],
    ['April 2016', '2016-04'],
    ['April, 2016', '2016-04'],
    ['Sept 2014', '2014-09'],
    ['2014 Aug', '2014-08'],
    ['Mfg. 4/16', '2016-04'],
    ['2016', '2016'],
    ["'16", '2016'],
    ['16', '2016'],
    ['circa 2016', '2016'],
    ['~2016', '2016'],
    ['Q3 2016', '2016'],
    ['3rd qtr 2016', '2016'],
    ['13/14', 'impossible date'],
    ['24/01', 'impossible date'],
  ])('%s is %s', async (text, when) => expect(await made(text)).toBe(when));

  it('keeps a quarter as a remark', async () => {
    const row = rowOf(await read('hose', 'Hose,Made,Dia\nA-1,Q3 2016,3\n'), 'A-1');
    expect(row.fields).toMatchObject({ made: '2016', remarks: 'Made: Q3 2016' });
  });
});

describe('the century of a two-digit year', () => {
  it('is the latest that is not after today', async () => {
    expect(await made('06/98')).toBe('1998-06');
    expect(await made('11/26')).toBe('2026-11');
    expect(await made('05/86')).toBe('1986-05');
  });

  it('agrees with what the row says in full: made 1955, tested 1958', async () => {
    expect(await made('06/55', '7/1/1958')).toBe('1955-06');
    expect(await made('06/55')).toBe('date in the future');
  });

  it('turns with today: 05/27 is refused in 2026 and read in 2028', async () => {
    expect(await lastTest('5/6/27')).toBe('date in the future');
    expect(await lastTest('5/6/27', '', day('2028-01-01'))).toBe('2027-05-06');
  });

  it('is not bent to hide a contradiction: made 06/25, tested 2024', async () => {
    expect(await made('06/25', '5/2/2024')).toBe('tested before made');
    expect(await lastTest('5/2/24', '06/2025')).toBe('tested before made');
  });

  it('lets an expiry lie ahead, nearest to today', async () => {
    const text = 'Ladder,Made,Heat label expires\nL-1,02/15,08/29\nL-2,03/95,06/99\nL-3,,Oct-25\n';
    const { rows } = await read('ladder', text);
    expect(rows.map(r => r.fields.heatLabelExpires)).toEqual(['2029-08', '1999-06', '2025-10']);
    expect(rows.every(r => r.ok)).toBe(true);
  });
});

it('takes the month a thing was made in as no contradiction to a test in that month', async () => {
  expect(await lastTest('6/1/2025', '06/2025')).toBe('2025-06-01');
  expect(await lastTest('5/31/2025', '06/2025')).toBe('tested before made');
  expect(await lastTest('5/31/2025', '2025')).toBe('2025-05-31');
});

it('reads the stamp of a requalifier: month, RIN, year', () =>
  expect(dateShapeOf('08 A123 24')).toMatchObject({ year: 24, month: 8, day: null, rin: 'A123' }));

/** How date-fns writes each form, and what of the date it keeps. */
const FORMS = [
  ['M/d/yyyy', 'day'],
  ['MM/dd/yy', 'day'],
  ['M-d-yy', 'day'],
  ['MM.dd.yyyy', 'day'],
  ['MMddyyyy', 'day'],
  ['yyyy-MM-dd', 'day'],
  ['yyyy/M/d', 'day'],
  ['yyyyMMdd', 'day'],
  ["yyyy-MM-dd'T'HH:mm:ss", 'day'],
  ['M/d/yyyy h:mm a', 'day'],
  ['d-MMM-yy', 'day'],
  ['dd-MMM-yyyy', 'day'],
  ['MMM d, yyyy', 'day'],
  ['MMMM do, yyyy', 'day'],
  ['EEE, MMM d, yyyy', 'day'],
  ['EEEE, d MMMM yyyy', 'day'],
  ['ddMMMyyyy', 'day'],
  ['MM/yyyy', 'month'],
  ['MM/yy', 'month'],
  ['MMM-yy', 'month'],
  ["MMM ''yy", 'month'],
  ['MMMM yyyy', 'month'],
  ['yyyy-MM', 'month'],
  ['yyyy', 'year'],
] as const;
const SERIAL = 'serial';

function typed(on: Day, form: string): string {
  const { year, month, day: d } = partsOf(on);
  // Serial 1 is 1 January 1900 and the 1900 system counts a 29 February 1900 that was not: from March on, one more.
  if (form === SERIAL) return String(on - dayOf(1899, 12, 31) + 1);
  return format(new Date(year, month - 1, d, 9, 30), form);
}

describe('any date of 1990 to 2026', () => {
  // date-fns writes local dates, and some zones have skipped a day (Samoa, Line Islands): it cannot write that one.
  const written = (on: Day) => {
    const { year, month, day: d } = partsOf(on);
    return new Date(year, month - 1, d, 9, 30).getDate() === d;
  };
  const days = fc
    .integer({ min: dayOf(1990, 1, 1), max: TODAY })
    .map(n => n as Day)
    .filter(written);

  it.each(FORMS)('written %s in a column reads back as the same %s', async (form, kept) => {
    await fc.assert(
      fc.asyncProperty(fc.array(days, { minLength: 1, maxLength: 12 }), async list => {
        const lines = list.map((on, i) => `H-${i},"${typed(on, form)}"`).join('\n');
        const { rows, questions } = await read('hose', `Hose No,Last Test\n${lines}\n`);
        const length = { day: 10, month: 7, year: 4 }[kept];
        expect(rows.map(r => r.fields['last service test'])).toEqual(
          list.map(on => dayText(on).slice(0, length)),
        );
        expect(questions).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('written as a serial number reads back as the same day', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(days, { minLength: 1, maxLength: 12 }), async list => {
        const lines = list.map((on, i) => `H-${i},${typed(on, SERIAL)}`).join('\n');
        const { rows } = await read('hose', `Hose No,Last Test\n${lines}\n`);
        expect(rows.map(r => r.fields['last service test'])).toEqual(list.map(dayText));
      }),
      { numRuns: 60 },
    );
  });

  it('written day first, with one day above 12 in the column, reads back as the same day', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(days, { minLength: 1, maxLength: 12 }),
        fc.constantFrom('d/M/yyyy', 'dd-MM-yy', 'd.M.yyyy'),
        async (list, form) => {
          const all = [...list, dayOf(2024, 5, 28)];
          const lines = all.map((on, i) => `H-${i},${typed(on, form)}`).join('\n');
          const { rows, questions } = await read('hose', `Hose No,Last Test\n${lines}\n`);
          expect(rows.map(r => r.fields['last service test'])).toEqual(all.map(dayText));
          expect(questions).toEqual([]);
        },
      ),
      { numRuns: 80 },
    );
  });

  it('in forms mixed within one column reads back as the same day', async () => {
    const forms = FORMS.filter(([, kept]) => kept === 'day').map(([form]) => form);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(days, fc.constantFrom(...forms, SERIAL)), { minLength: 1, maxLength: 20 }),
        async list => {
          const lines = list.map(([on, form], i) => `H-${i},"${typed(on, form)}"`).join('\n');
          const { rows } = await read('hose', `Hose No,Last Test\n${lines}\n`);
          expect(rows.map(r => r.fields['last service test'])).toEqual(list.map(([on]) => dayText(on)));
        },
      ),
      { numRuns: 60 },
    );
  });
});

it('gives no date that does not exist, and never throws, whatever is typed', () =>
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.stringMatching(/^[0-9/. -]{0,12}$/),
        fc.stringMatching(/^[0-9A-Za-z,' -]{0,14}$/),
      ),
      text => {
        const shape = dateShapeOf(text);
        if (shape.kind === 'date') expect(addDays(dayOf(2000, 1, 1), shape.year)).toBeTypeOf('number');
        expect(['date', 'blank', 'unreadable']).toContain(shape.kind);
      },
    ),
  ));
