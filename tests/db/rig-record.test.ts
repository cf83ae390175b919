/** A rig is a thing with records and dates of its own, and is still no thing to move or tag. The program's own rules. */
import { describe, expect, it } from 'vitest';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import { departmentInMemory, type TestDepartment } from './kit/department.ts';

function adopted(d: TestDepartment) {
  d.must('profile.set', { state: 'CO', kind: 'volunteer' });
  d.must('rulebook.adopt', {
    requirements: [shippedRequirement('apparatus.preventive-service')],
    reason: 'The shop has a program.',
    authority: 'Fire chief',
  });
}
interface Row {
  item: string;
  requirement: string;
  state: string;
  dueOn: string | null;
}
const rows = async (d: TestDepartment, filter: object) =>
  (await d.ask<{ rows: Row[] }>('due.list', { on: '2026-11-25', limit: 100, ...filter })).rows.filter(
    r => r.requirement === 'apparatus.preventive-service',
  );

describe('a rig', () => {
  it('has due rows that count for the unit that rides it, and for no other', async () => {
    const { d, g } = departmentInMemory();
    adopted(d);
    d.must('record.add', { item: g.rig, activity: 'preventive service', outcome: 'pass', on: '2026-03-10' });
    expect(await rows(d, { unit: 'Engine 31' })).toMatchObject([
      { item: g.rig, state: 'overdue', dueOn: '2026-09-10' },
    ]);
    const other = d.must('unit.add', {
      name: 'Engine 32',
      kind: 'engine',
      station: g.station,
      on: '2015-01-01',
    });
    d.must('rig.ride', { rig: g.rig, unit: other, on: '2026-11-20' });
    expect(await rows(d, { unit: 'Engine 31' })).toEqual([]);
    expect(await rows(d, { unit: 'Engine 32' })).toMatchObject([{ item: g.rig, state: 'overdue' }]);
  });

  it('is due by its meter when that comes first, on the day a reading shows it', async () => {
    const { d, g } = departmentInMemory();
    adopted(d);
    const miles = (reading: number, on: string) =>
      d.must('rig.read', { rig: g.rig, meter: 'miles', reading, on });
    miles(41_000, '2026-09-01');
    d.must('record.add', { item: g.rig, activity: 'preventive service', outcome: 'pass', on: '2026-09-01' });
    expect(await rows(d, {})).toMatchObject([{ state: 'current', dueOn: '2027-03-01' }]);
    miles(46_000, '2026-11-20');
    expect(await rows(d, {})).toMatchObject([{ state: 'overdue', dueOn: '2026-11-20' }]);
  });

  it('is not moved, tagged, retired or received as a thing', () => {
    const { d, g } = departmentInMemory();
    const item = g.rig;
    for (const [action, body] of [
      ['item.move', { item, to: g.rack }],
      ['item.tagOut', { item, reason: 'Leak' }],
      ['item.retire', { item, reason: 'Old' }],
      ['item.missing', { item }],
      ['item.assign', { item, assignment: 'reserve' }],
      ['item.receive', { family: 'apparatus', number: 'E-99' }],
    ] as const)
      expect([action, d.codes(action, body)[0]]).toEqual([action, 'a rig']);
  });
});
