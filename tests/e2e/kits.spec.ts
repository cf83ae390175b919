/** Kits by keys alone: a broken seal is found, the bag is counted and sealed anew; the first kit of a new department. */
import type { Page } from '@playwright/test';
import { expect, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const kits = (page: Page) => page.getByRole('grid', { name: 'Kits, those that do not serve first' });

async function toKits(keys: Keys, page: Page): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('3');
  await expect(page.getByRole('heading', { name: 'Is it all there and does it work?' })).toBeVisible();
  await keys.press('k');
  await expect(page.getByRole('heading', { name: /^Which kits/ })).toBeVisible();
}

async function signedBy(keys: Keys, page: Page, who: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Signed by' }).focus();
  await keys.type(who);
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
}

test('a bag whose seal was found broken is counted in full and sealed anew, and its unit has it again', async ({
  page,
  host,
}) => {
  const unit = async () =>
    (await host.ask(page, 'readiness.now', { unit: 'Engine 33' })).units[0]?.reasons.map(r => r.what) ?? [];
  expect((await unit()).some(w => w.includes('MED-3: seal'))).toBe(true);
  const keys = new Keys(page);
  await toKits(keys, page);
  await expect(kits(page).getByRole('row').nth(1)).toBeFocused();
  await expect(kits(page).getByRole('row').nth(1)).toContainText('MED-3');
  await look(page, 'kits');
  const before = keys.pressed;
  await keys.press('c');
  const first = page.getByLabel('Bag-valve mask, adult: how many');
  await expect(first).toBeFocused();
  // One tourniquet of two is left, everything else is at its par.
  await keys.press('Enter');
  await keys.press('Enter');
  await keys.type('1');
  for (let i = 0; i < 8; i++) await keys.press('Enter');
  const seal = page.getByRole('button', { name: 'Seal it' });
  await expect(seal).toBeFocused();
  await look(page, 'kit-count');
  await keys.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Seal MED-3' });
  await expect(dialog).toContainText('Under par: Tourniquet.');
  // The number of the old seal is refused: a seal is used once.
  await expect(dialog.getByRole('textbox', { name: 'Number of the new seal' })).toBeFocused();
  await keys.type('40046');
  await signedBy(keys, page, 'calder');
  await keys.press('Enter');
  await expect(dialog).toContainText('A seal is used once');
  await dialog.getByRole('textbox', { name: 'Number of the new seal' }).fill('');
  await keys.type('41200');
  await keys.press('Enter');
  await expect(dialog).toHaveCount(0);
  await expect(page.getByText('✓ serves').or(page.getByText('Serves, under par'))).toBeVisible();
  console.log(`a kit counted and sealed: ${keys.pressed - before} keys`);
  await look(page, 'kit');
  expect((await unit()).some(w => w.includes('MED-3: seal'))).toBe(false);
  expect((await unit()).some(w => w.startsWith('Tourniquet: 1 of 2'))).toBe(true);
  const open = await host.ask(page, 'defects.list', { open: true });
  expect(open.rows.filter(d => d.number === 'MED-3')).toEqual([]);
});

test('another number on a seal is told at once, and what it leads to', async ({ page, host }) => {
  const keys = new Keys(page);
  await toKits(keys, page);
  await kits(page)
    .getByRole('row', { name: /^MED-1 / })
    .focus();
  await keys.press('s');
  const dialog = page.getByRole('dialog', { name: 'The seal of MED-1' });
  await expect(dialog).toContainText('40006 was put on');
  await expect(dialog.getByRole('textbox', { name: 'The number on it' })).toBeFocused();
  await keys.type('40007');
  await expect(dialog).toContainText('somebody has been in it');
  await signedBy(keys, page, 'calder');
  await keys.press('Enter');
  await expect(dialog).toHaveCount(0);
  const { rows } = await host.ask(page, 'kits.list', {});
  expect(rows.find(k => k.number === 'MED-1')).toMatchObject({ state: 'seal differs', effect: 'blocks' });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('the first kit: a list to begin from, the bag, its count and its seal', async ({ page, host }) => {
    for (const [label, value] of [
      ['Name of the department', 'Larkspur Valley Fire District'],
      ['Your member number', '7'],
      ['Your name', 'R. Alder'],
    ] as const)
      await page.getByLabel(label).fill(value);
    const keys = new Keys(page);
    await keys.press('Enter');
    await toKits(keys, page);
    await expect(page.getByText(/No kit is kept yet/)).toBeVisible();
    await look(page, 'kits-empty');
    await keys.press('k');
    const template = page.getByRole('dialog', { name: 'A kind of kit' });
    await expect(template).toBeVisible();
    await keys.press('Enter');
    await expect(template).toHaveCount(0);
    await keys.press('n');
    const receive = page.getByRole('dialog', { name: 'Receive a kit' });
    await expect(receive.getByRole('textbox', { name: 'Number' })).toBeFocused();
    await keys.type('BAG-1');
    await receive.getByRole('combobox', { name: 'Kind' }).focus();
    await keys.type('trauma');
    await expect(page.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await keys.press('Enter');
    await expect(receive).toHaveCount(0);
    await expect(kits(page).getByRole('row', { name: /BAG-1/ })).toBeVisible();
    const { rows, templates } = await host.ask(page, 'kits.list', {});
    expect(templates).toMatchObject([{ what: 'Trauma bag', kits: 1 }]);
    expect(rows).toMatchObject([{ number: 'BAG-1', state: 'never sealed', effect: 'blocks' }]);
  });
});
