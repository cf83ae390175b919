/** How many of a line are lacking, by what is known. */
import type { ExceptionKind } from '../checkoffs/marks.ts';
import type { Condition } from '../facts.ts';
import type { Carried, Filled } from './match.ts';
import type { CarryLine } from './types.ts';

/** Whether a thing in this condition serves on a rig. What owes a retest never does (common practice, no source). */
export function serves(condition: Condition): boolean {
  return condition === 'serviceable' || condition === 'limited use';
}

/** An open defect as a counted line sees it. */
export interface OpenShortage {
  kind: ExceptionKind;
  short: number | null;
}

/**
 * How many of a line are lacking of its quantity: of a tracked line by the things that serve, of a counted one by
 * what was found missing or short and not settled. Of a counted line that is missing without a number all are.
 * @param serving how many tracked things serve; null where the line is only counted
 */
export function lackingOf(
  line: Pick<CarryLine, 'qty'>,
  serving: number | null,
  open: readonly OpenShortage[],
): number {
  if (serving !== null) return Math.max(0, line.qty - serving);
  const short = open.map(o => {
    if (o.kind === 'missing') return o.short ?? line.qty;
    return o.kind === 'extra' || o.kind === 'wrong place' ? 0 : (o.short ?? 0);
  });
  return Math.min(line.qty, Math.max(0, ...short));
}

/** How many tracked things on the rig serve for their line; null where the line is only counted. */
export function servingOf({ line, here, elsewhere }: Filled<Carried>): number | null {
  return line.family === null
    ? null
    : [...here, ...elsewhere].filter(t => serves(t.condition) && t.isUnready !== true).length;
}

/** How many more of a line would make it serve: those under its least; 0 where the least is there. */
export function toServe(line: Pick<CarryLine, 'qty' | 'min'>, lacking: number): number {
  return Math.max(0, line.min - (line.qty - lacking));
}

/** The code of a line on paper and in quick typing: the letter of its place and its number there. */
export function codesOf(lines: readonly Pick<CarryLine, 'line' | 'place'>[]): {
  letters: ReadonlyMap<string, string>;
  codes: ReadonlyMap<string, string>;
} {
  const letters = new Map<string, string>();
  const counts = new Map<string, number>();
  const codes = new Map<string, string>();
  for (const { line, place } of lines) {
    const key = place.toLowerCase();
    const letter = letters.get(key) ?? letterOf(letters.size);
    letters.set(key, letter);
    const n = (counts.get(key) ?? 0) + 1;
    counts.set(key, n);
    codes.set(line, `${letter}${n}`);
  }
  return { letters, codes };
}

/** A, B … Z, AA, AB …, without I and O, which are read as figures. */
function letterOf(index: number): string {
  const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';
  const rest = Math.floor(index / letters.length);
  return `${rest === 0 ? '' : letterOf(rest - 1)}${letters[index % letters.length]}`;
}
