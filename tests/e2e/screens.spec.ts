/** Every screen, light and dark, at both sizes, with a full department and an empty one: pictures for review, and axe. */
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { expect, type Host, shot, test } from './host.ts';
import { look } from './look.ts';

const SHEET = fileURLToPath(new URL('../fixtures/sheets/hose.csv', import.meta.url));
async function itemOf(page: Page, host: Host, number: string): Promise<string> {
  const [found] = await host.ask(page, 'item.find', { number });
  return found?.item ?? '';
}

test.describe('with the demo department', () => {
  test('Coming due, and why', async ({ page }) => {
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await page.keyboard.press('4');
    const table = page.getByRole('grid', { name: 'Coming due' });
    await expect(table.getByRole('row').nth(5)).toBeVisible();
    await look(page, 'coming-due');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('complementary').getByText(/The rule:/)).toBeVisible();
    await look(page, 'coming-due-why');
  });

  for (const [number, what] of [
    ['31-107', 'a hose'],
    ['C-331', 'a cylinder'],
    ['E-28-2', 'a ladder'],
    ['P-31', 'a pack'],
  ] as const)
    test(`one thing: ${what}`, async ({ page, host }) => {
      await page.goto(`${host.origin}/#/thing/${await itemOf(page, host, number)}`);
      await expect(page.getByRole('heading', { name: 'Every date' })).toBeVisible();
      await look(page, `thing-${number}`);
    });

  test('the form of a record, with its cautions', async ({ page, host }) => {
    await page.goto(`${host.origin}/#/thing/${await itemOf(page, host, '31-107')}`);
    await expect(page.getByRole('heading', { name: 'Every date' })).toBeVisible();
    await page.keyboard.press('r');
    await expect(page.getByRole('dialog').getByText('Before you start')).toBeVisible();
    await look(page, 'record');
  });

  test('all keys', async ({ page }) => {
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await page.keyboard.press('4');
    await expect(page.getByRole('grid', { name: 'Coming due' }).getByRole('row').nth(5)).toBeVisible();
    await page.keyboard.press('?');
    await expect(page.getByRole('dialog')).toBeVisible();
    await look(page, 'keys');
  });

  test('the design language', async ({ page, host }) => {
    await page.goto(`${host.origin}/#/look`);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await look(page, 'design');
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });
  test.slow();

  test('the first run opens a department by keys, which teaches what to do next and brings in a sheet', async ({
    page,
    host,
  }) => {
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await look(page, 'first-run');
    for (const [label, said] of [
      ['Name of the department', 'Cedar Hollow Fire Company'],
      ['Your member number', '7'],
      ['Your name', 'A. Birch'],
    ] as const) {
      await page.getByLabel(label).focus();
      await page.keyboard.type(said);
    }
    await page.keyboard.press('Enter');
    await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
    await page.keyboard.press('4');
    await expect(page.getByText('There is nothing in the book yet.')).toBeVisible();
    expect((await host.ask(page, 'department.summary', {}))?.name).toBe('Cedar Hollow Fire Company');
    await look(page, 'coming-due-empty');

    await page.keyboard.press('7');
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await look(page, 'import-empty');
    await page.setInputFiles('input[type=file]', SHEET);
    await expect(page.getByText('113').first()).toBeVisible();
    await look(page, 'import-preview');
    await page.keyboard.press('y');
    await expect(page.getByRole('dialog')).toBeVisible();
    // Whoever opened the department is the one who acts until somebody else is chosen.
    await expect(page.getByRole('combobox', { name: 'Signed by' })).toHaveValue('A. Birch');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await host.ask(page, 'department.summary', {}))?.things, { timeout: 20_000 })
      .toBe(113);
    await shot(page, 'import-done');
  });
});
