/** Readiness by keys alone, as it is used each morning; then pictures for review, and axe. */
import type { Page } from '@playwright/test';
import { beginEmpty } from './begin.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const units = (page: Page) => page.getByRole('grid', { name: 'Units, the heaviest verdict first' });
const panel = (page: Page) => page.getByRole('complementary');

/** Signs the form that is open as B. Whitlow and sends it; the focus stands on who signs. */
async function sign(keys: Keys, page: Page): Promise<void> {
  await expect(page.getByRole('combobox', { name: 'Signed by' })).toBeFocused();
  await keys.type('whit');
  await expect(page.getByRole('option', { name: /Whitlow/ })).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
}

/** The heaviest unit, with its first reason under the cursor. */
async function openUnit(keys: Keys, page: Page): Promise<void> {
  await expect(units(page)).toBeFocused();
  await keys.press('Enter');
  await expect(
    panel(page)
      .getByText(/Nearest ready spare/)
      .first(),
  ).toBeVisible();
}

async function itemOf(page: Page, host: Host, number: string): Promise<string> {
  const [found] = await host.ask(page, 'item.find', { number });
  return found?.item ?? '';
}

test.describe('with the demo department', () => {
  test('from a unit to its reasons and their why, and back where it was', async ({ page }) => {
    const keys = new Keys(page);
    await expect(page).toHaveURL(/#\/readiness/);
    await expect(units(page)).toBeFocused();
    // The heaviest verdict comes first; Engine 31 carries a hose whose test is overdue.
    await expect(units(page).getByRole('row').nth(1)).toHaveAccessibleName(/Engine 31.*Not ready/);
    await keys.press('Enter');
    await expect(panel(page).getByRole('heading', { name: 'Engine 31' })).toBeVisible();
    const hose = panel(page).getByRole('button', { name: /31-107 Service test overdue since 13 Jun 2026/ });
    await expect(hose).toBeFocused();
    await keys.press('ArrowDown');
    // What limits comes after what blocks, and of that what the carry list lacks comes first.
    await expect(
      panel(page)
        .getByRole('button', { name: /: \d+ of \d+/ })
        .first(),
    ).toBeFocused();
    await keys.press('ArrowUp');
    await keys.press('Enter');
    await expect(panel(page).getByText(/The rule:/)).toBeVisible();
    await keys.press('Escape');
    await expect(hose).toBeFocused();
    await keys.press('ArrowRight');
    await expect(panel(page).getByRole('heading', { name: 'Engine 32' })).toBeVisible();
    await keys.press('Escape');
    await expect(units(page)).toBeFocused();
    await keys.press('d');
    await expect(page).toHaveURL(/#\/due\?.*within=30/);
    await expect(page.getByLabel('Unit: Engine 32')).toBeVisible();
  });

  test('the nearest spare goes in for what blocks, and the verdict follows', async ({ page, host }) => {
    const keys = new Keys(page);
    await expect(units(page)).toBeFocused();
    await keys.press('Enter');
    await expect(panel(page).getByText('Nearest ready spare: 31-104, Station 31, hose rack')).toBeVisible();
    await expect(panel(page).getByRole('button', { name: 'Swap it in' })).toBeEnabled();
    await keys.press('s');
    await expect(page.getByRole('dialog')).toBeVisible();
    await page.getByRole('combobox', { name: 'Signed by' }).focus();
    await sign(keys, page);
    await expect(page.getByText('31-104 is in for 31-107.')).toBeVisible();
    const placeOf = async (number: string) =>
      (await host.ask(page, 'item.page', { item: await itemOf(page, host, number) })).place;
    expect([await placeOf('31-104'), await placeOf('31-107')]).toEqual([
      'Engine 31, crosslay 2',
      'Station 31, hose rack',
    ]);
    await expect(units(page).getByRole('row', { name: /Engine 31/ })).toHaveAccessibleName(
      /Ready with limits/,
    );
  });

  test('a note is passed on, signed, carried and closed', async ({ page, host }) => {
    const keys = new Keys(page);
    await expect(units(page)).toBeFocused();
    await keys.press('n');
    await keys.type('Left rear light out');
    await keys.press('Tab');
    await keys.type('res');
    await keys.press('Enter');
    await keys.press('Tab');
    await keys.press('Tab');
    await sign(keys, page);
    const open = page.getByRole('list', { name: 'Open notes' });
    await expect(open.getByText('Left rear light out')).toBeVisible();
    const [newest] = await host.ask(page, 'notes.list', { open: true });
    expect(newest).toMatchObject({ text: 'Left rear light out', unit: 'Rescue 33', byName: 'B. Whitlow' });
    // It is carried over a new start of the screens.
    await page.reload();
    await expect(open.getByText('Left rear light out')).toBeVisible();
    await keys.press('x');
    await keys.type('New bulb');
    // Whoever signed a moment ago signs again.
    await keys.press('Enter');
    await expect(page.getByRole('dialog')).toBeHidden();
    await expect(open.getByText('Left rear light out')).toBeHidden();
    await keys.press('h');
    await expect(page.getByRole('list', { name: 'Closed notes' })).toContainText(
      /closed by B\. Whitlow, 25 Nov 2026: New bulb/,
    );
  });

  test('what was done since the last look is told once it is marked', async ({ page }) => {
    const keys = new Keys(page);
    await expect(page.getByRole('heading', { name: /Since yesterday/ })).toBeVisible();
    await expect(page.getByText(/^\d+ deeds\./)).toBeVisible();
    await keys.press('l');
    await expect(page.getByText(/^Nothing was done\. Last look/)).toBeVisible();
    await page.reload();
    await expect(page.getByRole('heading', { name: /Since the last look/ })).toBeVisible();
  });

  // One look a test: axe takes five seconds for a full screen, and three of them come near what a test may take.
  test('looks as it should', async ({ page }) => {
    await expect(units(page)).toBeFocused();
    await look(page, 'readiness');
  });

  test('looks as it should with a unit open', async ({ page }) => {
    await openUnit(new Keys(page), page);
    await look(page, 'readiness-unit');
  });

  test('looks as it should with the why of a reason open', async ({ page }) => {
    const keys = new Keys(page);
    await openUnit(keys, page);
    await keys.press('Enter');
    await expect(panel(page).getByText(/The rule:/)).toBeVisible();
    await look(page, 'readiness-why');
  });
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('it teaches where units and things come from', async ({ page, host }) => {
    const keys = new Keys(page);
    await beginEmpty(page, keys);
    await keys.press('1');
    await expect(page.getByText(/No unit is known yet/)).toBeVisible();
    await look(page, 'readiness-empty');
    const [member] = await host.ask(page, 'members.list', {});
    const answer = await page.request.post(`${host.origin}/api/act`, {
      data: {
        request: {
          by: member?.id,
          deeds: [{ action: 'unit.add', body: { name: 'Engine 1', rig: { name: 'Engine 1' } } }],
        },
      },
    });
    expect(answer.ok()).toBe(true);
    await expect(units(page).getByRole('row', { name: /Engine 1.*Not known/ })).toBeVisible();
    await expect(page.getByText(/Nothing is in the book yet/)).toBeVisible();
    await look(page, 'readiness-no-things');
  });
});
