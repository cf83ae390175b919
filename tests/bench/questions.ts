/** Asking: Coming due in its forms, Readiness, Rigs, why a date, and search; beside the same SQL run bare. */
import { ask } from '../../db/store/ask.ts';
import { openForReading } from '../../db/store/open.ts';
import { all, type Db, type Statement } from '../../db/store/statements.ts';
import { TODAY } from '../db/kit/opening.ts';
import { seeded } from '../db/kit/seeded.ts';
import { clock } from './departments.ts';
import type { Measured } from './measure.ts';
import { median, timed } from './timing.ts';

const SAME_SQL = 'the same SQL in one read transaction, prepared once, its rows fetched and left as they are';

interface Question {
  name: string;
  question: string;
  args: Record<string, unknown>;
  aim?: Measured['aim'];
}

const UNDER_100: Measured['aim'] = { atMost: 100 };
const QUESTIONS: readonly Question[] = [
  { name: 'Coming due, first page', question: 'due.list', args: { limit: 100 }, aim: UNDER_100 },
  {
    name: 'Coming due, filtered: overdue hose of one unit',
    question: 'due.list',
    args: { limit: 100, unit: 'Engine 2', family: 'hose', state: 'overdue' },
    aim: UNDER_100,
  },
  {
    name: 'Coming due, filtered: due within 30 days',
    question: 'due.list',
    args: { limit: 100, within: 30 },
    aim: UNDER_100,
  },
  { name: 'Coming due, counted by state', question: 'due.counts', args: {}, aim: UNDER_100 },
  { name: 'Coming due, grouped by month', question: 'due.groups', args: { by: 'month' } },
  { name: 'Coming due, grouped by unit', question: 'due.groups', args: { by: 'unit' } },
  {
    name: 'Readiness of every unit',
    question: 'readiness.now',
    args: {},
    aim: { atMost: 100, at: 20_000 },
  },
  {
    name: 'Readiness of one unit, with the shortest fix over all',
    question: 'readiness.now',
    args: { unit: 'Engine 2' },
    aim: { atMost: 300, at: 20_000 },
  },
  { name: 'A carry list of 250 lines', question: 'carry.page', args: { of: 'Engine 2' }, aim: UNDER_100 },
  { name: 'Check-offs of every unit', question: 'carry.holders', args: {}, aim: { atMost: 100, at: 20_000 } },
  { name: 'Rigs', question: 'rigs.list', args: {}, aim: { atMost: 100, at: 20_000 } },
];

export async function askLists(file: string, runs: number): Promise<Measured[]> {
  const db = openForReading(file);
  const measured: Measured[] = [];
  for (const { name, question, args, aim } of QUESTIONS) {
    const asked = { on: TODAY, ...args };
    const statements = await statementsOf(db, question, asked);
    const ours = await timed(runs, () => answered(db, question, asked));
    const bare = await timed(runs, () => runBare(db, statements));
    measured.push({
      name,
      unit: 'ms',
      ours: median(ours),
      bare: median(bare),
      bareIs: SAME_SQL,
      ...(aim ? { aim } : {}),
    });
  }
  db.close();
  return measured;
}

/** Why a date, for things taken at random. */
export async function askWhy(file: string, runs: number): Promise<Measured> {
  const db = openForReading(file);
  const random = seeded(runs);
  const rows = all<{ item: string; requirement: string }>(
    db,
    'SELECT t.id AS item, d.requirement FROM due d JOIN things t ON t.key = d.item WHERE d.to_day IS NULL LIMIT 5000',
  );
  const picked = Array.from({ length: runs + 2 }, () => random.pick(rows));
  const asked = (run: number) => ({ on: TODAY, ...picked[run] });
  const statements: Bare[][] = [];
  for (let run = 0; run < picked.length; run++)
    statements.push(await statementsOf(db, 'due.explain', asked(run)));
  const ours = await timed(runs, run => answered(db, 'due.explain', asked(run)));
  const bare = await timed(runs, run => runBare(db, statements[run] ?? []));
  db.close();
  return {
    name: 'Why a date (due.explain)',
    unit: 'ms',
    ours: median(ours),
    bare: median(bare),
    bareIs: SAME_SQL,
  };
}

/** What somebody types, one key stroke after another. */
const TYPED = ['31-1042', 'engine 2 hosebed', 'SN700123', 'service', '1 attack'];

export async function search(file: string, runs: number): Promise<Measured> {
  const db = openForReading(file);
  const strokes = TYPED.flatMap(text => Array.from(text, (_, i) => text.slice(0, i + 1)));
  const ours: number[] = [];
  const bare: number[] = [];
  for (const text of strokes) {
    const statements = await statementsOf(db, 'search.all', { text });
    ours.push(median(await timed(runs, () => answered(db, 'search.all', { text }))));
    bare.push(median(await timed(runs, () => runBare(db, statements))));
  }
  db.close();
  return {
    name: `Search, a key stroke (slowest of ${strokes.length})`,
    unit: 'ms',
    ours: Math.max(...ours),
    bare: Math.max(...bare),
    bareIs: SAME_SQL,
  };
}

async function answered(db: Db, question: string, args: unknown): Promise<void> {
  const answer = await ask(db, clock, question, args);
  if (!answer.ok) throw new Error(answer.error.message);
}

interface Bare {
  run(): unknown;
}

/** The statements a question runs, caught from the connection while it is asked. */
async function statementsOf(db: Db, question: string, args: unknown): Promise<Bare[]> {
  const caught: Bare[] = [];
  const { prepare } = db;
  const spying = Object.create(db, {
    prepare: {
      value: (sql: string) => {
        const statement = prepare.call(db, sql) as Statement;
        return {
          all: (...values: unknown[]) => {
            caught.push({ run: () => statement.all(...values) });
            return statement.all(...values);
          },
          get: (...values: unknown[]) => {
            caught.push({ run: () => statement.get(...values) });
            return statement.get(...values);
          },
        };
      },
    },
    exec: { value: (sql: string) => db.exec(sql) },
  }) as Db;
  // The first answer also reads the rule book, which the store keeps in mind from then on.
  await answered(spying, question, args);
  caught.length = 0;
  await answered(spying, question, args);
  return caught;
}

/** In one read transaction, as an answer is. */
function runBare(db: Db, statements: readonly Bare[]): void {
  db.exec('BEGIN');
  for (const { run } of statements) run();
  db.exec('COMMIT');
}
