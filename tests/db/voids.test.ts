import { describe, expect, it } from 'vitest';
import { all, one } from '../../db/store/statements.ts';
import { everyDeed } from './kit/deeds.ts';
import { aHose, departmentInMemory, type TestDepartment } from './kit/department.ts';
import { derivedOnly, dump } from './kit/dump.ts';

function ready() {
  const { d, g } = departmentInMemory();
  return { d, g, hose: aHose(d, '31-107', { place: g.bed }) };
}

/** Deeds that say what is so already, or facts that no cache shows: the questions read them from the ledger's facts. */
const LEAVES_CACHES: ReadonlySet<string> = new Set([
  'policy.choose',
  'permit.confirm',
  'rulebook.adopt',
  'rulebook.end',
  'profile.set',
  'item.read',
  'item.searched',
  'item.handOver',
  'photo.add',
  'carry.set',
  'checkoff.mark',
  'incident.open',
  'incident.amend',
  'incident.found',
  'swap.many',
  'swap.settle',
  'checkoff.schedule',
  'checkoff.missed',
  'department.amend',
  'rig.takeOut',
  'rig.return',
  'rig.read',
  'rig.arrange',
  'note.write',
  'note.close',
  'notice.issue',
  'notice.settle',
  'notice.expect',
  'notice.close',
]);

describe('a void', () => {
  it('of what any action did leaves what is shown as it was before', () => {
    const { d, g } = ready();
    for (const { action, body } of everyDeed(d, g)) {
      if (action === 'void' || action === 'import.note') continue;
      const before = derivedOnly(dump(d.db));
      const target = d.must(action, body);
      // A PIN is beside the ledger and changes nothing that is derived.
      if (action !== 'member.pin') {
        const changed = JSON.stringify(derivedOnly(dump(d.db))) !== JSON.stringify(before);
        expect(changed || LEAVES_CACHES.has(action), action).toBe(true);
      }
      d.must('void', { target, why: 'Entered by mistake' });
      expect(derivedOnly(dump(d.db)), action).toEqual(before);
    }
  });

  it('names one fact of an entry that says several, and leaves the others', () => {
    const { d, g, hose } = ready();
    d.must('item.missing', { item: hose, on: '2026-05-01' });
    const found = d.must('item.found', { item: hose, place: g.rack, on: '2026-05-03' });
    d.must('void', { target: `${found}:1`, why: 'It was in the bed all along' });
    expect(d.conditionOf(hose)).toBe('tagged out');
    const at = one<{ place: string }>(d.db, 'SELECT place FROM items WHERE number = ?', '31-107');
    expect(at?.place).toBe(g.bed);
  });

  it('names a whole batch', () => {
    const { d, g, hose } = ready();
    const before = derivedOnly(dump(d.db));
    const answer = d.act([
      { action: 'item.receive', body: { family: 'hose', number: '31-200', place: g.bed } },
      { action: 'record.add', body: { item: '&0', activity: 'inspection', outcome: 'pass' } },
      { action: 'item.move', body: { item: hose, to: g.rack } },
    ]);
    if (!answer.ok) throw new Error(answer.error.message);
    d.must('void', { target: answer.value.batch, why: 'The whole list was of another station' });
    expect(derivedOnly(dump(d.db))).toEqual(before);
  });

  it('names the first entry of a batch apart from the batch that bears its name', () => {
    const { d, g, hose } = ready();
    const answer = d.act([
      { action: 'item.assign', body: { item: hose, assignment: 'reserve' } },
      { action: 'item.move', body: { item: hose, to: g.rack } },
    ]);
    if (!answer.ok) throw new Error(answer.error.message);
    d.must('void', { target: answer.value.entries[0], why: 'Not assigned' });
    expect(one(d.db, "SELECT assignment, place FROM items WHERE family <> 'apparatus'")).toEqual({
      assignment: null,
      place: g.rack,
    });
    d.must('void', { target: answer.value.batch, why: 'Not moved either' });
    expect(one(d.db, "SELECT assignment, place FROM items WHERE family <> 'apparatus'")).toEqual({
      assignment: null,
      place: g.bed,
    });
  });

  it('is refused while later facts depend on it, with the list of them', () => {
    const { d, g, hose } = ready();
    d.must('record.add', { item: hose, activity: 'service test', outcome: 'pass', on: '2026-06-14' });
    d.must('item.assign', { item: hose, assignment: 'reserve', on: '2026-06' });
    const [problem] = d.refused('void', { target: hose, why: 'Another department’s' });
    expect(problem).toMatchObject({ code: 'depended on', field: 'target' });
    expect(problem?.message).toContain('record of 14 Jun 2026 on 31-107');
    expect(problem?.message).toContain('assignment of Jun 2026 on 31-107');
    const [place] = d.refused('void', { target: g.bed, why: 'No such bed' });
    expect(place?.message).toContain('place of 9 Nov 2021 on 31-107');
  });

  it('is refused of a place with places in it, an agency with records, a unit with rigs and a member who acted', () => {
    const { d, g } = ready();
    const cylinder = d.must('item.receive', {
      family: 'cylinder',
      number: 'C-1',
      attributes: { spec: 'DOT-3AL', made: '2020-01' },
    });
    d.must('record.add', { item: cylinder, activity: 'requalification', outcome: 'pass', agency: g.agency });
    const member = d.must('member.add', { number: '7', name: 'J. Okafor', position: 'driver' });
    d.must('record.add', { item: cylinder, activity: 'inspection', outcome: 'pass' }, { by: member });
    d.must('rig.add', { name: 'Reserve R-1', unit: g.unit });
    for (const target of [g.station, g.agency, g.unit, member])
      expect(d.codes('void', { target, why: 'Mistake' })).toEqual(['depended on']);
  });

  it('may follow once what depended on it was voided, the latest before the earlier', () => {
    const { d, hose } = ready();
    const record = d.must('record.add', { item: hose, activity: 'service test', outcome: 'pass' });
    expect(d.codes('void', { target: hose, why: 'Mistake' })).toEqual(['depended on']);
    d.must('void', { target: record, why: 'Mistake' });
    d.must('void', { target: hose, why: 'Mistake' });
    expect(all(d.db, "SELECT number FROM items WHERE family <> 'apparatus'")).toEqual([]);
    expect(all(d.db, "SELECT requirement FROM due WHERE family <> 'apparatus'")).toEqual([]);
    // What is not there any more takes no deed.
    expect(d.codes('item.assign', { item: hose, assignment: 'reserve' })).toEqual(['not found']);
  });

  it('is not voided, and nothing is voided twice', () => {
    const { d, hose } = ready();
    const assigned = d.must('item.assign', { item: hose, assignment: 'reserve' });
    const voided = d.must('void', { target: assigned, why: 'Mistake' });
    expect(d.codes('void', { target: voided, why: 'It was right' })).toEqual(['void of a void']);
    expect(d.codes('void', { target: assigned, why: 'Again' })).toEqual(['already void']);
    expect(d.codes('void', { target: `${assigned}:0`, why: 'Again' })).toEqual(['already void']);
    expect(d.codes('void', { target: 'nothing-1', why: 'What' })).toEqual(['not found']);
    // The deed is done again.
    d.must('item.assign', { item: hose, assignment: 'reserve' });
    expect(one(d.db, "SELECT assignment FROM items WHERE family <> 'apparatus'")).toEqual({
      assignment: 'reserve',
    });
  });

  it('of a void hidden in a batch is refused as well', () => {
    const { d, hose } = ready();
    const assigned = d.must('item.assign', { item: hose, assignment: 'reserve' });
    const answer = d.act([
      { action: 'item.assign', body: { item: hose, assignment: 'first line' } },
      { action: 'void', body: { target: assigned, why: 'Mistake' } },
    ]);
    if (!answer.ok) throw new Error(answer.error.message);
    expect(d.codes('void', { target: answer.value.entries[1], why: 'Mistake' })).toEqual(['void of a void']);
    // The batch as a whole still has a deed to void; what it voided stays void.
    d.must('void', { target: answer.value.batch, why: 'Mistake' });
    expect(one(d.db, "SELECT assignment FROM items WHERE family <> 'apparatus'")).toEqual({
      assignment: null,
    });
  });

  it('says why, by whom and when in the history, where the voided deed stays readable', async () => {
    const { d, hose } = ready();
    const record = d.must('record.add', {
      item: hose,
      activity: 'service test',
      outcome: 'pass',
      on: '2026-06-14',
    });
    d.must('void', { target: record, why: 'It was 31-170' });
    const lines = await d.ask<{ entry: string; what: string; voided: object | null }[]>('item.history', {
      item: hose,
    });
    const line = lines.find(l => l.entry === record);
    expect(line).toMatchObject({
      what: 'Service test, passed',
      voided: { why: 'It was 31-170', by: 'R. Alder' },
    });
    expect(lines.filter(l => l.voided !== null)).toHaveLength(1);
  });

  it('of a stricter rule judges every thing by the rule before it', () => {
    const { d } = ready();
    const dueOf = (x: TestDepartment) =>
      all(x.db, 'SELECT requirement, due_on, from_day, to_day FROM due ORDER BY 1, 3');
    const before = dueOf(d);
    const rule = JSON.parse(
      one<{ values: string }>(
        d.db,
        `SELECT "values" FROM facts WHERE kind = 'rule' AND "values" ->> '$.requirement.id' = 'hose.service-test'`,
      )?.values ?? '{}',
    ).requirement;
    const stricter = { ...rule, clock: { ...rule.clock, every: { months: 6 } } };
    const adopted = d.must('rulebook.adopt', {
      requirements: [stricter],
      from: '2026-01-01',
      reason: 'Two bursts in one season',
      authority: 'Fire chief',
    });
    expect(dueOf(d)).not.toEqual(before);
    d.must('void', { target: adopted, why: 'Not decided yet' });
    expect(dueOf(d)).toEqual(before);
  });
});
