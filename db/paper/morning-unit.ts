/** One unit on a morning page. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import { fixHeading, fixSteps } from '../../domain/coverage/fix-words.ts';
import { OWN_MARK } from '../../domain/rulebook/due-words.ts';
import type { Reason, UnitReadiness } from '../api-desk.ts';
import { brief, counted, dateText } from './dates.ts';
import { together } from './frame.ts';
import { isMark, stateCells } from './marks.ts';
import { bareTable, figureCell, type Head, listTable, monoCell } from './tables.ts';

const REASON_HEADS: readonly Head[] = [
  { head: 'Effect', width: 34 },
  { head: 'State', width: 54, over: 2 },
  { head: 'Number', width: 46 },
  { head: 'What', width: '*' },
  { head: 'Since', width: 54, figure: true },
  { head: 'Place', width: 96 },
];

/** The heaviest of what tells against a unit; the rest is on the screen. */
const MOST_REASONS = 10;

/**
 * A unit with its verdict and what it rests on.
 * @param whyOut why a thing is out of service, by its id
 * @param headed whether its reasons stand under heads; further units' line up under the same
 */
export function unitBlock(
  unit: UnitReadiness,
  whyOut: ReadonlyMap<string, string | null>,
  headed: boolean,
): Content {
  const { things, lastSeen, notSeenFor } = unit;
  const rows = unit.reasons.slice(0, MOST_REASONS).map(reason => reasonCells(reason, whyOut));
  const left = unit.reasons.length - rows.length;
  const table = headed ? listTable : bareTable;
  return {
    margin: [0, 4, 0, 0],
    stack: [
      together([
        heading(unit),
        {
          text: `${unit.says} ${counted(things, 'thing')}; last seen ${dateText(lastSeen)}; ${counted(notSeenFor.things, 'thing')} not seen for ${notSeenFor.days} days.`,
          margin: [0, 0, 0, 2],
        },
        ...(unit.shortestFix ? [fixLine(unit.shortestFix)] : []),
        ...(rows.length > 0 ? [table(REASON_HEADS, rows)] : []),
        ...(left > 0 ? [`And ${counted(left, 'more reason')}, none heavier than these: see Readiness.`] : []),
      ]),
    ],
  };
}

function fixLine(fix: NonNullable<UnitReadiness['shortestFix']>): Content {
  return {
    text: [{ text: `${fixHeading(fix)}. `, bold: true }, brief(fixSteps(fix).join(' '), MOST_OF_FIX)],
    margin: [0, 0, 0, 2],
  };
}

/** Longer fixes are on the screen. */
const MOST_OF_FIX = 420;

function heading({ name, verdict, rig, within }: UnitReadiness): Content {
  const rides = rig === null ? '   no rig known' : rig.own ? '' : `   rides ${rig.name}`;
  return {
    font: 'Narrow',
    columnGap: 12,
    columns: [
      { text: [{ text: `${name}   ${capital(verdict)}`, bold: true, fontSize: 14 }, rides] },
      {
        text: [
          'Due within 7, 30, 90 days: ',
          { text: `${within.d7}, ${within.d30}, ${within.d90}`, bold: true },
        ],
        width: 'auto',
        alignment: 'right',
        margin: [0, 4, 0, 0],
      },
    ],
  };
}

function reasonCells(reason: Reason, whyOut: ReadonlyMap<string, string | null>): TableCell[] {
  const word = reason.state ?? reason.condition;
  return [
    { text: reason.effect },
    ...(word !== null && isMark(word)
      ? stateCells(word)
      : [{ text: '' }, { text: word === null ? '' : capital(word) }]),
    monoCell(reason.number ?? ''),
    { text: brief(whatWords(reason, whyOut), BRIEF) },
    figureCell(dateText((reason.dueOn ?? reason.since)?.slice(0, 10) ?? null)),
    { text: reason.place ?? 'not known' },
  ];
}

/**
 * What it is about, without the state and the day that stand beside it, and why it is out of service. The mark of a
 * looser rule comes before the thing, where nothing cuts it off.
 */
function whatWords(reason: Reason, whyOut: ReadonlyMap<string, string | null>): string {
  const word = reason.state ?? reason.condition;
  const what =
    word === null
      ? reason.what
      : reason.what
          .replace(`${capital(word)}: `, '')
          .replace(
            new RegExp(` ${word}(?: since [^:]*)?: `),
            `${reason.own === 'looser' ? ` · ${OWN_MARK.looser}` : ''}: `,
          );
  const why = reason.condition === null || reason.item === null ? null : (whyOut.get(reason.item) ?? null);
  return why === null ? what : `${what}. ${why}`;
}

/** A morning page tells it in a line or two; the whole of it is on the thing's own paper. */
export const BRIEF = 140;
