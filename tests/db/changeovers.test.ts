/** A crew changes its whole rig for a reserve and goes back: what is left behind stays on a list until it is back. */
import { describe, expect, it } from 'vitest';
import type { ChangeoverLeg, ChangeoverPage } from '../../db/api-changeovers.ts';
import type { LeftThing, RigPage } from '../../db/api-desk.ts';
import { carrying } from './kit/carry.ts';
import { derivedOnly, dump } from './kit/dump.ts';

const OUT = '2026-11-24T09:10';
const BACK = '2026-11-25T08:20';

async function twoRigs() {
  const c = await carrying();
  const { d, g } = c;
  const reserve = d.must('rig.add', { name: 'Reserve R-1', station: g.station, on: '2015-01-01' });
  const r1 = d.must('place.add', { name: 'L1', kind: 'compartment', under: reserve, on: '2015-01-01' });
  const spare = d.must('item.receive', {
    family: 'power-tool',
    number: 'SAW-9',
    attributes: { kind: 'chain saw' },
    place: r1,
    on: '2022-03-01',
  });
  const imager = d.must('item.receive', {
    family: 'imager',
    number: 'TIC-3',
    place: c.l1,
    on: '2022-03-01',
  });
  d.must('carry.set', {
    of: g.unit,
    on: '2026-01-02',
    lines: [{ what: 'Thermal imager', family: 'imager', qty: 1, min: 1, place: 'L1' }],
  });
  const leg = (from: string, to: string, on: string, more: Record<string, unknown> = {}) => ({
    unit: g.unit,
    from,
    to,
    on,
    ...more,
  });
  const out = (more = {}) => leg(g.rig, reserve, OUT, more);
  const back = (more = {}) => leg(reserve, g.rig, BACK, more);
  const placeOf = async (item: string) => (await d.ask<{ place: string }>('item.page', { item })).place;
  const difference = (from: string, to: string) => d.ask<ChangeoverPage>('rig.changeover', { from, to });
  const list = () => d.ask<{ legs: ChangeoverLeg[]; notReturned: LeftThing[] }>('changeovers.list');
  return { ...c, reserve, r1, spare, imager, leg, out, back, placeOf, difference, list };
}

/** What was shown as moving; then a length that the list asks for was put back on the rig. */
async function withShown() {
  const c = await twoRigs();
  const { d, g, hose, difference } = c;
  d.must('item.move', { item: hose[1] ?? '', to: g.rack, on: '2026-11-20' });
  const page = await difference('Engine 31', 'Reserve R-1');
  const shown = page.places.flatMap(p => p.lines.flatMap(l => l.things.map(t => t.item)));
  d.must('item.move', { item: hose[1] ?? '', to: g.bed, on: '2026-11-21' });
  return { ...c, shown };
}

describe('the difference of two rigs', () => {
  it('is told by the places of the list before anything is moved', async () => {
    const { difference } = await twoRigs();
    const page = await difference('Engine 31', 'Reserve R-1');
    expect(page).toMatchObject({ unit: { name: 'Engine 31' }, back: false, toRiddenBy: null });
    const line = (what: string) => page.places.flatMap(p => p.lines).find(l => l.what === what);
    expect(line('Chain saw')).toMatchObject({ there: 1, moves: 0, lacking: 0 });
    expect(line('Chain saw')?.things).toMatchObject([{ number: 'SAW-9', becomes: 'there' }]);
    expect(line('Thermal imager')?.things).toMatchObject([{ number: 'TIC-3', becomes: 'moves', to: 'L1' }]);
    // The reserve has no bed of that name: the hose goes to the rig itself, and somebody puts it somewhere.
    expect(line('1¾ in attack hose')?.things.map(t => [t.number, t.to])).toEqual([
      ['31-1', ''],
      ['31-2', ''],
    ]);
    expect(line('Spanner wrench')).toMatchObject({ there: 0, moves: 4, lacking: 0 });
    expect(page.others).toMatchObject([{ number: 'SAW-1', becomes: 'stays', why: 'its line is filled' }]);
  });
});

describe('a count that was short before it went out', () => {
  it('comes back as many as went, and is not taken for lost on the way', async () => {
    const { d, g, out, back, line, difference } = await twoRigs();
    d.must('defect.report', {
      of: g.unit,
      line: line('Spanner wrench'),
      kind: 'short',
      short: 1,
      note: 'Bent',
      on: '2026-11-20',
    });
    const wrenches = async (from: string, to: string) =>
      (await difference(from, to)).places.flatMap(p => p.lines).find(l => l.what === 'Spanner wrench');
    expect(await wrenches('Engine 31', 'Reserve R-1')).toMatchObject({ moves: 3, lacking: 1 });
    d.must('rig.changeover', out());
    expect(await wrenches('Reserve R-1', 'Engine 31')).toMatchObject({ there: 0, moves: 3, lacking: 1 });
    d.must('rig.changeover', back({ counted: [{ line: line('Spanner wrench'), moved: 3 }] }));
  });
});

describe('a thing that came to the rig after the difference was shown', () => {
  it('is not moved unseen', async () => {
    const { d, out, difference, shown } = await withShown();
    expect(d.codes('rig.changeover', out({ saw: shown }))).toEqual(['changed since']);
    const page = await difference('Engine 31', 'Reserve R-1');
    const now = page.places.flatMap(p => p.lines.flatMap(l => l.things.map(t => t.item)));
    d.must('rig.changeover', out({ saw: now }));
  });
});

describe('everything moved except', () => {
  it('moves the crew and its gear at one time, and the exception stays', async () => {
    const { d, g, imager, hose, saw, out, placeOf, line, list } = await twoRigs();
    d.must(
      'rig.changeover',
      out({
        except: [{ item: imager, why: 'On the charger at the station' }],
        counted: [{ line: line('Spanner wrench'), moved: 3, why: 'One bent' }],
      }),
    );
    expect(await placeOf(hose[0] ?? '')).toBe('Reserve R-1');
    expect(await placeOf(imager)).toBe('Engine 31, L1');
    expect(await placeOf(saw)).toBe('Engine 31, L1');
    const rig = await d.ask<RigPage>('rig.page', { rig: g.rig });
    expect(rig.unit).toBeNull();
    const [leg] = (await list()).legs;
    expect(leg).toMatchObject({
      unit: { name: 'Engine 31' },
      back: false,
      on: OUT,
      moved: 2,
      there: 1,
      excepted: [{ number: 'TIC-3', why: 'On the charger at the station' }],
      counted: [{ what: 'Spanner wrench', planned: 4, moved: 3, why: 'One bent' }],
    });
  });

  it('claims no more than was said: a place that was told is not a thing that was seen', async () => {
    const { d, hose, out } = await twoRigs();
    const seen = () => d.db.prepare("SELECT seen_on FROM items WHERE number = '31-1'").pluck().get();
    const before = seen();
    d.must('rig.changeover', out());
    expect(seen()).toBe(before);
    expect(hose).toHaveLength(2);
  });

  it('and where the sheet was ticked thing by thing, each was seen', async () => {
    const { d, out } = await twoRigs();
    const seen = () => Number(d.db.prepare("SELECT seen_on FROM items WHERE number = '31-1'").pluck().get());
    const before = seen();
    d.must('rig.changeover', out({ how: 'sight' }));
    expect(seen()).toBeGreaterThan(before);
  });

  it('is refused where it cannot have been', async () => {
    const { d, g, reserve, imager, saw, spare, out, leg, line } = await twoRigs();
    const codes = (body: Record<string, unknown>) => d.codes('rig.changeover', body);
    expect(codes(leg(reserve, g.rig, OUT))).toEqual(['not ridden']);
    expect(codes(leg(g.rig, g.rig, OUT))).toEqual(['same rig']);
    expect(codes(leg(g.rig, reserve, '2026-11-27T09:00'))).toEqual(['future date']);
    expect(codes(leg(g.rig, reserve, '2026-11-24'))).toEqual(['bad value']);
    expect(codes(out({ except: [{ item: spare }] }))).toEqual(['not on the rig']);
    expect(codes(out({ except: [{ item: saw }] }))).toEqual(['stays']);
    expect(codes(out({ except: [{ item: imager }, { item: imager }] }))).toEqual(['twice']);
    expect(codes(out({ counted: [{ line: line('Spanner wrench'), moved: 5 }] }))).toEqual(['too many']);
    const other = d.must('unit.add', { name: 'Engine 32', on: '2015-01-01' });
    d.must('rig.ride', { rig: reserve, unit: other, on: '2026-11-23' });
    expect(codes(out())).toEqual(['ridden']);
  });
});

describe('the way back', () => {
  it('brings home what went out, leaves the reserve its own, and keeps open what was left behind', async () => {
    const { d, g, reserve, imager, hose, spare, out, back, placeOf, difference, list } = await twoRigs();
    d.must('rig.changeover', out());
    const page = await difference('Reserve R-1', 'Engine 31');
    expect(page.back).toBe(true);
    const moving = page.places
      .flatMap(p => p.lines)
      .flatMap(l => l.things.filter(t => t.becomes === 'moves'));
    expect(moving.map(t => t.number).sort()).toEqual(['31-1', '31-2', 'TIC-3']);
    expect(page.others.find(t => t.number === 'SAW-9')).toMatchObject({ becomes: 'stays' });
    d.must('rig.changeover', back({ except: [{ item: imager, why: 'Not found when we packed' }] }));
    expect(await placeOf(hose[0] ?? '')).toBe('Engine 31, hosebed driver side');
    expect(await placeOf(spare)).toBe('Reserve R-1, L1');
    const { legs, notReturned } = await list();
    expect(notReturned).toMatchObject([
      { number: 'TIC-3', home: 'Engine 31', here: 'Reserve R-1', why: 'Not found when we packed' },
    ]);
    expect(legs.map(l => [l.back, l.notReturned.map(t => t.number)])).toEqual([
      [true, []],
      [false, ['TIC-3']],
    ]);
    const rig = await d.ask<RigPage>('rig.page', { rig: reserve });
    expect(rig.leftHere).toMatchObject([{ number: 'TIC-3', why: 'Not found when we packed' }]);
    // Brought home the same day, by its date alone.
    d.must('item.move', { item: imager, to: g.rig, on: '2026-11-25' });
    expect((await list()).notReturned).toEqual([]);
  });

  it('keeps open what went along without a changeover, too', async () => {
    const { d, g, reserve, imager, list } = await twoRigs();
    d.must('rig.ride', { rig: reserve, unit: g.unit, on: OUT });
    d.must('item.move', { item: imager, to: reserve, on: '2026-11-24' });
    d.must('rig.ride', { rig: g.rig, unit: g.unit, on: BACK });
    expect((await list()).notReturned).toMatchObject([{ number: 'TIC-3', why: null }]);
  });

  it('over two reserve rigs is still the way home', async () => {
    const { d, g, reserve, imager, out, leg, list } = await twoRigs();
    const second = d.must('rig.add', { name: 'Reserve R-2', on: '2015-01-01' });
    d.must('rig.changeover', out());
    d.must('rig.changeover', leg(reserve, second, '2026-11-24T17:00'));
    d.must('rig.changeover', leg(second, g.rig, BACK, { except: [{ item: imager }] }));
    expect((await list()).notReturned).toMatchObject([
      { number: 'TIC-3', home: 'Engine 31', here: 'Reserve R-2', why: 'left out on the way back' },
    ]);
  });

  it('counts home as many as went out', async () => {
    const { d, out, difference, line } = await twoRigs();
    d.must('rig.changeover', out({ counted: [{ line: line('Spanner wrench'), moved: 3 }] }));
    const page = await difference('Reserve R-1', 'Engine 31');
    const wrenches = page.places.flatMap(p => p.lines).find(l => l.what === 'Spanner wrench');
    expect(wrenches).toMatchObject({ there: 1, moves: 3, stays: 0, lacking: 0 });
  });
});

it('a leg that is voided was never ridden', async () => {
  const { d, out, back } = await twoRigs();
  d.must('rig.changeover', out());
  const before = derivedOnly(dump(d.db));
  const target = d.must('rig.changeover', back());
  expect(derivedOnly(dump(d.db))).not.toEqual(before);
  d.must('void', { target, why: 'Entered for the wrong crew' });
  expect(derivedOnly(dump(d.db))).toEqual(before);
});
