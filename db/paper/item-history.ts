/** One thing's whole story on paper: what it is, every date with its rule, everything that was recorded. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import { photosWords } from '../../domain/photos.ts';
import { titleWords } from '../../domain/rulebook/due-words.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { showValue, type UnitSystem } from '../../domain/units.ts';
import type { DepartmentSummary, HistoryLine, ItemPage } from '../api.ts';
import { dueExplain } from '../questions/explain.ts';
import { itemHistory, itemPage } from '../questions/items.ts';
import type { Asking } from '../questions/types.ts';
import { counted, dateText, daysFigure, dueText, momentText } from './dates.ts';
import { fieldList, type Sheet, section, titled, together } from './frame.ts';
import { isMark, looserNote, MARK_WIDTH_PT, markOf, stateCells } from './marks.ts';
import { photosSection } from './photos.ts';
import { bareTable, figureCell, inMono, listTable } from './tables.ts';

/** @throws CannotAnswer where no thing has the id */
export async function itemHistorySheet(
  asking: Asking,
  item: string,
  on: string,
  department: DepartmentSummary,
): Promise<Sheet> {
  const page = await itemPage.answer(asking, { item, on });
  const history = await itemHistory.answer(asking, { item });
  const dates = await Promise.all(
    page.due.map(async row => ({
      row,
      why: (await dueExplain.answer(asking, { item, requirement: row.requirement, on })).paragraph,
    })),
  );
  return {
    name: 'Item history',
    about: page.number,
    on,
    orientation: 'portrait',
    rows: history.length + 2 * dates.length,
    content: [
      titled(`${page.number}  ${page.what}`, nextText(page)),
      ...warnings(page),
      { columns: [standing(page), identity(page, department.measures)], columnGap: 22 },
      section('Every date, with its rule'),
      dates.length === 0 ? nothingOwed(page) : datesTable(dates),
      ...looserNote(page.due),
      ...(history.length === 0
        ? [section('Every record'), 'Nothing is on record.']
        : [recordsTable(history, page.family, department)]),
      ...(history.some(line => line.voided)
        ? [
            {
              text: 'A line that is struck through was voided in the open: it counts for nothing, and stays to be read.',
              margin: [0, 6, 0, 0],
            } satisfies Content,
          ]
        : []),
      ...photosSection(
        asking,
        history.flatMap(line =>
          line.photos.map(photo => ({
            photo,
            says: `${dateText(line.effective)}. ${line.what}${line.voided ? ' (void)' : ''}`,
          })),
        ),
      ),
    ],
  };
}

function nextText({ next, state }: ItemPage): string {
  if (next === null) return `${capital(state)}. No date lies ahead.`;
  return `${capital(state)}. First by date: ${next.titles.join(' and ').toLowerCase()}, ${dateText(next.dueOn)}.`;
}

/** A mark with its word, as one line. */
function marked(word: string): Content {
  if (!isMark(word)) return { text: capital(word) };
  return {
    columns: [
      { width: MARK_WIDTH_PT, canvas: markOf(word), margin: [0, 2.4, 0, 0] },
      { text: capital(word) },
    ],
    columnGap: 5,
  };
}

function standing(page: ItemPage): Content {
  const { known } = page;
  return fieldList(
    [
      ['State', marked(page.state)],
      ['Condition', marked(page.condition)],
      ...(page.conditionSince ? [['', `since ${dateText(page.conditionSince)}`] as const] : []),
      ['Place', page.place ?? 'Not known'],
      ...(known ? [['', `known by ${known.how}, ${dateText(known.since)}`] as const] : []),
      ['Assigned', page.assignment ?? 'Not assigned'],
      ...(page.lifeEndsOn ? [['Life ends', dateText(page.lifeEndsOn)] as const] : []),
      ...cylinderLines(page),
    ],
    66,
  );
}

function cylinderLines({ cylinder }: ItemPage): (readonly [string, Content])[] {
  if (cylinder === null) return [];
  const said = (allowed: boolean | null) => (allowed === null ? 'not judged' : allowed ? 'yes' : 'no');
  const { fill, stayInService } = cylinder;
  return [
    ['May be filled', `by law ${said(fill.law.allowed)}, here ${said(fill.policy.allowed)}`],
    ['May stay', `by law ${said(stayInService.law.allowed)}, here ${said(stayInService.policy.allowed)}`],
  ];
}

function identity(page: ItemPage, measures: UnitSystem): Content {
  const family = familyOf(page.family);
  return fieldList(
    [
      ['Family', family?.title ?? page.family],
      ['Serial', inMono(page.serial ?? '–')],
      ...(family?.attributes ?? [])
        .filter(a => page.attributes[a.key] !== undefined)
        .map(a => [a.title, showValue(a, page.attributes[a.key], measures)] as const),
      ['Known as', inMono(page.item)],
    ],
    104,
  );
}

function warnings(page: ItemPage): Content[] {
  return [
    ...page.owed.map(o => `Owes a ${o.activity} since ${dateText(o.since)}: ${o.because}.`),
    ...(page.clashes.length > 0
      ? [
          `${counted(page.clashes.length, 'other living thing')} of its family ${page.clashes.length === 1 ? 'has' : 'have'} the number ${page.number}.`,
        ]
      : []),
  ].map(text => ({ text, bold: true, margin: [0, 0, 0, 3] }));
}

const nothingOwed = (page: ItemPage): Content =>
  page.condition === 'retired' || page.condition === 'disposed'
    ? `It is ${page.condition}: nothing is owed on it.`
    : 'No requirement of the rule book concerns it.';

/** Each date as a row, and under it why it is so, as a captain could read it to an inspector. */
function datesTable(dates: readonly { row: ItemPage['due'][number]; why: string }[]): Content {
  const heads = [
    { head: 'What is owed', width: '*' },
    { head: 'State', width: 74, over: 2 },
    { head: 'Due', width: 62, figure: true },
    { head: 'Days left', width: 46, figure: true },
    { head: 'Last done', width: 62, figure: true },
    { head: 'Being late', width: 50 },
  ] as const;
  return {
    stack: dates.map(({ row, why }, i) => {
      const cells = [
        [
          { text: titleWords(row), bold: true },
          ...stateCells(row.state),
          figureCell(dueText(row)),
          figureCell(daysFigure(row.daysLeft)),
          figureCell(dateText(row.lastOn)),
          { text: row.late },
        ],
      ];
      const table = i === 0 ? listTable(heads, cells) : bareTable(heads, cells);
      return together([table, { text: why, margin: [0, 2, 0, 7] }]);
    }),
  };
}

function recordsTable(
  history: readonly HistoryLine[],
  family: string,
  department: DepartmentSummary,
): Content {
  const { zone } = department;
  return listTable(
    [
      { head: 'On', width: 80, figure: true },
      { head: 'What', width: '*' },
      { head: 'Signed by', width: 98 },
      { head: 'Entered', width: 80, figure: true },
    ],
    history.map((line): TableCell[] => [
      figureCell(dateText(line.effective)),
      whatCell(line, family, department),
      { text: `${line.byName ?? 'Nobody named'} (${line.via})` },
      figureCell(momentText(line.recordedAt, zone)),
    ]),
    `Every record, the latest first: ${counted(history.length, 'line')}`,
  );
}

function whatCell(line: HistoryLine, family: string, department: DepartmentSummary): TableCell {
  const { zone } = department;
  const { voided } = line;
  const struck = voided ? ({ decoration: 'lineThrough' } as const) : {};
  const more = detailsText(line, family, department);
  return {
    stack: [
      { text: line.what, bold: line.kind === 'record', ...struck },
      ...(more === '' ? [] : [{ text: more, ...struck }]),
      ...(voided
        ? [`Void since ${momentText(voided.on, zone)}${voided.by ? `, by ${voided.by}` : ''}: ${voided.why}`]
        : []),
    ],
  };
}

/** Readings, who did it where that is somebody else than who signed, and what was noted. */
function detailsText(
  { details, byName, kind, photos }: HistoryLine,
  family: string,
  { agencies, measures }: DepartmentSummary,
): string {
  const readings = (details.readings ?? {}) as Record<string, unknown>;
  const known = familyOf(family)?.activities.find(a => a.id === details.activity)?.readings ?? [];
  const read = Object.entries(readings).map(([key, value]) => {
    const reading = known.find(r => r.key === key);
    if (reading === undefined) return `${key} ${value}`;
    return `${reading.title.toLowerCase()} ${showValue(reading, value, measures)}`;
  });
  const agency = agencies.find(a => a.id === details.agency);
  return [
    ...read,
    ...(agency ? [`by ${agency.name}${agency.rin ? `, RIN ${agency.rin}` : ''}`] : []),
    ...(kind === 'record' && typeof details.by === 'string' && details.by !== byName
      ? [`done by ${details.by}`]
      : []),
    ...(typeof details.note === 'string' && kind !== 'photo' ? [details.note] : []),
    ...(photos.length > 0 && kind !== 'photo' ? [photosWords(photos.length)] : []),
  ].join('; ');
}
