/** The faces of the papers: those of the screens, read from beside the bundle or from the package they come in. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

/** Each face's file and the package that holds it. The bundler copies the same list beside the hosts. */
export const FONT_FILES = {
  'barlow-latin-400-normal.woff': '@fontsource/barlow/files/',
  'barlow-latin-600-normal.woff': '@fontsource/barlow/files/',
  'barlow-semi-condensed-latin-400-normal.woff': '@fontsource/barlow-semi-condensed/files/',
  'barlow-semi-condensed-latin-600-normal.woff': '@fontsource/barlow-semi-condensed/files/',
  'barlow-semi-condensed-latin-ext-400-normal.woff': '@fontsource/barlow-semi-condensed/files/',
  'barlow-semi-condensed-latin-ext-600-normal.woff': '@fontsource/barlow-semi-condensed/files/',
  'ibm-plex-mono-latin-400-normal.woff': '@fontsource/ibm-plex-mono/files/',
  'ibm-plex-mono-latin-600-normal.woff': '@fontsource/ibm-plex-mono/files/',
  // What neither of them draws: ≥ and ≤, names in Greek or Cyrillic letters.
  'Roboto-Regular.ttf': 'pdfmake/fonts/Roboto/',
} as const;

export type FontFile = keyof typeof FONT_FILES;

/** A family and its two weights, by file. */
export const FACES: Readonly<Record<string, { normal: FontFile; bold: FontFile }>> = {
  Text: { normal: 'barlow-latin-400-normal.woff', bold: 'barlow-latin-600-normal.woff' },
  Narrow: {
    normal: 'barlow-semi-condensed-latin-400-normal.woff',
    bold: 'barlow-semi-condensed-latin-600-normal.woff',
  },
  Mono: { normal: 'ibm-plex-mono-latin-400-normal.woff', bold: 'ibm-plex-mono-latin-600-normal.woff' },
  Accented: {
    normal: 'barlow-semi-condensed-latin-ext-400-normal.woff',
    bold: 'barlow-semi-condensed-latin-ext-600-normal.woff',
  },
  Other: { normal: 'Roboto-Regular.ttf', bold: 'Roboto-Regular.ttf' },
};

/** Where a face lies: beside the bundle where there is one, else in its package. */
export function fontPath(file: FontFile): string {
  const beside = fileURLToPath(new URL(`./fonts/${file}`, import.meta.url));
  return existsSync(beside) ? beside : createRequire(import.meta.url).resolve(FONT_FILES[file] + file);
}

export const readFont = (file: FontFile): Buffer => readFileSync(fontPath(file));

/** Characters that every Latin face here draws. */
const LATIN =
  '\\u0000-\\u007e\\u00a0-\\u00ff\\u0131\\u0152\\u0153\\u2013\\u2014\\u2018-\\u201a\\u201c-\\u201e\\u2022\\u2026\\u2039\\u203a\\u20ac\\u2122\\u2212';
/** Characters that the extended Latin face draws. */
const ACCENTED =
  '\\u0100-\\u0113\\u0116-\\u012b\\u012d-\\u0130\\u0134-\\u0137\\u0139-\\u013e\\u0140-\\u0148\\u014a-\\u014d\\u014f-\\u0151\\u0154-\\u017e\\u0218-\\u021b';
const BEYOND = new RegExp(`[^${LATIN}]`);
const RUNS = new RegExp(`[${LATIN}]+|[${ACCENTED}]+|[^${LATIN}${ACCENTED}]+`, 'g');
const IS_ACCENTED = new RegExp(`^[${ACCENTED}]`);

/** A piece of text and the family that draws it; null: whichever the text around it has. */
export interface Run {
  text: string;
  font: 'Accented' | 'Other' | null;
}

/** A text parted by the faces that can draw it; null where its own face draws all of it, as nearly always. */
export function runsOf(text: string): Run[] | null {
  if (!BEYOND.test(text)) return null;
  return (text.match(RUNS) ?? []).map(run => ({
    text: run,
    font: !BEYOND.test(run) ? null : IS_ACCENTED.test(run) ? 'Accented' : 'Other',
  }));
}
