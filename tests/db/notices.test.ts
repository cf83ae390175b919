/**
 * Recalls and stop-use notices: whom they concern, how each thing is settled, and that none is closed over what is
 * still out there. Common practice, no source, where none is named.
 */
import { describe, expect, it } from 'vitest';
import type { ChangeLine } from '../../db/api-desk.ts';
import type { NoticeLine, NoticePage } from '../../db/api-notices.ts';
import { departmentInMemory, type TestDepartment } from './kit/department.ts';

const BODY = {
  title: 'Lens retainer may let go',
  kind: 'stop use',
  family: 'facepiece',
  maker: 'Maker B',
  model: 'Vista 3',
  serialFrom: 'VB-40410',
  serialTo: 'VB-40420',
  issuedBy: 'Maker B',
  toDo: 'Take out of use at once and send to the maker.',
  on: '2026-10-26',
};

function facepiece(d: TestDepartment, number: string, more: Record<string, unknown> = {}): string {
  return d.must('item.receive', {
    family: 'facepiece',
    number,
    serial: `VB-${40_400 + Number(number.split('-')[1])}`,
    attributes: { maker: 'Maker B', model: 'Vista 3' },
    on: '2022-03-01',
    ...more,
  });
}

/** Four that it concerns, one that nobody can tell of, one of another model and one of the range's far side. */
function noticed() {
  const { d, g } = departmentInMemory();
  const named = ['FP-10', 'FP-11', 'FP-12', 'FP-20'].map(number => facepiece(d, number, { place: g.bed }));
  const unread = facepiece(d, 'FP-90', { serial: null });
  facepiece(d, 'FP-15', { attributes: { maker: 'Maker B', model: 'Vista 2' } });
  facepiece(d, 'FP-21');
  const notice = d.must('notice.issue', BODY);
  const page = () => d.ask<NoticePage>('notice.page', { notice });
  const settle = (item: string, how: string, more: Record<string, unknown> = {}) =>
    d.must('notice.settle', { notice, item, how, ...more });
  const [first = '', second = '', third = '', last = ''] = named;
  return { d, g, notice, page, settle, named, first, second, third, last, unread };
}

const numbers = (page: NoticePage) => page.things.map(t => t.number);

describe('a notice', () => {
  it('concerns what it names and perhaps what nobody can tell of, and nothing else', async () => {
    const { page } = noticed();
    const told = await page();
    expect(numbers(told)).toEqual(['FP-10', 'FP-11', 'FP-12', 'FP-20', 'FP-90']);
    expect(told).toMatchObject({ concerned: 4, perhaps: 1, inUse: 4, tagged: 0, settled: 0, open: 5 });
    expect(told.things.at(-1)).toMatchObject({ concerns: 'perhaps', look: ['serial not known'] });
    expect(told.things[0]).toMatchObject({ place: 'Engine 31, hosebed driver side', unit: 'Engine 31' });
  });

  it('concerns a thing that is received, or whose serial is read, after it was issued', async () => {
    const { d, page, unread } = noticed();
    facepiece(d, 'FP-14');
    d.must('item.amend', { item: unread, serial: 'VB-40418' });
    expect((await page()).concerned).toBe(6);
    d.must('item.amend', { item: unread, serial: 'VB-50418', why: 'Misread' });
    expect((await page()).concerned).toBe(5);
  });

  it('that names nothing would concern everything, and is not taken', () => {
    const { d } = departmentInMemory();
    const issue = (more: object) => d.codes('notice.issue', { ...BODY, ...more });
    const nothing = { maker: null, model: null, serialFrom: null, serialTo: null };
    expect(issue(nothing)).toEqual(['names nothing']);
    expect(issue({ serialFrom: 'VB-40420', serialTo: 'VB-40410' })).toEqual(['reversed']);
    expect(issue({ serialTo: 'VC-40420' })).toEqual(['two prefixes']);
    expect(issue({ madeFrom: '2022-05', madeTo: '2022-03' })).toEqual(['reversed']);
    expect(issue({ family: 'masks' })).toEqual(['unknown family']);
    expect(issue({ on: '2026-12-01' })).toEqual(['future date']);
  });

  it('may mean rigs: by their VIN, out of service as rigs are', async () => {
    const { d, g } = departmentInMemory();
    d.must('item.amend', { item: g.rig, attributes: { maker: 'Maker R', vin: '4LV0000000R001207' } });
    const notice = d.must('notice.issue', {
      ...BODY,
      family: 'apparatus',
      maker: 'Maker R',
      model: null,
      serialFrom: '4LV0000000R001200',
      serialTo: '4LV0000000R001299',
    });
    d.must('rig.takeOut', { rig: g.rig, condition: 'out of service', reason: 'Recall of the steering arm' });
    const { things } = await d.ask<NoticePage>('notice.page', { notice });
    expect(things).toMatchObject([
      { number: 'Engine 31', isRig: true, concerns: 'yes', condition: 'tagged out', unit: 'Engine 31' },
    ]);
    d.must('notice.settle', { notice, item: g.rig, how: 'repaired' });
  });
});

describe('what it concerns', () => {
  it('is tagged out in one act by its own deeds', async () => {
    const { d, page, named } = noticed();
    const answer = d.act(
      named.map(item => ({ action: 'item.tagOut', body: { item, reason: 'Stop use: lens retainer' } })),
    );
    expect(answer.ok).toBe(true);
    expect(await page()).toMatchObject({ inUse: 0, tagged: 4, open: 5 });
  });

  it('is settled one by one, and not against what its own history says', async () => {
    const { d, notice, page, settle, first, second, third, last } = noticed();
    const codes = (item: string, how: string, more: object = {}) =>
      d.codes('notice.settle', { notice, item, how, ...more });
    // It is still on the rig.
    expect(codes(first, 'returned to the maker')).toEqual(['still in service']);
    d.must('item.tagOut', { item: first, reason: 'Stop use' });
    settle(first, 'returned to the maker', { note: 'Form 118' });
    settle(second, 'inspected and kept');
    expect(codes(third, 'cannot be found', { note: 'Looked in the gear room' })).toEqual(['not missing']);
    d.must('item.missing', { item: third });
    expect(codes(third, 'repaired')).toEqual(['missing']);
    expect(codes(third, 'cannot be found')).toEqual(['no reason']);
    settle(third, 'cannot be found', { note: 'Looked in the gear room; the member has left' });
    d.must('item.hold', { item: last, reason: 'Fogged at a fire' });
    expect(codes(last, 'inspected and kept')).toEqual(['held for investigation']);
    expect(codes(first, 'repaired')).toEqual(['settled']);
    expect(await page()).toMatchObject({ settled: 3, notFound: 1, open: 2 });
  });

  it('perhaps is settled as not concerned by whoever says what was looked at', async () => {
    const { d, notice, page, settle, unread } = noticed();
    expect(d.codes('notice.settle', { notice, item: unread, how: 'not concerned' })).toEqual(['no reason']);
    settle(unread, 'not concerned', { note: 'Label reads VB-38811' });
    const line = (await page()).things.find(t => t.item === unread);
    expect(line?.settled).toMatchObject({ how: 'not concerned', byName: 'R. Alder' });
    // The serial is then written where it belongs; what was signed stays in the list.
    d.must('item.amend', { item: unread, serial: 'VB-38811' });
    expect((await page()).things.find(t => t.item === unread)).toMatchObject({ concerns: 'no', open: false });
  });

  it('and could not be found is open again when it turns up', async () => {
    const { d, g, page, settle, first } = noticed();
    d.must('item.missing', { item: first, on: '2026-11-01' });
    settle(first, 'cannot be found', { note: 'Not where it was issued' });
    expect((await page()).open).toBe(4);
    d.must('item.found', { item: first, place: g.rack, on: '2026-11-20' });
    expect((await page()).open).toBe(5);
    settle(first, 'inspected and kept');
    expect((await page()).open).toBe(4);
  });

  it('is settled by its end without a word', async () => {
    const { d, page, first, second } = noticed();
    d.must('item.retire', { item: first, reason: 'Recalled' });
    d.must('item.dispose', { item: second, how: 'Cut up' });
    const { things, open } = await page();
    expect(open).toBe(3);
    expect(things.filter(t => !t.open).map(t => [t.number, t.settled?.how])).toEqual([
      ['FP-10', 'retired'],
      ['FP-11', 'disposed'],
    ]);
  });

  it('does not concern what it does not name: there is nothing to settle', () => {
    const { d, g, notice } = noticed();
    const pack = d.must('item.receive', { family: 'pack', number: 'P-1' });
    expect(d.refused('notice.settle', { notice, item: pack, how: 'repaired' })[0]?.message).toBe(
      'The notice does not concern P-1.',
    );
    expect(d.codes('notice.settle', { notice, item: g.bed, how: 'repaired' })).toEqual(['not found']);
    expect(d.codes('notice.settle', { notice, how: 'repaired' })).toEqual(['which']);
    expect(d.codes('notice.settle', { notice: pack, item: pack, how: 'repaired' })).toEqual(['not found']);
  });

  it('sees what earlier deeds of the same act have done', () => {
    const { d, notice, first } = noticed();
    const answer = d.act([
      { action: 'item.missing', body: { item: first } },
      {
        action: 'notice.settle',
        body: { notice, item: first, how: 'cannot be found', note: 'Not where it was issued' },
      },
    ]);
    expect(answer.ok).toBe(true);
  });
});

describe('a serial that the maker names and nobody can find', () => {
  it('stays open until somebody says what became of it', async () => {
    const { d, notice, page } = noticed();
    d.must('notice.expect', { notice, serial: 'VB-40417', note: 'Shipped to us in 2022' });
    expect(await page()).toMatchObject({ notFound: 1, open: 6 });
    const settle = (how: string, more: object = {}) => ({ notice, serial: 'vb40417', how, ...more });
    expect(d.codes('notice.settle', settle('repaired'))).toEqual(['not here']);
    expect(d.codes('notice.settle', settle('cannot be found'))).toEqual(['no reason']);
    d.must('notice.settle', settle('not concerned', { note: 'Sold to a neighbor in 2023' }));
    expect(await page()).toMatchObject({ notFound: 0, open: 5 });
    expect(d.codes('notice.settle', settle('replaced'))).toEqual(['settled']);
  });

  it('is refused where it is not of the range, is here, or is kept already', () => {
    const { d, notice } = noticed();
    const codes = (serial: string) => d.codes('notice.expect', { notice, serial });
    expect(codes('VB-41410')).toEqual(['not named']);
    expect(d.refused('notice.expect', { notice, serial: 'VB40411' })[0]?.message).toBe('VB40411 is FP-11.');
    d.must('notice.expect', { notice, serial: 'VB-40417' });
    expect(codes('VB 40417')).toEqual(['expected']);
  });

  it('is a thing like the others once it turns up', async () => {
    const { d, notice, page } = noticed();
    d.must('notice.expect', { notice, serial: 'VB-40417' });
    facepiece(d, 'FP-17');
    const { expected, concerned, open, notFound } = await page();
    expect(expected[0]).toMatchObject({ found: { number: 'FP-17' }, open: false });
    expect([concerned, open, notFound]).toEqual([5, 6, 0]);
    expect(
      d.codes('notice.settle', { notice, serial: 'VB-40417', how: 'cannot be found', note: 'Nowhere' }),
    ).toEqual(['it is here']);
  });
});

describe('closing a notice', () => {
  const settleAll = ({ d, notice, settle, named, unread }: ReturnType<typeof noticed>) => {
    for (const item of named) settle(item, 'inspected and kept');
    settle(unread, 'not concerned', { note: 'Label reads VB-38811' });
    return () => d.must('notice.close', { notice, note: 'Every retainer looked at by the maker’s person' });
  };

  it('is refused while anything is open, with the list of it', () => {
    const n = noticed();
    n.d.must('notice.expect', { notice: n.notice, serial: 'VB-40417' });
    n.settle(n.first, 'inspected and kept');
    const [problem] = n.d.refused('notice.close', { notice: n.notice, note: 'Done' });
    expect(problem?.message).toBe('5 are open: FP-11, FP-12, FP-20, FP-90, serial VB-40417.');
  });

  it('is said with how it ended, by who plans, once', async () => {
    const n = noticed();
    const driver = n.d.must('member.add', { number: '112', name: 'Ana Ruiz', position: 'driver' });
    const close = settleAll(n);
    expect(n.d.codes('notice.close', { notice: n.notice, note: 'Done' }, { by: driver })).toEqual([
      'not entitled',
    ]);
    close();
    expect(n.d.codes('notice.close', { notice: n.notice, note: 'Again' })).toEqual(['closed']);
    expect(n.d.codes('notice.expect', { notice: n.notice, serial: 'VB-40417' })).toEqual(['closed']);
    expect((await n.page()).closed).toMatchObject({ byName: 'R. Alder' });
    expect(await n.d.ask('notices.list', { open: true })).toEqual({ total: 0, rows: [] });
  });

  it('does not hide what is received afterwards', async () => {
    const n = noticed();
    settleAll(n)();
    facepiece(n.d, 'FP-16');
    const { rows } = await n.d.ask<{ rows: NoticeLine[] }>('notices.list', { open: true });
    expect(rows.map(r => [r.title, r.open, r.closed !== null])).toEqual([
      ['Lens retainer may let go', 1, true],
    ]);
  });

  it('of a notice nobody opened, and voiding one that was settled under, are refused', () => {
    const n = noticed();
    expect(n.d.codes('notice.close', { notice: 'k-1', note: 'Done' })).toEqual(['not found']);
    n.settle(n.first, 'inspected and kept');
    expect(n.d.codes('void', { target: n.notice, why: 'Entered twice' })).toEqual(['depended on']);
  });
});

it('stands among what was done since the last look, by its title', async () => {
  const { d } = noticed();
  const { lines } = await d.ask<{ lines: ChangeLine[] }>('changes.since', { since: '2026-11-25T00:00:00Z' });
  expect(lines[0]?.what).toBe('Stop use notice: Lens retainer may let go');
});

it('for some families only, a member settles what he may record', () => {
  const { d, notice, first } = noticed();
  const grants = (family: string) => [{ entitlement: 'record', families: [family] }];
  const masks = d.must('member.add', { number: '7', name: 'T. Alba', grants: grants('facepiece') });
  const hose = d.must('member.add', { number: '8', name: 'S. Lind', grants: grants('hose') });
  const body = { notice, item: first, how: 'inspected and kept' };
  expect(d.codes('notice.settle', body, { by: hose })).toEqual(['not entitled']);
  d.must('notice.settle', body, { by: masks });
});
