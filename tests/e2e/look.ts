/**
 * A screen looked at: both sizes, nothing cut off, no fault that axe can find. `npm run looks` lets axe look at every
 * one in light and dark, and keeps pictures of all; `npm test` takes a third of them, and of these the dark of half.
 */
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';
import { shot } from './host.ts';

const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
];

const ALL = process.env.LOOKS === 'all';

export async function look(page: Page, name: string): Promise<void> {
  // Which screens axe looks at hangs on their names alone: the same in every run.
  const letters = [...name].reduce((sum, letter) => sum + letter.charCodeAt(0), 0);
  await inScheme(page, name, 'light', ALL || letters % 3 === 0);
  if (ALL || letters % 6 === 0) await inScheme(page, name, 'dark', true);
}

async function inScheme(
  page: Page,
  name: string,
  colorScheme: 'light' | 'dark',
  withAxe: boolean,
): Promise<void> {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  for (const size of SIZES) {
    // A scheme moves nothing: what is cut off in light is cut off in dark.
    if (colorScheme === 'dark' && !ALL) break;
    await page.setViewportSize(size);
    // A table that measures itself is drawn anew a frame after the window has its size.
    await expect.poll(() => page.evaluate(cutOff)).toEqual([]);
    if (ALL) await shot(page, `${name}-${colorScheme}-${size.width}`);
  }
  if (!withAxe) return;
  // Everything is looked for in light; what dark can change is the contrast alone.
  const axe = new AxeBuilder({ page });
  if (colorScheme === 'dark') axe.withRules(['color-contrast']);
  const { violations } = await axe.analyze();
  expect(violations.map(v => `${v.id}: ${v.nodes.map(n => n.html).join(' ')}`)).toEqual([]);
}

/** Boxes that hold more than they show from side to side, and the window itself. */
function cutOff(): string[] {
  return [document.documentElement, ...document.querySelectorAll('main div, main aside')]
    .filter(box => box === document.documentElement || getComputedStyle(box).overflowX === 'auto')
    .filter(box => box.scrollWidth > box.clientWidth)
    .map(box => `${box.className}: ${box.scrollWidth} in ${box.clientWidth}`);
}
