/** The frame of every page: for whom and for when above; page, printing and the ledger's head below. */
import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { DepartmentSummary, LedgerHead } from '../api.ts';
import { brief, counted, momentText, weekdayText } from './dates.ts';
import { textLength } from './tables.ts';

/** What a paper is, before it is framed. */
export interface Sheet {
  /** `Morning page`. */
  name: string;
  /** What it is about, `Station 31`; null where its name says all. */
  about: string | null;
  /** The day it is for, `YYYY-MM-DD`. */
  on: string;
  orientation: 'portrait' | 'landscape';
  content: Content[];
  /** The same with more room to write, taken where that needs no further page. */
  roomier?: () => Content[];
  /** How many rows its tables hold together. */
  rows: number;
}

export interface Printing {
  department: DepartmentSummary;
  /** UTC milliseconds. */
  at: number;
  /** The name of whoever prints it, or null where nobody said. */
  by: string | null;
  ledger: { entries: number; devices: LedgerHead[] };
}

export const SIDE_PT = 38;
const TOP_PT = 54;
const BOTTOM_PT = 54;
/** The smallest type on any paper, in points. */
export const SMALLEST_PT = 10;
/** Heads that stand in the footer; a department with more devices finds them all at the end of the paper. */
const HEADS_IN_FOOTER = 2;
const HASH_SHOWN = 16;
/** Longer names would push the day off the line. */
const NAME_SHOWN = 48;

export const nameOf = ({ name, about }: Sheet): string => (about === null ? name : `${name}, ${about}`);

/** A US letter page: 8½ by 11 in, which is 612 by 792 pt. */
export function framed(sheet: Sheet, printing: Printing): TDocumentDefinitions {
  const { department, ledger } = printing;
  const width = (sheet.orientation === 'portrait' ? 612 : 792) - 2 * SIDE_PT;
  return {
    version: '1.7',
    pageSize: 'LETTER',
    pageOrientation: sheet.orientation,
    pageMargins: [SIDE_PT, TOP_PT, SIDE_PT, BOTTOM_PT],
    defaultStyle: { font: 'Text', fontSize: SMALLEST_PT, lineHeight: 1.08 },
    styles: {
      title: { font: 'Narrow', bold: true, fontSize: 20, lineHeight: 1 },
      section: { font: 'Narrow', bold: true, fontSize: 13, margin: [0, 7, 0, 2] },
    },
    info: {
      title: nameOf(sheet),
      author: department.name,
      subject: `For ${sheet.on}`,
      creator: 'Baybook',
      creationDate: new Date(printing.at),
    },
    displayTitle: true,
    language: 'en-US',
    header: {
      margin: [SIDE_PT, 27, SIDE_PT, 0],
      stack: [
        {
          columns: [
            {
              text: [
                { text: brief(department.name, NAME_SHOWN), bold: true },
                `   ${brief(nameOf(sheet), NAME_SHOWN)}`,
                department.isDemo ? '   (demo: invented)' : '',
              ],
            },
            {
              text: `For ${weekdayText(sheet.on)}`,
              noWrap: true,
              alignment: 'right',
              width: 'auto',
              fontFeatures: ['tnum'],
            },
          ],
          columnGap: 12,
          font: 'Narrow',
        },
        ruled(width, 1.2, 4),
      ],
    },
    footer: (page, pages) => ({
      margin: [SIDE_PT, 10, SIDE_PT, 0],
      font: 'Narrow',
      stack: [
        ruled(width, 0.5, 0),
        {
          margin: [0, 3, 0, 0],
          columns: [
            { text: printedText(printing), fontFeatures: ['tnum'] },
            { text: `Page ${page} of ${pages}`, bold: true, alignment: 'right', width: 'auto' },
          ],
        },
        {
          text: [
            { text: `Ledger: ${counted(ledger.entries, 'entry', 'entries')}; last ` },
            ...headsText(ledger.devices.slice(0, HEADS_IN_FOOTER)),
            ledger.devices.length > HEADS_IN_FOOTER ? '; every head at the end' : '',
          ],
        },
      ],
    }),
    content: [...sheet.content, ...everyHead(ledger.devices)],
  };
}

function printedText({ at, by, department }: Printing): string {
  const who = by === null ? 'by someone who gave no name' : `by ${brief(by, NAME_SHOWN)}`;
  return `Printed ${momentText(at, department.zone)} (${department.zone}) ${who}`;
}

/** An anchor: with it a later check shows whether the ledger still holds all that this paper was made from. */
function headsText(heads: readonly LedgerHead[]): Content[] {
  if (heads.length === 0) return ['none'];
  return heads.flatMap(({ device, seq, hash }, i) => [
    `${i === 0 ? '' : '; '}${device} ${seq} `,
    { text: hash.slice(0, HASH_SHOWN), font: 'Mono' },
  ]);
}

function everyHead(heads: readonly LedgerHead[]): Content[] {
  if (heads.length <= HEADS_IN_FOOTER) return [];
  return [
    section('The ledger’s last entry of each device'),
    {
      table: {
        widths: ['auto', 'auto', '*'],
        body: heads.map(({ device, seq, hash }) => [
          { text: device, font: 'Mono' },
          { text: String(seq), alignment: 'right' },
          { text: hash, font: 'Mono' },
        ]),
      },
      layout: 'plain',
    },
  ];
}

export const ruled = (width: number, weight: number, above: number): Content => ({
  canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: weight, lineColor: 'black' }],
  margin: [0, above, 0, 0],
});

/** What it is, as the first thing on the paper, with its answer in a line under it. */
export const titled = (title: string, answer: Content): Content => ({
  stack: [
    { text: title, style: 'title' },
    { stack: [answer], margin: [0, 1, 0, 3] },
  ],
});

export const section = (text: string): Content => ({ text, style: 'section', headlineLevel: 1 });

/** More characters than this may not fit on one page. */
const PAGEFUL = 2500;

/** What is read together stands on one page, where it fits on one. */
export const together = (stack: Content[]): Content => ({
  stack,
  unbreakable: textLength(stack) < PAGEFUL,
});

/** Names and values beside each other. */
export function fieldList(
  fields: readonly (readonly [name: string, value: Content])[],
  nameWidth: number,
): Content {
  return {
    table: {
      widths: [nameWidth, '*'],
      dontBreakRows: true,
      body: fields.map(([name, value]) => [{ text: name, font: 'Narrow', bold: true }, { stack: [value] }]),
    },
    layout: 'fields',
  };
}

/** The box that stands before work that can hurt someone. */
export function beforeYouStart(cautions: readonly Content[], more: string | null = null): Content {
  return {
    table: {
      widths: ['*'],
      dontBreakRows: true,
      body: [
        [
          {
            stack: [
              { text: 'Before you start', bold: true, fontSize: 12 },
              { ul: [...cautions], margin: [0, 2, 0, 2], markerColor: 'black' },
              [
                ...(more === null ? [] : [more]),
                'Follow the manufacturer, the current standard and your AHJ; tests by qualified people.',
              ].join(' '),
            ],
          },
        ],
      ],
    },
    layout: 'box',
    font: 'Narrow',
    margin: [0, 6, 0, 4],
  };
}
