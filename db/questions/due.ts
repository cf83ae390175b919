/** Coming due: the list, its counts and its groups. */
import { z } from 'zod';
import { type Day, dayText } from '../../domain/calendar/day.ts';
import { type Basis, stateOn } from '../../domain/derive/due.ts';
import type { Condition } from '../../domain/facts.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type { OwnVersion, WhenLate } from '../../domain/rulebook/types.ts';
import type { DueCounts, DueGroup, DueList, DueListRow } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { all, one } from '../store/statements.ts';
import { CELL, type Cell, tally } from './due-cells.ts';
import { filterFields, IN_FORCE, NONE, whereOf } from './due-filter.ts';
import { page, textOrNull } from './fields.ts';
import { type Asking, question } from './types.ts';

/** Where a script names no limit it means all, which SQLite writes so; a screen always names one. */
const ALL_ROWS = -1;

const ORDER = {
  due: ['d.due_on', 'd.number_sort'],
  number: ['d.number_sort', 'd.due_on'],
  title: ['d.requirement', 'd.due_on'],
  place: ['p.path_sort', 'd.due_on', 'd.number_sort'],
} as const;

export const dueList = question({
  name: 'due.list',
  title: 'What is due, overdue, never done, owed a retest or past its life, on a day',
  schema: z.strictObject({
    ...filterFields,
    ...page,
    sort: z.enum(['due', 'number', 'place', 'title']).optional(),
    descending: z.boolean().optional(),
  }) as unknown as z.ZodType<Parameters<typeof listDue>[1]>,
  answer: listDue,
  example: { on: '2026-11-25', unit: 'Engine 31', state: 'overdue' },
});

function listDue(asking: Asking, args: import('../api.ts').Questions['due.list']['takes']): DueList {
  const where = whereOf(asking, args);
  const total =
    one<{ n: number }>(asking.db, `SELECT count(*) AS n FROM due d WHERE ${where.sql}`, where.values)?.n ?? 0;
  const direction = args.descending ? ' DESC' : '';
  const sort = args.sort ?? 'due';
  const order = ORDER[sort].map(column => `${column}${direction}`).join(', ');
  const rows = all<Row>(
    asking.db,
    `SELECT ${ROW} FROM (
       SELECT d.* FROM due d ${sort === 'place' ? 'LEFT JOIN places p ON p.key = d.place_key' : ''}
       WHERE ${where.sql} ORDER BY ${order}, d.key LIMIT :limit OFFSET :offset) d
     ${JOINS} ORDER BY ${order}, d.key`,
    { ...where.values, limit: args.limit ?? ALL_ROWS, offset: args.offset ?? 0 },
  );
  const book = readBook(asking.db);
  return { total, rows: rows.map(row => listRow(book, row, where.on)) };
}

interface Row {
  item: string;
  number: string;
  family: string;
  requirement: string;
  basis: Basis;
  lastOn: Day | null;
  dueOn: Day | null;
  dueTo: Day | null;
  warnOn: Day | null;
  lateOn: Day | null;
  own: OwnVersion['change'] | null;
  from: Day | null;
  to: Day | null;
  late: WhenLate;
  condition: Condition;
  place: string | null;
  unit: string | null;
  station: string | null;
}

const ROW = `t.id AS item, i.number, d.family, d.requirement, d.basis, d.last_on AS lastOn, d.due_on AS dueOn,
  d.due_to AS dueTo, d.warn_on AS warnOn, d.late_on AS lateOn, d.own, d.from_day AS "from", d.to_day AS "to", d.late, i.condition, p.path AS place,
  u.name AS unit, s.name AS station`;
const JOINS = `JOIN items i ON i.key = d.item JOIN things t ON t.key = d.item
  LEFT JOIN places p ON p.key = d.place_key LEFT JOIN units u ON u.key = p.unit
  LEFT JOIN places s ON s.key = p.station`;

/** The due rows of one thing in force on a day, as the list shows them. */
export function dueRowsOf(asking: Asking, item: number, on: Day): DueListRow[] {
  const book = readBook(asking.db);
  return all<Row>(
    asking.db,
    `SELECT ${ROW} FROM due d ${JOINS}
     WHERE d.item = :item AND ${IN_FORCE}
     ORDER BY d.due_on, d.key`,
    { item, on },
  ).map(row => listRow(book, row, on));
}

function listRow(book: Book, row: Row, on: Day): DueListRow {
  const state = stateOn(row, on);
  // A first one that was never done has no date any more: it is owed now. Since when is said beside it.
  const dueOn = state === 'never done' ? null : row.dueOn;
  return {
    item: row.item,
    number: row.number,
    family: row.family,
    requirement: row.requirement,
    title: titleOf(book, row.family, row.requirement),
    lastOn: textOrNull(row.lastOn),
    dueOn: textOrNull(dueOn),
    state,
    daysLeft: dueOn === null ? null : dueOn - on,
    place: row.place,
    unit: row.unit,
    station: row.station,
    condition: row.condition,
    late: row.late,
    owedSince: state === 'never done' ? textOrNull(row.dueOn) : null,
    dueTo: textOrNull(row.dueTo),
    own: row.own,
  };
}

export function titleOf(book: Book, family: string, requirement: string): string {
  const versions = book.versions.get(family) ?? [];
  return versions.findLast(v => v.requirement.id === requirement)?.requirement.title ?? requirement;
}

export const dueCounts = question({
  name: 'due.counts',
  title: 'How many rows stand in each state, for a filter without its state',
  schema: z.strictObject(filterFields) as unknown as z.ZodType<import('../api.ts').DueFilter>,
  answer(asking, args): DueCounts {
    const where = whereOf(asking, args, false);
    // One span of the index after another: within each there is little left to group by.
    const spans = ['d.due_on IS NULL', 'd.due_on < :on', 'd.due_on >= :on'];
    const cells = spans.flatMap(span =>
      all<Cell>(
        asking.db,
        `SELECT ${CELL}, count(*) AS n FROM due d WHERE ${span} AND ${where.sql} GROUP BY 1, 2`,
        where.values,
      ),
    );
    const things =
      one<{ n: number }>(
        asking.db,
        `SELECT count(*) AS n FROM items
         WHERE condition NOT IN ('retired', 'disposed') AND family <> 'apparatus'`,
      )?.n ?? 0;
    return { on: textOrNull(where.on) as string, things, byState: tally(cells, where.on) };
  },
  example: { on: '2026-11-25' },
});

/** What is grouped by in SQL; days and places, of which there are few, are told as months and units after it. */
const GROUP = { month: 'd.due_on', unit: 'd.place_key', family: 'd.family' } as const;

export const dueGroups = question({
  name: 'due.groups',
  title: 'The same rows grouped by month, unit or family, with their states',
  schema: z.strictObject({
    ...filterFields,
    by: z.enum(['month', 'unit', 'family']),
  }) as unknown as z.ZodType<import('../api.ts').Questions['due.groups']['takes']>,
  answer(asking, args): DueGroup[] {
    const where = whereOf(asking, args);
    const cells = all<Cell & { key: string | number | null }>(
      asking.db,
      `SELECT ${GROUP[args.by]} AS key, ${CELL}, count(*) AS n FROM due d WHERE ${where.sql} GROUP BY 1, 2, 3`,
      where.values,
    );
    const keyOf = groupKey(asking, args.by);
    return [...Map.groupBy(cells, cell => keyOf(cell.key))]
      .sort(([a], [b]) => inGroupOrder(a, b))
      .map(([key, inGroup]) => ({
        key,
        title: groupTitle(args.by, key),
        total: inGroup.reduce((sum, c) => sum + c.n, 0),
        byState: tally(inGroup, where.on),
      }));
  },
  example: { on: '2026-11-25', by: 'month' },
});

/** From what SQL grouped by to the key that the filter of the same name takes. */
function groupKey(asking: Asking, by: keyof typeof GROUP): (key: string | number | null) => string {
  if (by === 'family') return String;
  if (by === 'month') return day => (day === null ? NONE : dayText(day as Day).slice(0, 7));
  const units = new Map(
    all<{ key: number; name: string }>(
      asking.db,
      'SELECT p.key, u.name FROM places p JOIN units u ON u.key = p.unit',
    ).map(p => [p.key, p.name]),
  );
  return place => units.get(place as number) ?? NONE;
}

/** What has no month or unit comes first, as rows without a date do in the list. */
function inGroupOrder(a: string, b: string): number {
  if (a === NONE || b === NONE) return a === b ? 0 : a === NONE ? -1 : 1;
  return a < b ? -1 : 1;
}

function groupTitle(by: keyof typeof GROUP, key: string): string {
  if (by === 'family') return familyOf(key)?.plural ?? key;
  if (key === NONE) return by === 'month' ? 'No date' : 'No unit';
  return key;
}
