import { describe, expect, it } from 'vitest';
import { ACTIONS } from '../../db/actions/index.ts';
import { ENTITLEMENTS, type Grant, MAY } from '../../domain/people/entitlements.ts';
import { SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { everyDeed } from './kit/deeds.ts';
import { aHose, departmentInMemory, type TestDepartment } from './kit/department.ts';
import { dump } from './kit/dump.ts';

const forAll = (list: readonly string[]): Grant[] =>
  list.map(entitlement => ({ entitlement, families: 'all' }) as Grant);

function memberWith(d: TestDepartment, number: string, grants: Grant[]): string {
  return d.must('member.add', { number, name: `Member ${number}`, grants });
}

describe('entitlements', () => {
  it('are asked of every action: who lacks the one it needs is refused, who has just that one may', () => {
    const { d, g } = departmentInMemory();
    const deeds = everyDeed(d, g);
    // Opening a department has nobody to ask; every other action is in the table.
    expect(deeds.map(deed => deed.action).sort()).toEqual(
      [...ACTIONS.keys()].filter(name => name !== 'department.open').sort(),
    );
    const withOnly = new Map(ENTITLEMENTS.map((e, i) => [e, memberWith(d, `only-${i}`, forAll([e]))]));
    const without = new Map(
      ENTITLEMENTS.map((e, i) => [
        e,
        memberWith(d, `without-${i}`, forAll(ENTITLEMENTS.filter(o => o !== e))),
      ]),
    );
    for (const { action, body } of deeds) {
      const needed = ACTIONS.get(action)?.entitlement ?? 'read';
      const before = dump(d.db);
      const refused = d.refused(action, body, { by: without.get(needed) ?? '' });
      expect(
        refused.map(p => p.code),
        action,
      ).toEqual(['not entitled']);
      expect(refused[0]?.message).toContain(`may not ${MAY[needed]}`);
      expect(dump(d.db)).toEqual(before);
      d.must(action, body, { by: withOnly.get(needed) ?? '' });
    }
  });

  it('need nobody’s word to be read: there is no action for looking', () => {
    expect([...ACTIONS.values()].filter(a => a.entitlement === 'read')).toEqual([]);
  });

  it('may be for some families only', () => {
    const { d, g } = departmentInMemory();
    const hose = aHose(d, '31-107');
    const ladder = d.must('item.receive', { family: 'ladder', number: 'L-1', attributes: { type: 'roof' } });
    const by = memberWith(d, '7', [
      { entitlement: 'record', families: ['hose'] },
      { entitlement: 'return', families: ['hose'] },
    ]);
    d.must('item.receive', { family: 'hose', number: '31-108' }, { by });
    d.must('item.move', { item: hose, to: g.rack }, { by });
    d.must('record.add', { item: hose, activity: 'inspection', outcome: 'pass' }, { by });
    d.must('item.tagOut', { item: hose, reason: 'Cut' }, { by });
    d.must('item.return', { item: hose }, { by });
    for (const [action, body] of [
      ['item.receive', { family: 'ladder', number: 'L-2' }],
      ['item.move', { item: ladder, to: g.rack }],
      ['record.add', { item: ladder, activity: 'inspection', outcome: 'pass' }],
      ['item.retire', { item: ladder, reason: 'Bent' }],
    ] as const) {
      const [problem] = d.refused(action, body, { by });
      expect(problem?.code).toBe('not entitled');
      expect(problem?.message).toContain('for ladder');
    }
  });

  it('for a family let nobody void or adopt what concerns another', () => {
    const { d } = departmentInMemory();
    const hose = aHose(d, '31-107');
    const ladder = d.must('item.receive', { family: 'ladder', number: 'L-1', attributes: { type: 'roof' } });
    const by = memberWith(d, '7', [{ entitlement: 'void', families: ['hose'] }]);
    const onHose = d.must('item.assign', { item: hose, assignment: 'reserve' });
    const onLadder = d.must('item.assign', { item: ladder, assignment: 'reserve' });
    d.must('void', { target: onHose, why: 'Wrong hose' }, { by });
    expect(d.codes('void', { target: onLadder, why: 'Wrong ladder' }, { by })).toEqual(['not entitled']);
    const both = d.act([
      { action: 'item.assign', body: { item: hose, assignment: 'reserve' } },
      { action: 'item.assign', body: { item: ladder, assignment: 'reserve' } },
    ]);
    if (!both.ok) throw new Error(both.error.message);
    expect(d.codes('void', { target: both.value.batch, why: 'Both' }, { by })).toEqual(['not entitled']);
    const adopter = memberWith(d, '8', [{ entitlement: 'adopt', families: ['hose'] }]);
    const adopt = (family: string) => ({
      requirements: SHIPPED_REQUIREMENTS.filter(r => r.family === family),
      from: '2026-01-01',
    });
    d.must('rulebook.adopt', adopt('hose'), { by: adopter });
    expect(d.codes('rulebook.adopt', adopt('ladder'), { by: adopter })).toEqual(['not entitled']);
    const all = { requirements: SHIPPED_REQUIREMENTS, from: '2026-01-01' };
    expect(d.codes('rulebook.adopt', all, { by: adopter })).toEqual(['not entitled']);
  });

  it('are those of the moment: given, taken, and taken again by a void', () => {
    const { d } = departmentInMemory();
    const by = memberWith(d, '7', forAll(['read']));
    expect(d.codes('station.add', { name: '1' }, { by })).toEqual(['not entitled']);
    const given = d.must('member.entitle', { member: by, position: 'logistics' });
    d.must('station.add', { name: '1' }, { by });
    d.must('void', { target: given, why: 'Given to the wrong member' });
    expect(d.codes('station.add', { name: '2' }, { by })).toEqual(['not entitled']);
  });

  it('may change within one act, for the deeds that follow', () => {
    const { d } = departmentInMemory();
    const added = d.must('member.add', { number: '7', name: 'J. Okafor', position: 'administrator' });
    const answer = d.act(
      [
        { action: 'station.add', body: { name: '1' } },
        { action: 'member.entitle', body: { member: added, position: 'auditor' } },
        { action: 'station.add', body: { name: '2' } },
      ],
      { by: added },
    );
    expect(answer).toMatchObject({ ok: false, error: { code: 'not entitled', deed: 2 } });
  });

  it('of the terminal let scripts record and plan, not return, void, adopt or administer', () => {
    const { d, g } = departmentInMemory();
    const by = `${JSON.parse(d.texts()[0]?.text ?? '{}').batch}.t`;
    const hose = aHose(d, '31-107', { place: g.bed });
    d.must('record.add', { item: hose, activity: 'inspection', outcome: 'pass' }, { by, via: 'terminal' });
    d.must('station.add', { name: 'Station 40' }, { by, via: 'terminal' });
    d.must('item.tagOut', { item: hose, reason: 'Cut' }, { by, via: 'terminal' });
    expect(d.codes('item.return', { item: hose }, { by })).toEqual(['not entitled']);
    expect(d.codes('member.add', { number: '9', name: 'X', position: 'driver' }, { by })).toEqual([
      'not entitled',
    ]);
  });
});
