/** Pictures of a screen for review, light and dark, at both sizes; nothing cut off at the side, and axe finds nothing. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, shot } from './host.ts';

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
];

export async function picture(page: Page, name: string): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const size of SIZES) {
      await page.setViewportSize(size);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
      await shot(page, `${name}-${colorScheme}-${size.width}`);
    }
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(v => `${v.id}: ${v.nodes.map(n => n.html).join(' ')}`)).toEqual([]);
  }
}
