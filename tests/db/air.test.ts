/** Full cylinders against seats, through the two doors: what a unit's readiness tells of the air on its rig. */
import { describe, expect, it } from 'vitest';
import { ACTIONS } from '../../db/actions/index.ts';
import type { Applying } from '../../db/actions/types.ts';
import type { Readiness } from '../../db/api-desk.ts';
import type { FillCheck } from '../../db/api-supply.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { departmentInMemory, type Ground, type TestDepartment } from './kit/department.ts';
import { dump, expectSame } from './kit/dump.ts';

/** An engine of three seats with a bottle for each, which nobody has read. */
function engine() {
  const { d, g } = departmentInMemory();
  const seats = ['officer seat', 'seat 3', 'seat 4'].map(name =>
    d.must('place.add', { name, kind: 'seat', under: g.rig }),
  );
  const bottles = seats.map((place, i) => bottle(d, `C-${i + 1}`, place));
  return { d, g, seats, bottles };
}

function bottle(d: TestDepartment, number: string, place: string, more = {}): string {
  const item = d.must('item.receive', {
    family: 'cylinder',
    number,
    place,
    attributes: { spec: '3AL', servicePressure_psi: 4500, made: '2021-02', ...more },
  });
  d.must('record.add', { item, activity: 'requalification', outcome: 'pass', rin: 'A123', on: '2025-02' });
  return item;
}

const unitOf = async (d: TestDepartment, on?: string) => {
  const [unit] = (await d.ask<Readiness>('readiness.now', { unit: 'Engine 31', ...(on ? { on } : {}) }))
    .units;
  if (!unit) throw new Error('There is no Engine 31.');
  return unit;
};
const airOf = async (d: TestDepartment, on?: string) =>
  (await unitOf(d, on)).reasons
    .filter(r => r.item === null && r.what.includes('cylinder'))
    .map(r => [r.effect, r.what, r.place]);
const fill = (d: TestDepartment, item: string | undefined, to_psi = 4500, on = '2026-11-24') =>
  d.must('cylinder.fill', { item, to_psi, on });

describe('a unit whose rig has seats', () => {
  it('is told how many cylinders nobody has read, then nothing once each is full, then that one is to be filled', async () => {
    const { d, bottles } = engine();
    expect(await airOf(d)).toEqual([
      ['notes', '3 of 3 cylinders are not known to be full: nobody has read them yet', 'Engine 31'],
    ]);
    for (const item of bottles) fill(d, item);
    expect(await airOf(d)).toEqual([]);
    expect((await unitOf(d)).verdict).toBe('ready');
    d.must('record.add', {
      item: bottles[0],
      activity: 'inspection',
      outcome: 'pass',
      readings: { gauge_psi: 4050 },
    });
    expect(await airOf(d)).toEqual([
      ['limits', '2 of 3 seats have a full cylinder: 1 to be filled', 'Engine 31'],
    ]);
  });

  it('counts each of these once, beside what is known of the things', async () => {
    const { d, bottles } = engine();
    for (const item of bottles.slice(0, 1)) fill(d, item);
    fill(d, bottles[1], 2000);
    d.must('item.tagOut', { item: bottles[1], reason: 'Valve leaks' });
    const unit = await unitOf(d);
    expect(unit.byEffect).toEqual({
      blocks: unit.reasons.filter(r => r.effect === 'blocks').length,
      limits: unit.reasons.filter(r => r.effect === 'limits').length,
      notes: unit.reasons.filter(r => r.effect === 'notes').length,
    });
    expect(unit.reasons.map(r => r.what)).toContain(
      '1 of 3 seats have a full cylinder, 1 more may have: no more are on the rig',
    );
  });

  it('does not count a bottle that is tagged out or past its date for a seat', async () => {
    const { d, bottles, seats } = engine();
    for (const item of bottles) fill(d, item);
    d.must('item.tagOut', { item: bottles[0], reason: 'Gouged' });
    expect((await airOf(d))[0]?.[1]).toBe('2 of 3 seats have a full cylinder: no more are on the rig');
    const spare = bottle(d, 'C-9', seats[0] ?? '');
    fill(d, spare);
    expect(await airOf(d)).toEqual([]);
    d.must('item.oweRetest', { item: spare, trigger: 'damage or accident' });
    expect((await airOf(d))[0]?.[1]).toBe('2 of 3 seats have a full cylinder: no more are on the rig');
  });

  it('is told that a reading has grown old, a month after it', async () => {
    const { d, bottles } = engine();
    for (const item of bottles) fill(d, item, 4500, '2026-11-25');
    expect(await airOf(d, '2026-12-26')).toEqual([]);
    expect((await airOf(d, '2026-12-27'))[0]?.[1]).toBe(
      '3 of 3 cylinders are not known to be full: nobody has read them since 25 Nov 2026',
    );
  });

  it('hears of every void, move and name of a rack at once', async () => {
    const { d, g, bottles } = engine();
    for (const item of bottles) fill(d, item);
    expect(await airOf(d)).toEqual([]);
    const low = fill(d, bottles[0], 1000, '2026-11-25');
    expect((await airOf(d))[0]?.[0]).toBe('limits');
    d.must('void', { target: low, why: 'Another bottle' });
    expect(await airOf(d)).toEqual([]);
    d.must('item.move', { item: bottles[0], to: g.rack });
    expect((await airOf(d))[0]?.[1]).toContain('2 of 3 seats');
    d.must('item.move', { item: bottles[0], to: g.bed });
    expect(await airOf(d)).toEqual([]);
    // What went through a rack that is now called the empty rack is to be filled.
    d.must('place.amend', { place: g.rack, name: 'empty rack' });
    expect((await airOf(d))[0]?.[1]).toContain('1 to be filled');
  });

  it('is the same after a rebuild', async () => {
    const { d, bottles } = engine();
    fill(d, bottles[0]);
    const live = dump(d.db);
    rebuild(d.db);
    expectSame(dump(d.db), live);
  });
});

describe('a unit is told nothing of its air', () => {
  it('where it rides a rig without seats, or one that carries nothing to breathe from, or no bottle is tracked', async () => {
    const { d, g } = departmentInMemory();
    const one = bottle(d, 'C-1', g.bed);
    expect(await airOf(d)).toEqual([]);
    d.must('place.add', { name: 'seat 3', kind: 'seat', under: g.rig });
    expect(await airOf(d)).toHaveLength(1);
    d.must('item.move', { item: one, to: g.rack });
    expect(await airOf(d)).toEqual([]);
    d.must('item.receive', { family: 'pack', number: 'P-1', place: g.bed });
    expect((await airOf(d))[0]?.[1]).toBe('0 of 1 seat has a full cylinder: no more are on the rig');
    d.must('item.retire', { item: one, reason: 'Worn' });
    expect(await airOf(d)).toEqual([]);
  });

  it('by its oxygen', async () => {
    const { d, seats, bottles } = engine();
    for (const item of bottles) fill(d, item);
    d.must('item.tagOut', { item: bottles[0], reason: 'Gouged' });
    fill(d, bottle(d, 'O-1', seats[0] ?? '', { gas: 'oxygen' }));
    expect((await airOf(d))[0]?.[1]).toContain('2 of 3 seats');
  });
});

describe('a pressure that is read at a check-off', () => {
  const checked = (d: TestDepartment, g: Ground, line: object, operated: object) => {
    const listed = d.must('carry.set', {
      of: g.unit,
      lines: [{ what: 'Air', qty: 1, min: 1, place: 'officer seat', ...line }],
    });
    const checkoff = d.must('checkoff.start', { of: g.unit, started: '2026-11-25T07:00' });
    return {
      mark: (where: string) => {
        d.must('checkoff.mark', {
          checkoff,
          marks: [
            {
              place: 'officer seat',
              at: where,
              present: true,
              operated: [{ line: `${listed}.0`, works: true, ...operated }],
            },
          ],
        });
        return d.must('checkoff.sign', { checkoff, finished: '2026-11-25T07:20' });
      },
    };
  };
  const psi = { title: 'Pressure', unit: 'psi', atLeast: '4050' };
  const fillOf = async (d: TestDepartment, item: string | undefined) =>
    (await d.ask<FillCheck>('fill.check', { item })).fill;

  it('counts as the gauge of the bottle that was named', async () => {
    const { d, g, seats, bottles } = engine();
    checked(d, g, { family: 'cylinder', reading: psi }, { item: bottles[0], reading: '4400' }).mark(
      seats[0] ?? '',
    );
    expect([await fillOf(d, bottles[0]), await fillOf(d, bottles[1])]).toEqual(['full', 'not known']);
    expect((await airOf(d))[0]?.[1]).toContain('2 of 3 cylinders are not known');
  });

  it('of a pack counts for the one bottle that lies with it', async () => {
    const { d, g, seats, bottles } = engine();
    const pack = d.must('item.receive', { family: 'pack', number: 'P-1', place: seats[0] });
    checked(
      d,
      g,
      { family: 'pack', reading: { ...psi, unit: 'percent of rated', atLeast: '90' } },
      { item: pack, reading: '88' },
    ).mark(seats[0] ?? '');
    expect(await fillOf(d, bottles[0])).toBe('to be filled');
  });

  it('counts for none where two bottles lie with the pack, or where nothing was named', async () => {
    const { d, g, seats, bottles } = engine();
    const pack = d.must('item.receive', { family: 'pack', number: 'P-1', place: seats[0] });
    d.must('item.move', { item: bottles[1], to: seats[0] });
    checked(d, g, { family: 'pack', reading: psi }, { item: pack, reading: '4400' }).mark(seats[0] ?? '');
    expect([await fillOf(d, bottles[0]), await fillOf(d, bottles[1])]).toEqual(['not known', 'not known']);
    const other = engine();
    checked(other.d, other.g, { family: 'cylinder', reading: psi }, { reading: '4400' }).mark(
      other.seats[0] ?? '',
    );
    expect(await fillOf(other.d, other.bottles[0])).toBe('not known');
  });

  it('is taken back with the signature, and stands after a rebuild', async () => {
    const { d, g, seats, bottles } = engine();
    const target = checked(
      d,
      g,
      { family: 'cylinder', reading: psi },
      { item: bottles[0], reading: '4400' },
    ).mark(seats[0] ?? '');
    const live = dump(d.db);
    rebuild(d.db);
    expectSame(dump(d.db), live);
    d.must('void', { target, why: 'The other rig' });
    expect(await fillOf(d, bottles[0])).toBe('not known');
  });

  it('says nothing more of a sheet that was signed before pressures were told of their things', () => {
    const sign = ACTIONS.get('checkoff.sign');
    const operated = [{ line: 'a-1.0', item: 'a-2', works: true, reading: '4400' }];
    const mark = {
      place: 'seat 3',
      at: 'a-3',
      present: true,
      exceptions: [],
      operated,
      seen: [],
      leftOut: null,
    };
    const sheet = { of: 'a-4', rig: 'a-5', lines: 1, called: {}, marks: [mark] };
    const body = { checkoff: 'a-6', finished: '2026-11-01T07:20', on: '2026-11-01', sheet };
    const entry = { id: 'a-7', by: 'a-8' } as Applying;
    const told = sign?.apply(entry, sign.upgrade?.(1, body) ?? body).facts;
    expect(told?.map(f => f.kind)).toEqual(['signed', 'place']);
    expect(told?.[0]?.values).toEqual({ finished: '2026-11-01T07:20', by: 'a-8', ...sheet });
  });
});
