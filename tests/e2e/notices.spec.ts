/** A recall by keys alone: entered with its serials, its holders seen, settled one by one, closed when nothing is open. */
import type { Page } from '@playwright/test';
import { beginEmpty } from './begin.ts';
import { choose, enter, formOpen, send } from './forms.ts';
import { expect, type Host, test } from './host.ts';
import { Keys } from './keys.ts';
import { look } from './look.ts';

const concerned = (page: Page) => page.getByRole('grid', { name: 'What it concerns' });

async function toNotices(keys: Keys, page: Page): Promise<void> {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('5');
  await expect(
    page
      .getByRole('grid', { name: /^Open chains/ })
      .getByRole('row')
      .nth(1),
  ).toBeFocused();
  await keys.press('n');
  await expect(
    page.getByRole('heading', { name: 'What has been recalled, and is any of it in use?' }),
  ).toBeVisible();
}

/** The row of a thing or a serial under the cursor. */
async function toRow(keys: Keys, page: Page, name: string): Promise<void> {
  const rows = concerned(page).getByRole('row');
  await expect(concerned(page).locator('tbody tr:focus')).toHaveCount(1);
  const texts = await rows.allTextContents();
  const focused = await concerned(page).locator('tbody tr:focus').textContent();
  const [from, to] = [texts.indexOf(focused ?? ''), texts.findIndex(row => row.includes(name))];
  expect(to, name).toBeGreaterThan(0);
  for (let i = from; i < to; i++) await keys.press('ArrowDown');
  for (let i = from; i > to; i--) await keys.press('ArrowUp');
  await expect(rows.nth(to)).toBeFocused();
}

async function settle(keys: Keys, page: Page, name: string, how: string, note?: string): Promise<void> {
  await toRow(keys, page, name);
  await keys.press('s');
  await formOpen(page);
  await choose(keys, page, 'How it is settled', how);
  if (note !== undefined) await enter(keys, page, 'Note', note);
  await send(keys, page);
}

const conditionOf = async (page: Page, host: Host, number: string) =>
  (await host.ask(page, 'item.find', { number }))[0]?.condition;

test('a recall by serials is entered, everything it names is found and settled, and only then it closes', async ({
  page,
  host,
}) => {
  test.slow();
  const keys = new Keys(page);
  await toNotices(keys, page);
  await look(page, 'notices');
  await keys.press('n');
  await formOpen(page);
  await enter(keys, page, 'What is wrong, in a few words', 'Blade bolt may shear');
  await choose(keys, page, 'Family', 'rescue');
  await enter(keys, page, 'Serial from', 'CUT70213');
  await enter(keys, page, 'Serial to', 'CUT72000');
  await enter(keys, page, 'Issued by', 'Maker C');
  await enter(keys, page, 'What is to be done', 'Take out of use and send the tool in.');
  await choose(keys, page, 'Signed by', 'quist');
  await look(page, 'notice-entering');
  await send(keys, page);

  // Who has them: the two within the range, with the unit they ride on; the others are not meant.
  await expect(page.getByRole('heading', { level: 1, name: 'Blade bolt may shear' })).toBeVisible();
  const rows = concerned(page).getByRole('row');
  await expect(rows).toHaveCount(3);
  await expect(concerned(page).getByText('CUT-3', { exact: true })).toBeVisible();
  await expect(concerned(page).getByText('CUT-1', { exact: true })).toBeVisible();
  await expect(concerned(page)).not.toContainText('CUT-2');
  await expect(page.getByText('2 in use')).toBeVisible();
  await look(page, 'notice');

  // All that is in use goes out of service in one act.
  await keys.press('t');
  await formOpen(page);
  await expect(page.getByRole('dialog')).toContainText(/CUT-(3, CUT-1|1, CUT-3)\. All of it is one act\./);
  await send(keys, page);
  expect(await conditionOf(page, host, 'CUT-3')).toBe('tagged out');
  expect(await conditionOf(page, host, 'CUT-1')).toBe('tagged out');

  // One that the maker says was shipped here and that nobody has.
  await keys.press('e');
  await formOpen(page);
  await enter(keys, page, 'Serial', 'CUT71000');
  await enter(keys, page, 'Note', 'On the list of what was shipped to us');
  await send(keys, page);
  await expect(concerned(page).getByText('CUT71000')).toBeVisible();

  // It does not close while something is open, and says how much.
  await keys.press('c');
  await expect(page.getByText('3 to settle before it can be closed.')).toBeVisible();
  await settle(keys, page, 'CUT-3', 'returned');
  await settle(keys, page, 'CUT-1', 'replaced');
  await expect(page.getByText('1 to settle', { exact: true })).toBeVisible();
  await keys.press('c');
  await expect(page.getByText('1 to settle before it can be closed.')).toBeVisible();

  // Nobody has to be believed that it is not here: where it was looked for is asked.
  await toRow(keys, page, 'CUT71000');
  await keys.press('s');
  await formOpen(page);
  await choose(keys, page, 'How it is settled', 'cannot');
  await keys.press('Enter');
  await expect(page.getByRole('dialog').getByRole('alert')).toContainText('Note is empty.');
  await look(page, 'notice-settling');
  await enter(keys, page, 'Note', 'All stations and the storeroom searched; never received by the records.');
  await send(keys, page);

  await keys.press('c');
  await formOpen(page);
  await expect(page.getByRole('dialog')).toContainText('of which 1 cannot be found');
  await enter(keys, page, 'How it ended', 'One is back with the maker, one replaced, one was never here.');
  await send(keys, page);
  await expect(page.getByRole('complementary')).toContainText('never here');
  await look(page, 'notice-closed');

  const { rows: notices } = await host.ask(page, 'notices.list', {});
  expect(notices.find(n => n.title === 'Blade bolt may shear')).toMatchObject({
    concerned: 2,
    inUse: 0,
    open: 0,
    closed: { on: '2026-11-25', byName: 'M. Quist' },
  });
});

test('serials that bound nothing are refused in words, beside the field', async ({ page }) => {
  const keys = new Keys(page);
  await toNotices(keys, page);
  await keys.press('n');
  await formOpen(page);
  await enter(keys, page, 'What is wrong, in a few words', 'Blade bolt may shear');
  await choose(keys, page, 'Family', 'rescue');
  await enter(keys, page, 'Serial from', 'CUT72000');
  await enter(keys, page, 'Serial to', 'CUT70213');
  await enter(keys, page, 'Issued by', 'Maker C');
  await enter(keys, page, 'What is to be done', 'Take out of use.');
  await choose(keys, page, 'Signed by', 'quist');
  await keys.press('Enter');
  await expect(page.getByRole('dialog').getByRole('alert')).toContainText(
    'CUT72000 is after CUT70213. Give the lower one first.',
  );
  // The focus is where it can be mended.
  await expect(page.getByRole('textbox', { name: 'Serial from' })).toBeFocused();
});

test.describe('with an empty file', () => {
  test.use({ startWith: 'empty' });

  test('it says what a notice is for', async ({ page }) => {
    const keys = new Keys(page);
    await beginEmpty(page, keys);
    await keys.press('5');
    await expect(page.getByText(/Nothing is out of service/)).toBeVisible();
    await keys.press('n');
    await expect(page.getByText(/No notice has been entered/)).toBeVisible();
    await look(page, 'notices-empty');
  });
});
