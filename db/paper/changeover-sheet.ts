/**
 * The sheet for a crew that changes its whole rig: by place what moves, with a box to tick as it lies on the rig that is
 * taken; what is there already; and what stays. Entered afterwards as "everything moved except" what has no tick.
 */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import type { ChangeoverLine, ChangeoverPage, ChangeoverPlace, ChangeoverThing } from '../api-changeovers.ts';
import { rigChangeover } from '../questions/changeovers.ts';
import type { Asking } from '../questions/types.ts';
import { counted } from './dates.ts';
import { type Sheet, section, titled } from './frame.ts';
import { inMono } from './tables.ts';

const TICK_PT = 9;
const NUMBER_PT = 60;
const NOTE_PT = 120;

/** @throws CannotAnswer where there is no such rig, or nobody rides the one that is left */
export async function changeoverSheet(asking: Asking, from: string, to: string, on: string): Promise<Sheet> {
  const page = await rigChangeover.answer(asking, { from, to });
  const { counts } = page;
  const rows = page.places.reduce((n, p) => n + p.lines.length, 0) + counts.moves;
  return {
    name: 'Changeover sheet',
    about: `${page.unit.name} to ${page.to.name}`,
    on,
    orientation: 'portrait',
    rows,
    content: [
      titled(`What moves from ${page.from.name} to ${page.to.name}?`, {
        text: [
          {
            text: `${counts.moves} to move, ${counts.there} there already, ${counts.stays} to stay${counts.lacking > 0 ? `, ${counts.lacking} lacking on both` : ''}. `,
            bold: true,
          },
          'Tick what moves once it lies on the rig that is taken, and what is there already once it was seen. What was not moved gets no tick and a word why. It is entered as everything moved except that; the way back has a sheet of its own, signed by the crew that does it.',
        ],
      }),
      ...stateLine(page),
      ...[
        ['Date', 'Begun at', 'On the road at'],
        ['Moved by', 'Officer'],
      ].map(
        (line): Content => ({
          text: line.map(w => `${w} ______________${line.length === 2 ? '__________' : ''}`).join('     '),
          margin: [0, 2, 0, 4],
        }),
      ),
      ...page.places.flatMap(place => placeTable(place, page.to.name)),
      ...others(page, 'moves', 'Moves, and no line asks for it'),
      ...others(page, 'stays', `Stays on ${page.from.name}`),
      ...others(page, 'besides', `On ${page.to.name} besides`),
    ],
  };
}

/** What speaks against taking that rig, before anything is carried. */
function stateLine({ to, toCondition, toReason, toRiddenBy }: ChangeoverPage): Content[] {
  const said = [
    ...(toCondition === 'in service'
      ? []
      : [`${to.name} is ${toCondition}${toReason ? `: ${toReason}` : ''}.`]),
    ...(toRiddenBy === null ? [] : [`${toRiddenBy} rides it now.`]),
  ];
  return said.length === 0 ? [] : [{ text: said.join(' '), bold: true, margin: [0, 0, 0, 6] }];
}

/** A cell of its own each time: what lays a page out writes into it. */
const note = (): TableCell => ({ text: '______________________' });

const tick = (): TableCell => ({
  canvas: [{ type: 'rect', x: 0, y: 1.6, w: TICK_PT, h: TICK_PT, lineWidth: 0.8, lineColor: 'black' }],
});

function placeTable(place: ChangeoverPlace, to: string): Content[] {
  const rows = place.lines.flatMap(line => lineRows(line));
  const heading: TableCell = {
    text: [{ text: place.name, bold: true }, place.at === null ? `   no such place on ${to}` : ''],
    colSpan: 5,
    fontSize: 12,
    margin: [0, 4, 0, 0],
  };
  return [
    {
      table: {
        widths: [TICK_PT + 4, 50, NUMBER_PT, '*', NOTE_PT],
        headerRows: 1,
        keepWithHeaderRows: Math.min(2, rows.length),
        dontBreakRows: true,
        body: [[heading, {}, {}, {}, {}], ...rows],
      },
      layout: 'list',
      font: 'Narrow',
      margin: [0, 2, 0, 0],
    },
  ];
}

/** A row for each thing that moves; what is there already stands in one row with its numbers. */
function lineRows(line: ChangeoverLine): TableCell[][] {
  const row = (does: string, n: number, numbers = ''): TableCell[] => [
    does === 'Lacking' ? '' : tick(),
    { text: does, bold: does !== 'There' },
    { text: `${n} of ${line.qty}  ${line.what}${numbers === '' ? '' : `:  ${numbers}`}`, colSpan: 2 },
    {},
    note(),
  ];
  const moves = line.things.filter(t => t.becomes === 'moves');
  const there = line.things.filter(t => t.becomes === 'there').map(t => t.number);
  return [
    ...moves.map((t): TableCell[] => [
      tick(),
      { text: 'Moves', bold: true },
      inMono(t.number) as TableCell,
      fromWords(t),
      note(),
    ]),
    ...(!line.tracked && line.moves > 0 ? [row('Moves', line.moves)] : []),
    ...(line.there > 0 ? [row('There', line.there, there.join(', '))] : []),
    ...(line.lacking > 0 ? [row('Lacking', line.lacking)] : []),
  ];
}

/** What it is, and where it is fetched from where that is not the place it goes to. */
const fromWords = (t: ChangeoverThing): string =>
  t.place === t.to ? t.what : `${t.what}, from ${t.place === '' ? 'the rig' : t.place}`;

/** What no line asks for, in running lines by why and by kind: nothing is ticked there but what moves. */
function others(page: ChangeoverPage, becomes: ChangeoverThing['becomes'], title: string): Content[] {
  const things = page.others.filter(t => t.becomes === becomes);
  if (things.length === 0) return [];
  return [
    section(`${title}: ${counted(things.length, 'thing')}`),
    ...grouped(things, t => t.why).map(
      ([why, of]): Content => ({
        text: [
          { text: `${capital(why)}: `, bold: true },
          grouped(of, t => t.what)
            .map(([what, alike]) => `${what} ${alike.map(t => t.number).join(', ')}`)
            .join('; '),
        ],
        font: 'Narrow',
        margin: [0, 1, 0, 1],
      }),
    ),
  ];
}

function grouped(
  things: readonly ChangeoverThing[],
  by: (thing: ChangeoverThing) => string,
): [string, ChangeoverThing[]][] {
  const groups = new Map<string, ChangeoverThing[]>();
  for (const thing of things) groups.set(by(thing), [...(groups.get(by(thing)) ?? []), thing]);
  return [...groups];
}
