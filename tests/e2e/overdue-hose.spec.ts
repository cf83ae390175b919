/** The main job by keys alone: find what is overdue, see why, record its test, see it current. */
import { expect, shot, test } from './host.ts';
import { Keys } from './keys.ts';
import { filterToOverdueHose } from './overdue.ts';

test('from a fresh start, the overdue hose of Engine 31 is found, explained, tested and current within 40 keys', async ({
  page,
}) => {
  const keys = new Keys(page);
  const table = page.getByRole('grid', { name: 'Coming due' });
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
  await keys.press('4');
  await expect(table.getByRole('row').nth(5)).toBeVisible();

  await filterToOverdueHose(keys, page);
  await expect(table.getByText('31-107')).toBeVisible();
  await expect(table.getByText('Overdue')).toBeVisible();

  await keys.press('Enter');
  const panel = page.getByRole('complementary');
  await expect(
    panel.getByText(/Hose 31-107 is overdue for its service test: it was due 13 Jun 2026/),
  ).toBeVisible();
  // NFPA 1962 (2018) 4.8, as the rule book cites it.
  await expect(panel.getByText(/by NFPA 1962 \(4\.8/)).toBeVisible();
  await shot(page, 'overdue-hose-why');

  await keys.press('r');
  await expect(page.getByRole('dialog').getByText('Before you start')).toBeVisible();
  await keys.type('okafor');
  await expect(page.getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
  await keys.press('Enter');
  await expect(panel.getByText(/is current for its service test until 25 Nov 2027/)).toBeVisible();
  await shot(page, 'overdue-hose-current');

  expect(keys.pressed).toBeLessThanOrEqual(40);
  test.info().annotations.push({ type: 'keys pressed', description: String(keys.pressed) });
});
