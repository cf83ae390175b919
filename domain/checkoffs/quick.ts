/**
 * Quick entry by code, for what is written on a paper sheet: `C4 m` is missing, `C4 s2` is two short, `B1 o 95` was
 * operated and read 95. What is not written is not said.
 */
import type { ExceptionKind } from './marks.ts';

/** The letter of each word. */
export const QUICK: Readonly<Record<string, ExceptionKind | 'works'>> = {
  m: 'missing',
  d: 'damaged',
  s: 'short',
  l: 'low',
  e: 'expired',
  x: 'wrong place',
  o: 'works',
};

export interface QuickWord {
  code: string;
  kind: ExceptionKind | 'works';
  /** How many are short; null where none is named. */
  count: number | null;
  /** What was read, a decimal as text. */
  reading: string | null;
  note: string | null;
}

const FORM = /^([a-z]{1,2}\d{1,3})\s*([mdslexo])\s*(\d+(?:\.\d+)?)?\s*(.*)$/i;

/**
 * Read one quick word.
 * @returns what was wrong and what to do where it cannot be read
 */
export function readQuick(text: string): QuickWord | { wrong: string; todo: string } {
  const found = FORM.exec(text.trim());
  const [, code = '', letter = '', figure, rest = ''] = found ?? [];
  const kind = QUICK[letter.toLowerCase()];
  if (!found || kind === undefined)
    return {
      wrong: `“${text.trim()}” is no code and letter.`,
      todo: 'Write the line’s code and what it is: C4 m missing, d damaged, s2 two short, l low, e expired, x wrong place, o works.',
    };
  const isCount = kind === 'short' || kind === 'missing';
  if (isCount && figure?.includes('.'))
    return { wrong: `${figure} is no whole number.`, todo: 'Say how many are lacking: C4 s2.' };
  if (kind === 'short' && figure === undefined)
    return { wrong: 'It does not say how many are short.', todo: 'Say how many are lacking: C4 s2.' };
  const note = rest.trim();
  return {
    code: code.toUpperCase(),
    kind,
    count: isCount && figure !== undefined ? Number(figure) : null,
    reading: !isCount && figure !== undefined ? figure : null,
    note: note === '' ? null : note,
  };
}
