/** A department of no things yet, begun by keys as its first member would. */
import { expect, type Page } from '@playwright/test';
import { Keys } from './keys.ts';

/** Fills in the first screen of an empty file and waits for the screens behind it. */
export async function beginEmpty(page: Page, keys = new Keys(page)): Promise<void> {
  for (const [label, said] of [
    ['Name of the department', 'Cedar Hollow Fire Company'],
    ['Your member number', '7'],
    ['Your name', 'A. Birch'],
  ] as const) {
    await page.getByLabel(label).focus();
    await keys.type(said);
  }
  await keys.press('Enter');
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeVisible();
}
