/** The demo department: the same for a seed and a day, whole, and every story of it findable by asking. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  addMonths,
  addYears,
  differenceInCalendarDays,
  endOfMonth,
  format,
  parseISO,
  startOfQuarter,
} from 'date-fns';
import { Temporal } from 'temporal-polyfill';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type {
  DepartmentSummary,
  DueCounts,
  DueGroup,
  DueList,
  HistoryLine,
  ItemPage,
  ItemSummary,
  MemberLine,
  PlaceLine,
  SearchHit,
  Verification,
} from '../../db/api.ts';
import type { ChangeoverQuestions } from '../../db/api-changeovers.ts';
import type { ChainLine } from '../../db/api-checks.ts';
import type { IncidentQuestions } from '../../db/api-incidents.ts';
import type { NoticeLine } from '../../db/api-notices.ts';
import type { RulebookList } from '../../db/api-rules.ts';
import type { FillLog } from '../../db/api-supply.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { buildDemo } from '../../db/files/demo/index.ts';
import { NEIGHBOR } from '../../db/files/demo/places.ts';
import { CYLINDERS, EQUIPMENT, HOSE, LADDERS, PACKS, STORIES } from '../../db/files/demo/stories.ts';
import { ask } from '../../db/store/ask.ts';
import { openForWriting } from '../../db/store/open.ts';
import { all, type Db, one } from '../../db/store/statements.ts';
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import { dump, expectSame } from './kit/dump.ts';

const ON = '2026-11-25';
const ZONE = 'America/Denver';
const folder = mkdtempSync(join(tmpdir(), 'baybook-demo-'));
const open: Db[] = [];
afterAll(() => {
  for (const db of open) db.close();
  rmSync(folder, { recursive: true, force: true });
});

function demo(on: string, seed: number, now?: number): { db: Db; told: [number, number, string][] } {
  const db = openForWriting(join(folder, `${open.length}.baybook`), { create: true });
  open.push(db);
  const told: [number, number, string][] = [];
  buildDemo(db, { on: parseDay(on) as Day, seed, ...(now === undefined ? {} : { now }) }, (...at) =>
    told.push(at),
  );
  return { db, told };
}

/** Ask on the demo's day. */
function asker(db: Db, on: string) {
  const clock = { now: () => Date.UTC(2030, 0, 1), today: parseDay(on) as Day };
  return async <T>(question: string, args: unknown = {}): Promise<T> => {
    const answer = await ask(db, clock, question, args);
    if (!answer.ok) throw new Error(`${question}: ${answer.error.message}`);
    return answer.value as T;
  };
}

let first: ReturnType<typeof demo>;
let question: ReturnType<typeof asker>;
beforeAll(() => {
  first = demo(ON, 1);
  question = asker(first.db, ON);
}, 60_000);

const list = (args: Record<string, unknown>) => question<DueList>('due.list', args);
const numbersOf = (due: DueList) => [...new Set(due.rows.map(r => r.number))].sort();
const sorted = (numbers: readonly string[]) => [...numbers].sort();
async function find(number: string): Promise<ItemSummary> {
  const [only, ...others] = await question<ItemSummary[]>('item.find', { number });
  if (!only || others.length > 0) throw new Error(`${number} is ${only ? 'several' : 'nothing'}.`);
  return only;
}
const page = async (number: string) => question<ItemPage>('item.page', { item: (await find(number)).item });
const history = (number: string) => question<HistoryLine[]>('item.history', { number });

/** What the entries say, without what differs between two files: their device's name and the links of the chain. */
function bodies(db: Db): string {
  return all<{ text: string; device: string }>(db, 'SELECT text, device FROM entries ORDER BY key')
    .map(({ text, device }) => {
      const {
        prev,
        device: _,
        ...said
      } = JSON.parse(text.replaceAll(device, 'device')) as Record<string, unknown>;
      return JSON.stringify(said);
    })
    .join('\n');
}

describe('the demo as a whole', () => {
  it('of today holds nothing that was told after now, and the same as one of a day that is over', {
    timeout: 60_000,
  }, () => {
    const now = Date.UTC(2026, 10, 25, 12, 30);
    const { db } = demo(ON, 1, now);
    const latest = (of: Db) => one<{ at: number }>(of, 'SELECT max(recorded_at) AS at FROM entries')?.at ?? 0;
    expect(latest(first.db)).toBeGreaterThan(now);
    expect(latest(db)).toBeLessThanOrEqual(now);
    const facts = (of: Db) =>
      all(
        of,
        `SELECT kind, effective, "values" ->> '$.activity' AS activity, "values" ->> '$.outcome' AS outcome
         FROM facts WHERE kind IN ('record', 'condition', 'meter') ORDER BY key`,
      );
    expect(facts(db)).toEqual(facts(first.db));
  });

  it('is the same for a seed and a day', { timeout: 60_000 }, () => {
    const said = bodies(first.db);
    expect(bodies(demo(ON, 1).db) === said).toBe(true);
  });

  it('tells its progress up to the end', () => {
    const [done, total, what] = first.told.at(-1) ?? [0, 1, ''];
    expect(done).toBe(total);
    expect(what).toBe('Writing Nov 2026');
    expect(first.told.length).toBeGreaterThan(20);
    expect(first.told.every(([d], i) => d > (first.told[i - 1]?.[0] ?? 0))).toBe(true);
  });

  // The scenario asks for four stations, nine units, eleven rigs and about 2,500 things.
  it('has the district of the scenario', async () => {
    const summary = await question<DepartmentSummary>('department.summary');
    expect(summary).toMatchObject({
      name: 'Larkspur Valley Fire District',
      zone: ZONE,
      state: 'CO',
      isDemo: true,
    });
    expect(summary.stations.map(s => s.name)).toEqual([
      'Station 31',
      'Station 32',
      'Station 33',
      'Station 34',
    ]);
    expect(summary.units.map(u => u.name)).toEqual([
      'Battalion 3',
      'Brush 32',
      'Engine 31',
      'Engine 32',
      'Engine 33',
      'Engine 34',
      'Rescue 33',
      'Tender 34',
      'Tower 33',
    ]);
    expect(summary.rigs).toHaveLength(11);
    expect(summary.rigs.filter(r => r.unit === null).map(r => r.name)).toEqual([
      'Reserve R-1',
      'Reserve R-2',
    ]);
    expect(summary.agencies.map(a => a.rin).sort()).toEqual(['A123', 'B456']);
    expect(summary.things).toBeGreaterThan(2400);
    expect(summary.things).toBeLessThan(2600);
    const places = await question<PlaceLine[]>('places.list');
    expect(places.filter(p => p.kind === 'vendor')).toHaveLength(2);
    const members = await question<MemberLine[]>('members.list');
    expect([...new Set(members.map(m => m.position))].sort()).toEqual(
      [
        'administrator',
        'auditor',
        'company officer',
        'driver',
        'firefighter',
        'logistics',
        'technician',
        // The terminal acts for scripts and holds no position.
        null,
      ].sort(),
    );
  });

  it('is mostly current, with every state there to be seen', async () => {
    const { byState } = await question<DueCounts>('due.counts');
    const rows = Object.values(byState).reduce((sum, n) => sum + n, 0);
    const late = (byState.overdue ?? 0) + (byState['due soon'] ?? 0);
    // What a department might have; common practice, no source.
    expect(late / rows).toBeGreaterThan(0.05);
    expect(late / rows).toBeLessThan(0.09);
    expect((byState.current ?? 0) / rows).toBeGreaterThan(0.85);
    for (const state of [
      'life ended',
      'retest owed',
      'never done',
      'overdue',
      'not judged',
      'due soon',
    ] as const)
      expect(byState[state], state).toBeGreaterThan(3);
  });

  it('was recorded through three years, up to the morning of the day', () => {
    const [span] = all<{ first: number; last: number }>(
      first.db,
      'SELECT min(recorded_at) AS first, max(recorded_at) AS last FROM entries',
    );
    const local = (ms: number) =>
      Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(ZONE).toPlainDateTime().toString();
    expect(local(span?.first ?? 0)).toBe('2023-11-25T09:00:00');
    expect(local(span?.last ?? 0)).toBe('2026-11-25T06:40:00');
    // Weekly checks are told at twenty to seven by the wall, before and after the clocks went back on 1 November.
    const checks = all<{ at: number }>(
      first.db,
      `SELECT DISTINCT recorded_at AS at FROM entries WHERE text ->> '$.body.activity' = 'operational check' AND text ->> '$.body.item' IN (
         SELECT t.id FROM items i JOIN things t ON t.key = i.key WHERE i.family = 'pack')`,
    );
    const walls = new Set(checks.map(c => local(c.at).slice(11)));
    expect([...walls]).toEqual(['06:40:00']);
    expect(new Set(checks.map(c => (c.at / 3_600_000) % 24)).size).toBe(2);
  });

  it('holds: the ledger verifies, and the caches made again are the same', { timeout: 60_000 }, async () => {
    const verified = await question<Verification>('ledger.verify');
    expect(verified).toMatchObject({ ok: true });
    const grown = dump(first.db);
    expect(rebuild(first.db)).toBe(verified.entries);
    expectSame(dump(first.db), grown);
  });

  it('writes nothing where a deed is refused', () => {
    const db = openForWriting(join(folder, 'refused.baybook'), { create: true });
    open.push(db);
    db.exec(`CREATE TEMP TRIGGER late BEFORE INSERT ON main.entries WHEN new.seq = 3000
      BEGIN SELECT RAISE(ABORT, 'cut off'); END`);
    expect(() => buildDemo(db, { on: parseDay(ON) as Day, seed: 1 }, () => {})).toThrow('cut off');
    expect(all(db, 'SELECT 1 FROM entries')).toEqual([]);
    expect(all(db, 'SELECT 1 FROM things')).toEqual([]);
  });

  // A leap day, and a month's last day.
  it.each([
    ['2024-02-29', 2],
    ['2027-01-31', 3],
  ])('loads for %s with seed %i, with the same stories', { timeout: 60_000 }, async (on, seed) => {
    const { db } = demo(on, seed);
    // The seed moves what happens by chance; the stories stay.
    expect(bodies(db) === bodies(first.db)).toBe(false);
    const there = asker(db, on);
    const { byState } = await there<DueCounts>('due.counts');
    const tracked = ['hose', 'ladder', 'cylinder', 'pack'];
    const lateOf: DueCounts[] = [];
    for (const family of tracked) lateOf.push(await there<DueCounts>('due.counts', { family }));
    const sum = (state: 'overdue' | 'retest owed') => lateOf.reduce((n, c) => n + (c.byState[state] ?? 0), 0);
    expect(sum('overdue')).toBe(28);
    expect(sum('retest owed')).toBe(8);
    expect(byState.overdue).toBeLessThan(110);
    const due = await there<DueList>('due.list', { unit: 'Engine 31', family: 'hose', state: 'overdue' });
    expect(due.rows.map(r => r.number)).toEqual([HOSE.overdue]);
    const owed = await there<DueList>('due.list', { state: 'retest owed', family: 'ladder' });
    expect(owed.rows.map(r => r.number).sort()).toEqual([LADDERS.repaired, LADDERS.flame].sort());
  });
});

describe('every story of the table', () => {
  it.each(STORIES.map(s => [s.title, s] as const))(
    '%s: its things are found by number',
    async (_title, story) => {
      expect(story.numbers.length).toBeGreaterThan(0);
      for (const number of story.numbers) {
        const hits = await question<SearchHit[]>('search.all', { text: number });
        expect(
          hits.map(h => h.label),
          number,
        ).toContain(number);
      }
    },
  );

  it('Engine 33’s hose lies in Engine 31’s bed, its number read on test day', async () => {
    const found = await page(HOSE.found);
    expect(found).toMatchObject({
      place: 'Engine 31, hosebed driver side',
      unit: 'Engine 31',
      state: 'current',
    });
    const read = found.known?.since ?? '';
    expect(found.known?.how).toBe('number read');
    const told = await history(HOSE.found);
    const places = told.filter(h => h.kind === 'place').map(h => h.what);
    expect(places).toEqual([
      'Placed at Engine 31, hosebed driver side (number read)',
      'Placed at Engine 33, hosebed driver side (sheet)',
    ]);
    // Station 31's test day: the day on which most of Engine 31's hose was tested last.
    const engine = await list({ unit: 'Engine 31', requirement: 'hose.service-test' });
    const onThatDay = engine.rows.filter(r => r.lastOn === read).length;
    expect(onThatDay).toBeGreaterThan(engine.rows.length / 2);
  });

  it('the overdue hose of Engine 31 is exactly one', async () => {
    const due = await list({ unit: 'Engine 31', family: 'hose', state: 'overdue' });
    expect(due.total).toBe(1);
    const [row] = due.rows;
    expect(row).toMatchObject({
      number: HOSE.overdue,
      requirement: 'hose.service-test',
      condition: 'serviceable',
    });
    // NFPA 1962 (2018) 4.8: at least every twelve months. Calendar: date-fns.
    expect(row?.dueOn).toBe(format(addMonths(parseISO(row?.lastOn ?? ''), 12), 'yyyy-MM-dd'));
    const told = (await history(HOSE.overdue)).map(h => h.what);
    expect(told.find(what => what.startsWith('Missing: '))).toMatch(
      /^Missing: Not found after Two-alarm fire, Mill Road; perhaps with Engine 33 \(its list has not come in;/,
    );
    expect(told).toContain('Placed at Engine 33, crosslay 2 (number read)');
  });

  it('fifty bottles reach fifteen years in the next quarter', async () => {
    // 49 CFR 180.205(c) and the permit: fifteen years from manufacture, the month through its end. Calendar: date-fns.
    const quarter = startOfQuarter(addMonths(parseISO(ON), 3));
    const months = [0, 1, 2].map(i => format(addMonths(quarter, i), 'yyyy-MM'));
    const groups = await question<DueGroup[]>('due.groups', {
      by: 'month',
      requirement: 'cylinder.end-of-life',
    });
    const inQuarter = groups.filter(g => months.includes(g.key));
    expect(inQuarter.reduce((sum, g) => sum + g.total, 0)).toBe(50);
    for (const number of CYLINDERS.cliff) {
      const bottle = await page(number);
      const ends = endOfMonth(addYears(parseISO(`${bottle.attributes.made}-01`), 15));
      expect(bottle.lifeEndsOn, number).toBe(format(ends, 'yyyy-MM-dd'));
      expect(months).toContain(bottle.lifeEndsOn?.slice(0, 7));
    }
  });

  it('three of the fifty are charged, on the full rack and past due', async () => {
    const due = await list({ requirement: 'cylinder.requalification', state: 'overdue' });
    const ofCliff = due.rows.filter(r => CYLINDERS.cliff.includes(r.number));
    expect(ofCliff.map(r => r.number).sort()).toEqual(CYLINDERS.chargedPastDue);
    for (const row of ofCliff) {
      expect(row.place).toBe('Station 31, fill room, full rack');
      const bottle = await page(row.number);
      const racked = (await history(row.number))[0];
      expect(racked?.details.note).toBe('Filled to 4500 psi and racked');
      // 49 CFR 180.205(c) and PHMSA interpretation 09-0148: filled before it became due, it may stay until emptied;
      // it is not filled again.
      expect((racked?.effective ?? '') < (row.dueOn ?? '')).toBe(true);
      expect(bottle.cylinder?.stayInService.law.allowed).toBe(true);
      expect(bottle.cylinder?.stayInService.policy.allowed).toBe(false);
      expect(bottle.cylinder?.fill.law.allowed).toBe(false);
    }
  });

  it('a ladder is back on its rig and has been untested for 41 days', async () => {
    const ladder = await page(LADDERS.repaired);
    expect(ladder).toMatchObject({
      place: 'Engine 32, ladder rack',
      condition: 'retest owed',
      state: 'retest owed',
    });
    const [owed] = ladder.owed;
    expect(owed).toMatchObject({ activity: 'service test', because: 'repaired: rung, beam or hardware' });
    expect(differenceInCalendarDays(parseISO(ON), parseISO(owed?.since ?? ''))).toBe(LADDERS.repairedAgo);
    expect(LADDERS.repairedAgo).toBe(41);
    const told = await history(LADDERS.repaired);
    const voided = told.filter(h => h.voided);
    expect(voided.map(h => h.what)).toEqual(['Repaired: halyard; owes inspection']);
    const back = told.find(h => h.what === 'Serviceable' && h.effective === owed?.since);
    expect(back?.byName).toBe('G. Prewitt');
    expect(voided[0]?.byName).toBe('G. Prewitt');
    const corrected = told.find(h => h.what.startsWith('Repaired: rung'));
    // Back-dated: told weeks after it was so.
    expect(corrected?.effective).toBe(owed?.since);
    expect((corrected?.recordedAt ?? '').slice(0, 10) > (owed?.since ?? '')).toBe(true);
  });

  it('a pack is held since an injury, and a record was entered late on the morning after', async () => {
    const pack = await page(PACKS.held);
    expect(pack).toMatchObject({ condition: 'held for investigation', place: 'Station 31, evidence locker' });
    const told = await history(PACKS.held);
    const hold = told.find(h => h.kind === 'condition' && h.what.startsWith('Held'));
    const late = told.find(h => h.what === 'Flow test, passed');
    expect(hold?.effective).toBe('2026-11-02T14:20');
    expect(differenceInCalendarDays(parseISO(ON), parseISO(hold?.effective ?? ''))).toBe(PACKS.heldSince);
    // Effective weeks before the injury; recorded after it and before the hold was.
    expect((late?.effective ?? '') < (hold?.effective ?? '').slice(0, 10)).toBe(true);
    expect((late?.recordedAt ?? '').slice(0, 10) > (hold?.effective ?? '').slice(0, 10)).toBe(true);
    expect((late?.recordedAt ?? '') < (hold?.recordedAt ?? '')).toBe(true);
  });

  it('at 3 am one foreign bottle came, one was lost, one was filled out of date', async () => {
    const foreign = await page(CYLINDERS.foreign);
    expect(foreign).toMatchObject({ assignment: 'loaned in', unit: 'Engine 32', state: 'current' });
    expect(await page(CYLINDERS.missing)).toMatchObject({ condition: 'missing', unit: 'Engine 32' });
    const late = await page(CYLINDERS.filledPastDue);
    expect(late).toMatchObject({ condition: 'tagged out', unit: 'Engine 32', state: 'overdue' });
    const filled = (await history(CYLINDERS.filledPastDue)).find(h => h.kind === 'place');
    expect(filled?.effective).toBe('2026-11-23T03:10');
    expect((late.due.find(r => r.state === 'overdue')?.dueOn ?? '9') < (filled?.effective ?? '')).toBe(true);
    // In the log, in its history and at the head of its chain stands what it was.
    const told = await question<FillLog>('fills.list', { text: CYLINDERS.filledPastDue });
    expect(told.rows).toMatchObject([{ on: '2026-11-23T03:10', hydroDate: '2021-09', pulled: true }]);
    expect(told.rows[0]?.against.map(a => a.clause)).toEqual(['49 CFR 180.205(c)']);
    const chains = await question<{ rows: ChainLine[] }>('chains.list', { text: CYLINDERS.filledPastDue });
    expect(chains.rows[0]?.reason).toMatch(/^Filled on 23 Nov 2026 03:10 all the same\./);
  });

  it('a month was filled at Station 31, one of it a neighbor’s bottle past its date', async () => {
    const log = await question<FillLog>('fills.list', { from: '2026-10-25', to: ON });
    expect(log.total).toBeGreaterThan(60);
    expect(log.rows.every(r => r.checked)).toBe(true);
    expect(log.rows.filter(r => r.owner !== null)).toMatchObject([{ owner: NEIGHBOR, pulled: true }]);
  });

  it('a thermal imager stayed on the reserve rig and is missing', async () => {
    expect(await page(EQUIPMENT.imagerLeft)).toMatchObject({
      condition: 'missing',
      place: 'Reserve R-2, officer seat',
      what: 'Thermal imager',
    });
    for (const number of EQUIPMENT.cameBack) expect((await find(number)).unit).toBe('Engine 34');
    const { legs, notReturned } = await question<ChangeoverQuestions['changeovers.list']['gives']>(
      'changeovers.list',
      {},
    );
    expect(legs.map(l => [l.unit.name, l.to.name, l.back])).toEqual([
      ['Engine 34', 'Engine 34', true],
      ['Engine 34', 'Reserve R-2', false],
    ]);
    expect(legs[0]?.excepted).toMatchObject([{ number: EQUIPMENT.imagerLeft }]);
    // Two crews signed, and what went out came back but for the imager.
    expect(new Set(legs.map(l => l.byName)).size).toBe(2);
    expect((legs[1]?.moved ?? 0) - (legs[0]?.moved ?? 0)).toBe(1);
    expect(notReturned).toMatchObject([{ number: EQUIPMENT.imagerLeft, home: 'Engine 34' }]);
  });

  it('a barn fire waits for the tender, which is the likeliest to have what is missing', async () => {
    const { rows } = await question<IncidentQuestions['incidents.list']['gives']>('incidents.list', {});
    expect(rows.map(r => [r.name.split(',')[0], r.state, r.missing, r.foreign])).toEqual([
      ['Barn fire', 'open', 1, 1],
      ['Bottle swap at the cascade', 'settled', 0, 0],
      ['Two-alarm fire', 'settled', 0, 0],
    ]);
    const { pickup } = await question<IncidentQuestions['incident.page']['gives']>('incident.page', {
      incident: rows[0]?.id,
    });
    const lost = pickup.believed.find(b => b.is === 'missing');
    expect(lost?.thing.number).toBe(HOSE.afterBarn);
    expect(lost?.likely.map(h => h.name)).toEqual(['Cottonwood Basin Fire', 'Tender 34']);
  });

  it('a notice names eleven facepieces, two of them missing', async () => {
    const named: ItemPage[] = [];
    for (const number of EQUIPMENT.stopUse) named.push(await page(number));
    expect(named).toHaveLength(11);
    expect(named.map(f => f.serial)).toEqual(Array.from({ length: 11 }, (_, i) => `VB-${40_410 + i}`));
    expect(named.every(f => f.attributes.model === 'Vista 3')).toBe(true);
    expect(named.filter(f => f.condition === 'missing').map(f => f.number)).toEqual(EQUIPMENT.stopUseMissing);
    expect(named.filter(f => f.condition === 'tagged out')).toHaveLength(9);
    const { rows } = await question<{ rows: NoticeLine[] }>('notices.list', {});
    expect(rows[0]).toMatchObject({ kind: 'stop use', concerned: 11, perhaps: 0, inUse: 0, tagged: 9 });
    expect(rows[0]).toMatchObject({ settled: 3, notFound: 2, open: 8, closed: null });
    const hits = await question<SearchHit[]>('search.all', { text: 'VB-404' });
    expect(hits.map(h => h.label).sort()).toEqual(sorted(EQUIPMENT.stopUse));
  });

  it('two lengths have one number', async () => {
    const both = await question<ItemSummary[]>('item.find', { number: HOSE.clash });
    expect(both.map(h => h.place).sort()).toEqual(['Engine 32, rear preconnect', 'Station 34, hose rack']);
    const one = await question<ItemPage>('item.page', { item: both[0]?.item ?? '' });
    expect(one.clashes).toEqual([both[1]?.item]);
  });

  it('four lengths failed this season and owe a retest', async () => {
    const owed = await list({ family: 'hose', state: 'retest owed' });
    expect(numbersOf(owed)).toEqual(sorted(HOSE.failedStill));
    for (const row of owed.rows) expect(row.place).toMatch(/out-of-service rack$/);
  });

  it('one make and year of hose fails more than chance, and no other does', () => {
    const tests = all<{ lot: string; failed: number }>(
      first.db,
      `SELECT i.attributes ->> '$.maker' || ' ' || substr(i.attributes ->> '$.made', 1, 4) AS lot,
         (f."values" ->> '$.outcome') = 'fail' AS failed
       FROM facts f JOIN items i ON i.key = f.thing
       WHERE i.family = 'hose' AND f.kind = 'record' AND f.voided_at IS NULL
         AND f."values" ->> '$.activity' = 'service test' AND i.attributes ->> '$.maker' IS NOT NULL`,
    );
    const failures = tests.filter(t => t.failed).length;
    const lots = [...new Set(tests.map(t => t.lot))].map(lot => {
      const ofLot = tests.filter(t => t.lot === lot);
      return { lot, p: upperTail(ofLot.filter(t => t.failed).length, ofLot.length, failures, tests.length) };
    });
    const strange = lots.filter(l => l.p < 0.001 / lots.length);
    expect(strange.map(l => l.lot)).toEqual(['Maker C 2019']);
    expect(strange[0]?.p).toBeLessThan(1e-6);
  });

  it('hose made before July 1987 has ended its life', async () => {
    // NFPA 1962 (2018) 4.8.1: hose made before July 1987 is removed from service.
    const ended = await list({ family: 'hose', state: 'life ended' });
    expect(numbersOf(ended)).toEqual(sorted(HOSE.madeBefore1987));
    for (const row of ended.rows)
      expect(row).toMatchObject({ dueOn: '1987-06-30', place: 'Station 33, storeroom' });
  });

  it('hoop-wrapped bottles past fifteen years were found in the training shed', async () => {
    const ended = await list({ family: 'cylinder', state: 'life ended' });
    expect(numbersOf(ended)).toEqual(sorted(CYLINDERS.hoopFound));
    for (const number of CYLINDERS.hoopGone) expect((await find(number)).condition).toBe('retired');
  });

  it('five bottles of an unconfirmed permit are not judged', async () => {
    expect(numbersOf(await list({ state: 'not judged', family: 'cylinder' }))).toEqual(
      sorted(CYLINDERS.notJudged),
    );
    const book = await question<RulebookList>('rulebook.list', { family: 'cylinder' });
    const confirmed = book.permits.filter(p => p.confirmed).map(p => p.permit);
    expect(confirmed.sort()).toEqual(['DOT-E 7277', 'DOT-SP 10915', 'DOT-SP 10945']);
    expect(book.permits.find(p => p.permit === 'DOT-SP 14232')?.cylinders).toBe(5);
  });

  it('two heat labels have expired and four expire within two months', async () => {
    const labels = { requirement: 'ladder.heat-label' };
    expect(numbersOf(await list({ ...labels, state: 'overdue' }))).toEqual(sorted(LADDERS.labelExpired));
    expect(numbersOf(await list({ ...labels, state: 'due soon' }))).toEqual(sorted(LADDERS.labelExpires));
  });

  it('the reserve rig’s packs were passed over', async () => {
    const late = await list({ requirement: 'pack.operational-check', state: 'overdue' });
    expect(numbersOf(late)).toEqual(sorted([...PACKS.passedOver, PACKS.held]));
    const ofRig = late.rows.filter(r => r.number !== PACKS.held);
    for (const row of ofRig) expect(row.place).toMatch(/^Reserve R-2, /);
  });

  it('six lengths at the bottom of the rack were not tested with the others', async () => {
    const late = await list({ family: 'hose', station: 'Station 34', state: 'overdue' });
    expect(numbersOf(late)).toEqual(sorted(HOSE.buried));
    for (const row of late.rows) expect(row.place).toBe('Station 34, hose rack');
  });
});

/**
 * The chance of so many failures or more in a lot, were failures dealt out at random: the upper tail of the
 * hypergeometric distribution (the one-sided exact test of R. A. Fisher, Statistical Methods for Research Workers,
 * 1934), from memory.
 */
function upperTail(failedInLot: number, lot: number, failed: number, all_tests: number): number {
  let p = 0;
  for (let k = failedInLot; k <= Math.min(lot, failed); k++)
    p += Math.exp(lnChoose(failed, k) + lnChoose(all_tests - failed, lot - k) - lnChoose(all_tests, lot));
  return p;
}

function lnChoose(n: number, k: number): number {
  let ln = 0;
  for (let i = 1; i <= k; i++) ln += Math.log(n - k + i) - Math.log(i);
  return ln;
}
