/** A screen looked at: light and dark, both sizes, nothing cut off, no fault that axe can find; pictures are kept. */
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';
import { shot } from './host.ts';

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
];

export async function look(page: Page, name: string): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const size of SIZES) {
      await page.setViewportSize(size);
      // A table that measures itself is drawn anew a frame after the window has its size.
      await expect.poll(() => page.evaluate(cutOff)).toEqual([]);
      await shot(page, `${name}-${colorScheme}-${size.width}`);
    }
    // Everything is looked for in light; what dark can change is the contrast alone.
    const axe = new AxeBuilder({ page });
    if (colorScheme === 'dark') axe.withRules(['color-contrast']);
    const { violations } = await axe.analyze();
    expect(violations.map(v => `${v.id}: ${v.nodes.map(n => n.html).join(' ')}`)).toEqual([]);
  }
}

/** Boxes that hold more than they show from side to side, and the window itself. */
function cutOff(): string[] {
  return [document.documentElement, ...document.querySelectorAll('main div, main aside')]
    .filter(box => box === document.documentElement || getComputedStyle(box).overflowX === 'auto')
    .filter(box => box.scrollWidth > box.clientWidth)
    .map(box => `${box.className}: ${box.scrollWidth} in ${box.clientWidth}`);
}
