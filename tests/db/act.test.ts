import { describe, expect, it } from 'vitest';
import { all, one } from '../../db/store/statements.ts';
import { SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { aHose, layGround, newDepartment, TestClock } from './kit/department.ts';
import { dump } from './kit/dump.ts';
import { NOON } from './kit/opening.ts';

describe('an act', () => {
  it('is one transaction: a refused third deed leaves nothing of the first two', () => {
    const d = newDepartment();
    const before = dump(d.db);
    const texts = d.texts();
    const answer = d.act([
      { action: 'station.add', body: { name: 'Station 31' } },
      { action: 'item.receive', body: { family: 'hose', number: '31-107' } },
      { action: 'item.move', body: { item: '&1', to: 'nowhere' } },
    ]);
    expect(answer).toMatchObject({ ok: false, error: { code: 'not found', field: 'to', deed: 2 } });
    expect(dump(d.db)).toEqual(before);
    expect(d.texts()).toEqual(texts);
  });

  it('leaves nothing in memory of what was rolled back: the next act is judged by the book as it is', () => {
    const d = newDepartment();
    const hose = aHose(d, '31-107');
    const serviceTest = SHIPPED_REQUIREMENTS.find(r => r.id === 'hose.service-test');
    if (!serviceTest) throw new Error('The shipped book is empty.');
    const adopt = (warnDays: number) => ({
      action: 'rulebook.adopt',
      body: { requirements: [{ ...serviceTest, warnDays }], from: 'opening' },
    });
    // Adopts, derives by what it adopted, and is refused.
    const refused = d.act([
      adopt(1),
      { action: 'record.add', body: { item: hose, activity: 'service test', outcome: 'pass' } },
      { action: 'record.add', body: { item: hose, activity: 'no such thing', outcome: 'pass' } },
    ]);
    expect(refused.ok).toBe(false);
    expect(d.act([adopt(2)]).ok).toBe(true);
    const row = one<{ due_on: number; warn_on: number }>(
      d.db,
      'SELECT due_on, warn_on FROM due WHERE requirement = ?',
      serviceTest.id,
    );
    expect((row?.due_on ?? 0) - (row?.warn_on ?? 0)).toBe(2);
  });

  it('gives all its entries the id of the first as batch, and answers with its name', () => {
    const d = newDepartment();
    const answer = d.act([
      { action: 'station.add', body: { name: 'Station 31' } },
      { action: 'station.add', body: { name: 'Station 32' } },
      { action: 'station.add', body: { name: 'Station 33' } },
    ]);
    if (!answer.ok) throw new Error(answer.error.message);
    const batches = all<{ batch: string; action: string }>(
      d.db,
      "SELECT batch, action FROM entries WHERE action = 'station.add'",
    );
    expect(answer.value.entries).toHaveLength(3);
    expect(answer.value.batch).toBe(`batch:${answer.value.entries[0]}`);
    expect(batches.map(b => b.batch)).toEqual(Array(3).fill(answer.value.entries[0]));
  });

  it('lets a field name what an earlier deed of the list brought into being', () => {
    const d = newDepartment();
    const answer = d.act([
      { action: 'station.add', body: { name: 'Station 31' } },
      { action: 'unit.add', body: { name: 'Engine 31', station: '&0', rig: { name: 'Engine 31' } } },
      { action: 'place.add', body: { name: 'hosebed', kind: 'compartment', under: '&1.r' } },
      { action: 'item.receive', body: { family: 'hose', number: '31-107', place: '&2' } },
    ]);
    if (!answer.ok) throw new Error(answer.error.message);
    const place = one<{ path: string; unit: string; station: string }>(
      d.db,
      `SELECT p.path, u.name AS unit, s.name AS station FROM items i JOIN places p ON p.key = i.place_key
       JOIN units u ON u.key = p.unit JOIN places s ON s.key = p.station`,
    );
    expect(place).toEqual({ path: 'Engine 31, hosebed', unit: 'Engine 31', station: 'Station 31' });
    const stored = JSON.parse(d.texts().at(-1)?.text ?? '{}') as { body: { place: string } };
    expect(stored.body.place).toBe(answer.value.entries[2]);
  });

  it('refuses a reference to a deed that is not earlier in the list', () => {
    const d = newDepartment();
    const answer = d.act([{ action: 'item.receive', body: { family: 'hose', number: '1', place: '&4' } }]);
    expect(answer).toMatchObject({ ok: false, error: { code: 'not found', field: 'place' } });
  });

  it('writes today in the department’s zone into a body that gives no day, so that a replay needs no clock', () => {
    // 02:30 UTC on 26 November is still the evening of the 25th in Denver (UTC-7).
    const d = newDepartment({ clock: new TestClock(Date.UTC(2026, 10, 26, 2, 30)) });
    d.must('station.add', { name: 'Station 31' });
    const entry = JSON.parse(d.texts().at(-1)?.text ?? '{}') as { body: { on: string } };
    expect(entry.body.on).toBe('2026-11-25');
  });

  it('never lets recordedAt fall where the machine’s clock goes backward, and obeys it once it has caught up', () => {
    const d = newDepartment();
    d.must('station.add', { name: 'Station 31' });
    const late = recordedAt();
    d.clock.ms = NOON - 3_600_000;
    d.must('station.add', { name: 'Station 32' });
    expect(recordedAt()).toBe(late);
    d.clock.ms = NOON + 3_600_000;
    d.must('station.add', { name: 'Station 33' });
    expect(recordedAt()).toBe(NOON + 3_601_000);
    function recordedAt() {
      return (JSON.parse(d.texts().at(-1)?.text ?? '{}') as { recordedAt: number }).recordedAt;
    }
  });

  it('counts a Lamport clock up by one an entry, and numbers entries of a device from 1', () => {
    const d = newDepartment();
    layGround(d);
    const entries = d.texts().map(t => JSON.parse(t.text) as { seq: number; clock: number });
    expect(entries.map(e => e.seq)).toEqual(entries.map((_, i) => i + 1));
    expect(entries.map(e => e.clock)).toEqual(entries.map((_, i) => i + 1));
  });

  it('names an entry by its device and its number in base 36, and a thing by the entry that brought it', () => {
    const d = newDepartment();
    const device = one<{ value: string }>(d.db, "SELECT value FROM meta WHERE name = 'device'")?.value ?? '';
    expect(device).toMatch(/^[0-9a-z]{5,}$/);
    let last = '';
    while (d.count('entries') < 40) last = d.must('station.add', { name: `Station ${d.count('entries')}` });
    // 40 in base 36 is 14.
    expect(last).toBe(`${device}-14`);
    expect(one(d.db, 'SELECT kind FROM things WHERE id = ?', last)).toEqual({ kind: 'place' });
  });

  it('says of an act what screens have to refresh', () => {
    const d = newDepartment();
    const g = layGround(d);
    const hose = aHose(d, '31-107');
    const answer = d.act([{ action: 'item.move', body: { item: hose, to: g.bed } }]);
    if (!answer.ok) throw new Error(answer.error.message);
    expect(answer.value.touched.sort()).toEqual(['due', `item:${hose}`, 'items']);
  });

  it('refuses an empty list and an action there is not', () => {
    const d = newDepartment();
    expect(d.act([])).toMatchObject({ ok: false, error: { code: 'no deed' } });
    expect(d.codes('item.explode', {})).toEqual(['unknown action']);
  });

  it('refuses a field it does not know, a missing one and a wrong one, each by name', () => {
    const d = newDepartment();
    const problems = d.refused('item.receive', { family: 'hose', size: 4, on: '2026-02-30' });
    expect(problems.map(p => [p.code, p.field])).toEqual(
      expect.arrayContaining([
        ['missing', 'number'],
        ['bad value', 'on'],
        ['unknown field', 'size'],
      ]),
    );
  });

  it('lets no decimal into a body: one given as a number is kept as text, where the field takes decimals', () => {
    const d = newDepartment();
    const hose = d.must('item.receive', { family: 'hose', number: '1', attributes: { diameter_in: 1.75 } });
    const stored = JSON.parse(d.texts().at(-1)?.text ?? '{}') as { body: { attributes: unknown } };
    expect(stored.body.attributes).toEqual({ diameter_in: '1.75' });
    const record = { item: hose, activity: 'service test', outcome: 'pass' };
    expect(d.codes('record.add', { ...record, readings: { testPressure_psi: 299.5 } })).toEqual([
      'bad reading',
    ]);
    expect(d.codes('item.amend', { item: hose, attributes: { length_ft: 1e-7 } })).toEqual(['bad value']);
    expect(d.codes('item.amend', { item: hose, attributes: { length_ft: Number.NaN } })).toEqual([
      'bad value',
    ]);
  });

  it('refuses text that is no Unicode text, because no other language could write it the same', () => {
    const d = newDepartment();
    expect(d.codes('station.add', { name: 'Station \ud800' })).toEqual(['bad value']);
  });

  it('opens a department once, and only as the first entry can nobody be named', () => {
    const d = newDepartment();
    expect(
      d.codes('department.open', { name: 'B', zone: 'America/Denver', member: { number: '1', name: 'B' } }),
    ).toEqual(['already open']);
    expect(d.codes('station.add', { name: 'Station 31' }, { by: null })).toEqual(['nobody']);
    expect(d.codes('station.add', { name: 'Station 31' }, { by: 'who-1' })).toEqual(['not a member']);
  });

  it('adopts the shipped book in full with the opening, or none where it is asked to', () => {
    const shipped = newDepartment({ book: 'shipped' });
    const adopted = all<{ values: string }>(shipped.db, `SELECT "values" FROM facts WHERE kind = 'rule'`);
    expect(adopted.map(a => (JSON.parse(a.values) as { requirement: unknown }).requirement)).toEqual(
      JSON.parse(JSON.stringify(SHIPPED_REQUIREMENTS)),
    );
    expect(newDepartment({ book: 'empty' }).count('facts')).toBe(3);
  });

  it('keeps how identity was shown: claimed, by the terminal, and never a sheet that was not brought in', () => {
    const d = newDepartment();
    const via = () => (JSON.parse(d.texts().at(-1)?.text ?? '{}') as { via: string }).via;
    d.must('station.add', { name: '1' });
    expect(via()).toBe('claimed');
    d.must('station.add', { name: '2' }, { via: 'terminal' });
    expect(via()).toBe('terminal');
    d.must('station.add', { name: '3' }, { via: 'PIN' });
    expect(via()).toBe('claimed');
    d.must('station.add', { name: '4' }, { via: 'import' });
    expect(via()).toBe('claimed');
  });
});
