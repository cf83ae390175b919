import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rebuild } from '../../db/caches/rebuild.ts';
import { attachmentsOf, verifyAttachments } from '../../db/ledger/attachments.ts';
import { entryText } from '../../db/ledger/entry.ts';
import { entriesSince, knownHeads, takeIn } from '../../db/ledger/exchange.ts';
import { verifyLedger } from '../../db/ledger/verify.ts';
import { all, type Db, one } from '../../db/store/statements.ts';
import { aHose, departmentInMemory, fromTemplate, type TestDepartment, template } from './kit/department.ts';
import { dump, expectSame } from './kit/dump.ts';
import { type Happening, happenings, OF_KITS, perform } from './kit/histories.ts';
import { type Seeded, seeded } from './kit/seeded.ts';

const shared = template(['hose', 'cylinder']);
/** More of them, and others, by `FUZZ_SEED`. */
const RUNS = process.env.FUZZ_SEED === undefined ? 250 : 1000;

/** Devices of one department, and what each entry's author knew when it was written. */
class Devices {
  readonly all: TestDepartment[];
  readonly knownThen = new Map<string, ReadonlyMap<string, number>>();

  constructor(count: number) {
    this.all = Array.from({ length: count }, (_, i) => fromTemplate(shared.bytes, `device${i}`));
  }

  live(events: readonly Happening[]): void {
    for (const event of events) {
      if ('act' in event) this.#act(event.act);
      else this.exchange(event.from, event.to);
    }
  }

  exchange(from: number, to: number): void {
    const [giver, taker] = [this.all[from], this.all[to]];
    if (!giver || !taker || giver === taker) return;
    const texts = entriesSince(giver.db, knownHeads(taker.db));
    takeIn(taker.db, texts, taker.clock.now(), attachmentsOf(giver.db, texts));
  }

  /** Until everyone knows everything. */
  exchangeAll(): void {
    for (let round = 0; round < 2; round++)
      for (let from = 0; from < this.all.length; from++)
        for (let to = 0; to < this.all.length; to++) this.exchange(from, to);
  }

  close(): void {
    for (const d of this.all) d.db.close();
  }

  #act(act: Parameters<typeof perform>[1]): void {
    const d = this.all[act.device];
    if (!d) return;
    const before = knownHeads(d.db);
    perform(d, act);
    for (const text of entriesSince(d.db, before)) this.knownThen.set(text, before);
  }
}

const photosIn = (db: Db) =>
  all(db, 'SELECT sha256, mime, size_bytes, bytes FROM attachments ORDER BY sha256');

/** The entries in a random order in which each comes after all that its author knew. */
function inSomeCausalOrder(texts: readonly string[], devices: Devices, start: Db, random: Seeded): string[] {
  const reached = knownHeads(start);
  const waiting = texts.map(text => ({ text, entry: JSON.parse(text) as { device: string; seq: number } }));
  const ordered: string[] = [];
  while (waiting.length > 0) {
    const ready = waiting.filter(
      ({ text, entry }) =>
        entry.seq === (reached.get(entry.device) ?? 0) + 1 &&
        [...(devices.knownThen.get(text) ?? [])].every(
          ([device, seq]) => device === entry.device || (reached.get(device) ?? 0) >= seq,
        ),
    );
    const next = random.pick(ready);
    ordered.push(next.text);
    reached.set(next.entry.device, next.entry.seq);
    waiting.splice(waiting.indexOf(next), 1);
  }
  return ordered;
}

interface Seen {
  takenIn: number;
  concurrent: number;
  clashes: number;
  voids: number;
  photos: number;
}

const nothingSeen = (): Seen => ({ takenIn: 0, concurrent: 0, clashes: 0, voids: 0, photos: 0 });

/** Whatever is done on several devices, every one that has it all shows the same, in whatever order it came. */
function sameEverywhere(seen: Seen, kinds?: Parameters<typeof happenings>[2]) {
  return fc.property(
    fc.integer({ min: 2, max: 3 }).chain(n => fc.tuple(fc.constant(n), happenings(n, 28, kinds), fc.nat())),
    ([count, events, order]) => {
      const devices = new Devices(count);
      const fresh = fromTemplate(shared.bytes, 'fresh');
      try {
        devices.live(events);
        const heads = new Set(devices.all.map(o => JSON.stringify([...knownHeads(o.db)].sort())));
        seen.concurrent += heads.size > 1 ? 1 : 0;
        devices.exchangeAll();
        const [d] = devices.all;
        if (!d) throw new Error('There are no devices.');
        const [first, ...others] = [dump(d.db), ...devices.all.slice(1).map(o => dump(o.db))];
        for (const other of others) expectSame(other, first);
        for (const other of devices.all) expect(photosIn(other.db)).toEqual(photosIn(d.db));
        expect(verifyAttachments(d.db)).toMatchObject({ damaged: [], missing: [] });
        expect(verifyLedger(d.db).ok).toBe(true);

        const random = seeded(order);
        const texts = entriesSince(d.db, knownHeads(fresh.db));
        const ordered = inSomeCausalOrder(texts, devices, fresh.db, random);
        while (ordered.length > 0) {
          const some = ordered.splice(0, 1 + random.below(6));
          takeIn(fresh.db, some, fresh.clock.now(), attachmentsOf(d.db, some));
        }
        expectSame(dump(fresh.db), first);
        expect(photosIn(fresh.db)).toEqual(photosIn(d.db));
        rebuild(fresh.db);
        expectSame(dump(fresh.db), first);

        seen.takenIn += texts.length;
        seen.clashes += one<{ n: number }>(d.db, CLASHES)?.n ?? 0;
        seen.voids += d.count('voids');
        seen.photos += d.count('attachments');
      } finally {
        devices.close();
        fresh.db.close();
      }
    },
  );
}

describe('devices that exchange entries', () => {
  it(`come to the same facts and caches in any causal order, ${RUNS} times over`, {
    timeout: 180_000,
  }, () => {
    const seen = nothingSeen();
    fc.assert(sameEverywhere(seen), { numRuns: RUNS, seed: 20261126 });
    // The histories are worth their name.
    expect(seen.takenIn).toBeGreaterThan(RUNS * 10);
    expect(seen.concurrent).toBeGreaterThan(RUNS / 2);
    expect(seen.clashes).toBeGreaterThan(RUNS / 10);
    expect(seen.voids).toBeGreaterThan(RUNS);
    expect(seen.photos).toBeGreaterThan(RUNS / 8);
  });

  it('agree on kits: their seals, what is in them, and where they lie', { timeout: 60_000 }, () => {
    const seen = nothingSeen();
    fc.assert(sameEverywhere(seen, OF_KITS), { numRuns: RUNS / 10, seed: 20261126 });
    expect(seen.concurrent).toBeGreaterThan(RUNS / 20);
  });

  it('keep beside each entry of another when this file learned of it, outside what is hashed', () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const station = a.must('station.add', { name: 'Station 40' });
    b.clock.ms += 86_400_000;
    devices.exchange(0, 1);
    expect(all(b.db, 'SELECT entry, learned_at FROM arrivals')).toEqual([
      { entry: station, learned_at: b.clock.ms },
    ]);
    expect(a.count('arrivals')).toBe(0);
    expect(b.texts()).toEqual(a.texts());
    devices.close();
  });

  it('take each entry in once, however often it is sent', () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    a.must('station.add', { name: 'Station 40' });
    const everything = entriesSince(a.db, new Map());
    takeIn(b.db, everything, 1);
    const once = dump(b.db);
    expect(takeIn(b.db, everything, 2)).toEqual([]);
    expect(dump(b.db)).toEqual(once);
    devices.close();
  });

  it('show two things that were given one number as a clash to settle, on both sides', async () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const one = aHose(a, '31-107');
    const other = aHose(b, '31-107');
    devices.exchangeAll();
    for (const d of [a, b]) {
      expect(await d.ask('item.page', { item: one })).toMatchObject({ clashes: [other] });
      expect(await d.ask('item.page', { item: other })).toMatchObject({ clashes: [one] });
      // A lookup by the number asks which.
      await expect(d.ask('item.history', { number: '31-107' })).rejects.toThrow(
        'Several things have the number',
      );
      expect(await d.ask<unknown[]>('item.find', { number: '31-107' })).toHaveLength(2);
    }
    b.must('item.amend', { item: other, number: '31-170' });
    devices.exchangeAll();
    for (const d of [a, b]) expect(await d.ask('item.page', { item: one })).toMatchObject({ clashes: [] });
    devices.close();
  });

  it('agree on one place of a bottle that both placed, the later told of the two', () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const bottle = a.must('item.receive', { family: 'cylinder', number: 'C-1', place: shared.ground.bed });
    devices.exchangeAll();
    a.must('item.move', { item: bottle, to: shared.ground.rack, on: '2026-11-25' });
    b.must('item.move', { item: bottle, to: shared.ground.vendor, on: '2026-11-25' });
    devices.exchangeAll();
    const places = devices.all.map(d =>
      one<{ place: string }>(d.db, "SELECT place FROM items WHERE family <> 'apparatus'"),
    );
    expect(places[0]).toEqual(places[1]);
    devices.close();
  });

  it('take the later word of two on one day and on who somebody is, whatever the devices are called', () => {
    for (const [firstToSpeak, lastToSpeak] of [
      [0, 1],
      [1, 0],
    ] as const) {
      const devices = new Devices(2);
      const [early, late] = [devices.all[firstToSpeak], devices.all[lastToSpeak]];
      if (!early || !late) throw new Error('There are no devices.');
      const hose = aHose(early, '31-107');
      const member = early.must('member.add', { number: '7', name: 'J. Okafor', position: 'driver' });
      early.must('item.move', { item: hose, to: shared.ground.rack, on: '2026-11-25' });
      early.must('item.amend', { item: hose, serial: 'first' });
      early.must('member.entitle', { member, position: 'firefighter' });
      devices.exchangeAll();
      // Now the other one knows all that and says otherwise, of the same day.
      late.must('item.move', { item: hose, to: shared.ground.vendor, on: '2026-11-25' });
      late.must('item.amend', { item: hose, serial: 'last' });
      late.must('member.entitle', { member, position: 'logistics' });
      devices.exchangeAll();
      for (const { db } of devices.all) {
        expect(one(db, "SELECT place, serial FROM items WHERE family <> 'apparatus'")).toEqual({
          place: shared.ground.vendor,
          serial: 'last',
        });
        expect(one(db, "SELECT position FROM members WHERE number = '7'")).toEqual({ position: 'logistics' });
      }
      devices.close();
    }
  });

  it('keep a fact voided that one voided while the other built on it, and say which the first void was', () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const hose = aHose(a, '31-107');
    const record = a.must('record.add', { item: hose, activity: 'service test', outcome: 'fail' });
    devices.exchangeAll();
    a.must('void', { target: record, why: 'Another hose' });
    b.must('station.add', { name: 'Station 40' });
    b.must('void', { target: `${record}:0`, why: 'It was another hose' });
    devices.exchangeAll();
    for (const d of devices.all) {
      expect(d.conditionOf(hose)).toBe('serviceable');
      const voidedBy = one<{ voided_by: string }>(
        d.db,
        'SELECT voided_by FROM facts WHERE entry = ?',
        record,
      );
      // The lower of the two Lamport clocks: the first device wrote one entry less.
      expect(voidedBy?.voided_by.startsWith('device0')).toBe(true);
    }
    devices.close();
  });

  it('take a member out whom one voided while the other entitled them: what is left is nobody', () => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const member = a.must('member.add', { number: '7', name: 'J. Okafor', position: 'driver' });
    devices.exchangeAll();
    a.must('void', { target: member, why: 'Entered twice' });
    b.must('member.entitle', { member, position: 'administrator' });
    devices.exchangeAll();
    for (const d of devices.all) {
      expect(one(d.db, "SELECT 1 FROM members WHERE number = '7'")).toBeUndefined();
      expect(d.codes('station.add', { name: 'Station 40' }, { by: member })).toEqual(['not a member']);
    }
    devices.close();
  });

  it('are told of what this program does not know yet: it is kept, and changes nothing here', () => {
    const { d } = departmentInMemory();
    const before = dump(d.db);
    const base = { format: 1, recordedAt: 5, by: null, via: 'claimed', v: 1, body: { x: 1 } };
    const first = entryText({
      ...base,
      via: 'claimed',
      device: 'newer',
      seq: 1,
      clock: 99,
      batch: 'newer-1',
      action: 'boat.launch',
      prev: null,
    });
    expect(takeIn(d.db, [first], 1)).toEqual([]);
    expect(dump(d.db)).toEqual(before);
    expect(d.texts().at(-1)?.text).toBe(first);
    // What is written next is above it all the same.
    d.must('station.add', { name: 'Station 40' });
    expect(JSON.parse(d.texts().at(-1)?.text ?? '{}')).toMatchObject({ clock: 100 });
  });
});

describe('entries that do not fit', () => {
  it.each([
    ['left a gap', (texts: string[]) => texts.slice(1)],
    ['are another one under a known name', (texts: string[]) => [forged(texts[0] ?? ''), ...texts.slice(1)]],
    ['do not name the one before', (texts: string[]) => [texts[0] ?? '', forged(texts[1] ?? '')]],
    ['say the same in other bytes', (texts: string[]) => texts.map(t => t.replace('{', '{ '))],
  ])('because they %s are refused, and with them the whole bundle', (_what, spoil) => {
    const devices = new Devices(2);
    const [a, b] = devices.all;
    if (!a || !b) throw new Error('There are no devices.');
    const known = knownHeads(b.db);
    a.must('station.add', { name: 'Station 40' });
    if (_what.startsWith('are another')) devices.exchange(0, 1);
    a.must('station.add', { name: 'Station 41' });
    const before = { dump: dump(b.db), texts: b.texts() };
    expect(() => takeIn(b.db, spoil(entriesSince(a.db, known)), 1)).toThrow(
      /does not follow|another one|canonical/,
    );
    expect({ dump: dump(b.db), texts: b.texts() }).toEqual(before);
    devices.close();
  });

  function forged(text: string): string {
    return entryText({ ...JSON.parse(text), recordedAt: 1, prev: text.includes('Station 41') ? 'x' : null });
  }
});

const CLASHES = `SELECT count(*) AS n FROM items a JOIN items b ON a.family = b.family AND a.number = b.number
  AND a.key < b.key WHERE a.condition NOT IN ('retired', 'disposed') AND b.condition NOT IN ('retired', 'disposed')`;
