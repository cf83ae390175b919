/** Coming due on paper: the list as its filter and order stand on the screen, columns as there. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import type { DueState } from '../../domain/derive/due.ts';
import { titleWords } from '../../domain/rulebook/due-words.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import type { DepartmentSummary, DueFilter, DueListRow, Questions } from '../api.ts';
import { departmentSummary } from '../questions/department.ts';
import { dueGroups, dueList } from '../questions/due.ts';
import { rulebookList } from '../questions/rulebook.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { counted, dateText, daysFigure, dueText } from './dates.ts';
import { beforeYouStart, type Sheet, titled } from './frame.ts';
import { conditionCells, looserNote, stateCells } from './marks.ts';
import { filterSentence, monthWords, type Names } from './sentence.ts';
import { figureCell, type Head, listTable, monoCell } from './tables.ts';

export type ListFilter = DueFilter &
  Pick<Questions['due.list']['takes'], 'sort' | 'descending'> & {
    by?: 'month' | 'unit' | 'family';
  };

/** Longer ones are no use on paper, and would hold the reader up for everyone else. */
export const MOST_ROWS = 6_000;

const HEADS: readonly Head[] = [
  { head: 'Number', width: 58 },
  { head: 'Family', width: 62 },
  { head: 'What is owed', width: 82 },
  { head: 'State', width: 54, over: 2 },
  { head: 'Due', width: 54, figure: true },
  { head: 'Days left', width: 42, figure: true },
  { head: 'Last done', width: 54, figure: true },
  { head: 'Place', width: '*' },
  { head: 'Condition', width: 58, over: 2 },
];

/** @throws CannotAnswer for a filter that names what the department does not have, and for a list too long for paper */
export async function comingDue(asking: Asking, filter: ListFilter, on: string): Promise<Sheet> {
  const { by, ...asked } = { ...filter, on };
  const { rows } = await dueList.answer(asking, asked);
  if (rows.length > MOST_ROWS)
    throw new CannotAnswer(
      'too long',
      `The list has ${counted(rows.length, 'row')}; a paper holds ${counted(MOST_ROWS, 'row')}.`,
      'Narrow the filter, or export the list.',
      'filter',
    );
  const rules = adoptedRules(asking);
  const summary = (await departmentSummary.answer(asking, {})) as DepartmentSummary;
  return {
    name: 'Coming due',
    about: null,
    on,
    orientation: 'landscape',
    rows: rows.length,
    content: [
      titled('What must be done, by when?', {
        stack: [
          filterSentence(asked, namesOf(summary, rules)),
          { text: `${answer(rows)} ${orderWords(filter)}` },
        ],
      }),
      ...cautions(rows, rules),
      ...(rows.length === 0
        ? [{ text: 'Nothing fits the filter.', margin: [0, 8, 0, 0] } satisfies Content]
        : by === undefined
          ? [listTable(HEADS, rows.map(rowCells))]
          : await grouped(asking, asked, by, rows)),
      ...looserNote(rows),
    ],
  };
}

function rowCells(r: DueListRow): TableCell[] {
  return [
    monoCell(r.number),
    { text: familyOf(r.family)?.title ?? r.family },
    { text: titleWords(r), bold: r.own === 'looser' },
    ...stateCells(r.state),
    figureCell(dueText(r)),
    figureCell(daysFigure(r.daysLeft)),
    figureCell(dateText(r.lastOn)),
    { text: r.place ?? '–' },
    ...(r.condition === r.state ? [{ text: '' }, { text: '' }] : conditionCells(r.condition)),
  ];
}

/** The same rows under the headings of the screen, in its order of groups. */
async function grouped(
  asking: Asking,
  asked: DueFilter & { descending?: boolean },
  by: 'month' | 'unit' | 'family',
  rows: readonly DueListRow[],
): Promise<Content[]> {
  const { sort: _sort, descending, ...filter } = asked as ListFilter;
  const groups = await dueGroups.answer(asking, { ...filter, by });
  const inGroups = Map.groupBy(rows, r => keyOf(r, by));
  const inOrder = by === 'month' && descending ? groups.toReversed() : groups;
  return inOrder.flatMap(({ key, title }) => {
    const list = inGroups.get(key) ?? [];
    if (list.length === 0) return [];
    const heading = by === 'month' && key !== 'none' ? monthWords(key) : title;
    return [listTable(HEADS, list.map(rowCells), `${heading}: ${counted(list.length, 'row')}`)];
  });
}

function keyOf(row: DueListRow, by: 'month' | 'unit' | 'family'): string {
  if (by === 'family') return row.family;
  if (by === 'unit') return row.unit ?? 'none';
  // The day a first one has been owed since is its month, as in the list's order.
  return (row.dueOn ?? row.owedSince)?.slice(0, 7) ?? 'none';
}

const ORDER_OF_STATES: readonly DueState[] = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'not judged',
  'due soon',
  'current',
];

function answer(rows: readonly DueListRow[]): string {
  const parts = ORDER_OF_STATES.flatMap(state => {
    const n = rows.filter(r => r.state === state).length;
    return n === 0 ? [] : [`${n.toLocaleString('en-US')} ${state === 'life ended' ? 'past life' : state}`];
  });
  return `${counted(rows.length, 'row')}${parts.length > 0 ? `: ${parts.join(', ')}` : ''}.`;
}

function orderWords({ sort = 'due', descending, by }: ListFilter): string {
  const word = { due: 'due date', number: 'number', title: 'what is owed', place: 'place' }[sort];
  return `By ${by === undefined ? '' : `${by}, then `}${word}${descending ? ', the last first' : ''}.`;
}

/** The rules in force and to come, the latest version of each. */
function adoptedRules(asking: Asking): Map<string, Requirement> {
  const { rules } = rulebookList.answer(asking, {}) as Questions['rulebook.list']['gives'];
  return new Map(rules.filter(r => r.adopted).map(({ requirement }) => [requirement.id, requirement]));
}

const CAUTIONS_A_FAMILY = 2;

/** One short box where the list sends somebody to a test that can hurt. */
function cautions(rows: readonly DueListRow[], rules: ReadonlyMap<string, Requirement>): Content[] {
  const byFamily = new Map<string, Set<string>>();
  for (const id of new Set(rows.map(r => r.requirement))) {
    const rule = rules.get(id);
    if (rule === undefined || rule.cautions.length === 0) continue;
    const known = byFamily.get(rule.family) ?? new Set<string>();
    for (const caution of rule.cautions) known.add(caution);
    byFamily.set(rule.family, known);
  }
  if (byFamily.size === 0) return [];
  const lines = [...byFamily].map(([family, said]) => ({
    text: [
      { text: `${familyOf(family)?.title ?? family}: `, bold: true },
      [...said].slice(0, CAUTIONS_A_FAMILY).join(' '),
    ],
  }));
  return [beforeYouStart(lines, 'The rule sheet of each family says more: read it before the test.')];
}

function namesOf(summary: DepartmentSummary, rules: ReadonlyMap<string, Requirement>): Names {
  const named = (list: readonly { id: string; name: string }[], id: string) =>
    list.find(x => x.id === id)?.name ?? id;
  return {
    family: id => familyOf(id)?.plural.toLowerCase() ?? id,
    unit: id => named([...summary.units, ...summary.rigs], id),
    station: id => named(summary.stations, id),
    requirement: id => rules.get(id)?.title.toLowerCase() ?? id,
  };
}
