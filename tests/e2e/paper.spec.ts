/**
 * Papers through the running host, by the key `p`: shown in a window of the browser, under the page's own policy. Each
 * is kept under `test-results/papers`, for looking at. ISO 32000-1:2008 is what `kit/pdf.ts` reads them by.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page, Response } from '@playwright/test';
import type { Answer } from '../../db/api.ts';
import type { PdfFile } from '../../db/api-desk.ts';
import { type Pdf, readPdf } from '../db/kit/pdf.ts';
import { expect, test } from './host.ts';

const PAPERS = fileURLToPath(new URL('../../test-results/papers', import.meta.url));

function keep(name: string, { base64 }: PdfFile): Pdf {
  const bytes = Buffer.from(base64, 'base64');
  mkdirSync(PAPERS, { recursive: true });
  writeFileSync(join(PAPERS, `${name}.pdf`), bytes);
  return readPdf(bytes);
}

const isPaper = (response: Response) =>
  response.url().endsWith('/api/ask') && (response.request().postData() ?? '').includes('paper.make');

/** Presses `p`. @returns the paper, and the window that shows it */
async function print(page: Page, name: string): Promise<{ pdf: Pdf; shown: Page }> {
  const made = page.waitForResponse(isPaper);
  const opened = page.context().waitForEvent('page');
  await page.keyboard.press('p');
  const answer = (await (await made).json()) as Answer<PdfFile>;
  if (!answer.ok) throw new Error(answer.error.message);
  return { pdf: keep(name, answer.value), shown: await opened };
}

test('the list of what is coming due, as it is filtered', async ({ page, host }) => {
  await page.goto(`${host.origin}/#/due?state=["overdue"]&family="hose"`);
  const table = page.getByRole('grid', { name: 'Coming due' });
  await expect(table.getByRole('row').nth(2)).toBeVisible();
  const { rows } = await host.ask(page, 'due.list', { state: ['overdue'], family: 'hose' });
  const { pdf, shown } = await print(page, 'coming-due');
  expect(shown.url()).toMatch(new RegExp(`^blob:${host.origin}/`));
  expect(pdf.text).toContain('Show what is overdue for hose on any unit at any station, due at any time.');
  for (const { number } of rows) expect(pdf.text).toContain(number);
  expect(pdf.text).toContain(`${rows.length} rows: ${rows.length} overdue.`);
  await expect(page.getByText(/^Opened to print: Coming due, 2026-11-25\.pdf, 1 page/)).toBeVisible();
  // What shows it is the browser's own viewer: nothing of ours runs there.
  await expect.poll(() => shown.evaluate(() => document.contentType)).toBe('application/pdf');
});

test('the history of a thing, from its page', async ({ page, host }) => {
  const [found] = await host.ask(page, 'item.find', { number: '31-107' });
  await page.goto(`${host.origin}/#/thing/${found?.item}`);
  await expect(page.getByRole('heading', { name: /31-107/ })).toBeVisible();
  const { pdf } = await print(page, 'item-history');
  expect(pdf.text).toContain('31-107 1¾ in attack hose, 50 ft');
  const heads = await host.ask(page, 'ledger.heads', {});
  expect(pdf.text).toContain(`Ledger: ${heads.entries.toLocaleString('en-US')} entries`);
});

test('a paper is saved where the browser opens no window', async ({ page, host }) => {
  await page.addInitScript(() => {
    window.open = () => null;
  });
  await page.goto(`${host.origin}/#/due`);
  await page.reload();
  await expect(page.getByRole('grid', { name: 'Coming due' }).getByRole('row').nth(5)).toBeVisible();
  const download = page.waitForEvent('download');
  await page.keyboard.press('p');
  expect((await download).suggestedFilename()).toBe('Coming due, 2026-11-25.pdf');
  await expect(page.getByText(/^Saved to print: /)).toBeVisible();
});

test('the papers that other screens hand out', async ({ page, host }) => {
  for (const station of ['Station 31', 'Station 32', 'Station 33', 'Station 34']) {
    const pdf = keep(station, await host.ask(page, 'paper.make', { paper: 'morning page', station }));
    expect(pdf.text).toContain(`${station}: what is known against each unit?`);
  }
  const rigs = await host.ask(page, 'rigs.list', {});
  for (const { id, name, things } of rigs.filter(r => r.standing === 'reserve')) {
    const pdf = keep(name, await host.ask(page, 'paper.make', { paper: 'rig sheet', rig: id }));
    expect(pdf.text).toContain(`What rides on ${name}, and where?`);
    expect(pdf.text).toContain(`${things} things in`);
  }
  for (const family of ['hose', 'ladder', 'cylinder', 'pack']) {
    const pdf = keep(`rules-${family}`, await host.ask(page, 'paper.make', { paper: 'rule sheet', family }));
    expect(pdf.text).toContain('Before you start');
  }
});
