/** What the Department screen is told: settings as they were last amended, and how agencies’ RINs stand. */
import { describe, expect, it } from 'vitest';
import type { DepartmentPage } from '../../db/api-desk.ts';
import { all, one } from '../../db/store/statements.ts';
import { layGround, newDepartment } from './kit/department.ts';

describe('the department’s page', () => {
  it('gives the settings as amended, and the file’s format and device', async () => {
    const d = newDepartment({ book: 'empty' });
    const page = await d.ask<DepartmentPage>('department.page');
    expect(page).toMatchObject({ measures: 'US', zone: 'America/Denver', agencies: [] });
    expect(page.file.device).toMatch(/^[0-9a-z]{8}$/);
    expect(page.file.format).toBe(d.db.pragma('user_version', { simple: true }));
    d.must('department.amend', { department: page.id, units: 'SI', state: 'CO', name: 'Larkspur Valley' });
    expect(await d.ask<DepartmentPage>('department.page')).toMatchObject({
      name: 'Larkspur Valley',
      state: 'CO',
      measures: 'SI',
    });
    expect(one(d.db, 'SELECT count(*) AS n FROM departments')).toEqual({ n: 1 });
  });

  // 49 CFR 107.805(e): the approval, and its RIN, expires. The 90 days of warning: common practice, no source.
  it.each([
    ['2026-11-24', 'overdue', -1],
    ['2026-11-25', 'due soon', 0],
    ['2027-02-23', 'due soon', 90],
    ['2027-02-24', 'current', 91],
    // Of a month or a year that is all that is known, the last day counts.
    ['2026-11', 'due soon', 5],
    ['2026', 'due soon', 36],
  ])('on 25 Nov 2026 a RIN that expires %s is %s', async (rinExpires, rinState, rinDaysLeft) => {
    const d = newDepartment({ book: 'empty' });
    d.must('agency.add', { name: 'Juniper Cylinder Testing', rin: 'A123', rinExpires });
    const { agencies } = await d.ask<DepartmentPage>('department.page', { on: '2026-11-25' });
    expect(agencies).toMatchObject([{ rin: 'A123', rinExpires, rinState, rinDaysLeft }]);
  });

  it('says nothing of an agency without a RIN', async () => {
    const d = newDepartment({ book: 'empty' });
    d.must('agency.add', { name: 'Tall Pine Ladder Service' });
    const { agencies } = await d.ask<DepartmentPage>('department.page', { on: '2026-11-25' });
    expect(agencies).toMatchObject([{ rin: null, rinExpires: null, rinState: null, rinDaysLeft: null }]);
  });
});

describe('measures', () => {
  it('are told in SI, the figure that was given beside it, once the department asks for SI', async () => {
    const d = newDepartment();
    const item = d.must('item.receive', {
      family: 'hose',
      number: '31-1',
      attributes: { length_ft: 50 },
    });
    const received = async () =>
      (await d.ask<{ what: string }[]>('item.history', { item })).find(l => l.what.startsWith('Received'))
        ?.what;
    expect(await received()).toContain('50 ft');
    const [department] = all<{ id: string }>(d.db, "SELECT id FROM things WHERE kind = 'department'");
    d.must('department.amend', { department: department?.id, units: 'SI' });
    // 1 ft is 0.3048 m exactly (NIST SP 811, B.8).
    expect(await received()).toContain('15.24 m (50 ft)');
    expect((await d.ask<{ measures: string }>('department.summary', {})).measures).toBe('SI');
  });
});

describe('an amendment', () => {
  it('puts no place inside itself, gives no name twice, and names a station where one is asked for', () => {
    const d = newDepartment();
    const { rig, bed, station, unit } = layGround(d);
    const tray = d.must('place.add', { name: 'tray', kind: 'compartment', under: bed });
    expect(d.codes('place.amend', { place: bed, under: bed })).toEqual(['under itself']);
    expect(d.codes('place.amend', { place: bed, under: tray })).toEqual(['under itself']);
    d.must('rig.add', { name: 'Reserve R-1' });
    expect(d.codes('place.amend', { place: rig, name: 'reserve r-1' })).toEqual(['name in use']);
    d.must('place.amend', { place: rig, name: 'Engine 31' });
    expect(d.codes('unit.amend', { unit, station: 'nonsense' })).toEqual(['not found']);
    d.must('unit.amend', { unit, station });
    expect(d.codes('department.amend', { department: 'x', name: 'Later', on: '2099-01-01' })).toContain(
      'future date',
    );
  });

  it('lets a member keep their own number, and no other', () => {
    const d = newDepartment();
    const member = d.must('member.add', { number: '9', name: 'D. Poplar', position: 'driver' });
    d.must('member.add', { number: '10', name: 'E. Ash', position: 'driver' });
    d.must('member.amend', { member, number: '9', name: 'D. Poplar-Lind' });
    expect(d.codes('member.amend', { member, number: '10' })).toEqual(['number in use']);
  });
});
