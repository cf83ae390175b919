/**
 * A small reader of PDF files, written against ISO 32000-1:2008 and not against what makes ours: it finds every object
 * by the cross-reference table, and text by the font's own map to Unicode. It throws where the file breaks the clause
 * named beside the check.
 */
import { inflateSync } from 'node:zlib';

export interface PdfPage {
  /** `[0, 0, width, height]` in points. */
  mediaBox: number[];
  /** Pieces of text as they are set, with where each begins and how tall its type is, in points. */
  pieces: Piece[];
  /** Straight strokes, as `x1, y1, x2, y2` from the left and the top edge. */
  strokes: [number, number, number, number][];
  /** The pieces in one, those on a line one after another. */
  text: string;
}

export interface Piece {
  text: string;
  /** From the left edge and from the top edge. */
  x: number;
  y: number;
  size: number;
  /** The name of the face. */
  face: string;
}

export interface Pdf {
  version: string;
  objects: number;
  info: string;
  pages: PdfPage[];
  /** The pages' texts, one after another. */
  text: string;
}

interface Stored {
  dictionary: string;
  stream: Buffer | null;
}

export function readPdf(bytes: Buffer): Pdf {
  const whole = bytes.toString('latin1');
  // 7.5.2: the first line is the header.
  const version = /^%PDF-(1\.[0-7])\r?\n/.exec(whole)?.[1];
  if (version === undefined) throw new Error('7.5.2: there is no header.');
  // 7.5.5: startxref, the offset of the last cross-reference section, and %%EOF end the file.
  const end = /trailer\s*<<([\s\S]*?)>>\s*startxref\s+(\d+)\s+%%EOF\s*$/.exec(whole);
  if (!end) throw new Error('7.5.5: there is no trailer.');
  const trailer = end[1] ?? '';
  const objects = readTable(whole, Number(end[2]));
  if (Number(/\/Size (\d+)/.exec(trailer)?.[1]) !== objects.size + 1)
    throw new Error('7.5.5: Size is not one more than the highest object.');
  const get = (number: number): Stored => readObject(bytes, whole, objects, number);
  const root = get(reference(trailer, 'Root'));
  // 7.7.2 and 7.7.3: the catalog names the tree of pages; Count is how many it holds.
  if (!/\/Type \/Catalog/.test(root.dictionary)) throw new Error('7.7.2: the root is no catalog.');
  const tree = get(reference(root.dictionary, 'Pages')).dictionary;
  const kids = references(/\/Kids \[([^\]]*)\]/.exec(tree)?.[1] ?? '');
  if (Number(/\/Count (\d+)/.exec(tree)?.[1]) !== kids.length)
    throw new Error('7.7.3.2: Count is not the number of pages.');
  const pages = kids.map(kid => readPage(get, get(kid).dictionary));
  return {
    version,
    objects: objects.size,
    info: get(reference(trailer, 'Info')).dictionary,
    pages,
    text: pages.map(p => p.text).join('\n'),
  };
}

/** 7.5.4: a section of entries of twenty bytes each, the first of them the head of the free ones. */
function readTable(whole: string, at: number): Map<number, number> {
  const head = /^xref\r?\n0 (\d+)\r?\n/.exec(whole.slice(at, at + 40));
  if (!head) throw new Error('7.5.4: startxref does not lead to a cross-reference section.');
  const from = at + head[0].length;
  const objects = new Map<number, number>();
  for (let n = 0; n < Number(head[1]); n++) {
    const entry = whole.slice(from + 20 * n, from + 20 * n + 20);
    const told = /^(\d{10}) (\d{5}) ([nf])(?: \r| \n|\r\n)$/.exec(entry);
    if (!told) throw new Error(`7.5.4: entry ${n} is not twenty bytes as they are written there: ${entry}`);
    if (n === 0 && (told[2] !== '65535' || told[3] !== 'f'))
      throw new Error('7.5.4: object 0 is not the head of the free ones.');
    if (told[3] === 'n') objects.set(n, Number(told[1]));
  }
  return objects;
}

/** 7.3.10 and 7.3.8: an indirect object where the table says it is, and its stream as long as it says. */
function readObject(bytes: Buffer, whole: string, objects: Map<number, number>, number: number): Stored {
  const at = objects.get(number);
  if (at === undefined) throw new Error(`7.3.10: there is no object ${number}.`);
  if (!whole.startsWith(`${number} 0 obj`, at))
    throw new Error(`7.5.4: object ${number} is not where the table says.`);
  const close = whole.indexOf('endobj', at);
  const streamAt = whole.indexOf('stream\n', at);
  if (streamAt < 0 || streamAt > close)
    return { dictionary: whole.slice(at + `${number} 0 obj`.length, close), stream: null };
  const dictionary = whole.slice(at + `${number} 0 obj`.length, streamAt);
  const length = Number(/\/Length (\d+)/.exec(dictionary)?.[1]);
  const from = streamAt + 'stream\n'.length;
  if (
    !whole
      .slice(from + length)
      .trimStart()
      .startsWith('endstream')
  )
    throw new Error(`7.3.8.1: the stream of object ${number} is not as long as it says.`);
  const raw = bytes.subarray(from, from + length);
  // 7.4.4: the one filter that is used here.
  return { dictionary, stream: /\/Filter \/FlateDecode/.test(dictionary) ? inflateSync(raw) : raw };
}

const references = (text: string) => [...text.matchAll(/(\d+) 0 R/g)].map(m => Number(m[1]));

function reference(dictionary: string, key: string): number {
  const number = new RegExp(`/${key} (\\d+) 0 R`).exec(dictionary)?.[1];
  if (number === undefined) throw new Error(`There is no ${key} in ${dictionary}.`);
  return Number(number);
}

interface Face {
  name: string;
  toUnicode: Map<number, string>;
}

function readPage(get: (number: number) => Stored, page: string): PdfPage {
  const mediaBox = (/\/MediaBox \[([^\]]*)\]/.exec(page)?.[1] ?? '').trim().split(/\s+/).map(Number);
  const resources = get(reference(page, 'Resources')).dictionary;
  const fonts = /\/Font <<([\s\S]*?)>>/.exec(resources)?.[1] ?? '';
  const faces = new Map<string, Face>();
  for (const [, name = '', number] of fonts.matchAll(/\/(\w+) (\d+) 0 R/g))
    faces.set(name, readFace(get, get(Number(number)).dictionary));
  const content = references(/\/Contents (\[[^\]]*\]|\d+ 0 R)/.exec(page)?.[1] ?? '')
    .map(n => get(n).stream?.toString('latin1') ?? '')
    .join('\n');
  const { pieces, strokes } = readPieces(content, faces, mediaBox[3] ?? 0);
  return { mediaBox, pieces, strokes, text: textOf(pieces) };
}

/** 9.10.3: the map of a face from its codes to Unicode. */
function readFace(get: (number: number) => Stored, font: string): Face {
  const toUnicode = new Map<number, string>();
  const map = get(reference(font, 'ToUnicode')).stream?.toString('latin1') ?? '';
  for (const [, from = '', , list = ''] of map.matchAll(/<(\w+)> <(\w+)> \[([^\]]*)\]/g))
    [...list.matchAll(/<([^>]*)>/g)].forEach(([, hex = ''], i) => {
      const units = hex.match(/[0-9a-f]{4}/gi) ?? [];
      toUnicode.set(
        Number.parseInt(from, 16) + i,
        String.fromCharCode(...units.map(u => Number.parseInt(u, 16))),
      );
    });
  return { name: /\/BaseFont \/(?:\w+\+)?(\S+)/.exec(font)?.[1] ?? '', toUnicode };
}

/** 9.4: text objects, with what moves them (8.3.4): `q`, `Q`, `cm`, `Tf`, `Tm`, `Td`, `Tj`, `TJ`; and 8.5.2, `m` and `l`. */
function readPieces(
  content: string,
  faces: ReadonlyMap<string, Face>,
  height: number,
): Pick<PdfPage, 'pieces' | 'strokes'> {
  const pieces: Piece[] = [];
  const strokes: PdfPage['strokes'] = [];
  let pen: [number, number] = [0, 0];
  type Matrix = [number, number, number, number, number, number];
  const times = (m: Matrix, n: Matrix): Matrix => [
    m[0] * n[0] + m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[2] * n[1] + m[3] * n[3],
    m[4] * n[0] + m[5] * n[2] + n[4],
    m[4] * n[1] + m[5] * n[3] + n[5],
  ];
  let ground: Matrix = [1, 0, 0, 1, 0, 0];
  const kept: Matrix[] = [];
  let line: Matrix = [1, 0, 0, 1, 0, 0];
  let face: Face | undefined;
  let size = 0;
  let operands: string[] = [];
  for (const [token] of content.matchAll(/\[[^\]]*\]|<[0-9a-fA-F]*>|\/[^\s/[\]<>]+|[^\s[\]<>/]+/g)) {
    const numbers = () => operands.slice(-6).map(Number) as Matrix;
    if (/^[[</\-+.\d]/.test(token)) {
      operands.push(token);
      continue;
    }
    if (token === 'q') kept.push(ground);
    else if (token === 'Q') ground = kept.pop() ?? ground;
    else if (token === 'cm') ground = times(numbers(), ground);
    else if (token === 'm' || token === 'l') {
      const [x = 0, y = 0] = operands.slice(-2).map(Number);
      const [, , , , px, py] = times([1, 0, 0, 1, x, y], ground);
      if (token === 'l') strokes.push([...pen, px, height - py]);
      pen = [px, height - py];
    } else if (token === 're') {
      // 8.5.2: a bar as thin as a stroke is one.
      const [x = 0, y = 0, w = 0, h = 0] = operands.slice(-4).map(Number);
      const [, , , , px, py] = times([1, 0, 0, 1, x, y], ground);
      if (Math.abs(h) < 2) strokes.push([px, height - py, px + w, height - py]);
    } else if (token === 'BT') line = [1, 0, 0, 1, 0, 0];
    else if (token === 'Tm') line = numbers();
    else if (token === 'Td') {
      const [x = 0, y = 0] = operands.slice(-2).map(Number);
      line = times([1, 0, 0, 1, x, y], line);
    } else if (token === 'Tf') {
      face = faces.get((operands.at(-2) ?? '').slice(1));
      size = Number(operands.at(-1));
    } else if (token === 'Tj' || token === 'TJ') {
      const codes = [...(operands.at(-1) ?? '').matchAll(/<([0-9a-fA-F]*)>/g)].flatMap(
        ([, hex = '']) => hex.match(/.{4}/g) ?? [],
      );
      const text = codes.map(c => face?.toUnicode.get(Number.parseInt(c, 16)) ?? '\ufffd').join('');
      const at = times(line, ground);
      const tall = Math.abs(size * at[3]);
      pieces.push({ text, x: at[4], y: height - at[5], size: tall, face: face?.name ?? '' });
    }
    operands = [];
  }
  return { pieces, strokes };
}

/** Whether a piece goes on where the one before it ends, as far as the number of its letters tells. */
function follows(before: Piece, piece: Piece): boolean {
  if (Math.abs(piece.y - before.y) >= 1) return false;
  return piece.x > before.x && piece.x - before.x < before.text.length * before.size * 0.75 + 3;
}

function textOf(pieces: readonly Piece[]): string {
  let text = '';
  let before: Piece | null = null;
  for (const piece of pieces) {
    if (before) text += follows(before, piece) ? '' : ' ';
    text += piece.text;
    before = piece;
  }
  return text.replace(/\s+/g, ' ').trim();
}
