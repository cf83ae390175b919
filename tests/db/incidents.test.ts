/** A mixed pick-up after an incident: read rig by rig, matched, and settled in one entry. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { IncidentLine, IncidentPage } from '../../db/api-incidents.ts';
import { aHose, layGround, newDepartment } from './kit/department.ts';
import { derivedOnly, dump } from './kit/dump.ts';

const FIRE = '2026-11-24T02:10';
const DAY = '2026-11-24';

/** Engine 31 and Engine 33 picked up together; Engine 31's bed has one of Engine 33's and lacks one of its own. */
function fire() {
  const d = newDepartment();
  const g = layGround(d);
  const unit33 = d.must('unit.add', { name: 'Engine 33', rig: { name: 'Engine 33' }, on: '2015-01-01' });
  const rig33 = `${unit33}.r`;
  const bed33 = d.must('place.add', {
    name: 'crosslay 2',
    kind: 'compartment',
    under: rig33,
    on: '2015-01-01',
  });
  const hose = Object.fromEntries(
    ['31-106', '31-107', '31-108'].map(n => [n, aHose(d, n, { place: g.bed })]),
  );
  for (const n of ['33-123', '33-124']) hose[n] = aHose(d, n, { place: bed33 });
  const incident = d.must('incident.open', {
    name: 'Two-alarm fire, Mill Road',
    units: [g.unit, unit33],
    agencies: ['Cottonwood Basin Fire'],
    families: ['hose'],
    on: FIRE,
  });
  const page = () => d.ask<IncidentPage>('incident.page', { incident });
  const read = (rig: string, numbers: readonly string[], more: Record<string, unknown> = {}) =>
    d.must('incident.found', { incident, rig, reads: numbers.map(number => ({ number, ...more })), on: DAY });
  const settle = (more: Record<string, unknown> = {}) => ({ incident, on: DAY, ...more });
  const missing = (number: string, as = 'missing', where?: string) => ({
    item: hose[number],
    as,
    ...(where ? { where } : {}),
  });
  const placeOf = async (number: string) =>
    (await d.ask<{ place: string }>('item.page', { item: hose[number] ?? '' })).place;
  return { d, g, unit33, rig33, bed33, hose, incident, page, read, settle, missing, placeOf };
}

describe('an incident', () => {
  it('knows the rig that each unit rode then, whatever it rides now', async () => {
    const { d, g, page } = fire();
    const reserve = d.must('rig.add', { name: 'Reserve R-1', on: '2015-01-01' });
    d.must('rig.ride', { rig: reserve, unit: g.unit, on: '2026-11-24T12:00' });
    expect((await page()).rigs.map(r => [r.unitName, r.name, r.believed])).toEqual([
      ['Engine 31', 'Engine 31', 3],
      ['Engine 33', 'Engine 33', 2],
    ]);
  });

  it('leaves no bottle full that was used at it, whatever its gauge was read at before', async () => {
    const { d, g } = fire();
    const item = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-101',
      attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2016-02', gas: 'air' },
      place: g.bed,
      on: '2016-03-01',
    });
    d.must('cylinder.fill', { item, to_psi: 4500, on: '2026-11-20' });
    const fill = async () => (await d.ask<{ fill: string }>('fill.check', { item })).fill;
    expect(await fill()).toBe('full');
    const incident = d.must('incident.open', {
      name: 'Barn fire',
      units: [g.unit],
      families: ['cylinder'],
      on: FIRE,
    });
    d.must('incident.found', { incident, rig: g.rig, reads: [{ number: 'C-101', used: true }], on: DAY });
    d.must('incident.settle', { incident, on: DAY });
    expect(await fill()).toBe('to be filled');
    d.must('cylinder.fill', { item, to_psi: 4500, on: DAY });
    expect(await fill()).toBe('full');
  });

  it('takes no effect before it is settled, and its lists are free to mend', async () => {
    const { d, g, read, page } = fire();
    const before = derivedOnly(dump(d.db));
    read(g.rig, ['31-106', '31-9']);
    read(g.rig, ['31-106', '31-108', '33-124']);
    expect(derivedOnly(dump(d.db))).toEqual(before);
    const { pickup, state, listsIn } = await page();
    expect({ state, listsIn }).toEqual({ state: 'open', listsIn: 1 });
    expect(pickup.numbers.map(n => [n.number, n.is])).toEqual([
      ['31-106', 'own'],
      ['31-108', 'own'],
      ['33-124', 'other rig'],
    ]);
    const lost = pickup.believed.find(b => b.is === 'missing');
    expect(lost?.thing.number).toBe('31-107');
    expect(lost?.likely.map(h => h.name)).toEqual(['Engine 33', 'Cottonwood Basin Fire']);
  });

  it('does not overwrite a list that somebody else entered since', () => {
    const { d, g, incident, read } = fire();
    const list = `${read(g.rig, ['31-106'])}:0`;
    const again = (saw: string | null) => ({ incident, rig: g.rig, reads: [{ number: '31-107' }], saw });
    expect(d.codes('incident.found', again(null))).toEqual(['read since']);
    d.must('incident.found', again(list));
  });

  it('is refused what cannot be', () => {
    const { d, g, incident, bed33, unit33 } = fire();
    const open = (more: Record<string, unknown>) =>
      d.codes('incident.open', { name: 'Fire', units: [g.unit], families: ['hose'], on: FIRE, ...more });
    expect(open({ units: [g.unit, g.unit] })).toEqual(['twice']);
    expect(open({ units: [g.rig] })).toEqual(['not found']);
    expect(open({ families: ['boat'] })).toEqual(['unknown family']);
    expect(open({ on: '2026-11-27T01:00' })).toEqual(['future date']);
    const walking = d.must('unit.add', { name: 'Ladder 9', on: '2015-01-01' });
    expect(open({ units: [walking] })).toEqual(['no rig']);
    const found = (more: Record<string, unknown>) =>
      d.codes('incident.found', { incident, rig: g.rig, reads: [{ number: '31-107' }], ...more });
    expect(found({ rig: unit33 })).toEqual(['not there']);
    expect(found({ reads: [{ number: '31-107' }, { number: '31-107 ' }] })).toEqual(['twice']);
    expect(found({ reads: [{ number: '31-107', at: bed33 }] })).toEqual(['not found']);
    expect(d.codes('incident.settle', { incident, on: DAY })).toEqual(['nothing read']);
  });
});

describe('settling it', () => {
  it('lets things lie where they were read, reports what is missing, and owes the look of what was used', async () => {
    const { d, g, hose, read, settle, missing, placeOf, page } = fire();
    read(g.rig, ['31-106', '31-108', '33-124'], { used: true });
    expect((await page()).owes[hose['33-124'] ?? '']).toBe('inspection');
    d.must('incident.settle', settle({ missing: [missing('31-107', 'searched', 'Both beds')] }));
    expect(await placeOf('33-124')).toBe('Engine 31');
    // Read on its own rig: where it was believed there.
    expect(await placeOf('31-106')).toBe('Engine 31, hosebed driver side');
    expect(d.conditionOf(hose['31-107'] ?? '')).toBe('missing');
    expect(d.conditionOf(hose['33-124'] ?? '')).toBe('retest owed');
    expect(d.conditionOf(hose['33-123'] ?? '')).toBe('serviceable');
    d.must('record.add', { item: hose['33-124'], activity: 'inspection', outcome: 'pass', on: DAY });
    expect(d.conditionOf(hose['33-124'] ?? '')).toBe('serviceable');
    expect((await page()).settlements).toMatchObject([
      {
        missing: [
          {
            number: '31-107',
            where: 'Both beds',
            likely:
              'Engine 33 (its list has not come in; 33-124 of Engine 33 was read on Engine 31: they were probably exchanged)',
          },
        ],
      },
    ]);
  });

  it('judges no settled list again, and finds what a later list has', async () => {
    const { d, g, rig33, bed33, hose, incident, read, settle, missing, placeOf, page } = fire();
    read(g.rig, ['31-106', '31-108', '33-124']);
    d.must('incident.settle', settle({ missing: [missing('31-107')] }));
    expect(await page()).toMatchObject({ state: 'settled', own: 0, missing: 0 });
    // 33-124 goes home by hand; then Engine 33 reads its beds.
    d.must('item.move', { item: hose['33-124'], to: bed33, how: 'number read', on: DAY });
    d.must('incident.found', {
      incident,
      rig: rig33,
      reads: [{ number: '33-123' }, { number: '33-124' }, { number: '31-107', at: bed33 }],
      on: DAY,
    });
    expect(await page()).toMatchObject({ state: 'open', own: 2, ours: 1, missing: 0 });
    d.must('incident.settle', settle());
    expect(await placeOf('31-107')).toBe('Engine 33, crosslay 2');
    expect(await placeOf('33-124')).toBe('Engine 33, crosslay 2');
    // Nobody knows yet what it went through.
    expect(d.conditionOf(hose['31-107'] ?? '')).toBe('tagged out');
    const [line] = (await d.ask<{ rows: IncidentLine[] }>('incidents.list', {})).rows;
    expect(line).toMatchObject({ state: 'settled', listsIn: 2, rigs: 2 });
  });

  it('changes nothing unseen: what is missing is named, and no list that came in since is taken', () => {
    const { d, g, rig33, read, settle, missing } = fire();
    const list = `${read(g.rig, ['31-106', '31-108'])}:0`;
    expect(d.codes('incident.settle', settle())).toEqual(['not chosen']);
    expect(d.codes('incident.settle', settle({ missing: [missing('31-108')] }))).toEqual([
      'not chosen',
      'not missing',
    ]);
    const saw = { [g.rig]: list, [rig33]: null };
    read(rig33, ['33-123', '33-124', '31-107']);
    expect(d.codes('incident.settle', settle({ saw, missing: [missing('31-107')] }))).toContain('read since');
    expect(d.codes('incident.settle', settle({ on: '2026-11-23' }))).toEqual(['before it']);
    d.must('incident.settle', settle());
  });

  it('keeps foreign numbers with whose they are taken for, and brings none of them in', async () => {
    const { d, g, read, settle, page } = fire();
    const things = d.count('items');
    read(g.rig, ['31-106', '31-107', '31-108', 'CB-44']);
    const foreign = [{ rig: g.rig, number: 'CB-44', whose: 'Cottonwood Basin Fire' }];
    d.must('incident.settle', settle({ foreign }));
    expect(d.count('items')).toBe(things);
    expect((await page()).settlements[0]?.foreign).toEqual(foreign);
  });

  it('comes after what was told that day with a time', async () => {
    const { d, g, hose, rig33, read, settle, placeOf } = fire();
    d.must('item.move', { item: hose['31-107'], to: rig33, on: `${DAY}T04:30` });
    read(g.rig, ['31-106', '31-107', '31-108']);
    d.must('incident.settle', settle());
    expect(await placeOf('31-107')).toBe('Engine 31');
  });

  it('that was voided was never done, and the lists are open again', async () => {
    const { d, g, read, settle, missing, page } = fire();
    read(g.rig, ['31-106', '31-108', '33-124'], { used: true });
    const before = derivedOnly(dump(d.db));
    const target = d.must('incident.settle', settle({ missing: [missing('31-107')] }));
    d.must('void', { target, why: 'The other engine had it all along' });
    expect(derivedOnly(dump(d.db))).toEqual(before);
    expect(await page()).toMatchObject({ state: 'open', missing: 1 });
  });
});
