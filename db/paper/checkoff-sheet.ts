/**
 * The sheet with which a rig is gone through: a code and a box before each line, what was wrong the last time, what is
 * to be looked at, and room for what is found. Entered afterwards by the codes.
 */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import { isBySeal } from '../../domain/checkoffs/marks.ts';
import { markOf as stateOf } from '../../domain/derive/marks.ts';
import type { CarryLineNow, CarryPlace } from '../api-checks.ts';
import { carryPage } from '../questions/carry.ts';
import type { Asking } from '../questions/types.ts';
import { counted, dateText } from './dates.ts';
import { type Sheet, titled } from './frame.ts';
import { inMono } from './tables.ts';

const TICK_PT = 9;
/** States of a thing that whoever stands before it should know of. */
const TO_LOOK_AT: ReadonlySet<string> = new Set([
  'overdue',
  'due soon',
  'never done',
  'retest owed',
  'life ended',
  'tagged out',
  'missing',
]);

/** @throws CannotAnswer where there is no such unit or reserve rig */
export async function checkoffSheet(asking: Asking, of: string, on: string): Promise<Sheet> {
  const page = await carryPage.answer(asking, { of });
  const open = page.lines.reduce((n, l) => n + l.defects.length, 0);
  const rig = page.rig && page.rig.name !== page.name ? ` on ${page.rig.name}` : '';
  return {
    name: 'Check-off sheet',
    about: page.name,
    on,
    orientation: 'portrait',
    rows: page.lines.length,
    content: [
      titled(`Is it all there${rig}, and does it work?`, {
        text: [
          {
            text: `${counted(page.lines.length, 'line')} in ${counted(page.places.length, 'place')}${open > 0 ? `, ${open} open from before` : ''}. `,
            bold: true,
          },
          'Tick what is there. Beside a line that is not right write its letter: M missing, D damaged, S and how many short, L low, E expired, X in the wrong place. Write what was read. What must be operated has an O: tick it only once it ran.',
        ],
      }),
      {
        text: ['Date', 'Begun at', 'Finished at'].map(w => `${w} ______________`).join('     '),
        margin: [0, 0, 0, 6],
      },
      ...page.places.flatMap(place =>
        placeTable(
          place,
          page.lines.filter(l => l.place.toLowerCase() === place.name.toLowerCase()),
        ),
      ),
      {
        text: ['Driver', 'Officer'].map(w => `${w} ______________________________`).join('     '),
        margin: [0, 16, 0, 0],
      },
    ],
  };
}

function placeTable(place: CarryPlace, lines: readonly CarryLineNow[]): Content[] {
  const heading: TableCell = {
    text: [
      { text: `${place.letter}   ${place.name}`, bold: true },
      place.at === null ? '   not on this rig' : '',
    ],
    colSpan: 5,
    fontSize: 12,
    margin: [0, 4, 0, 0],
  };
  return [
    {
      table: {
        widths: [26, TICK_PT + 4, '*', 150, 74],
        headerRows: 1,
        keepWithHeaderRows: Math.min(2, lines.length),
        dontBreakRows: true,
        body: [[heading, {}, {}, {}, {}], ...lines.map(lineRow)],
      },
      layout: 'list',
      font: 'Narrow',
      margin: [0, 2, 0, 0],
    },
  ];
}

function lineRow(line: CarryLineNow): TableCell[] {
  const reading = line.reading
    ? `${line.reading.title}${line.reading.unit ? `, ${line.reading.unit}` : ''}`
    : null;
  return [
    inMono(line.code) as TableCell,
    {
      canvas: [{ type: 'rect', x: 0, y: 1.6, w: TICK_PT, h: TICK_PT, lineWidth: 0.8, lineColor: 'black' }],
    },
    {
      text: [
        { text: `${line.qty}  `, bold: true },
        { text: line.what, bold: line.critical },
        line.verify === 'operated' ? '   O' : '',
        reading ? `   ${reading} ________` : '',
        isBySeal(line) ? '   Seal ________' : '',
      ],
    },
    { text: lookAt(line), fontSize: 9 },
    { text: '______________' },
  ];
}

/** What whoever stands before the line should know: numbers that owe something, and what is open from before. */
function lookAt(line: CarryLineNow): string {
  const owing = line.here.flatMap(thing => {
    const state = stateOf(thing);
    return TO_LOOK_AT.has(state) ? [`${thing.number} ${state}`] : [];
  });
  // The number that was put on is not printed: it is read off the bag.
  const dates = line.here.flatMap(t => (t.kit?.expires ? [`earliest date ${dateText(t.kit.expires)}`] : []));
  const shown = owing.length > 4 ? [...owing.slice(0, 4), `${owing.length - 4} more`] : owing;
  const open = line.defects.map(
    d =>
      `${capital(d.kind)}${d.short === null ? '' : ` ${d.short}`}${d.note ? `, ${d.note}` : ''} (${dateText(d.since)})`,
  );
  return [...open, ...shown, ...dates].join('; ');
}
