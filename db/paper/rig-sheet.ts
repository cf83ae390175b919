/** A rig on paper: its drawing, and every place with what is in it, a box before each thing to tick. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import { countWrong, heaviestWrong, isWrong } from '../../domain/derive/marks.ts';
import { placeTree } from '../../domain/rigs/tree.ts';
import type { LeftThing, RigItem } from '../api-desk.ts';
import { rigPage } from '../questions/rig-page.ts';
import type { Asking } from '../questions/types.ts';
import { counted, dateText } from './dates.ts';
import { type Sheet, SIDE_PT, section, titled } from './frame.ts';
import { MARK_WIDTH_PT, markOf } from './marks.ts';
import { rigDrawing } from './rig-drawing.ts';
import { inMono } from './tables.ts';

const WIDTH_PT = 612 - 2 * SIDE_PT;
const TICK_PT = 8;
const NUMBER_PT = 58;
/** The deepest place is set in by so much a level. */
const INDENT_PT = 10;

/** @throws CannotAnswer where there is no such rig */
export async function rigSheet(asking: Asking, rig: string, on: string): Promise<Sheet> {
  const page = await rigPage.answer(asking, { rig, on });
  const everything = [...page.loose, ...page.places.flatMap(p => p.items)];
  const wrong = countWrong(everything);
  const said = [
    page.unit === null ? 'nobody rides it' : `ridden by ${page.unit}`,
    ...(page.station === null ? [] : [page.station]),
    page.standing === 'reserve' ? 'reserve' : 'first line',
    ...(page.chassis === null ? [] : [page.chassis]),
    page.conditionReason === null ? page.condition : `${page.condition}: ${page.conditionReason}`,
    ...page.meters.map(m => `${m.reading.toLocaleString('en-US')} ${m.meter} (${dateText(m.on)})`),
  ];
  return {
    name: 'Rig sheet',
    about: page.name,
    on,
    orientation: 'portrait',
    rows: everything.length,
    content: [
      titled(`What rides on ${page.name}, and where?`, {
        text: [
          {
            text: `${counted(everything.length, 'thing')} in ${counted(page.places.length, 'place')}, ${
              wrong === 0 ? 'nothing wrong with them' : `${wrong} with something wrong`
            }${isWrong(page.itself) ? `; the rig itself: ${page.itself}` : ''}. `,
            bold: true,
          },
          `${capital(said.join('; '))}.`,
        ],
      }),
      ...(page.drawing.length > 0 ? rigDrawing(page, WIDTH_PT) : []),
      ...leftLines(page.leftHere, 'Left here by another crew'),
      ...leftLines(page.leftElsewhere, 'Belongs here, still elsewhere'),
      ...(page.loose.length > 0 ? placeLines('On the rig, in no place of it', 0, page.loose) : []),
      ...placeTree(page.places, page.id).flatMap(({ place, depth }) =>
        placeLines(place.name, depth, place.items),
      ),
      {
        text: ['Seen by', 'Date and time'].map(w => `${w} ______________________`).join('      '),
        margin: [0, 14, 0, 0],
      },
    ],
  };
}

function leftLines(things: readonly LeftThing[], title: string): Content[] {
  if (things.length === 0) return [];
  return [
    section(title),
    {
      ul: things.map(
        t => `${t.number} ${t.what}: belongs on ${t.home}, on ${t.here} since ${dateText(t.since)}`,
      ),
    },
  ];
}

/** A place's name over its things, two beside each other; the name is not left alone at the foot of a page. */
function placeLines(name: string, depth: number, items: readonly RigItem[]): Content[] {
  const rows: TableCell[][] = [];
  for (let i = 0; i < items.length; i += 2)
    rows.push([thingCell(items[i]), i + 1 < items.length ? thingCell(items[i + 1]) : { text: '' }]);
  const heading: TableCell = {
    text: [{ text: name, bold: true }, `   ${items.length === 0 ? 'empty' : items.length}`],
    colSpan: 2,
    fontSize: 11,
    margin: [depth * INDENT_PT, 3, 0, 0],
  };
  return [
    {
      table: {
        widths: ['*', '*'],
        headerRows: 1,
        keepWithHeaderRows: Math.min(1, rows.length),
        dontBreakRows: true,
        body: [[heading, {}], ...rows],
      },
      layout: 'list',
      font: 'Narrow',
      margin: [0, 2, 0, 0],
    },
  ];
}

function thingCell(item: RigItem | undefined): TableCell {
  if (item === undefined) return { text: '' };
  const wrong = heaviestWrong([item]);
  return {
    columns: [
      {
        width: TICK_PT + 2,
        canvas: [{ type: 'rect', x: 0, y: 2.2, w: TICK_PT, h: TICK_PT, lineWidth: 0.8, lineColor: 'black' }],
      },
      { width: NUMBER_PT, ...inMono(item.number) },
      { width: '*', text: item.what },
      ...(wrong
        ? [
            {
              width: MARK_WIDTH_PT,
              canvas: markOf(wrong),
              margin: [0, 2.4, 0, 0] as [number, number, number, number],
            },
            { width: 'auto', text: capital(wrong) },
          ]
        : []),
    ],
    columnGap: 4,
  };
}
