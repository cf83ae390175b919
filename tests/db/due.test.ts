import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DueCounts, DueFilter, DueGroup, DueList } from '../../db/api.ts';
import { readBook } from '../../db/caches/book.ts';
import { asItemFacts } from '../../db/caches/facts.ts';
import { factsByThing } from '../../db/caches/many.ts';
import { STATE_SQL } from '../../db/questions/due-filter.ts';
import { all, type Db } from '../../db/store/statements.ts';
import { addDays, type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { BASES, DUE_STATES, type DueRow, type DueState, stateOn } from '../../domain/derive/due.ts';
import { derive, inForce } from '../../domain/derive/thing.ts';
import { fromTemplate, type TestDepartment, template } from './kit/department.ts';
import { history, perform } from './kit/histories.ts';
import { TODAY } from './kit/opening.ts';

const { bytes } = template();

describe('the state of a row in SQL', () => {
  it('is the state that the domain gives it, for any row on any day', () => {
    const db = new Database(':memory:');
    db.exec(
      'CREATE TABLE due (basis TEXT, due_on INTEGER, due_to INTEGER, warn_on INTEGER, late_on INTEGER) STRICT',
    );
    const insert = db.prepare('INSERT INTO due VALUES (?, ?, ?, ?, ?)');
    const select = db.prepare(
      `SELECT ${DUE_STATES.map((s, i) => `${STATE_SQL[s]} AS s${i}`).join(', ')} FROM due d`,
    );
    // Days close together, so that the day itself, the day before and the day after are met often.
    const near = fc.option(fc.integer({ min: -3, max: 3 }), { nil: null });
    fc.assert(
      fc.property(
        fc.record({
          basis: fc.constantFrom(...BASES),
          dueOn: near,
          warnDays: fc.nat({ max: 3 }),
          graceDays: fc.nat({ max: 2 }),
          range: fc.option(fc.nat({ max: 3 }), { nil: null }),
          certain: near,
          on: fc.integer({ min: -3, max: 3 }),
        }),
        ({ basis, dueOn, warnDays, graceDays, range, certain, on }) => {
          // As derive writes them: what has no date has no warning, and only a first one may have none.
          fc.pre(dueOn !== null || ['first', 'retest', 'unjudged', 'projected'].includes(basis));
          fc.pre(basis !== 'none');
          const dated = basis === 'retest' || basis === 'unjudged' ? null : dueOn;
          const warnOn = dated === null ? null : dated - warnDays;
          // A projection has a range and is late only by another clock that is certain; the rest have days of grace.
          const isProjected = basis === 'projected';
          const dueTo = isProjected && dated !== null && range !== null ? dated + range : null;
          const lateOn = isProjected ? certain : dated === null ? null : dated + graceDays;
          db.exec('DELETE FROM due');
          insert.run(basis, dated, dueTo, warnOn, lateOn);
          const row = select.get({ on }) as Record<string, number | null>;
          const inSql = DUE_STATES.filter((_, i) => row[`s${i}`] === 1);
          const inDomain = stateOn({ basis, dueOn: dated, dueTo, warnOn, lateOn } as DueRow, on as Day);
          expect(inSql).toEqual([inDomain]);
        },
      ),
      { numRuns: 3000, seed: 20261125 },
    );
    db.close();
  });
});

/** Every due row in force on a day, worked out anew from the facts of every thing. */
function recount(
  db: Db,
  on: Day,
): { item: string; requirement: string; family: string; dueOn: Day | null; state: DueState }[] {
  const book = readBook(db);
  // A rig is a thing of its own family as well as a place.
  return [...factsByThing(db, 'item'), ...factsByThing(db, 'place')].flatMap(({ id, facts }) => {
    const derived = derive(asItemFacts(facts), book);
    return (derived?.due ?? [])
      .filter(row => inForce(row, on))
      .map(row => ({
        item: id,
        requirement: row.requirement,
        family: derived?.family ?? '',
        dueOn: row.dueOn,
        state: stateOn(row, on),
      }));
  });
}

function byState(rows: readonly { state: DueState }[]): Partial<Record<DueState, number>> {
  const counts: Partial<Record<DueState, number>> = {};
  for (const { state } of rows) counts[state] = (counts[state] ?? 0) + 1;
  return counts;
}

describe('coming due, against a recount from the facts of every thing', () => {
  const DAYS = ['2020-06-15', '2023-02-28', '2025-01-01', TODAY, '2027-12-31', '2041-06-30'];

  /** Ask every form of the question about one day. @returns how many rows were compared */
  async function compareOn(d: TestDepartment, day: Day): Promise<number> {
    const on = dayText(day);
    const expected = recount(d.db, day);
    const list = await d.ask<DueList>('due.list', { on });
    expect(list.total).toBe(expected.length);
    const told = (r: { item: string; requirement: string; state: DueState }) =>
      `${r.item} ${r.requirement} ${r.state}`;
    expect(list.rows.map(told).sort()).toEqual(expected.map(told).sort());
    for (const row of list.rows) {
      const dueOn = row.state === 'never done' ? row.owedSince : row.dueOn;
      const same = expected.find(e => e.item === row.item && e.requirement === row.requirement);
      expect(dueOn).toBe(same?.dueOn == null ? null : dayText(same.dueOn));
    }
    const counts = await d.ask<DueCounts>('due.counts', { on });
    expect(counts.byState).toEqual(byState(expected));
    for (const by of ['month', 'family'] as const) {
      const groups = await d.ask<DueGroup[]>('due.groups', { on, by });
      const key = (r: (typeof expected)[number]) =>
        by === 'family' ? r.family : r.dueOn === null ? NO_MONTH : dayText(r.dueOn).slice(0, 7);
      expect(new Map(groups.map(g => [g.key, g.byState]))).toEqual(
        new Map([...Map.groupBy(expected, key)].map(([k, inGroup]) => [k, byState(inGroup)])),
      );
      expect(groups.map(g => g.total)).toEqual(groups.map(g => sum(g.byState)));
    }
    for (const state of DUE_STATES) {
      const filtered = await d.ask<DueList>('due.list', { on, state });
      expect(filtered.total, state).toBe(expected.filter(r => r.state === state).length);
    }
    const within = await d.ask<DueList>('due.list', { on, within: 90 });
    expect(within.total).toBe(expected.filter(r => r.dueOn === null || r.dueOn <= day + 90).length);
    return expected.length;
  }

  it('lists, counts and groups the same rows on any day, in 100 random departments', {
    timeout: 60_000,
  }, async () => {
    let rows = 0;
    await fc.assert(
      fc.asyncProperty(history(44), fc.constantFrom(...DAYS), fc.nat(), async (acts, on, n) => {
        const d = fromTemplate(bytes, 'alpha');
        try {
          for (const act of acts) perform(d, act);
          // And on the days where something turns: the first of a warning, the last in time.
          const turns = all<{ day: Day }>(
            d.db,
            'SELECT warn_on AS day FROM due WHERE warn_on > 0 UNION SELECT due_on FROM due WHERE due_on > 0',
          );
          const days = [parseDay(on) as Day];
          for (const { day } of turns.slice(n % 5, (n % 5) + 2))
            days.push(day, addDays(day, 1), addDays(day, -1));
          for (const day of days) rows += await compareOn(d, day);
        } finally {
          d.db.close();
        }
      }),
      { numRuns: 100, seed: 20261127 },
    );
    expect(rows).toBeGreaterThan(2000);
  });

  it('pages through the list without losing or repeating a row, in every order', {
    timeout: 60_000,
  }, async () => {
    const d = aBusyDepartment();
    const whole = await d.ask<DueList>('due.list', { on: TODAY });
    expect(whole.total).toBeGreaterThan(60);
    for (const sort of ['due', 'number', 'place', 'title'] as const)
      for (const descending of [false, true]) {
        const paged: string[] = [];
        for (let offset = 0; offset < whole.total; offset += 7) {
          const page = await d.ask<DueList>('due.list', { on: TODAY, sort, descending, limit: 7, offset });
          expect(page.total).toBe(whole.total);
          paged.push(...page.rows.map(r => `${r.item} ${r.requirement}`));
        }
        expect(new Set(paged).size).toBe(whole.total);
      }
    d.db.close();
  });

  it('is in the order of the days, and of numbers as people count within a day', async () => {
    const d = aBusyDepartment();
    const { rows } = await d.ask<DueList>('due.list', { on: TODAY });
    const days = all<{ due_on: number | null }>(
      d.db,
      'SELECT due_on FROM due d WHERE (from_day IS NULL OR from_day <= :on) AND (to_day IS NULL OR to_day > :on) ORDER BY due_on',
      { on: parseDay(TODAY) },
    );
    expect(rows.map(r => (r.state === 'never done' ? r.owedSince : r.dueOn))).toEqual(
      days.map(r => (r.due_on === null ? null : dayText(r.due_on as Day))),
    );
    d.db.close();
  });

  it('opens each group to just the rows it counts', async () => {
    const d = aBusyDepartment();
    for (const by of ['month', 'unit', 'family'] as const) {
      const groups = await d.ask<DueGroup[]>('due.groups', { on: TODAY, by });
      expect(groups.length, by).toBeGreaterThan(1);
      for (const { key, total } of groups) {
        const list = await d.ask<DueList>('due.list', { on: TODAY, [by]: key });
        expect(list.total, `${by} ${key}`).toBe(total);
      }
    }
    d.db.close();
  });

  it('filters by unit, station, family, requirement and words as a reader of the whole list would', async () => {
    const d = aBusyDepartment();
    const { rows } = await d.ask<DueList>('due.list', { on: TODAY });
    const month = rows.find(r => r.dueOn !== null)?.dueOn?.slice(0, 7) ?? '';
    const filters: [DueFilter, (r: DueList['rows'][number]) => boolean][] = [
      [{ unit: 'Engine 31' }, r => r.unit === 'Engine 31'],
      [{ station: 'Station 31' }, r => r.station === 'Station 31'],
      [{ family: 'cylinder' }, r => r.family === 'cylinder'],
      [{ requirement: 'hose.service-test' }, r => r.requirement === 'hose.service-test'],
      [{ unit: 'none' }, r => r.unit === null],
      [{ month }, r => (r.dueOn ?? r.owedSince)?.startsWith(month) === true],
      [{ month: 'none' }, r => r.dueOn === null && r.owedSince === null],
      [{ text: 'hosebed' }, r => (r.place ?? '').includes('hosebed')],
      [{ state: ['overdue', 'never done'] }, r => r.state === 'overdue' || r.state === 'never done'],
      [{ family: 'hose', state: 'overdue', within: 30 }, r => r.family === 'hose' && r.state === 'overdue'],
    ];
    for (const [filter, fits] of filters) {
      const list = await d.ask<DueList>('due.list', { on: TODAY, ...filter });
      expect(list.rows, JSON.stringify(filter)).toEqual(rows.filter(fits));
      expect(list.total).toBe(list.rows.length);
      expect(list.total, JSON.stringify(filter)).toBeGreaterThan(0);
    }
    d.db.close();
  });
});

const NO_MONTH = 'none';

function sum(counts: Partial<Record<DueState, number>>): number {
  return Object.values(counts).reduce((a, b) => a + b, 0);
}

/** Eighty things of three families, in several places and states. */
function aBusyDepartment(): TestDepartment {
  const shared = template();
  const d = fromTemplate(shared.bytes, 'busy');
  const { bed, rack, vendor } = shared.ground;
  for (let i = 0; i < 80; i++) {
    const family = ['hose', 'cylinder', 'ladder', 'hose'][i % 4];
    const item = d.must('item.receive', {
      family,
      number: `${31 + (i % 2)}-${i}`,
      place: [bed, rack, vendor, undefined][i % 4] ?? bed,
      attributes: {
        ...(i % 5 > 0 ? { made: `20${10 + (i % 12)}-0${1 + (i % 9)}` } : {}),
        ...(family === 'ladder' ? { type: 'roof' } : {}),
        ...(family === 'cylinder' ? { spec: 'DOT-3AL' } : {}),
      },
      on: '2022-01-05',
    });
    if (i % 3 === 0)
      d.must('record.add', {
        item,
        activity: family === 'hose' ? 'service test' : 'inspection',
        outcome: 'pass',
        on: `202${4 + (i % 3)}-0${1 + (i % 9)}-11`,
      });
  }
  return d;
}

describe('the plan of a question that must be quick', () => {
  function planOf(db: Db, sql: string, values: Record<string, unknown>): string {
    return (db.prepare(`EXPLAIN QUERY PLAN ${sql}`).all(values) as { detail: string }[])
      .map(r => r.detail)
      .join('\n');
  }

  /** The statements a question runs, caught as they are prepared. */
  async function statementsOf(
    d: TestDepartment,
    question: string,
    args: unknown,
  ): Promise<{ sql: string; values: Record<string, unknown> }[]> {
    const caught: { sql: string; values: Record<string, unknown> }[] = [];
    const { prepare } = d.db;
    const spying = new Database(d.db.serialize());
    spying.pragma('recursive_triggers = ON');
    const real = spying.prepare.bind(spying) as (sql: string) => Database.Statement;
    spying.prepare = ((sql: string) => {
      const statement = real(sql);
      const wrap = (name: 'all' | 'get') => {
        const run = statement[name].bind(statement) as (...values: unknown[]) => unknown;
        Object.assign(statement, {
          [name]: (...values: unknown[]) => {
            caught.push({ sql, values: (values[0] ?? {}) as Record<string, unknown> });
            return run(...values);
          },
        });
      };
      wrap('all');
      wrap('get');
      return statement;
    }) as typeof prepare;
    const { ask } = await import('../../db/store/ask.ts');
    const answer = await ask(spying, d.clock, question, args);
    expect(answer.ok).toBe(true);
    spying.close();
    return caught.filter(c => c.sql.includes('due'));
  }

  it('of the first page walks the index in its order and sorts nothing', async () => {
    const d = aBusyDepartment();
    const [, page] = await statementsOf(d, 'due.list', { on: TODAY, limit: 50 });
    if (!page) throw new Error('The page was not asked for.');
    const plan = planOf(d.db, page.sql, page.values);
    expect(plan).toMatch(/SCAN d USING (COVERING )?INDEX due_order/);
    expect(plan).not.toMatch(/SCAN due(?! USING)|USE TEMP B-TREE FOR ORDER BY/);
    d.db.close();
  });

  it('of a count reads the index alone and no row of the table', async () => {
    const d = aBusyDepartment();
    for (const args of [
      { on: TODAY },
      { on: TODAY, state: 'overdue', family: 'hose' },
      { on: TODAY, unit: 'Engine 31' },
    ]) {
      const [count] = await statementsOf(d, 'due.list', args);
      if (!count) throw new Error('Nothing was counted.');
      expect(planOf(d.db, count.sql, count.values)).toMatch(/USING COVERING INDEX due_order/);
    }
    const [counts] = await statementsOf(d, 'due.counts', { on: TODAY });
    if (!counts) throw new Error('Nothing was counted.');
    expect(planOf(d.db, counts.sql, counts.values)).toMatch(/USING COVERING INDEX due_order/);
    d.db.close();
  });
});
