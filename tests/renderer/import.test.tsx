import { fireEvent, screen, waitFor } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { ImportPreview, ImportRequest } from '../../db/api.ts';
import { FAMILIES } from '../../domain/rulebook/index.ts';
import { ImportScreen } from '../../renderer/screens/import/ImportScreen.tsx';
import { acceptOf, familyOfName, withMapping } from '../../renderer/screens/import/sheet.ts';
import { draw, fakeHost } from './browser.tsx';

const FIELDS = [
  { field: 'number', title: 'Number' },
  { field: 'made', title: 'Made' },
  { field: 'lastServiceTest', title: 'Last service test' },
];

/** A sheet whose second column the store takes for the manufacture date unless it is told otherwise. */
function preview(request: ImportRequest): ImportPreview {
  const second = request.mapping && '1' in request.mapping ? (request.mapping['1'] ?? null) : 'made';
  return {
    family: request.family,
    headingLine: 1,
    columns: [
      { index: 0, heading: 'Hose No', field: 'number', examples: ['31-100'] },
      { index: 1, heading: 'Date', field: second, examples: ['05/06/26'] },
    ],
    fields: FIELDS,
    questions: [{ kind: 'day order', column: 1, heading: 'Date', examples: ['05/06/26'] }],
    rows: [
      {
        row: 1,
        line: 2,
        ok: true,
        number: '31-100',
        becomes: second ? { [second]: '2026-05-06' } : {},
        details: {},
        meets: 'new',
        adds: 0,
        conflict: [],
        problems: [],
        notes: [{ column: 'Length', note: 'Taken for 50 ft.' }],
      },
    ],
    offers: [
      { kind: 'place', name: 'Engine 31, crosslay 3', what: 'New place under Engine 31', rows: 1 },
      { kind: 'permit', name: 'DOT-SP 10945', what: 'A permit', rows: 1 },
    ],
    leftOut: [{ line: 9, text: 'Total 1', why: 'A sum or a note, not a length of hose.' }],
    titleDate: { line: 1, text: 'June 2026' },
    accepted: 1,
    refused: 0,
    refusedCsv: '',
  };
}

async function bring(host = fakeHost({ 'import.preview': preview })) {
  draw(<ImportScreen />);
  // The families must be known before the name of the file can be read.
  await waitFor(() => expect(host.asked.some(a => a.question === 'vocabulary.list')).toBe(true));
  await new Promise(resolve => setTimeout(resolve));
  fireEvent.change(screen.getByLabelText('Sheet'), {
    target: { files: [new File(['Hose No,Date\n31-100,05/06/26\n'], 'hose 2026.csv')] },
  });
  await screen.findByLabelText('Date is read as');
  return host;
}
const last = (host: ReturnType<typeof fakeHost>) =>
  host.asked.findLast(a => a.question === 'import.preview')?.args as ImportRequest;

describe('bringing a sheet', () => {
  it('reads the family from the name of the file and sends its bytes as they are', async () => {
    const host = await bring();
    expect(last(host)).toMatchObject({ name: 'hose 2026.csv', family: 'hose' });
    expect(atob(last(host).bytes)).toBe('Hose No,Date\n31-100,05/06/26\n');
  });

  it('tells what it took on its own: lines left out, the date of the title, notes on a row', async () => {
    await bring();
    expect(screen.getByText(/Line 9:/).textContent).toContain('Total 1');
    expect(screen.getByText(/Results are taken to be of June 2026 \(line 1\)/)).toBeTruthy();
    expect(screen.getAllByText(/Length: Taken for 50 ft\./).length).toBeGreaterThan(0);
  });

  it('asks anew with a column mended, and with the day order once somebody has said it', async () => {
    const host = await bring();
    fireEvent.change(screen.getByLabelText('Date is read as'), { target: { value: 'lastServiceTest' } });
    await waitFor(() => expect(last(host).mapping).toEqual({ '1': 'lastServiceTest' }));
    fireEvent.click(screen.getByLabelText('The month'));
    await waitFor(() => expect(last(host).dayOrder).toEqual({ '1': 'month first' }));
    expect(last(host).mapping).toEqual({ '1': 'lastServiceTest' });
  });

  it('takes in exactly what is shown: the mending, the places, and no permit that was not ticked', async () => {
    const host = await bring();
    fireEvent.change(screen.getByLabelText('Date is read as'), { target: { value: '' } });
    await waitFor(() => expect(last(host).mapping).toEqual({ '1': null }));
    const accept = await screen.findByRole('button', { name: /^Accept 1 rows?/ });
    await waitFor(() => expect(accept).toHaveProperty('disabled', false));
    fireEvent.click(accept);
    fireEvent.change(screen.getByLabelText('Signed by', { selector: 'input' }), {
      target: { value: 'Dana' },
    });
    fireEvent.click(await screen.findByRole('option', { name: /Dana/ }));
    fireEvent.click(screen.getByRole('button', { name: /^Take in 1/ }));
    await screen.findByText('hose 2026.csv was taken in', { selector: 'h1' });
    expect(host.acts[0]?.deeds[0]).toMatchObject({
      action: 'import.commit',
      body: { family: 'hose', mapping: { '1': null }, accept: { places: 'all', permits: [] } },
    });
  });
});

describe('mending the columns', () => {
  it('reads a field from one column only', () => {
    const columns = [
      { index: 0, field: 'number' },
      { index: 1, field: 'made' },
      { index: 2, field: null },
    ];
    const mended = withMapping({ family: 'hose', mapping: {}, dayOrder: {} }, columns, 2, 'made');
    expect(mended.mapping).toEqual({ '1': null, '2': 'made' });
  });
});

it('leaves out a place that was refused', () => {
  const { offers } = preview({ name: '', bytes: '', family: 'hose' });
  expect(
    acceptOf(offers, {
      refusedPlaces: new Set(['Engine 31, crosslay 3']),
      confirmedPermits: new Set(['DOT-SP 10945']),
    }),
  ).toEqual({ places: [], permits: ['DOT-SP 10945'] });
});

it.each([
  ['cylinders.csv', 'cylinder'],
  ['Ladders 2026.xlsx', 'ladder'],
  ['HOSE RECORD.csv', 'hose'],
  ['inventory.csv', null],
])('takes %s for a sheet of %s', (name, family) => expect(familyOfName(name, FAMILIES)).toBe(family));
