/**
 * A sheet of what Engine 31 carries becomes its carry list. The sheet and what each row must become are the invented
 * ones of the project; what counts as a quantity is a figure, and a word for one is refused and not guessed.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Deed } from '../../../db/api.ts';
import type { CarryPage, CarryRow, CarrySheet, DefectLine } from '../../../db/api-checks.ts';
import { guessLine } from '../../../domain/carry/guess.ts';
import { layGround, newDepartment } from '../kit/department.ts';

const SHEET = new URL('../../fixtures/sheets/carry-engine-31.csv', import.meta.url);
const EXPECTED = (
  JSON.parse(readFileSync(new URL('../../fixtures/sheets/expected.json', import.meta.url), 'utf8')) as {
    files: Record<string, { row: number; ok: boolean; becomes?: CarryRow['becomes']; short?: number }[]>;
  }
).files['carry-engine-31.csv'] as { row: number; ok: boolean; becomes?: object; short?: number }[];

type Preview = CarrySheet & { deeds: Deed[] };

function preview(text = readFileSync(SHEET)) {
  const d = newDepartment();
  const g = layGround(d);
  const ask = () =>
    d.ask<Preview>('carry.preview', {
      name: 'carry-engine-31.csv',
      bytes: Buffer.from(text).toString('base64'),
      of: 'Engine 31',
    });
  return { d, g, ask };
}

describe('the carry list of Engine 31', () => {
  it('becomes, row by row, what it must, and a quantity in words is refused', async () => {
    const { rows, accepted, refused } = await preview().ask();
    expect(
      rows.map(({ row, ok, becomes, short }) => (ok ? { row, ok, becomes, short } : { row, ok })),
    ).toEqual(
      EXPECTED.map(({ row, ok, becomes, short }) => (ok ? { row, ok, becomes, short } : { row, ok })),
    );
    expect([accepted, refused]).toEqual([28, 1]);
    expect(rows.find(r => !r.ok)?.problems).toEqual([
      { column: 'Qty', wrong: '“six” is no quantity.', todo: 'Write it in figures: 4. Nothing is guessed.' },
    ]);
  });

  it('is put on the list in one act, with what is short reported of what is counted', async () => {
    const { d, ask } = preview();
    const { deeds } = await ask();
    expect(d.act(deeds).ok).toBe(true);
    const { lines } = await d.ask<CarryPage>('carry.page', { of: 'Engine 31' });
    expect(lines).toHaveLength(28);
    const { rows } = await d.ask<{ rows: DefectLine[] }>('defects.list', { open: true });
    // The thermal imager is tracked: that none is there the department's own things tell.
    expect(rows.map(r => [r.what, r.kind, r.short])).toEqual([['Foam concentrate 5 gal', 'short', 1]]);
    expect(lines.filter(l => l.lacking > 0 && l.family === null).map(l => [l.what, l.lacking])).toEqual([
      ['Foam concentrate 5 gal', 1],
    ]);
  });

  it('brought a second time changes its lines and brings none twice', async () => {
    const { d, ask } = preview();
    d.act((await ask()).deeds);
    const again = await ask();
    expect(d.act([again.deeds[0] as Deed]).ok).toBe(true);
    const { lines } = await d.ask<CarryPage>('carry.page', { of: 'Engine 31' });
    expect(lines).toHaveLength(28);
  });

  it('gives the refused rows back to mend, with the reason', async () => {
    const { refusedCsv } = await preview().ask();
    expect(refusedCsv).toContain('L3,"Absorbent, bag",six,4,N,“six” is no quantity.');
  });

  it('without headings for place, item and quantity is refused with what to do', async () => {
    const { d } = preview();
    const bytes = Buffer.from('A,B\n1,2\n').toString('base64');
    await expect(d.ask('carry.preview', { name: 'x.csv', bytes, of: 'Engine 31' })).rejects.toThrow(
      'No line has headings for a place, an item and a quantity.',
    );
  });
});

describe('what people write on a sheet', () => {
  it.each([
    ['1 3/4 in attack hose 50 ft', 'hose', { diameter_in: '1.75', length_ft: '50', use: 'attack' }],
    ['1¾ in attack hose', 'hose', { diameter_in: '1.75', use: 'attack' }],
    ['5 in supply hose 100 ft', 'hose', { diameter_in: '5', length_ft: '100', use: 'supply' }],
    ['Extension ladder 24 ft', 'ladder', { type: 'extension', length_ft: '24' }],
    ['Attic ladder 10 ft', 'ladder', { type: 'folding', length_ft: '10' }],
    ['Ladder belt', null, {}],
    ['Extinguisher, dry chemical 20 lb', 'extinguisher', { type: 'dry chemical stored pressure' }],
    ['Extinguisher, CO2 20 lb', 'extinguisher', { type: 'CO2' }],
    ['SCBA pack', 'pack', {}],
    ['Spare cylinder', 'cylinder', {}],
    ['Gas meter, 4-gas', 'gas-meter', {}],
    ['Positive-pressure fan, battery', 'power-tool', { kind: 'fan', power: 'battery' }],
    ['Bolt cutter', 'hand-tool', { kind: 'bolt cutter' }],
    ['Gated wye 2 1/2 x 1 1/2', 'appliance', { kind: 'gated wye' }],
    ['Extension cord 50 ft', null, {}],
    ['Foam concentrate 5 gal', null, {}],
  ] as const)('%s', (words, family, like) => {
    const guess = guessLine(words);
    expect([guess.family, guess.like]).toEqual([family, like]);
  });
});
