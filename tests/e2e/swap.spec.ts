/**
 * A length of hose swapped for a ready spare by keys alone, counted as a person would press them: 0.28 s a key for an
 * average typist (Card, Moran and Newell, The Keystroke-Level Model, 1980; from memory). Reading the screen is not in it.
 */
import type { Page } from '@playwright/test';
import { choose, formOpen, send } from './forms.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';

const SECONDS_A_KEY = 0.28;
const AT_MOST_S = 15;

function report(name: string, keys: Keys, began: number): void {
  const took_s = (Date.now() - began) / 1000;
  const person_s = keys.pressed * SECONDS_A_KEY;
  const said = `${name}: ${keys.pressed} keys, ${person_s.toFixed(1)} s of them at ${SECONDS_A_KEY} s each; the script took ${took_s.toFixed(1)} s`;
  test.info().annotations.push({ type: 'keyboard work', description: said });
  console.log(said);
  expect(person_s).toBeLessThan(AT_MOST_S);
}

/** The overdue length is off the rig, and a spare that was ready lies where it lay. */
async function isSwapped(page: Page, host: Host): Promise<void> {
  const [out] = await host.ask(page, 'item.find', { number: '31-107' });
  expect(out?.place).toBe('Station 31, hose rack');
  const { places } = await host.ask(page, 'rig.page', { rig: 'Engine 31' });
  const now = places.find(p => p.name === 'crosslay 2')?.items ?? [];
  expect(now).toHaveLength(4);
  expect(now.map(i => i.number)).not.toContain('31-107');
}

test('from the first screen through the rig, a length is swapped in under 15 seconds of keys', async ({
  page,
  host,
}) => {
  const keys = new Keys(page);
  await expect(page.getByRole('grid', { name: 'Units, the heaviest verdict first' })).toBeFocused();
  const began = Date.now();
  await keys.press('2');
  const rows = page.getByRole('grid', { name: 'Rigs' }).getByRole('row');
  await expect(rows.nth(1)).toBeFocused();
  const at = (await rows.allTextContents()).findIndex(row => row.startsWith('Engine 31'));
  for (let i = 1; i < at; i++) await keys.press('ArrowDown');
  await keys.press('Enter');
  await expect(page.getByRole('grid', { name: /^Places of/ })).toBeFocused();
  // The next place with something wrong, and in it the thing that is.
  await keys.press('n');
  await keys.press('ArrowDown');
  await keys.press('ArrowDown');
  await keys.press('x');
  await expect(
    page.getByRole('grid', { name: 'What it can be swapped with' }).getByRole('row').nth(1),
  ).toContainText('ready spare');
  // Out of the box that narrows them, onto the one to take first.
  await keys.press('ArrowDown');
  await keys.press('Enter');
  await expect(page.getByRole('dialog', { name: /^Swap 31-107 with 31-/ })).toBeVisible();
  await choose(keys, page, 'Signed by', 'whit');
  await send(keys, page);
  report('a hose swap through the rig', keys, began);
  await isSwapped(page, host);
});

test('from what blocks a unit, a length is swapped in under 15 seconds of keys', async ({ page, host }) => {
  const keys = new Keys(page);
  await expect(page.getByRole('grid', { name: 'Units, the heaviest verdict first' })).toBeFocused();
  const began = Date.now();
  await keys.press('Enter');
  await expect(page.getByRole('button', { name: 'Swap it in' })).toBeEnabled();
  await keys.press('s');
  await formOpen(page);
  await choose(keys, page, 'Signed by', 'whit');
  await send(keys, page);
  report('a hose swap from readiness', keys, began);
  await isSwapped(page, host);
});
