/** From a paper's content to the bytes of a PDF. */
import type { CustomTableLayout, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { Asking } from '../questions/types.ts';
import { FACES, readFont, runsOf } from './fonts.ts';
import { LAYOUTS } from './tables.ts';

type Printer = typeof import('pdfmake');

let printer: Promise<Printer> | undefined;

/** The printer, loaded with the first paper: whoever never prints does not wait for it. */
function loadPrinter(): Promise<Printer> {
  printer ??= import('pdfmake').then(module => {
    // A module in the older style: what it exports is its default.
    const made = ((module as unknown as { default?: Printer }).default ?? module) as Printer & {
      virtualfs: { writeFileSync(name: string, bytes: Buffer): void };
    };
    for (const { normal, bold } of Object.values(FACES))
      for (const file of [normal, bold]) made.virtualfs.writeFileSync(file, readFont(file));
    made.setFonts(Object.fromEntries(Object.entries(FACES).map(([family, face]) => [family, { ...face }])));
    // A paper holds what the department wrote: nothing in it is fetched or read.
    made.setUrlAccessPolicy(() => false);
    made.setLocalAccessPolicy(() => false);
    return made;
  });
  return printer;
}

/** Of the work on a paper, the part that is done when its pages are laid out. */
const LAID_OUT = 70;
const ALL = 100;

export interface Printed {
  bytes: Buffer;
  pages: number;
}

/**
 * Print a paper.
 * @param rows how many rows its tables hold together, for telling how far it has come
 * @throws Error `canceled` where the asker has canceled
 */
export async function print(
  definition: TDocumentDefinitions,
  rows: number,
  watch: Asking['watch'],
): Promise<Printed> {
  const pdfmake = await loadPrinter();
  let pages = 0;
  let told = -1;
  const tell = (percent: number) => {
    if (watch === undefined || percent <= told) return;
    told = percent;
    if (watch(percent, ALL) === 'stop') throw new Error('canceled');
  };
  const footer = definition.footer;
  if (typeof footer !== 'function') throw new TypeError('A paper has a footer that knows its page.');
  const made: TDocumentDefinitions = {
    ...definition,
    content: drawable(definition.content),
    footer: (page, count, size) => {
      pages = count;
      return drawable(footer(page, count, size));
    },
  };
  if (typeof definition.header === 'function') {
    const header = definition.header;
    made.header = (page, count, size) => drawable(header(page, count, size));
  }
  pdfmake.setTableLayouts(watchedLayouts(rows, share => tell(Math.floor(LAID_OUT * share))));
  pdfmake.setProgressCallback(share => tell(LAID_OUT + Math.floor((ALL - LAID_OUT) * share)));
  const bytes = await pdfmake.createPdf(made).getBuffer();
  return { bytes, pages };
}

/** The layouts of the tables; each asks for the room above a row as it comes to it, which says how far it is. */
function watchedLayouts(rows: number, tell: (share: number) => void): Record<string, CustomTableLayout> {
  let done = 0;
  return Object.fromEntries(
    Object.entries(LAYOUTS).map(([name, layout]) => [
      name,
      {
        ...layout,
        paddingTop: (row: number) => {
          done++;
          tell(Math.min(1, done / Math.max(1, rows)));
          return typeof layout.paddingTop === 'function'
            ? (layout.paddingTop as (n: number) => number)(row)
            : 2;
        },
      },
    ]),
  );
}

/** Content with every text parted by the faces that can draw it. */
function drawable<T>(content: T): T {
  if (typeof content === 'string') {
    const runs = runsOf(content);
    return (runs === null ? content : { text: runs.map(runOf) }) as T;
  }
  if (Array.isArray(content)) return content.map(drawable) as T;
  if (content === null || typeof content !== 'object') return content;
  const node = content as Record<string, unknown>;
  if (typeof node.text === 'string') {
    const runs = runsOf(node.text);
    if (runs !== null) return { ...node, text: runs.map(runOf) } as T;
    return content;
  }
  for (const key of HOLDS) if (node[key] !== undefined) node[key] = drawable(node[key]);
  return content;
}

const HOLDS = ['text', 'stack', 'columns', 'ul', 'ol', 'table', 'body'] as const;
const runOf = ({ text, font }: { text: string; font: string | null }) =>
  font === null ? { text } : { text, font };
