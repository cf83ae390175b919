/** The fill station by keys alone: a bottle is its number, Enter, its pressure, Enter; the warning comes before. */
import type { Page } from '@playwright/test';
import { expect, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const number = (page: Page) => page.getByRole('textbox', { name: 'Bottle, by number or scan' });
const pressure = (page: Page) => page.getByRole('textbox', { name: /^Filled (all the same, )?to, psi$/ });
const verdict = (page: Page) => page.getByRole('region', { name: 'May it be filled?' });
const log = (page: Page) => page.getByRole('grid', { name: 'Fills, newest first' });

/** From anywhere, by keys; somebody signs once. */
async function toFills(keys: Keys, page: Page, who = 'ibarra'): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('6');
  await expect(page.getByRole('heading', { name: 'What have we on the shelf?' })).toBeVisible();
  await keys.press('b');
  await expect(number(page)).toBeFocused();
  await page.getByRole('combobox', { name: 'Filled and signed by' }).focus();
  await keys.type(who);
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await number(page).focus();
}

test.describe('with the demo department', () => {
  test('ten bottles are logged in four strokes each beside what is typed', async ({ page, host }) => {
    const keys = new Keys(page);
    await toFills(keys, page);
    const before = (await host.ask(page, 'fills.list', {})).total;
    const bottles = [
      'C-221',
      'C-225',
      'C-231',
      'C-240',
      'C-258',
      'C-271',
      'C-285',
      'C-303',
      'C-308',
      'C-315',
    ];
    const began = keys.pressed;
    for (const bottle of bottles) {
      await keys.type(bottle);
      await keys.press('Enter');
      await keys.type('4500');
      await keys.press('Enter');
      await expect(page.getByText(`${bottle} is logged: 4,500 psi.`)).toBeVisible();
      await expect(number(page)).toBeFocused();
    }
    const pressed = keys.pressed - began;
    const typed = bottles.join('').length + 10 * '4500'.length;
    test.info().annotations.push({ type: 'keyboard work', description: `${pressed} keys for ten bottles` });
    console.log(`Ten bottles: ${pressed} keys, ${typed} of them their numbers and pressures.`);
    expect(pressed - typed).toBe(20);
    const told = await host.ask(page, 'fills.list', {});
    expect(told.total - before).toBe(10);
    expect(
      told.rows.slice(0, 10).every(r => r.compressor?.number === 'CMP-1' && r.filler === 'S. Ibarra'),
    ).toBe(true);
  });

  test('a bottle past its date is warned of with the clause, logged as what it was, tagged out and taken back', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    // One who may void, too.
    await toFills(keys, page, 'alder');
    await keys.type('C-112');
    await keys.press('Enter');
    await expect(verdict(page)).toContainText('Do not fill');
    await expect(verdict(page)).toContainText('49 CFR 180.205(c), law');
    await expect(pressure(page)).toBeFocused();
    await keys.type('4500');
    await keys.press('Enter');
    await expect(page.getByRole('alert')).toContainText('Enter logs it as what it was');
    const conditionOf = async () => (await host.ask(page, 'item.find', { number: 'C-112' }))[0]?.condition;
    expect(await conditionOf()).toBe('serviceable');
    await look(page, 'fills-warned');
    await keys.press('Enter');
    await expect(page.getByText('C-112 is logged: 4,500 psi. It is tagged out')).toBeVisible();
    expect(await conditionOf()).toBe('tagged out');
    // The newest stands first, and a void takes record and tag back.
    await keys.press('Escape');
    await expect(log(page).getByRole('row').nth(1)).toBeFocused();
    await expect(log(page).getByRole('row').nth(1)).toContainText('C-112');
    await keys.press('v');
    await expect(page.getByRole('dialog', { name: 'Void' })).toBeVisible();
    await keys.type('Another bottle was read');
    await keys.press('Enter');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await expect.poll(conditionOf).toBe('serviceable');
  });

  test('a bottle that is not ours asks for its owner and what its mark says, and is logged without a thing', async ({
    page,
    host,
  }) => {
    const keys = new Keys(page);
    await toFills(keys, page);
    await keys.type('CB-240');
    await keys.press('Enter');
    await expect(verdict(page)).toContainText('not one of ours');
    await keys.type('4500');
    await keys.press('Enter');
    await expect(page.getByRole('textbox', { name: 'Owner' })).toBeFocused();
    await keys.type('Cottonwood Basin Fire');
    await page.getByRole('textbox', { name: 'Hydro date on the bottle' }).focus();
    await keys.type('2/2025');
    await look(page, 'fills-foreign');
    await keys.press('Enter');
    await expect(page.getByText('CB-240 is logged: 4,500 psi.')).toBeVisible();
    const [line] = (await host.ask(page, 'fills.list', { text: 'CB-240' })).rows;
    expect(line).toMatchObject({ item: null, owner: 'Cottonwood Basin Fire', hydroDate: '2025-02' });
    expect(await host.ask(page, 'item.find', { number: 'CB-240' })).toEqual([]);
  });
});
