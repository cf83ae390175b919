/** The storeroom by keys alone: what comes in, what goes out, what is counted by two, what is to be ordered. */
import type { Page } from '@playwright/test';
import type { SupplyLine } from '../../db/api-supply.ts';
import { beginEmpty } from './begin.ts';
import { choose, enter, formOpen, send, toField } from './forms.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const stock = (page: Page) => page.getByRole('grid', { name: 'Stock by place, short and expired first' });

/** From anywhere: Supply, and the stock in its place under the cursor. */
async function toStock(keys: Keys, page: Page, what: string, place: string): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('6');
  const rows = stock(page).getByRole('row');
  await expect(rows.nth(1)).toBeFocused();
  const at = (await rows.allTextContents()).findIndex(row => row.startsWith(what + place));
  expect(at, `${what}, ${place}`).toBeGreaterThan(0);
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await expect(rows.nth(at)).toBeFocused();
}

async function lineOf(page: Page, host: Host, what: string, place: string): Promise<SupplyLine | undefined> {
  const { rows } = await host.ask(page, 'supply.list', {});
  return rows.find(r => r.what === what && r.placeName === place);
}

/** How many lie there of each lot, the soonest expiry first. */
const lotsOf = (line: SupplyLine | undefined) => (line?.lots ?? []).map(l => [l.lot, l.onHand]);

test.describe('with the demo department', () => {
  test('a box is received with its lot and its date as they are printed', async ({ page, host }) => {
    const [what, place] = ['Exam gloves, nitrile, large', 'Station 33, storeroom'] as const;
    const keys = new Keys(page);
    await toStock(keys, page, what, place);
    await look(page, 'supply');
    await keys.press('r');
    await formOpen(page);
    await enter(keys, page, 'How many', '2 boxes');
    await enter(keys, page, 'Lot', 'b9-301');
    await enter(keys, page, 'Expires', 'Mar 2030');
    await choose(keys, page, 'Signed by', 'quist');
    await look(page, 'supply-receive');
    await send(keys, page);
    await expect(page.getByText(`${what}: 2 boxes received.`)).toBeVisible();
    const line = await lineOf(page, host, what, place);
    expect(line?.lots.at(-1)).toMatchObject({ lot: 'B9-301', expires: '2030-03', onHand: 200 });
    expect(line?.onHand).toBe(578);
  });

  test('what is issued goes the soonest expiry first, across lots', async ({ page, host }) => {
    const [what, place] = ['Saline, 500 mL', 'Station 31, storeroom'] as const;
    const keys = new Keys(page);
    await toStock(keys, page, what, place);
    const before = lotsOf(await lineOf(page, host, what, place));
    expect(before.slice(0, 2)).toEqual([
      ['F3-135', 6],
      ['F7-135', 5],
    ]);
    await keys.press('i');
    await formOpen(page);
    await expect(page.getByText(/^There: 6 of lot F3-135, expires Dec 2026; 5 of lot F7-135/)).toBeVisible();
    await enter(keys, page, 'How many', '8');
    await choose(keys, page, 'To', 'engine 31');
    await enter(keys, page, 'What for', 'Medical bag');
    await choose(keys, page, 'Signed by', 'calder');
    await look(page, 'supply-issue');
    await send(keys, page);
    const after = lotsOf(await lineOf(page, host, what, place));
    expect(after).toEqual([['F7-135', 3], ...before.slice(2)]);
    // The cursor is on the row again; Enter tells of it, lot by lot and deed by deed.
    await expect(stock(page).locator('tbody tr:focus')).toContainText(what);
    await keys.press('Enter');
    await expect(
      page.getByRole('dialog').getByText(/Issued 6 of lot F3-135.*Engine 31: Medical bag/),
    ).toBeVisible();
    await look(page, 'supply-history');
    await keys.press('Escape');
  });

  test('what would expire where it lies is moved to where it is used up, and asked for no more', async ({
    page,
    host,
  }) => {
    const what = 'Burn dressing, sterile';
    const keys = new Keys(page);
    const better = async () =>
      (await host.ask(page, 'supply.reorder', {})).better.filter(b => b.what === what);
    const [told] = await better();
    expect(told).toMatchObject({ fromName: 'Rescue 33, R2', toName: 'Station 33, storeroom', lot: 'H3-149' });
    await toStock(keys, page, what, 'Rescue 33, R2');
    await keys.press('m');
    await formOpen(page);
    await enter(keys, page, 'How many', String(told?.amount));
    await choose(keys, page, 'Where to', 'station 33 storeroom');
    await choose(keys, page, 'Signed by', 'calder');
    await send(keys, page);
    const there = await lineOf(page, host, what, 'Station 33, storeroom');
    expect(lotsOf(there)).toContainEqual(['H3-149', told?.amount]);
    expect(await better()).toEqual([]);
  });

  test('what is counted by two names a second member, and not the one who signs', async ({ page, host }) => {
    const [what, place] = ['Naloxone nasal kit', 'Station 33, storeroom'] as const;
    const keys = new Keys(page);
    await toStock(keys, page, what, place);
    await keys.press('t');
    await formOpen(page);
    const dialog = page.getByRole('dialog');
    await expect(dialog.getByText('This is no controlled-substance register.')).toBeVisible();
    await enter(keys, page, 'Lot L11-177, expires Feb 2029', '1');
    await enter(keys, page, 'Lot L15-177, expires Apr 2029', '6');
    await choose(keys, page, 'Counted with', 'calder');
    await choose(keys, page, 'Signed by', 'calder');
    await keys.press('Enter');
    await expect(dialog.getByRole('alert')).toContainText(
      'Who signs the count and who saw it are the same member. Name the other one who counted.',
    );
    await look(page, 'supply-count');
    await toField(keys, page, 'Counted with');
    await keys.press('Control+A');
    await choose(keys, page, 'Counted with', 'okafor');
    await send(keys, page);
    const line = await lineOf(page, host, what, place);
    expect(lotsOf(line)).toEqual([
      ['L11-177', 1],
      ['L15-177', 6],
    ]);
    expect(line?.counted).toBe('2026-11-25');
  });

  test('what has expired is not handed out by itself: the refusal says how much is in date', async ({
    page,
    host,
  }) => {
    const [what, place] = ['AED pads, adult', 'Engine 32, R1'] as const;
    const keys = new Keys(page);
    await toStock(keys, page, what, place);
    await keys.press('i');
    await formOpen(page);
    await enter(keys, page, 'How many', '1');
    await choose(keys, page, 'Signed by', 'calder');
    await keys.press('Enter');
    const dialog = page.getByRole('dialog');
    await expect(dialog.getByRole('alert')).toContainText(
      'None there is in date: 1 has expired. Take it from elsewhere',
    );
    await look(page, 'supply-refused');
    await keys.press('Escape');
    await expect(dialog).toHaveCount(0);
    expect(lotsOf(await lineOf(page, host, what, place))).toEqual([['D3-121', 1]]);
    // The list is narrowed to what has expired by keys, and written off with what is known filled in.
    await keys.press('f');
    await keys.press('f');
    await expect(page.getByRole('button', { name: /with expired/ })).toHaveAttribute('aria-pressed', 'true');
    await expect(stock(page).getByRole('row')).toHaveCount(2);
    await keys.press('o');
    await formOpen(page);
    await expect(dialog.getByLabel('Why')).toHaveValue('Expired');
    await send(keys, page);
    expect((await lineOf(page, host, what, place))?.expired).toBe(0);
  });

  test('the reorder list is opened as a paper', async ({ page, host }) => {
    const keys = new Keys(page);
    await toStock(keys, page, 'Saline, 500 mL', 'Station 33, storeroom');
    // By l from table to table: what to order stands under the list.
    await keys.press('l');
    await expect(page.locator('table').nth(1).locator('tbody tr').first()).toBeFocused();
    const opened = page.context().waitForEvent('page');
    await keys.press('p');
    const shown = await opened;
    expect(shown.url()).toMatch(new RegExp(`^blob:${host.origin}/`));
    await expect.poll(() => shown.evaluate(() => document.contentType)).toBe('application/pdf');
    await expect(page.getByText(/^Opened to print: Reorder list/)).toBeVisible();
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('it says what stock is and begins with a kind', async ({ page, host }) => {
    const keys = new Keys(page);
    await beginEmpty(page, keys);
    await keys.press('6');
    await expect(page.getByText(/No stock is kept yet/)).toBeVisible();
    await look(page, 'supply-empty');
    await keys.press('n');
    await formOpen(page);
    await enter(keys, page, 'What', 'Absorbent, bag');
    await send(keys, page);
    await expect(stock(page).getByText('Absorbent, bag')).toBeVisible();
    expect((await host.ask(page, 'supply.list', {})).kinds).toBe(1);
  });
});
