/** Filling through the two doors: warned before, recorded as what it was, pulled, and taken back whole. */
import { describe, expect, it } from 'vitest';
import type { HistoryLine, ItemPage, Questions } from '../../db/api.ts';
import type { ChainLine } from '../../db/api-checks.ts';
import type { FillCheck, FillLog } from '../../db/api-supply.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { entriesSince, knownHeads, takeIn } from '../../db/ledger/exchange.ts';
import { all, one } from '../../db/store/statements.ts';
import { departmentInMemory, fromTemplate, type TestDepartment, template } from './kit/department.ts';
import { derivedOnly, dump, expectSame } from './kit/dump.ts';

/** A bottle whose five years ran out at the end of September 2026. */
function aBottle(d: TestDepartment, number: string, tested: string | null = '2021-09', more = {}): string {
  const item = d.must('item.receive', {
    family: 'cylinder',
    number,
    attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2016-02', gas: 'air', ...more },
    on: '2016-03-01',
  });
  if (tested !== null)
    d.must('record.add', { item, activity: 'requalification', outcome: 'pass', rin: 'A123', on: tested });
  return item;
}

const check = (d: TestDepartment, args: Questions['fill.check']['takes']) =>
  d.ask<FillCheck>('fill.check', args);
const log = (d: TestDepartment, args: Questions['fills.list']['takes'] = {}) =>
  d.ask<FillLog>('fills.list', args);
const page = (d: TestDepartment, item: string) => d.ask<ItemPage>('item.page', { item });
const chains = async (d: TestDepartment) => (await d.ask<{ rows: ChainLine[] }>('chains.list', {})).rows;
const NIGHT = '2026-11-23T03:10';

describe('before a fill', () => {
  it('the number says whose bottle it is, what its dates are, and that nothing speaks against it', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-240', '2024-05');
    d.must('cylinder.fill', { item, to_psi: 4500, on: '2026-11-01' });
    expect(await check(d, { number: ' c-240 ' })).toMatchObject({
      number: 'C-240',
      cylinder: { item, number: 'C-240', condition: 'serviceable' },
      verdict: 'fill',
      against: [],
      lastHydro: '2024-05',
      requalifyBy: '2029-05-31',
      servicePressure_psi: 4500,
      lastFill: { on: '2026-11-01', to_psi: 4500 },
      fill: 'full',
    });
  });

  it('a bottle past its date is warned of with the clause, and a serial finds it too', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    d.must('item.amend', { item, serial: 'OK771204' });
    const told = await check(d, { number: 'ok771204' });
    expect([told.cylinder?.number, told.verdict]).toEqual(['C-208', 'do not fill']);
    expect(told.against[0]).toMatchObject({ clause: '49 CFR 180.205(c)', force: 'law', pulls: true });
  });

  it('two bottles of one number are asked about, and neither is judged for the other', async () => {
    const { d } = departmentInMemory();
    const [a, b] = [
      aBottle(d, 'C-1'),
      d.must('item.receive', { family: 'cylinder', number: 'C-1', evenIfNumberInUse: true }),
    ];
    const told = await check(d, { number: 'C-1' });
    expect(told.several.map(s => s.item).sort()).toEqual([a, b].sort());
    expect(told.cylinder).toBeNull();
    expect((await check(d, { item: a })).verdict).toBe('do not fill');
  });

  it('a number that is no cylinder of ours says what else bears it', async () => {
    const { d } = departmentInMemory();
    d.must('item.receive', { family: 'pack', number: 'P-17' });
    const told = await check(d, { number: 'P-17', hydroDate: '2025-02', servicePressure_psi: 4500 });
    expect(told).toMatchObject({ cylinder: null, verdict: 'fill' });
    expect(told.others).toEqual([expect.stringMatching(/^P-17 is a/)]);
  });

  it('a retired number means the living bottle that bears it', async () => {
    const { d } = departmentInMemory();
    d.must('item.retire', { item: aBottle(d, 'C-5'), reason: 'Worn' });
    const item = aBottle(d, 'C-5', '2024-05');
    expect((await check(d, { number: 'C-5' })).cylinder?.item).toBe(item);
  });
});

describe('a bottle that was filled out of date', () => {
  it('is recorded as what it was, pulled with the reason and the clause, and begins a chain in the same entry', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    const entry = d.must('cylinder.fill', {
      item,
      from_psi: 900,
      to_psi: 4500,
      hydroDate: '2021-09',
      on: NIGHT,
    });
    const [line] = (await log(d)).rows;
    expect(line).toMatchObject({
      entry,
      on: NIGHT,
      filler: 'R. Alder',
      number: 'C-208',
      hydroDate: '2021-09',
      from_psi: 900,
      to_psi: 4500,
      pulled: true,
      checked: true,
    });
    expect(line?.against.map(a => a.clause)).toEqual(['49 CFR 180.205(c)']);
    expect(d.conditionOf(item)).toBe('tagged out');
    const [chain] = await chains(d);
    expect(chain).toMatchObject({ number: 'C-208', stage: 'tagged', from: NIGHT });
    expect(chain?.reason).toMatch(
      /^Filled on 23 Nov 2026 03:10 all the same\. Its requalification was due by 30 Sep 2026/,
    );
    const told = await d.ask<HistoryLine[]>('item.history', { item });
    expect(told.some(l => /^Filled to 4,500 psi, though: .*49 CFR 180\.205\(c\)/.test(l.what))).toBe(true);
    expect(new Set(told.slice(0, 2).map(l => l.entry))).toEqual(new Set([entry]));
  });

  it('is as it was before, once its fill is voided: record and tag go together', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    const before = derivedOnly(dump(d.db));
    const target = d.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
    d.must('void', { target, why: 'Another bottle was read' });
    expect(derivedOnly(dump(d.db))).toEqual(before);
    expect((await log(d)).rows).toEqual([]);
    expect(await chains(d)).toEqual([]);
  });

  it('is judged by that night and not by today: a test that came later changes nothing of it', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    d.must('record.add', {
      item,
      activity: 'requalification',
      outcome: 'pass',
      rin: 'A123',
      on: '2026-11-24',
    });
    d.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
    d.must('cylinder.fill', { item, to_psi: 4500, on: '2026-11-25' });
    const { rows } = await log(d);
    expect(rows.map(r => r.against.map(a => a.what))).toEqual([['condition'], ['examination overdue']]);
  });

  it('and was tagged out since is told so, and no second tag is hung', () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    d.must('item.tagOut', { item, reason: 'Valve leaks', on: '2026-11-20' });
    d.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
    const tags = all(
      d.db,
      "SELECT 1 FROM facts f JOIN things t ON t.key = f.thing WHERE t.id = ? AND f.kind = 'condition' AND f.effective > '2026'",
      item,
    );
    expect(tags).toHaveLength(1);
  });

  it('and was missing has turned up, and waits for somebody who may return it', () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-187', '2024-05');
    d.must('item.missing', { item, on: '2026-11-20' });
    d.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
    expect(d.conditionOf(item)).toBe('tagged out');
  });
});

describe('a bottle that is held for investigation', () => {
  it('and was filled is recorded as that, and stays held', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    d.must('item.hold', { item, reason: 'Worn by the injured member', on: '2026-11-22' });
    expect((await check(d, { item })).against.map(a => [a.what, a.effect])).toContainEqual([
      'condition',
      'do not fill',
    ]);
    d.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
    expect(d.conditionOf(item)).toBe('held for investigation');
    const [line] = (await log(d)).rows;
    expect([line?.pulled, line?.against.map(a => a.what)]).toEqual([
      false,
      ['examination overdue', 'condition'],
    ]);
  });
});

describe('a bottle that is not ours', () => {
  it('has its line in the log with what its label says, and no thing and no chain here', async () => {
    const { d } = departmentInMemory();
    const items = d.count('items');
    d.must('cylinder.fill', {
      foreign: {
        number: 'CB-207',
        owner: 'Cottonwood Basin Fire',
        marking: 'DOT-SP 10945',
        servicePressure_psi: 4500,
      },
      to_psi: 4500,
      hydroDate: '2021-01',
      performedBy: 'S. Ibarra',
      on: NIGHT,
    });
    const [line] = (await log(d)).rows;
    expect(line).toMatchObject({
      item: null,
      number: 'CB-207',
      owner: 'Cottonwood Basin Fire',
      marking: 'DOT-SP 10945',
      filler: 'S. Ibarra',
      toldBy: 'R. Alder',
      // Set aside for its owner.
      pulled: true,
    });
    expect(d.count('items')).toBe(items);
    expect(await chains(d)).toEqual([]);
  });
});

describe('the compressor', () => {
  it('is named with each fill, so that what it filled can be traced when its sample fails', async () => {
    const { d, g } = departmentInMemory();
    const compressor = d.must('item.receive', { family: 'compressor', number: 'CMP-1', place: g.rack });
    for (const number of ['C-1', 'C-2'])
      d.must('cylinder.fill', {
        item: aBottle(d, number, '2024-05'),
        to_psi: 4500,
        compressor,
        on: '2026-11-20',
      });
    d.must('cylinder.fill', { item: aBottle(d, 'C-3', '2024-05'), to_psi: 4500, on: '2026-11-20' });
    const of = async (named: string) => (await log(d, { compressor: named })).rows.map(r => r.number).sort();
    expect([await of('CMP-1'), await of(compressor)]).toEqual([
      ['C-1', 'C-2'],
      ['C-1', 'C-2'],
    ]);
    expect((await log(d, { station: 'Station 31' })).total).toBe(2);
    d.must('item.tagOut', { item: compressor, reason: 'Oil in the air' });
    const told = await check(d, { number: 'C-1', compressor: 'CMP-1' });
    expect(told).toMatchObject({
      verdict: 'do not fill',
      against: [{ what: 'fill station', force: 'practice' }],
    });
  });
});

describe('the log', () => {
  it('holds fills that were recorded as a service too, and says that nothing was looked at then', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-208');
    d.must('record.add', { item, activity: 'recharge', outcome: 'pass', on: '2026-10-30' });
    expect((await log(d)).rows).toMatchObject([
      { number: 'C-208', checked: false, to_psi: null, against: [] },
    ]);
  });

  it('is narrowed by days, words, and what was told against; a fill known to the month is of all its days', async () => {
    const { d } = departmentInMemory();
    const late = aBottle(d, 'C-208');
    const sound = aBottle(d, 'C-240', '2024-05');
    d.must('cylinder.fill', { item: late, to_psi: 4500, on: NIGHT });
    d.must('cylinder.fill', { item: sound, to_psi: 4400, on: '2026-11-24', note: 'After the drill' });
    d.must('cylinder.fill', { item: sound, to_psi: 4400, on: '2026-08' });
    const numbers = async (args: Questions['fills.list']['takes']) =>
      (await log(d, args)).rows.map(r => r.number);
    expect(await numbers({ from: '2026-11-23', to: '2026-11-23' })).toEqual(['C-208']);
    expect(await numbers({ from: '2026-08-15', to: '2026-08-16' })).toEqual(['C-240']);
    expect(await numbers({ against: true })).toEqual(['C-208']);
    expect(await numbers({ text: 'drill c-240' })).toEqual(['C-240']);
    expect(await log(d, { limit: 1 })).toMatchObject({
      total: 3,
      against: 1,
      pulled: 1,
      rows: [{ on: '2026-11-24' }],
    });
  });
});

describe('a fill is refused only where it cannot have been', () => {
  it('with no bottle or two, no such bottle, no such compressor', () => {
    const { d, g } = departmentInMemory();
    const item = aBottle(d, 'C-1');
    const foreign = { number: 'X', owner: 'Y' };
    expect(d.codes('cylinder.fill', { to_psi: 4500 })).toEqual(['which one']);
    expect(d.codes('cylinder.fill', { item, foreign, to_psi: 4500 })).toEqual(['which one']);
    expect(d.codes('cylinder.fill', { item: 'nobody', to_psi: 4500 })).toEqual(['not found']);
    expect(d.codes('cylinder.fill', { item, to_psi: 4500, compressor: g.rack })).toEqual(['not found']);
    const pack = d.must('item.receive', { family: 'pack', number: 'P-1' });
    expect(d.codes('cylinder.fill', { item: pack, to_psi: 4500 })).toEqual(['not a cylinder']);
  });

  it('at a time to come, before it was made, or at a pressure that nothing is filled to', () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-1');
    expect(d.codes('cylinder.fill', { item, to_psi: 4500, on: '2026-11-26' })).toEqual(['future date']);
    expect(d.codes('cylinder.fill', { item, to_psi: 4500, on: '2015-01-01' })).toEqual(['before made']);
    expect(d.codes('cylinder.fill', { item, to_psi: 45_000 })).toEqual(['bad value']);
    expect(d.codes('cylinder.fill', { item, to_psi: 0 })).toEqual(['bad value']);
    expect(d.codes('cylinder.fill', { item, to_psi: 3000, from_psi: 4000 })).toEqual(['pressure fell']);
  });

  it('and what is sent as having spoken against it is written over by what did', async () => {
    const { d } = departmentInMemory();
    d.must('cylinder.fill', { item: aBottle(d, 'C-208'), to_psi: 4500, against: [], pull: null, on: NIGHT });
    expect((await log(d)).rows[0]?.against).toHaveLength(1);
  });
});

describe('a fill', () => {
  it('settles the recharge that a low gauge owes, and one that stops short does not', async () => {
    const { d } = departmentInMemory();
    const item = aBottle(d, 'C-1', '2024-05');
    const recharge = async () =>
      (await page(d, item)).due.find(r => r.requirement === 'cylinder.recharge')?.state;
    d.must('record.add', {
      item,
      activity: 'inspection',
      outcome: 'pass',
      readings: { gauge_psi: 4000 },
      on: '2026-11-01',
    });
    expect(await recharge()).toBe('retest owed');
    d.must('cylinder.fill', { item, to_psi: 3900, on: '2026-11-02' });
    expect(await recharge()).toBe('retest owed');
    d.must('cylinder.fill', { item, to_psi: 4500, on: '2026-11-03' });
    expect(await recharge()).toBeUndefined();
  });

  it('is the same after a rebuild, and on another device that takes it in', async () => {
    const { bytes } = template(['cylinder']);
    const [a, b] = [fromTemplate(bytes, 'alpha'), fromTemplate(bytes, 'beta')];
    try {
      const item = aBottle(a, 'C-208');
      a.must('cylinder.fill', { item, to_psi: 4500, on: NIGHT });
      a.must('cylinder.fill', {
        foreign: { number: 'CB-207', owner: 'Cottonwood Basin Fire' },
        to_psi: 4500,
      });
      takeIn(b.db, entriesSince(a.db, knownHeads(b.db)), b.clock.now());
      expect((await log(b)).rows).toEqual((await log(a)).rows);
      expect(b.conditionOf(item)).toBe('tagged out');
      const live = dump(a.db);
      rebuild(a.db);
      expectSame(dump(a.db), live);
      expect(one(a.db, "SELECT 1 FROM things WHERE kind = 'fill'")).toBeDefined();
    } finally {
      a.db.close();
      b.db.close();
    }
  });
});
