/** Help by keys alone, from every screen, and pictures of it. */
import { expect, test } from './host.ts';
import { look } from './look.ts';

test('F1 opens the page of where one is, from every screen, and Esc gives the focus back', async ({
  page,
  host,
}) => {
  const [hose] = await host.ask(page, 'item.find', { number: '31-107' });
  const dialog = page.getByRole('dialog');
  for (const [address, title] of [
    ['/readiness', 'Readiness'],
    ['/rigs', 'Rigs'],
    ['/due', 'Coming due'],
    [`/thing/${hose?.item}`, 'One thing'],
    [`/thing/${hose?.item}?duty=hose.service-test`, 'Hose: service test, not occupant use or hard suction'],
    ['/import', 'Import'],
    ['/rules', 'Rule book'],
    ['/rules?rule=pack.flow-test', 'SCBA pack: flow test'],
    ['/department', 'Department'],
  ] as const) {
    await page.goto(`${host.origin}/#${address}`);
    await expect(page.getByRole('heading').first()).toBeVisible();
    await page.keyboard.press('F1');
    await expect(dialog.getByRole('article', { name: title, exact: true })).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(dialog).toBeHidden();
  }
});

test('help is searched, read and left for the screen it tells of, by keys', async ({ page, host }) => {
  await page.goto(`${host.origin}/#/rules`);
  const list = page.getByRole('grid', { name: 'Requirements' });
  await expect(list).toBeFocused();
  await page.keyboard.press('F1');
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByRole('combobox', { name: 'Search help' })).toBeFocused();
  await look(page, 'help-rules');
  await page.keyboard.type('star mark');
  await expect(dialog.getByRole('article', { name: 'Cylinder: requalification' })).toBeVisible();
  await expect(
    dialog.getByRole('article').getByText('3A (star mark), 3AA (star mark), 8, 8AL, UN seamless.'),
  ).toBeInViewport();
  await look(page, 'help-found');
  await page.keyboard.press('Escape');
  await expect(list).toBeFocused();

  await page.keyboard.press('F1');
  await expect(dialog.getByRole('combobox', { name: 'Search help' })).toBeFocused();
  await page.keyboard.type('crack');
  await expect(dialog.getByRole('article', { name: /Crack check/i })).toBeVisible();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(dialog).toBeHidden();
  await expect(page.getByRole('complementary', { name: 'The requirement' })).toBeVisible();
});

test('the words, and how the evidence is kept', async ({ page }) => {
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await page.keyboard.press('F1');
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByRole('combobox', { name: 'Search help' })).toBeFocused();
  await page.keyboard.type('words we');
  await expect(dialog.getByRole('article', { name: 'Words we use' })).toBeVisible();
  await look(page, 'help-words');
});
