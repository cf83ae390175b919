/** The morning page of a station: what is known against each of its units, and room to write what was decided. */
import type { Column, Content, TableCell } from 'pdfmake/interfaces.js';
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { isNoteFor } from '../../domain/coverage/notes.ts';
import { titleWords } from '../../domain/rulebook/due-words.ts';
import type { DepartmentSummary, DueListRow } from '../api.ts';
import type { NoteLine, Readiness, UnitReadiness } from '../api-desk.ts';
import { dueList } from '../questions/due.ts';
import { dayAsked } from '../questions/fields.ts';
import { tellReadiness } from '../questions/readiness.ts';
import { rigsList } from '../questions/rigs.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { brief, counted, dateText, momentText } from './dates.ts';
import { ruled, type Sheet, SIDE_PT, section, titled, together } from './frame.ts';
import { conditionCells, looserNote } from './marks.ts';
import { BRIEF, unitBlock } from './morning-unit.ts';
import { figureCell, listTable, monoCell } from './tables.ts';

/** What stands on the page of each unit and of the station, so that most stations keep to one page. */
const MOST = { out: 12, soon: 8, notes: 8 };
const SOON_DAYS = 7;
const ONE_PAGE_REASONS = 14;

/** @throws CannotAnswer where there is no such station */
export async function morningPage(
  asking: Asking,
  named: string,
  on: string,
  department: DepartmentSummary,
): Promise<Sheet> {
  const station = department.stations.find(
    s => s.id === named || s.name.toLowerCase() === named.trim().toLowerCase(),
  );
  if (station === undefined)
    throw new CannotAnswer(
      'not found',
      `There is no station ${named}.`,
      `Use one of: ${department.stations.map(s => s.name).join(', ') || 'none is known yet'}.`,
      'station',
    );
  const known = tellReadiness(asking, dayAsked(asking, on), unit => unit.station === station.name);
  const rigs = (await rigsList.answer(asking, { on })).filter(r => r.station === station.name);
  const { units } = known;
  const ridden = units.flatMap(u => (u.rig ? [u.rig.name] : []));
  const here = new Set([station.name, ...rigs.map(r => r.name), ...ridden]);
  const out = known.outOfService.filter(o => o.place === null || here.has(topOf(o.place)));
  const told = new Set(units.flatMap(u => u.reasons.map(r => r.item)));
  const onNoUnit = out.filter(o => !told.has(o.item));
  const whyOut = new Map(out.map(o => [o.item, o.reason]));
  const soon = await dueList.answer(asking, {
    on,
    station: station.id,
    within: SOON_DAYS,
    state: ['due soon', 'current'],
  });
  const notes = known.notes.filter(n =>
    isNoteFor(n, { units: units.map(u => u.name), station: station.name }),
  );
  const spare = rigs.filter(r => !ridden.includes(r.name)).map(r => r.name);
  const first = units.find(u => u.reasons.length > 0);
  // Where the units will not stay on one page, each has its heads with it.
  const isLong = units.reduce((sum, u) => sum + u.reasons.length, 0) > ONE_PAGE_REASONS;
  const content = (lines: number): Content[] => [
    titled(`${station.name}: what is known against each unit?`, {
      text: [
        { text: `${answer(units)} `, bold: true },
        'It advises. It does not change dispatch status; the officer decides.',
      ],
    }),
    ...units.map(u => unitBlock(u, whyOut, isLong || u === first)),
    ...(units.length === 0 ? ['No unit is known to be at this station.'] : []),
    ...outBlock(onNoUnit, station.name),
    ...lookBlock(elsewhereWords(known, station.name, spare), soon, on),
    ...looserNote([...units.flatMap(u => u.reasons), ...soon.rows]),
    ...notesBlock(notes, department.zone),
    signing(notes.length === 0 ? 'No pass-on note is open. Seen and decided:' : 'Seen and decided:', lines),
  ];
  return {
    name: 'Morning page',
    about: station.name,
    on,
    orientation: 'portrait',
    rows: units.length * 4 + out.length + soon.total,
    content: content(TIGHT_LINES),
    roomier: () => content(ROOMY_LINES),
  };
}

/** The outermost name of a place: `Engine 31` of `Engine 31, crosslay 2`. */
const topOf = (place: string) => place.split(',')[0] ?? place;

function answer(units: readonly UnitReadiness[]): string {
  const counts = Map.groupBy(units, u => u.verdict);
  const said = [...counts].map(([verdict, list]) => `${list.map(u => u.name).join(', ')} ${verdict}`);
  return said.length === 0 ? '' : `${said.join('; ')}.`;
}

/** Reserve rigs and the station itself, which no unit's verdict tells of. */
function elsewhereWords(known: Readiness, station: string, spare: readonly string[]): string[] {
  return known.elsewhere
    .filter(e => e.place === station || spare.includes(e.place))
    .map(({ place, blocks, limits }) => {
      const parts = [
        blocks > 0 ? `${blocks} that would block` : '',
        limits > 0 ? `${limits} that would limit` : '',
      ].filter(p => p !== '');
      return `${place}, on no unit: ${parts.join(', ')}`;
    });
}

/** What is out of service and rides on no unit: on the racks, at repair, or where nobody knows. */
function outBlock(out: Readiness['outOfService'], station: string): Content[] {
  if (out.length === 0) return [section('Out of service, on no unit: nothing')];
  const shown = out.slice(0, MOST.out);
  return [
    listTable(
      [
        { head: 'State', width: 54, over: 2 },
        { head: 'Number', width: 46 },
        { head: 'What, and why', width: '*' },
        { head: 'Since', width: 54, figure: true },
        { head: 'Place', width: 106 },
      ],
      shown.map(o => [
        ...conditionCells(o.condition),
        monoCell(o.number),
        { text: brief(o.reason ? `${o.what}. ${o.reason}` : o.what, BRIEF) },
        figureCell(dateText(o.since === null ? null : o.since.slice(0, 10))),
        { text: placeWithin(o.place, station) },
      ]),
      `Out of service, on no unit: ${counted(out.length, 'thing')}, the longest first`,
    ),
    ...(out.length > shown.length
      ? [`And ${counted(out.length - shown.length, 'more thing')}: see Readiness.`]
      : []),
  ];
}

/** A place in the station is named without it: the page is the station's own. */
const placeWithin = (place: string | null, station: string) =>
  place === null ? 'not known' : place.startsWith(`${station}, `) ? place.slice(station.length + 2) : place;

function lookBlock(
  elsewhere: readonly string[],
  { rows, total }: { rows: readonly DueListRow[]; total: number },
  on: string,
): Content[] {
  const until = dayText(((parseDay(on) ?? 0) + SOON_DAYS) as Day);
  const due = total === 0 ? 'nothing falls due' : `${counted(total, 'duty', 'duties')} due`;
  const lines = [...gatheredSoon(rows), ...elsewhere];
  const head = section(`What to look at: ${due} by ${dateText(until)}`);
  return [lines.length === 0 ? head : together([head, { ul: lines }])];
}

/**
 * What falls due within the week, one line for a duty of a unit: `Engine 33: operational check of 5, by 30 Nov`. What
 * goes by a rule of the department's own stands apart and marked; a projection is told as its range.
 */
function gatheredSoon(rows: readonly DueListRow[]): string[] {
  const duty = ({ unit, title, own, dueOn, dueTo }: DueListRow) => {
    return `${unit ?? 'On no unit'}: ${titleWords({ title: title.toLowerCase(), own, dueOn: dueTo === null ? null : dueOn, dueTo })}`;
  };
  const groups = [...Map.groupBy(rows, duty)];
  const lines = groups.slice(0, MOST.soon).map(([what, list]) => {
    const shown = list.slice(0, NUMBERS_SHOWN).map(r => r.number);
    const more = list.length > shown.length ? ` and ${list.length - shown.length} more` : '';
    // In the order of their dates: the first is the one to be in time for.
    const [first] = list;
    const by = first?.dueTo === null ? ` by ${dateText(first.dueOn)}` : '';
    return `${what}${by}: ${shown.join(', ')}${more}`;
  });
  return groups.length > lines.length
    ? [...lines, `and ${groups.length - lines.length} more: see Coming due`]
    : lines;
}

const NUMBERS_SHOWN = 6;

function notesBlock(notes: readonly NoteLine[], zone: string): Content[] {
  if (notes.length === 0) return [];
  const shown = notes.slice(0, MOST.notes);
  const more = notes.length - shown.length;
  return [
    together([
      section(`Pass-on: ${counted(notes.length, 'open note')}`),
      {
        table: {
          widths: [84, 70, '*'],
          dontBreakRows: true,
          body: shown.map((n): TableCell[] => [
            { text: momentText(n.recordedAt, zone), fontFeatures: ['tnum'] },
            { text: n.unit ?? n.station ?? 'everybody' },
            { text: `${brief(n.text, NOTE_SHOWN)}${n.byName ? ` (${n.byName})` : ''}` },
          ]),
        },
        layout: 'plain',
        font: 'Narrow',
      },
      ...(more > 0 ? [`And ${counted(more, 'more note')}: see Readiness.`] : []),
    ]),
  ];
}

const NOTE_SHOWN = 500;

/** Lines to write on: at least, and where there is room. */
const TIGHT_LINES = 2;
const ROOMY_LINES = 8;
const WIDTH_PT = 612 - 2 * SIDE_PT;

/** Room for the hand: what was seen and decided, and who signs for it. */
function signing(heading: string, lines: number): Content {
  return {
    unbreakable: true,
    stack: [
      section(heading),
      ...Array.from({ length: lines }, () => ruled(WIDTH_PT, 0.5, 16)),
      {
        margin: [0, 17, 0, 0],
        columnGap: 16,
        columns: [signed('Officer', 254), signed('Shift', 110), signed('Date and time', 140)],
      },
    ],
  };
}

const signed = (what: string, width: number): Column => ({
  width,
  stack: [ruled(width, 0.9, 0), { text: what, font: 'Narrow', margin: [0, 2, 0, 0] }],
});
