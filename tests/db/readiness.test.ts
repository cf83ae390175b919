/** Readiness against a recount by hand from the facts, on seeded random departments; rigs, rides, notes and meters. */
import { describe, expect, it } from 'vitest';
import type { DepartmentSummary, ItemPage } from '../../db/api.ts';
import type { DeskQuestions, NoteLine, Readiness, RigLine, RigPage } from '../../db/api-desk.ts';
import { readBook } from '../../db/caches/book.ts';
import { asItemFacts, factsOf } from '../../db/caches/facts.ts';
import { all } from '../../db/store/statements.ts';
import { parseDay } from '../../domain/calendar/day.ts';
import { conditionEffect, dueEffect } from '../../domain/coverage/readiness.ts';
import { stateOn } from '../../domain/derive/due.ts';
import { derive, inForce } from '../../domain/derive/thing.ts';
import { aHose, layGround, newDepartment, type TestDepartment } from './kit/department.ts';

type Changes = DeskQuestions['changes.since']['gives'];

/** A small seeded generator: the same seed, the same department. */
const TODAY = '2026-11-25';

function dice(seed: number): (sides: number) => number {
  let state = seed;
  return sides => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) | 0;
    return Math.abs((state ^ (state >>> 13)) % sides);
  };
}

function randomDepartment(seed: number): TestDepartment {
  const d = newDepartment();
  const roll = dice(seed);
  const units = ['Engine 31', 'Engine 32', 'Brush 32'].map(name =>
    d.must('unit.add', { name, rig: { name } }),
  );
  const rack = d.must('place.add', { name: 'rack', kind: 'rack' });
  for (let i = 0; i < 40; i++) {
    const place = [...units.map(u => `${u}.r`), rack][roll(4)];
    const item = aHose(d, `${i}`, { ...(roll(5) === 0 ? {} : { place }) });
    for (let n = roll(3); n > 0; n--)
      d.must('record.add', {
        item,
        activity: 'service test',
        outcome: roll(6) === 0 ? 'fail' : 'pass',
        on: `202${4 + roll(3)}-0${1 + roll(9)}-1${roll(9)}`,
      });
    const deed = roll(12);
    if (deed === 0) d.must('item.tagOut', { item, reason: 'Cut' });
    if (deed === 1) d.must('item.missing', { item });
    if (deed === 2) d.must('item.retire', { item, reason: 'Worn' });
    if (deed === 3) d.must('item.oweRetest', { item, trigger: 'suspected damage' });
  }
  return d;
}

/** By hand: every item's facts derived anew, its effects counted under the unit whose rig its place lies on. */
function recount(d: TestDepartment) {
  const book = readBook(d.db);
  const on = parseDay(TODAY);
  if (on === null) throw new Error('no day');
  const rigOf = new Map(
    all<{ id: string; unit: string | null }>(
      d.db,
      `SELECT t.id, u.name AS unit FROM places p JOIN things t ON t.key = p.key
       LEFT JOIN places r ON r.key = p.rig LEFT JOIN units u ON u.key = r.unit`,
    ).map(p => [p.id, p.unit]),
  );
  const byUnit = new Map<
    string,
    { blocks: number; limits: number; notes: number; things: number; seen: string[] }
  >();
  for (const { key } of all<{ key: number }>(d.db, "SELECT key FROM things WHERE kind = 'item'")) {
    const thing = derive(asItemFacts(factsOf(d.db, key)), book);
    if (!thing || thing.condition === 'retired' || !thing.place) continue;
    const unit = rigOf.get(thing.place.place);
    if (!unit) continue;
    const count = byUnit.get(unit) ?? { blocks: 0, limits: 0, notes: 0, things: 0, seen: [] };
    count.things++;
    const seen = [
      ...thing.records.map(r => r.effective),
      ...thing.places.filter(p => p.value.how === 'sight').map(p => p.from),
    ].map(when => when.slice(0, 10));
    count.seen.push(...seen.sort().slice(-1));
    const rows = thing.due.filter(r => inForce(r, on)).map(r => ({ late: r.late, state: stateOn(r, on) }));
    const effects = rows.map(dueEffect);
    if (!(thing.condition === 'retest owed' && rows.some(r => r.state === 'retest owed')))
      effects.push(conditionEffect(thing.condition));
    for (const effect of effects) if (effect) count[effect]++;
    byUnit.set(unit, count);
  }
  return byUnit;
}

describe('readiness', () => {
  it.each([1, 2, 3, 4, 5, 6])('agrees with a recount from the facts (seed %i)', async seed => {
    const d = randomDepartment(seed);
    const by = recount(d);
    const { units } = await d.ask<Readiness>('readiness.now', { on: TODAY });
    expect(units).toHaveLength(3);
    for (const unit of units) {
      const count = by.get(unit.name) ?? { blocks: 0, limits: 0, notes: 0, things: 0, seen: [] };
      const { seen, ...byEffect } = count;
      expect({ ...unit.byEffect, things: unit.things }, unit.name).toEqual(byEffect);
      expect(unit.lastSeen).toBe(seen.sort().at(-1) ?? null);
      const lately = seen.filter(day => day >= '2026-10-26').length;
      expect(unit.notSeenFor).toEqual({ days: 30, things: unit.things - lately });
      // Asked about alone, a unit tells every reason; among the others, only the heaviest.
      const [alone] = (await d.ask<Readiness>('readiness.now', { on: TODAY, unit: unit.unit })).units;
      const told = (effect: string) => alone?.reasons.filter(r => r.effect === effect).length;
      expect({ blocks: told('blocks'), limits: told('limits'), notes: told('notes') }).toEqual(unit.byEffect);
      expect(unit.reasons).toEqual(alone?.reasons.slice(0, 3));
      const verdict =
        count.blocks > 0
          ? 'not ready'
          : count.things === 0 || unit.lastSeen === null
            ? 'not known'
            : count.limits > 0
              ? 'ready with limits'
              : 'ready';
      expect(unit.verdict).toBe(verdict);
    }
  });

  it('is not told of a day that is past: what was so then is not what is so now', async () => {
    const d = newDepartment();
    await expect(d.ask('readiness.now', { on: '2026-11-24' })).rejects.toThrow(/today, or of a day to come/);
  });

  it('opens each reason to its why: the requirement, or the condition and since when', async () => {
    const d = newDepartment();
    const { rig } = layGround(d);
    const item = aHose(d, '31-1', { place: rig });
    d.must('item.tagOut', { item, reason: 'Cut 12 ft from the male end', on: '2026-11-20' });
    const [unit] = (await d.ask<Readiness>('readiness.now')).units;
    expect(unit?.reasons.map(r => [r.effect, r.requirement, r.condition, r.since])).toEqual([
      ['blocks', 'hose.service-test', null, null],
      ['limits', null, 'tagged out', '2026-11-20'],
      ['limits', 'hose.first-inspection', null, null],
    ]);
  });
});

describe('a rig', () => {
  it('that a unit’s crew rides carries what counts for that unit; its own rig stands without one', async () => {
    const d = newDepartment();
    const { unit, rig } = layGround(d);
    const reserve = d.must('rig.add', { name: 'Reserve R-1' });
    aHose(d, '31-1', { place: reserve });
    d.must('rig.ride', { rig: reserve, unit, on: '2026-11-25T07:10' });
    const [ready] = (await d.ask<Readiness>('readiness.now')).units;
    expect(ready?.rig).toEqual({ id: reserve, name: 'Reserve R-1', own: false });
    expect(ready?.things).toBe(1);
    const rigs = await d.ask<RigLine[]>('rigs.list');
    expect(rigs.map(r => [r.name, r.unit, r.standing])).toEqual([
      ['Engine 31', null, 'first line'],
      ['Reserve R-1', 'Engine 31', 'reserve'],
    ]);
    d.must('rig.ride', { rig, unit, on: '2026-11-25T18:00' });
    expect((await d.ask<Readiness>('readiness.now')).units[0]?.rig?.own).toBe(true);
  });

  it('keeps what was left on it on an open list until it is moved back', async () => {
    const d = newDepartment();
    const { unit, rig, bed } = layGround(d);
    const reserve = d.must('rig.add', { name: 'Reserve R-1', on: '2020-01-01' });
    const item = aHose(d, '31-1', { place: bed, on: '2022-01-01' });
    d.must('rig.ride', { rig: reserve, unit, on: '2026-11-01T07:00' });
    d.must('item.move', { item, to: reserve, on: '2026-11-01T08:00' });
    d.must('rig.ride', { rig, unit, on: '2026-11-05T19:00' });
    const left = async () => (await d.ask<RigPage>('rig.page', { rig: 'Reserve R-1' })).leftHere;
    expect(await left()).toMatchObject([{ number: '31-1', home: 'Engine 31', since: '2026-11-01T08:00' }]);
    d.must('item.move', { item, to: bed, on: '2026-11-06' });
    expect(await left()).toEqual([]);
  });

  it('out of service makes its unit not ready; who returns it must be entitled', async () => {
    const d = newDepartment();
    const { rig } = layGround(d);
    const driver = d.must('member.add', { number: '9', name: 'D. Poplar', position: 'driver' });
    d.must(
      'rig.takeOut',
      { rig, condition: 'out of service', reason: 'Transmission leak, drops falling' },
      { by: driver },
    );
    const [unit] = (await d.ask<Readiness>('readiness.now')).units;
    expect([unit?.verdict, unit?.reasons[0]?.what]).toEqual([
      'not ready',
      'Engine 31 is out of service: Transmission leak, drops falling',
    ]);
    expect(d.codes('rig.return', { rig }, { by: driver })).toEqual(['not entitled']);
    d.must('rig.return', { rig });
    expect((await d.ask<RigLine[]>('rigs.list'))[0]?.condition).toBe('in service');
  });

  it('that is out of service is limited by nobody who may not return it: that would be half a return', async () => {
    const d = newDepartment();
    const { rig } = layGround(d);
    const driver = d.must('member.add', { number: '9', name: 'D. Poplar', position: 'driver' });
    const out = { rig, condition: 'out of service', reason: 'Transmission leak, drops falling' };
    d.must('rig.takeOut', { rig, condition: 'limited', reason: 'Mirror cracked' }, { by: driver });
    d.must('rig.takeOut', out, { by: driver });
    const limit = { rig, condition: 'limited', reason: 'Drives, slowly' };
    expect(d.codes('rig.takeOut', limit, { by: driver })).toEqual(['out of service']);
    d.must('rig.return', { rig });
    d.must('rig.takeOut', limit, { by: driver });
    expect((await d.ask<RigLine[]>('rigs.list'))[0]?.condition).toBe('limited');
  });

  it('is in the state that was told last, though an earlier deed of the day had a time and the later has none', async () => {
    const d = newDepartment();
    const { rig, unit } = layGround(d);
    d.must('rig.takeOut', { rig, condition: 'out of service', reason: 'Tire', on: '2026-11-25T05:00' });
    d.must('rig.return', { rig, on: '2026-11-25T06:00' });
    d.must('rig.takeOut', { rig, condition: 'out of service', reason: 'Air leak' });
    expect((await d.ask<RigLine[]>('rigs.list'))[0]).toMatchObject({
      condition: 'out of service',
      conditionReason: 'Air leak',
    });
    const reserve = d.must('rig.add', { name: 'Reserve R-1' });
    d.must('rig.ride', { rig: reserve, unit, on: '2026-11-25T07:00' });
    d.must('rig.ride', { rig, unit, on: '2026-11-25' });
    expect((await d.ask<RigLine[]>('rigs.list')).map(r => r.unit)).toEqual(['Engine 31', null]);
  });

  it('is found by its own name before the name of a unit that rides another', async () => {
    const d = newDepartment();
    const { unit } = layGround(d);
    const other = d.must('rig.add', { name: 'Alpha 9' });
    d.must('rig.ride', { rig: other, unit });
    expect((await d.ask<RigPage>('rig.page', { rig: 'Engine 31' })).name).toBe('Engine 31');
  });

  it('stays its unit’s own, though its crew rode another before the unit was in the book', async () => {
    const d = newDepartment();
    const unit = d.must('unit.add', { name: 'Engine 31', rig: { name: 'Engine 31' }, on: '2026-11-25' });
    const other = d.must('rig.add', { name: 'Reserve R-1', on: '2026-01-01' });
    d.must('rig.ride', { rig: other, unit, on: '2026-11-20' });
    expect((await d.ask<RigLine[]>('rigs.list')).map(r => [r.name, r.standing])).toEqual([
      ['Engine 31', 'first line'],
      ['Reserve R-1', 'reserve'],
    ]);
    expect((await d.ask<Readiness>('readiness.now')).units[0]?.rig).toMatchObject({
      name: 'Engine 31',
      own: true,
    });
  });

  it('refuses a meter that goes backward unless it was replaced', async () => {
    const d = newDepartment();
    const { rig } = layGround(d);
    d.must('rig.read', { rig, meter: 'engine hours', reading: 4120, on: '2026-11-01' });
    expect(d.codes('rig.read', { rig, meter: 'engine hours', reading: 4119, on: '2026-11-02' })).toEqual([
      'meter backward',
    ]);
    d.must('rig.read', { rig, meter: 'engine hours', reading: 3, meterReplaced: true, on: '2026-11-02' });
    expect((await d.ask<RigPage>('rig.page', { rig })).meters).toEqual([
      { meter: 'engine hours', reading: 3, on: '2026-11-02' },
    ]);
  });

  it('is drawn as arranged, and refuses a box outside its view', async () => {
    const d = newDepartment();
    const { rig, bed } = layGround(d);
    expect((await d.ask<RigPage>('rig.page', { rig })).arranged).toBe(false);
    const box = { place: bed, view: 'top', x: 0, y: 0, w: 6, h: 2 };
    expect(d.codes('rig.arrange', { rig, boxes: [{ ...box, x: 7 }] })).toEqual(['outside the drawing']);
    d.must('rig.arrange', { rig, boxes: [box] });
    expect((await d.ask<RigPage>('rig.page', { rig })).drawing).toEqual([box]);
  });
});

describe('a pass-on note', () => {
  it('is signed, carried until closed, and kept', async () => {
    const d = newDepartment();
    const { unit } = layGround(d);
    const note = d.must('note.write', { text: 'Generator hard to start', unit });
    const open = await d.ask<NoteLine[]>('notes.list', { open: true });
    expect(open).toMatchObject([{ text: 'Generator hard to start', unit: 'Engine 31', byName: 'R. Alder' }]);
    d.must('note.close', { note, why: 'Fresh fuel' });
    expect(await d.ask<NoteLine[]>('notes.list', { open: true })).toEqual([]);
    expect(await d.ask<NoteLine[]>('notes.list')).toMatchObject([
      { closed: { why: 'Fresh fuel', byName: 'R. Alder' } },
    ]);
    expect(d.codes('note.close', { note })).toEqual(['closed']);
  });
});

/** Every thing as its own page tells it. */
async function pagesOf(d: TestDepartment): Promise<ItemPage[]> {
  const pages: ItemPage[] = [];
  for (const { id } of all<{ id: string }>(d.db, "SELECT id FROM things WHERE kind = 'item'"))
    pages.push(await d.ask<ItemPage>('item.page', { item: id, on: TODAY }));
  return pages;
}

/** By hand: the ready spares of a thing's kind with nothing known against them, those at the station first. */
function sparesByHand(pages: readonly ItemPage[], item: string, station: string): ItemPage[] {
  const wanted = pages.find(p => p.item === item);
  return pages
    .filter(p => p.family === wanted?.family && p.what === wanted.what)
    .filter(p => p.assignment === 'ready spare' && p.condition === 'serviceable')
    .filter(p => p.station !== null && p.unit === null)
    .filter(p => p.due.every(r => dueEffect(r) === null))
    .sort(
      (a, b) =>
        Number(a.station !== station) - Number(b.station !== station) || (a.number < b.number ? -1 : 1),
    );
}

describe('the shortest fix', () => {
  it.each([1, 2, 3, 4])('is the nearest ready spare of its kind and size, by hand (seed %i)', async seed => {
    const d = newDepartment();
    const roll = dice(seed);
    const racks = ['Station 31', 'Station 32', 'Station 33'].map(name => {
      const station = d.must('station.add', { name, on: '2015-01-01' });
      return d.must('place.add', { name: 'rack', kind: 'rack', under: station, on: '2015-01-01' });
    });
    const station = (await d.ask<DepartmentSummary>('department.summary')).stations[1];
    const unit = d.must('unit.add', {
      name: 'Engine 32',
      station: station?.id,
      rig: { name: 'Engine 32' },
      on: '2015-01-01',
    });
    for (let i = 0; i < 60; i++) {
      const spare = i >= 12;
      const item = aHose(d, `${100 + i}`, {
        attributes: {
          diameter_in: ['1.75', '2.5'][roll(2)],
          length_ft: [50, 100][roll(2)],
          use: 'attack',
          made: '2021-09',
          inService: '2021-11-09',
        },
        place: spare && roll(10) > 0 ? racks[roll(3)] : `${unit}.r`,
        assignment: spare && roll(4) > 0 ? 'ready spare' : 'first line',
      });
      if (roll(3) > 0)
        d.must('record.add', { item, activity: 'service test', outcome: 'pass', on: '2026-06-01' });
      if (roll(5) === 0) d.must('item.tagOut', { item, reason: 'Cut' });
    }
    const [told] = (await d.ask<Readiness>('readiness.now', { on: TODAY, unit: 'Engine 32' })).units;
    const pages = await pagesOf(d);
    const taken = new Map<string, string>();
    let offered = 0;
    for (const reason of told?.reasons ?? []) {
      if (reason.item === null) continue;
      const by = sparesByHand(pages, reason.item, 'Station 32').filter(
        s => (taken.get(s.item) ?? reason.item) === reason.item,
      );
      const wanted = by.find(s => taken.get(s.item) === reason.item) ?? by[0];
      expect(reason.fix?.number ?? null, reason.what).toBe(wanted?.number ?? null);
      expect(reason.fix?.place ?? null).toBe(wanted?.place ?? null);
      if (wanted) taken.set(wanted.item, reason.item);
      if (reason.fix) offered++;
    }
    expect(offered).toBeGreaterThan(0);
  });

  it('does not offer a bottle of another duration for a bottle', async () => {
    const d = newDepartment();
    const { rig, rack } = layGround(d);
    const bottle = (number: string, minutes: number, place: string, assignment: string) =>
      d.must('item.receive', {
        family: 'cylinder',
        number,
        assignment,
        place,
        attributes: { spec: '3AL', servicePressure_psi: 4500, ratedDuration_min: minutes, made: '2024-01' },
      });
    const pass = (item: string) =>
      d.must('record.add', {
        item,
        activity: 'requalification',
        outcome: 'pass',
        on: '2026-01-10',
        agency: d.must('agency.add', { name: `Agency of ${item}`, rin: 'B456', on: '2015-01-01' }),
      });
    const bad = bottle('C-1', 30, rig, 'first line');
    for (const item of [bad, bottle('C-2', 45, rack, 'ready spare')]) pass(item);
    d.must('item.tagOut', { item: bad, reason: 'Gouged' });
    const fixOf = async () =>
      (await d.ask<Readiness>('readiness.now', { unit: 'Engine 31' })).units[0]?.reasons.find(
        r => r.number === 'C-1',
      )?.fix;
    expect(await fixOf()).toBeNull();
    pass(bottle('C-3', 30, rack, 'ready spare'));
    expect(await fixOf()).toMatchObject({ number: 'C-3', place: 'Station 31, hose rack' });
  });
});

describe('the units', () => {
  it('come the heaviest verdict first, and by name where that is the same', async () => {
    const d = newDepartment();
    const rigs = ['Engine 35', 'Engine 34', 'Engine 33', 'Engine 32', 'Engine 31'].map(
      name => `${d.must('unit.add', { name, rig: { name }, on: '2015-01-01' })}.r`,
    );
    const hose = (number: string, place: string | undefined, passed: boolean) => {
      const item = aHose(d, number, { place });
      if (passed) d.must('record.add', { item, activity: 'service test', outcome: 'pass', on: '2026-06-01' });
      return item;
    };
    hose('1', rigs[0], true);
    d.must('item.tagOut', { item: hose('2', rigs[1], true), reason: 'Cut' });
    hose('3', rigs[3], false);
    hose('4', rigs[4], false);
    const { units } = await d.ask<Readiness>('readiness.now', { on: TODAY });
    expect(units.map(u => [u.name, u.verdict])).toEqual([
      ['Engine 31', 'not ready'],
      ['Engine 32', 'not ready'],
      ['Engine 34', 'ready with limits'],
      ['Engine 33', 'not known'],
      ['Engine 35', 'ready'],
    ]);
  });
});

describe('what is said of a unit', () => {
  it('counts each thing once, by the gravest that is known against it', async () => {
    const d = newDepartment();
    const { rig } = layGround(d);
    const first = aHose(d, '31-1', { place: rig });
    aHose(d, '31-2', { place: rig });
    d.must('item.tagOut', { item: first, reason: 'Cut' });
    const [unit] = (await d.ask<Readiness>('readiness.now')).units;
    expect(unit?.reasons).toHaveLength(3);
    expect(unit?.says).toBe('2 things block.');
  });
});

describe('what was done since a look', () => {
  it('tells each deed in the words of its history, and counts those it does not list', async () => {
    const d = newDepartment();
    const { unit, rig, bed } = layGround(d);
    const item = aHose(d, '31-1', { place: bed });
    const since = new Date(d.clock.ms).toISOString();
    d.must('record.add', { item, activity: 'service test', outcome: 'fail', on: '2026-11-24' });
    d.must('item.tagOut', { item, reason: 'Burst at 210 psi' });
    d.must('note.write', { text: 'Generator hard to start', unit });
    d.must('rig.takeOut', { rig, condition: 'out of service', reason: 'Pump seal leaks' });
    const { total, lines } = await d.ask<Changes>('changes.since', { since });
    expect(total).toBe(4);
    expect(lines.map(l => [l.number, l.what, l.thing, l.byName])).toEqual([
      [null, 'Out of service: Pump seal leaks', 'Engine 31', 'R. Alder'],
      [null, 'Pass-on note: Generator hard to start', null, 'R. Alder'],
      ['31-1', 'Tagged out: Burst at 210 psi', '1¾ in attack hose, 50 ft', 'R. Alder'],
      ['31-1', 'Service test, failed', '1¾ in attack hose, 50 ft', 'R. Alder'],
    ]);
    const short = await d.ask<Changes>('changes.since', { since, limit: 1 });
    expect([short.total, short.lines.length]).toEqual([4, 1]);
    expect((await d.ask<Changes>('changes.since', { since: lines[0]?.recordedAt })).total).toBe(0);
  });

  it('tells a deed on no thing by the first words of what it does, with the name of what it was done to', async () => {
    const d = newDepartment();
    const since = new Date(d.clock.ms).toISOString();
    d.must('unit.add', { name: 'Engine 9' });
    const { lines } = await d.ask<Changes>('changes.since', { since });
    expect(lines.map(l => [l.what, l.thing])).toEqual([['Add a unit', 'Engine 9']]);
  });

  it('makes the screens ask for the notes again', () => {
    const d = newDepartment();
    const answer = d.act([{ action: 'note.write', body: { text: 'Fresh fuel tried' } }]);
    expect(answer.ok && answer.value.touched).toEqual(['notes']);
  });
});
