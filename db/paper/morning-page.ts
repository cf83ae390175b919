/** The morning page of a station: what is known against each of its units, and room to write what was decided. */
import type { Column, Content, TableCell } from 'pdfmake/interfaces.js';
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import type { DepartmentSummary, DueListRow } from '../api.ts';
import type { NoteLine, Readiness, Reason, UnitReadiness } from '../api-desk.ts';
import { dueList } from '../questions/due.ts';
import { readinessNow } from '../questions/readiness.ts';
import { rigsList } from '../questions/rigs.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { counted, dateText, momentText } from './dates.ts';
import { ruled, type Sheet, section, titled, together } from './frame.ts';
import { capital, conditionCells, isMark, stateCells } from './marks.ts';
import { figureCell, type Head, listTable, monoCell } from './tables.ts';

/** What stands on the page of each unit and of the station, so that most stations keep to one page. */
const MOST = { reasons: 10, out: 12, soon: 10, notes: 8 };
const SOON_DAYS = 7;

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
  const known = await readinessNow.answer(asking, { on });
  const rigs = (await rigsList.answer(asking, { on })).filter(r => r.station === station.name);
  const units = known.units.filter(u => u.station === station.name);
  const ridden = units.flatMap(u => (u.rig ? [u.rig.name] : []));
  const here = new Set([station.name, ...rigs.map(r => r.name), ...ridden]);
  const out = known.outOfService.filter(o => o.place === null || here.has(topOf(o.place)));
  const soon = await dueList.answer(asking, {
    on,
    station: station.id,
    within: SOON_DAYS,
    state: ['due soon', 'current'],
  });
  const notes = known.notes.filter(n => isFor(n, station.name, units));
  return {
    name: 'Morning page',
    about: station.name,
    on,
    orientation: 'portrait',
    rows: units.length * 4 + out.length + soon.total,
    content: [
      titled(`${station.name}: what is known against each unit?`, {
        stack: [
          { text: answer(units), bold: true },
          'It advises. It does not change dispatch status; the officer decides.',
        ],
      }),
      ...units.map(unitBlock),
      ...(units.length === 0 ? ['No unit is known to be at this station.'] : []),
      ...elsewhereLine(
        known,
        station.name,
        rigs.filter(r => !ridden.includes(r.name)).map(r => r.name),
      ),
      ...outBlock(out),
      ...lookBlock(units, soon, on),
      ...notesBlock(notes, department.zone),
      signing(),
    ],
  };
}

/** The outermost name of a place: `Engine 31` of `Engine 31, crosslay 2`. */
const topOf = (place: string) => place.split(',')[0] ?? place;

/** A note is for its unit or its station; one that names neither is for everyone. */
function isFor(note: NoteLine, station: string, units: readonly UnitReadiness[]): boolean {
  if (note.unit !== null) return units.some(u => u.name === note.unit);
  return note.station === null || note.station === station;
}

function answer(units: readonly UnitReadiness[]): string {
  const counts = Map.groupBy(units, u => u.verdict);
  const said = [...counts].map(([verdict, list]) => `${list.map(u => u.name).join(', ')} ${verdict}`);
  return said.length === 0 ? '' : `${said.join('; ')}.`;
}

const REASON_HEADS: readonly Head[] = [
  { head: 'Effect', width: 36 },
  { head: 'State', width: 62, over: 2 },
  { head: 'Number', width: 56 },
  { head: 'What', width: '*' },
  { head: 'Since', width: 56, figure: true },
  { head: 'Place', width: 108 },
];

function unitBlock(unit: UnitReadiness): Content {
  const { d7, d30, d90 } = unit.within;
  const rides = unit.rig === null ? 'no rig known' : unit.rig.own ? '' : `rides ${unit.rig.name}`;
  const shown = unit.reasons.slice(0, MOST.reasons);
  const left = unit.reasons.length - shown.length;
  return {
    margin: [0, 6, 0, 0],
    stack: [
      {
        unbreakable: true,
        stack: [
          {
            columns: [
              {
                text: [
                  { text: unit.name, bold: true, fontSize: 14 },
                  { text: `   ${capital(unit.verdict)}`, bold: true, fontSize: 14 },
                  rides === '' ? '' : `   ${rides}`,
                ],
                font: 'Narrow',
              },
              {
                text: ['Due within 7, 30, 90 days: ', { text: `${d7}, ${d30}, ${d90}`, bold: true }],
                width: 'auto',
                alignment: 'right',
                margin: [0, 4, 0, 0],
                font: 'Narrow',
              },
            ],
            columnGap: 12,
          },
          {
            text: `${unit.says} ${counted(unit.things, 'thing')}; last seen ${dateText(unit.lastSeen)}; ${counted(unit.notSeenFor.things, 'thing')} not seen for ${unit.notSeenFor.days} days.`,
            margin: [0, 0, 0, 2],
          },
          ...(shown.length > 0 ? [listTable(REASON_HEADS, shown.map(reasonCells))] : []),
          ...(left > 0 ? [`And ${counted(left, 'lighter reason')}: see Readiness.`] : []),
        ],
      },
    ],
  };
}

function reasonCells(reason: Reason): TableCell[] {
  const word = reason.state ?? reason.condition;
  return [
    { text: reason.effect },
    ...(word !== null && isMark(word)
      ? stateCells(word)
      : [{ text: '' }, { text: word === null ? '' : capital(word) }]),
    monoCell(reason.number ?? ''),
    { text: reason.what },
    figureCell(dateText(reason.dueOn ?? reason.since)),
    { text: reason.place ?? 'not known' },
  ];
}

/** Reserve rigs and the station itself, which no unit's verdict tells of. */
function elsewhereLine(known: Readiness, station: string, spare: readonly string[]): Content[] {
  const said = known.elsewhere
    .filter(e => e.place === station || spare.includes(e.place))
    .map(e => {
      const parts = [
        e.blocks > 0 ? `${e.blocks} that would block` : '',
        e.limits > 0 ? `${e.limits} that would limit` : '',
      ].filter(p => p !== '');
      return `${e.place}: ${counted(e.blocks + e.limits, 'thing')}, ${parts.join(', ')}.`;
    });
  if (said.length === 0) return [];
  return [
    {
      text: [{ text: 'On no unit.  ', bold: true, font: 'Narrow' }, said.join('  ')],
      margin: [0, 8, 0, 0],
    },
  ];
}

function outBlock(out: Readiness['outOfService']): Content[] {
  if (out.length === 0)
    return [together([section('Out of service'), 'Nothing is tagged out, at repair, held or missing.'])];
  const shown = out.slice(0, MOST.out);
  return [
    together([
      section(`Out of service: ${counted(out.length, 'thing')}, the longest first`),
      listTable(
        [
          { head: 'State', width: 62, over: 2 },
          { head: 'Number', width: 56 },
          { head: 'What, and why', width: '*' },
          { head: 'Since', width: 56, figure: true },
          { head: 'Place', width: 132 },
        ],
        shown.map(o => [
          ...conditionCells(o.condition),
          monoCell(o.number),
          { text: o.reason ? `${o.what}. ${o.reason}` : o.what },
          figureCell(dateText(o.since === null ? null : o.since.slice(0, 10))),
          { text: o.place ?? 'not known' },
        ]),
      ),
      ...(out.length > shown.length
        ? [`And ${counted(out.length - shown.length, 'more thing')}: see Readiness.`]
        : []),
    ]),
  ];
}

function lookBlock(
  units: readonly UnitReadiness[],
  { rows, total }: { rows: readonly DueListRow[]; total: number },
  on: string,
): Content[] {
  const until = dayText(((parseDay(on) ?? 0) + SOON_DAYS) as Day);
  const unseen = units.filter(u => u.notSeenFor.things > 0);
  const lines = [
    ...(unseen.length > 0
      ? [
          `Not seen, counted or tested for ${unseen[0]?.notSeenFor.days} days: ${unseen
            .map(u => `${u.name} ${u.notSeenFor.things} of ${u.things}`)
            .join(', ')}.`,
        ]
      : []),
    ...gatheredSoon(rows),
  ];
  if (lines.length === 0) return [];
  const head = `What to look at: ${total === 0 ? 'nothing falls due' : `${counted(total, 'duty', 'duties')} due`} by ${dateText(until)}`;
  return [together([section(head), { ul: lines }])];
}

/** What falls due within the week, one line for a duty of a family: `Inspection of ground ladders: E-24-1 26 Nov`. */
function gatheredSoon(rows: readonly DueListRow[]): string[] {
  const groups = [...Map.groupBy(rows, r => `${r.unit ?? 'On no unit'}: ${r.title.toLowerCase()}`)];
  return groups.slice(0, MOST.soon).map(([what, list]) => {
    const shown = list.slice(0, 6).map(r => `${r.number} (${dateText(r.dueOn).replace(/ \d{4}$/, '')})`);
    return `${what}: ${shown.join(', ')}${list.length > shown.length ? ` and ${list.length - shown.length} more` : ''}`;
  });
}

function notesBlock(notes: readonly NoteLine[], zone: string): Content[] {
  const shown = notes.slice(0, MOST.notes);
  return [
    together([
      section(`Pass-on: ${notes.length === 0 ? 'nothing open' : counted(notes.length, 'open note')}`),
      ...(shown.length === 0
        ? []
        : [
            {
              table: {
                widths: [78, 70, '*'],
                dontBreakRows: true,
                body: shown.map((n): TableCell[] => [
                  { text: momentText(n.recordedAt, zone), fontFeatures: ['tnum'] },
                  { text: n.unit ?? n.station ?? 'everyone' },
                  { text: [n.text, n.byName ? ` ${n.byName}.` : ''] },
                ]),
              },
              layout: 'plain',
              font: 'Narrow',
            } satisfies Content,
          ]),
    ]),
  ];
}

const WIDTH_PT = 532;

/** Room for the hand: what was seen and decided, and who signs for it. */
function signing(): Content {
  return {
    unbreakable: true,
    stack: [
      section('Seen and decided'),
      ...[0, 1, 2].map(() => ruled(WIDTH_PT, 0.5, 19)),
      {
        margin: [0, 24, 0, 0],
        columnGap: 16,
        columns: [signed('Officer', 250), signed('Shift', 110), signed('Date and time', 140)],
      },
    ],
  };
}

const signed = (what: string, width: number): Column => ({
  width,
  stack: [ruled(width, 0.9, 0), { text: what, font: 'Narrow', margin: [0, 2, 0, 0] }],
});
