/** What members are qualified for: advice for the form, kept like everything that is known of a member. */
import { describe, expect, it } from 'vitest';
import type { MemberLine } from '../../db/api.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import { qualificationAsked } from '../../renderer/parts/deeds/recordForm.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';
import { departmentInMemory } from '../db/kit/department.ts';

describe('a member’s qualifications', () => {
  it('are amended as a whole, told with the member, and none where nothing was said', async () => {
    const { d } = departmentInMemory();
    const member = d.must('member.add', { number: '9', name: 'N. Hollis', position: 'technician' });
    const told = async () =>
      (await d.ask<MemberLine[]>('members.list')).find(m => m.id === member)?.qualifications;
    expect(await told()).toEqual([]);
    const held = [{ title: 'Emergency vehicle technician', expires: '2027-05-31' }];
    d.must('member.amend', { member, qualifications: held });
    expect(await told()).toEqual(held);
    d.must('member.amend', { member, name: 'N. Hollis-Ray' });
    expect(await told()).toEqual(held);
    d.must('member.amend', { member, qualifications: [] });
    expect(await told()).toEqual([]);
  });

  // WAC 296-305-04507: repairs by an emergency vehicle technician; aerial NDT by a Level II, ASNT CP-189 (NFPA 1911).
  it('are said where a requirement asks for them: who holds it that day, who has let it lapse', () => {
    const brakes = shippedRequirement('apparatus.brakes');
    if (!brakes) throw new Error('The book ships no brake inspection.');
    const member = (name: string, expires: string | null): MemberLine => ({
      id: name,
      number: name,
      name,
      position: null,
      grants: [],
      hasPin: false,
      qualifications: [{ title: 'emergency vehicle Technician', expires }],
    });
    const said = (members: MemberLine[], on = '2026-11-25') =>
      qualificationAsked('apparatus', 'brake inspection', { rules: [offeredLine(brakes)], members }, on);
    expect(said([member('A', null), member('B', '2026-11-25')])).toEqual([
      'It asks for: Emergency vehicle technician. On file: A, B.',
    ]);
    expect(said([member('B', '2026-11-25')], '2026-11-26')[0]).toContain('B (expired)');
    expect(said([])[0]).toContain('No member is on file');
    expect(
      qualificationAsked(
        'apparatus',
        'weighing',
        { rules: [offeredLine(brakes)], members: [] },
        '2026-11-25',
      ),
    ).toEqual([]);
  });
});
