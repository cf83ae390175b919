/** A whole rig changed for a reserve and back, and a mixed pick-up read and settled: by keys alone. */
import type { Page } from '@playwright/test';
import { expect, type Host, TODAY, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const rigs = (page: Page) => page.getByRole('grid', { name: 'Rigs', exact: true });

/** Signs the form that is open, by whom its words find, and sends it. */
async function sign(keys: Keys, page: Page, who: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Signed by' }).focus();
  await keys.type(who);
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
}

/** From anywhere: the list of rigs, the rig by its name, its page. */
async function openRig(keys: Keys, page: Page, name: string): Promise<void> {
  await keys.press('2');
  const names = rigs(page).getByRole('row');
  await expect(names.nth(1)).toBeFocused();
  const at = (await names.allTextContents()).findIndex(row => row.startsWith(name));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await keys.press('Enter');
  await expect(page.getByRole('heading', { name: `What rides on ${name}, and where?` })).toBeVisible();
}

test.beforeEach(async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});

const legs = (host: Host, page: Page) => host.ask(page, 'changeovers.list', {});

test('a crew changes to a reserve rig with two exceptions, and back', async ({ page, host }) => {
  const keys = new Keys(page);
  await openRig(keys, page, 'Engine 31');
  const begun = keys.pressed;
  await keys.press('c');
  const which = page.getByRole('grid', { name: 'Rigs that nobody rides' });
  await expect(which.getByRole('row').nth(1)).toBeVisible();
  await look(page, 'changeover-which');
  // R-1 is limited for want of a light: the crew takes R-2, which stands first.
  await which.getByRole('row', { name: /Reserve R-2/ }).focus();
  await keys.press('Enter');
  const grid = page.getByRole('grid', { name: 'What moves, place by place' });
  await expect(grid.getByRole('row').nth(1)).toBeFocused();
  await look(page, 'changeover');
  const moving = await host.ask(page, 'rig.changeover', { from: 'Engine 31', to: 'Reserve R-2' });
  expect(moving.counts.moves).toBeGreaterThan(5);
  await keys.press('x');
  await keys.type('on charger');
  await keys.press('Enter');
  await expect(grid.getByRole('row').nth(2)).toBeFocused();
  await keys.press('x');
  await expect(page.getByRole('dialog')).toBeVisible();
  await keys.press('Enter');
  await expect(grid.getByText('Did not move')).toHaveCount(2);
  await look(page, 'changeover-exceptions');
  await keys.press('g');
  await expect(page.getByRole('dialog')).toContainText('Everything moved except');
  await look(page, 'changeover-sign');
  await sign(keys, page, 'whit');
  await expect(page.getByRole('heading', { name: 'What rides on Reserve R-2, and where?' })).toBeVisible();
  console.log(`A changeover with two exceptions: ${keys.pressed - begun} keys from the page of the rig.`);
  const [out] = (await legs(host, page)).legs;
  expect(out).toMatchObject({ back: false, to: { name: 'Reserve R-2' } });
  expect(out?.excepted.map(e => e.why)).toEqual(['on charger', null]);
  expect(out?.on.startsWith(`${TODAY}T`)).toBe(true);
  expect(await host.ask(page, 'rig.page', { rig: 'Reserve R-2' })).toMatchObject({ unit: 'Engine 31' });

  // And back: its own rig stands first, and what came along goes home.
  await keys.press('c');
  await expect(which.getByRole('row').nth(1)).toContainText('Engine 31');
  await which.getByRole('row').nth(1).focus();
  await keys.press('Enter');
  await expect(page.getByRole('heading', { name: /goes back to Engine 31/ })).toBeVisible();
  await expect(grid.getByRole('row').nth(1)).toBeFocused();
  await keys.press('x');
  await keys.type('not found');
  await keys.press('Enter');
  await keys.press('g');
  await sign(keys, page, 'whit');
  const { legs: told, notReturned } = await legs(host, page);
  expect(told[0]).toMatchObject({ back: true, moved: (out?.moved ?? 0) - 1 });
  const left = notReturned.filter(t => t.home === 'Engine 31');
  expect(left).toMatchObject([{ here: 'Reserve R-2', why: 'Not found' }]);
  await expect(page.getByRole('grid', { name: 'Whole-rig swaps' })).toBeVisible();
  await look(page, 'changeover-legs');
});

test('an open incident is read on by scanner and settled', async ({ page, host }) => {
  const keys = new Keys(page);
  await page.goto(`${host.origin}/#/checks`);
  await expect(page.getByRole('grid', { name: 'Units and their check-offs' })).toBeVisible();
  await keys.press('i');
  const list = page.getByRole('grid', { name: 'Incidents' });
  await expect(list.getByRole('row').nth(1)).toContainText('Barn fire');
  await look(page, 'incidents');
  await expect(list.getByRole('row').nth(1)).toBeFocused();
  await keys.press('Enter');
  await expect(page.getByRole('grid', { name: 'Numbers on Engine 34' })).toContainText('34-102');
  await look(page, 'incident');
  // The tender's list comes in: the length is in its bed.
  await keys.press('w');
  await expect(page.getByRole('dialog')).toBeVisible();
  await keys.type('whit');
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  const tender = await host.ask(page, 'rig.page', { rig: 'Tender 34' });
  const hose = tender.places.flatMap(p => p.items).filter(i => i.family === 'hose');
  await page.getByRole('grid', { name: 'Rigs that were there' }).getByRole('row').nth(2).focus();
  const begun = keys.pressed;
  await keys.press('c');
  await keys.type('L1');
  await keys.press('Enter');
  await keys.type('34-102');
  await keys.press('Enter');
  // A scanner types the rest.
  for (const { number } of hose) {
    await page.keyboard.type(number);
    await page.keyboard.press('Enter');
  }
  await keys.press('Escape');
  await expect(page.getByRole('grid', { name: 'Numbers on Tender 34' })).toContainText('Another rig’s');
  await look(page, 'incident-read');
  await keys.press('g');
  await expect(page.getByRole('dialog')).toContainText('34-102 on Tender 34, L1');
  await expect(page.getByRole('dialog')).toContainText('Not ours: CW-31');
  await look(page, 'incident-settle');
  await keys.press('Enter');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  console.log(`Settled in ${keys.pressed - begun} keys beside the scanner’s.`);
  const [found] = await host.ask(page, 'item.find', { number: '34-102' });
  expect(found?.place).toBe('Tender 34, L1');
  const { rows } = await host.ask(page, 'incidents.list', {});
  expect(rows.every(r => r.state === 'settled')).toBe(true);
  await look(page, 'incident-settled');
});
