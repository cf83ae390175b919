/** Filling in a form by keys: Tab to a field by its label, letters into it, Enter for what is offered. */
import { expect, type Page } from '@playwright/test';
import type { Keys } from './keys.ts';

const form = (page: Page) => page.getByRole('dialog');

/** Tabs on to the field of this label. @throws Error where Tab does not come to it */
export async function toField(keys: Keys, page: Page, label: string): Promise<void> {
  const focused = () =>
    page.evaluate(() => {
      const { activeElement: at } = document;
      const labels = at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement ? at.labels : null;
      return labels?.[0]?.textContent ?? '';
    });
  for (let i = 0; i < 30; i++) {
    if ((await focused()) === label) return;
    await keys.press('Tab');
  }
  throw new Error(`Tab does not come to ${label}.`);
}

/** Types into the field of this label. */
export async function enter(keys: Keys, page: Page, label: string, said: string): Promise<void> {
  await toField(keys, page, label);
  await keys.type(said);
}

/** Chooses in the field of this label the first that fits what is typed. */
export async function choose(keys: Keys, page: Page, label: string, typed: string): Promise<void> {
  await enter(keys, page, label, typed);
  await expect(page.getByRole('listbox', { name: label }).getByRole('option').first()).toBeVisible();
  await keys.press('Enter');
}

/** Waits for the form that a key has opened. */
export async function formOpen(page: Page): Promise<void> {
  await expect(form(page)).toBeVisible();
}

/** Sends the form and waits until it is taken. */
export async function send(keys: Keys, page: Page): Promise<void> {
  await keys.press('Enter');
  await expect(form(page)).toHaveCount(0);
}
