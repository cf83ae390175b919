/** The table as it is printed. */
import type { Measured } from './measure.ts';

export interface Sized {
  things: number;
  measured: Measured[];
}

/** Every measure with ours, bare and ratio at each size, and how both grew from the smallest size to the largest. */
export function table(sizes: readonly Sized[]): string {
  const names = sizes[0]?.measured.map(m => m.name) ?? [];
  const head = ['', ...sizes.map(s => `${s.things.toLocaleString('en-US')} things`), 'growth'];
  const under = ['', ...sizes.map(() => 'ours / bare = ratio'), 'ours / bare'];
  const rows = names.map(name => {
    const at = sizes.map(s => s.measured.find(m => m.name === name));
    const [first, last] = [at[0], at.at(-1)];
    const grew = (of: 'ours' | 'bare') => (first && last ? `${figure(last[of] / first[of])}x` : '');
    return [
      `${name}, ${first?.unit}`,
      ...at.map(m => (m ? `${figure(m.ours)} / ${figure(m.bare)} = ${figure(m.ours / m.bare)}x` : '')),
      `${grew('ours')} / ${grew('bare')}`,
    ];
  });
  const lines = [head, under, ...rows];
  const widths = head.map((_, column) => Math.max(...lines.map(line => line[column]?.length ?? 0)));
  return lines
    .map(line =>
      line
        .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
        .join('  '),
    )
    .join('\n');
}

/** What the bare side of each measure does. */
export function legend(measured: readonly Measured[]): string {
  return measured.map(m => `  ${m.name}: ${m.bareIs}.`).join('\n');
}

/** Each aim at each size it is set for, and whether it is met. */
export function aims(sizes: readonly Sized[]): string {
  return sizes
    .flatMap(({ things, measured }) =>
      measured.flatMap(({ name, unit, ours, bare, aim }) => {
        if (!aim || (aim.at !== undefined && aim.at !== things)) return [];
        const [is, most, what] =
          aim.ratio === undefined
            ? [ours, aim.atMost ?? 0, ` ${unit}`]
            : [ours / bare, aim.ratio, ' times bare SQL'];
        const verdict = is <= most ? 'met' : 'NOT MET';
        return [
          `  ${verdict}: ${name} at ${things.toLocaleString('en-US')} things: ${figure(is)}${what}, aim at most ${most}.`,
        ];
      }),
    )
    .join('\n');
}

function figure(n: number): string {
  if (!Number.isFinite(n)) return '–';
  if (n >= 100) return n.toFixed(0);
  return n >= 10 ? n.toFixed(1) : n >= 1 ? n.toFixed(2) : n.toFixed(3);
}
