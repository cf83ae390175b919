/** The tokens held to WCAG 2.2: 1.4.3 (text 4.5 to 1) and 1.4.11 (marks and edges of fields 3 to 1). */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const css = readFileSync(join(import.meta.dirname, '../../renderer/design/tokens.css'), 'utf8');

/** The colors declared in the block of a scheme. */
function tokens(scheme: 'light' | 'dark'): Record<string, string> {
  const block =
    new RegExp(`:root\\[data-mantine-color-scheme="${scheme}"\\] \\{([^}]*)\\}`).exec(css)?.[1] ?? '';
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(m => [m[1] ?? '', m[2] ?? '']),
  );
}

/** Relative luminance as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map(i => Number.parseInt(hex.slice(i, i + 2), 16) / 255)
    .map(c => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

it('measures black on white as 21 to 1, as WCAG states', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
});

describe.each(['light', 'dark'] as const)('%s', scheme => {
  const color = tokens(scheme);
  const of = (name: string) => {
    const value = color[name];
    if (value === undefined) throw new Error(`${scheme} has no --${name}`);
    return value;
  };
  const grounds = ['paper', 'paper-over', 'paper-under', 'act-wash'];

  it.each(['ink', 'ink-soft', 'ink-faint', 'act', 'coming', 'late', 'stopped'])(
    '--%s is read on every ground',
    name => {
      for (const ground of grounds)
        expect(contrast(of(name), of(ground)), `--${name} on --${ground}`).toBeGreaterThanOrEqual(4.5);
    },
  );

  it('reads on what is filled with the color to act with, and on the rail', () => {
    expect(contrast(of('on-act'), of('act'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('on-act'), of('act-over'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('rail-ink'), of('rail'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('rail-faint'), of('rail'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ink'), of('late-wash'))).toBeGreaterThanOrEqual(4.5);
  });

  it('shows the edge of a field on the page and against its inside', () => {
    expect(contrast(of('edge'), of('paper'))).toBeGreaterThanOrEqual(3);
    expect(contrast(of('edge'), of('paper-over'))).toBeGreaterThanOrEqual(3);
  });
});
