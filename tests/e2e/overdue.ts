import { expect, type Page } from '@playwright/test';
import type { Keys } from './keys.ts';

/** On Coming due: filters by keys to the overdue hose of Engine 31, and leaves the filter for the table. */
export async function filterToOverdueHose(keys: Keys, page: Page): Promise<void> {
  await keys.press('f');
  for (const [typed, said] of [
    ['e31', 'Engine 31'],
    ['overd', 'what is overdue'],
    ['hose', 'hose'],
  ] as const) {
    await keys.type(typed);
    await expect(page.getByRole('option').first()).toBeVisible();
    await keys.press('Enter');
    await expect(page.getByRole('combobox', { name: `: ${said}` })).toBeVisible();
  }
  await keys.press('Enter');
}
