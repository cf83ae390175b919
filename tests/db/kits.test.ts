/** Kits through the doors: counted and sealed, opened, read at a check-off, moved whole. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { ItemPage } from '../../db/api.ts';
import type { CarryPage, CheckoffPage, DefectLine } from '../../db/api-checks.ts';
import type { Readiness } from '../../db/api-desk.ts';
import type { KitPage } from '../../db/api-kits.ts';
import { kit as kitFamily } from '../../domain/rulebook/kit.ts';
import { carrying, present } from './kit/carry.ts';
import { aHose } from './kit/department.ts';

const OF_BAG = (what: string, qty: number, more: object = {}) => ({
  what,
  qty,
  min: qty,
  place: 'main',
  verify: 'count',
  ...more,
});

/** Engine 31 must carry one trauma bag in L1, sealed with 4471 three weeks ago. */
async function withBag() {
  const c = await carrying();
  const { d, g, l1, hose } = c;
  d.must('rulebook.adopt', { requirements: [...kitFamily.requirements], from: 'opening' });
  for (const item of hose)
    for (const activity of ['inspection', 'service test'])
      d.must('record.add', { item, activity, outcome: 'pass', on: '2026-06-01' });
  const template = d.must('kit.template', { what: 'Trauma bag', on: '2026-01-01' });
  d.must('carry.set', {
    of: template,
    on: '2026-01-01',
    lines: [OF_BAG('Tourniquet', 2, { min: 1, critical: true }), OF_BAG('Gauze roll', 8, { min: 4 })],
  });
  d.must('carry.set', {
    of: g.unit,
    on: '2026-01-01',
    lines: [
      {
        what: 'Trauma bag',
        family: 'kit',
        like: { kind: 'Trauma bag' },
        qty: 1,
        min: 1,
        place: 'L1',
        critical: true,
        verify: 'seal intact',
      },
    ],
  });
  const aBag = (number: string, more: object = {}) =>
    d.must('item.receive', {
      family: 'kit',
      number,
      attributes: { kind: 'Trauma bag' },
      place: l1,
      on: '2026-01-01',
      ...more,
    });
  const bag = aBag('BAG-1');
  const { lines } = await d.ask<{ lines: { line: string; what: string }[] }>('kit.template', { template });
  const [tourniquet = '', gauze = ''] = lines.map(l => l.line);
  const full = (tourniquets = 2, rolls = 8, expires: string | null = '2030-01') => [
    { line: tourniquet, amount: tourniquets, expires },
    { line: gauze, amount: rolls },
  ];
  d.must('kit.seal', { item: bag, seal: '4471', counts: full(), on: '2026-11-01' });
  const kit = (on?: string) => d.ask<KitPage>('kit.page', { item: bag, ...(on ? { on } : {}) });
  const unit = async (on?: string) =>
    (await d.ask<Readiness>('readiness.now', { unit: 'Engine 31', ...(on ? { on } : {}) })).units[0];
  const bagLine = async () =>
    (await d.ask<CarryPage>('carry.page', { of: 'Engine 31' })).lines.find(l => l.what === 'Trauma bag');
  return { ...c, template, bag, aBag, full, tourniquet, gauze, kit, unit, bagLine };
}

const against = (unit: Readiness['units'][number] | undefined) =>
  (unit?.reasons ?? []).filter(r => /bag/i.test(r.what)).map(r => `${r.effect}: ${r.what}`);

describe('a kit', () => {
  it('that is sealed and full fills its line; what is in it is told line by line', async () => {
    const { kit, bagLine, unit } = await withBag();
    expect((await kit()).contents.map(c => [c.what, c.there, c.lacking, c.soonest])).toEqual([
      ['Tourniquet', 2, 0, '2030-01'],
      ['Gauze roll', 8, 0, null],
    ]);
    expect(await bagLine()).toMatchObject({ serving: 1, lacking: 0 });
    expect(against(await unit())).toEqual([]);
  });

  it('that was opened keeps its unit from being ready until it is counted in full and sealed anew', async () => {
    const { d, bag, unit, full, kit } = await withBag();
    d.must('kit.open', { item: bag, why: 'Used on a call', on: '2026-11-25T03:10' });
    const [reason] = against(await unit());
    expect(reason).toMatch(
      /^blocks: Trauma bag: 0 of 1, critical; BAG-1: opened .*full count and a new seal/,
    );
    expect((await unit())?.verdict).toBe('not ready');
    d.must('kit.seal', { item: bag, seal: '4472', counts: full(1), on: '2026-11-25' });
    // One of two is above the least: noted, and the unit is not held up by it.
    expect(await kit()).toMatchObject({ state: 'sealed', seal: '4472', effect: 'notes' });
    expect(against(await unit())).toEqual(['notes: Tourniquet: 1 of 2, at least 1, critical: Trauma bag']);
  });

  it('is mended from a spare that is sealed and full, and from no other', async () => {
    const { d, g, bag, unit, full, aBag } = await withBag();
    const spare = { place: g.station, assignment: 'ready spare' };
    aBag('BAG-2', spare);
    d.must('kit.open', { item: bag, why: 'Used on a call' });
    expect((await unit())?.shortestFix?.ready).toBe(false);
    const good = aBag('BAG-3', spare);
    d.must('kit.seal', { item: good, seal: '5501', counts: full(), on: '2026-11-20' });
    expect((await unit())?.shortestFix).toMatchObject({ ready: true, moves: [{ number: 'BAG-3' }] });
  });

  it('whose critical content expires does not serve from the day after', async () => {
    const { d, bag, full, unit } = await withBag();
    d.must('kit.seal', { item: bag, seal: '4472', counts: full(2, 8, '2026-12-10'), on: '2026-11-25' });
    expect(against(await unit('2026-12-10'))).toEqual([]);
    expect(against(await unit('2026-12-11'))[0]).toMatch(
      /^blocks: .*Tourniquet: 0 of 2, at least 1, 2 expired/,
    );
    // Its earliest date is one of those that come due.
    const due = await d.ask<{ rows: { number: string; title: string; dueOn: string }[] }>('due.list', {
      text: 'BAG-1',
    });
    expect(due.rows.find(r => r.title === 'Contents in date')?.dueOn).toBe('2026-12-10');
    expect(due.rows.find(r => r.title === 'Full count')?.dueOn).toBe('2026-12-25');
  });

  it('moves whole: what lies in it goes along, counts for the kit and not for the unit', async () => {
    const { d, g, bag, kit, page } = await withBag();
    const pocket = d.must('place.add', { name: 'side pocket', kind: 'pocket', under: bag, on: '2026-01-01' });
    const light = d.must('item.receive', {
      family: 'equipment',
      number: 'L-1',
      place: pocket,
      on: '2026-01-01',
    });
    const at = async () => (await d.ask<ItemPage>('item.page', { item: light })).place;
    expect(await at()).toBe('Engine 31, L1, BAG-1, side pocket');
    expect((await kit()).extra.map(t => t.number)).toEqual(['L-1']);
    expect((await page()).extra.map(t => t.number)).not.toContain('L-1');
    d.must('item.move', { item: bag, to: g.bed });
    expect(await at()).toBe('Engine 31, hosebed driver side, BAG-1, side pocket');
  });

  it('keeps what lies in it from being taken for a spare', async () => {
    const { d, g, hose } = await withBag();
    const store = d.must('place.add', {
      name: 'tool room',
      kind: 'storeroom',
      under: g.station,
      on: '2015-01-01',
    });
    const spareBag = d.must('item.receive', {
      family: 'kit',
      number: 'PACK-9',
      attributes: { kind: 'Standpipe pack' },
      place: store,
      on: '2026-01-01',
    });
    aHose(d, '31-900', { place: spareBag, assignment: 'ready spare' });
    const spares = await d.ask<{ spares: { number: string }[] }>('item.spares', { item: hose[0] ?? '' });
    expect(spares.spares.map(s => s.number)).not.toContain('31-900');
    const shelf = await d.ask<{ spares: { numbers: string[] }[] }>('supply.shelf', {});
    expect(shelf.spares.flatMap(s => s.numbers)).not.toContain('31-900');
  });

  it('that was opened is offered as a spare behind a sealed one, with what speaks against it', async () => {
    const { d, g, bag, full, aBag } = await withBag();
    const spare = { place: g.station, assignment: 'ready spare' };
    aBag('BAG-2', spare);
    const sealed = aBag('BAG-3', spare);
    d.must('kit.seal', { item: sealed, seal: '5501', counts: full(), on: '2026-11-20' });
    const { spares } = await d.ask<{ spares: { number: string; against: string[] }[] }>('item.spares', {
      item: bag,
    });
    expect(spares.map(s => s.number)).toEqual(['BAG-3', 'BAG-2']);
    expect(spares[1]?.against).toContain('to be counted and sealed');
  });

  it('changes rigs with the crew, and what lies in it with it, unnamed', async () => {
    const { d, g, bag } = await withBag();
    const reserve = d.must('rig.add', { name: 'Reserve R-1', station: g.station, on: '2015-01-01' });
    const l1 = d.must('place.add', { name: 'L1', kind: 'compartment', under: reserve, on: '2015-01-01' });
    const light = d.must('item.receive', {
      family: 'equipment',
      number: 'L-1',
      place: bag,
      on: '2026-01-01',
    });
    d.must('rig.changeover', { unit: g.unit, from: g.rig, to: reserve, on: '2026-11-25T09:10' });
    const page = (item: string) => d.ask<ItemPage>('item.page', { item });
    expect((await page(bag)).placeId).toBe(l1);
    expect((await page(light)).place).toBe('Reserve R-1, L1, BAG-1');
    // It was never moved by itself.
    const moves = await d.ask<{ kind: string }[]>('item.history', { item: light });
    expect(moves.filter(m => m.kind === 'place')).toHaveLength(1);
  });

  it('lies in no place that is inside it', async () => {
    const { d, bag } = await withBag();
    const pocket = d.must('place.add', { name: 'side pocket', kind: 'pocket', under: bag, on: '2026-01-01' });
    expect(d.codes('item.move', { item: bag, to: bag })).toEqual(['inside itself']);
    expect(d.codes('item.move', { item: bag, to: pocket })).toEqual(['inside itself']);
  });
});

describe('a seal', () => {
  it('is used once, on one kit', async () => {
    const { d, bag, full, aBag } = await withBag();
    const other = aBag('BAG-2');
    expect(d.codes('kit.seal', { item: other, seal: '4471', counts: full() })).toEqual(['seal used']);
    expect(d.codes('kit.seal', { item: bag, seal: ' 4471', counts: full() })).toEqual(['seal used']);
  });

  it('that was ever put on a kit is not put on again, opened or not', async () => {
    const { d, bag, full } = await withBag();
    d.must('kit.seal', { item: bag, seal: '4472', counts: full() });
    expect(d.codes('kit.seal', { item: bag, seal: '4471', counts: full() })).toEqual(['seal used']);
  });

  it('is not asked of what is no kit: a locked cabinet is present or not', async () => {
    const c = await withBag();
    const { d, g, l1, line, saw } = c;
    d.must('carry.set', {
      of: g.unit,
      on: '2026-01-02',
      lines: [{ what: 'Drug cabinet', qty: 1, min: 1, place: 'L1', verify: 'seal intact' }],
    });
    const checkoff = d.must('checkoff.start', { of: g.unit, started: c.started });
    const bagLine = (await c.bagLine())?.line ?? '';
    const operated = [
      { line: line('Chain saw'), item: saw, works: true },
      { line: line('Foam concentrate'), item: null, works: true, reading: '20' },
      { line: bagLine, item: c.bag, works: true, reading: '4471' },
    ];
    d.must('checkoff.mark', {
      checkoff,
      marks: [present('hosebed driver side', g.bed), present('L1', l1, { operated })],
    });
    d.must('checkoff.sign', { checkoff, finished: c.finished });
  });

  it('is put on after every line was counted, and on nothing that is no kit', async () => {
    const { d, bag, full, tourniquet, saw } = await withBag();
    const refused = d.refused('kit.seal', { item: bag, seal: '9', counts: full().slice(0, 1) });
    expect(refused.map(p => p.message)).toEqual(['Gauze roll is not counted.']);
    expect(
      d.codes('kit.seal', { item: bag, seal: '9', counts: [...full(), { line: 'x', amount: 1 }] }),
    ).toEqual(['not on the list']);
    expect(d.codes('kit.seal', { item: saw, seal: '9', counts: [{ line: tourniquet, amount: 1 }] })).toEqual([
      'no kit',
    ]);
  });

  it('is looked at by its number: without it nothing is said', async () => {
    const { d, bag, kit } = await withBag();
    expect(d.codes('kit.check', { item: bag, intact: true })).toEqual(['no number']);
    d.must('kit.check', { item: bag, seal: '4471', intact: true, on: '2026-11-24' });
    expect(await kit()).toMatchObject({ state: 'sealed', seenOn: '2026-11-24' });
    d.must('kit.check', { item: bag, seal: null, intact: false });
    expect(await kit()).toMatchObject({ state: 'seal broken', effect: 'blocks' });
  });

  it('stays as it was when the deed that broke it is voided', async () => {
    const { d, bag, kit } = await withBag();
    const open = d.must('kit.open', { item: bag, why: 'Wrong bag' });
    expect((await kit()).state).toBe('opened');
    d.must('void', { target: open, why: 'It was BAG-2' });
    expect(await kit()).toMatchObject({ state: 'sealed', seal: '4471' });
  });

  it('is not settled by a record that names no counts', async () => {
    const { d, bag } = await withBag();
    expect(d.codes('record.add', { item: bag, activity: 'full count', outcome: 'pass' })).toEqual([
      'not counted',
    ]);
  });
});

describe('a check-off', () => {
  const through = async (c: Awaited<ReturnType<typeof withBag>>, more: Record<string, unknown>) => {
    const { d, g, l1, line, saw, started } = c;
    const checkoff = d.must('checkoff.start', { of: g.unit, started });
    const operated = [
      { line: line('Chain saw'), item: saw, works: true },
      { line: line('Foam concentrate'), item: null, works: true, reading: '20' },
      ...((more.operated as object[] | undefined) ?? []),
    ];
    d.must('checkoff.mark', {
      checkoff,
      marks: [present('hosebed driver side', g.bed), present('L1', l1, { ...more, operated })],
    });
    return checkoff;
  };

  it('is not signed before the number of the seal was read: present says nothing of it', async () => {
    const c = await withBag();
    const bagLine = (await c.bagLine())?.line ?? '';
    const bare = await through(c, {});
    expect(c.d.refused('checkoff.sign', { checkoff: bare, finished: c.finished })[0]?.message).toBe(
      'L1: Trauma bag: seal not read.',
    );
    const read = await through(c, {
      operated: [{ line: bagLine, item: c.bag, works: true, reading: '4471' }],
    });
    c.d.must('checkoff.sign', { checkoff: read, finished: c.finished });
    expect(await c.kit()).toMatchObject({ state: 'sealed', seenOn: '2026-11-25T07:32' });
    const known = (await c.d.ask<ItemPage>('item.page', { item: c.bag })).known;
    expect(known?.how).toBe('seal intact');
  });

  it('with another number on it opens a defect, and a new seal settles that', async () => {
    const c = await withBag();
    const bagLine = (await c.bagLine())?.line ?? '';
    const checkoff = await through(c, {
      exceptions: [
        {
          line: bagLine,
          item: c.bag,
          kind: 'damaged',
          reading: '4417',
          note: 'Seal 4417 found',
          next: 'defect',
        },
      ],
    });
    c.d.must('checkoff.sign', { checkoff, finished: c.finished });
    const open = async () =>
      (await c.d.ask<{ rows: DefectLine[] }>('defects.list', { of: c.g.unit, open: true })).rows;
    expect((await open()).map(o => o.note)).toEqual(['Seal 4417 found']);
    expect(await c.kit()).toMatchObject({ state: 'seal differs', found: '4417', effect: 'blocks' });
    c.d.must('kit.seal', { item: c.bag, seal: '4473', counts: c.full() });
    expect(await open()).toEqual([]);
    expect((await c.kit()).effect).toBeNull();
  });

  it('shows the seal that is to be read, and the earliest date', async () => {
    const c = await withBag();
    const checkoff = c.d.must('checkoff.start', { of: c.g.unit, started: c.started });
    const page = await c.d.ask<CheckoffPage>('checkoff.page', { checkoff });
    const bag = page.places.flatMap(p => p.lines).find(l => l.what === 'Trauma bag')?.here[0];
    expect(bag?.kit).toMatchObject({ state: 'sealed', seal: '4471', expires: '2030-01', effect: null });
  });
});
