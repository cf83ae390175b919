/** What was decided on a rule, and what was in force when. The program's own. */
import { describe, expect, it } from 'vitest';
import type { RuleHistoryLine, RulePreview } from '../../db/api-rules.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import { departmentInMemory } from './kit/department.ts';

describe('the history of a rule', () => {
  it('tells every decision with its reason, who decided it, and the days it was in force, the newest first', async () => {
    const { d } = departmentInMemory();
    d.must('profile.set', { state: 'CO', kind: 'volunteer' });
    const known = shippedRequirement('ladder.service-test');
    if (known?.clock.kind !== 'since last') throw new Error('The ladder test counts from the last one.');
    const every = (months: number) => ({ ...known, clock: { ...known.clock, every: { months } } });
    const adopt = (months: number, from: string, reason: string) =>
      d.must('rulebook.adopt', { requirements: [every(months)], from, reason, authority: 'Fire chief' });
    adopt(6, '2026-03-01', 'Two failed in one year');
    const second = adopt(24, '2026-09-01', 'New ladders');
    d.must('rulebook.end', {
      ...{ requirement: known.id, from: '2026-11-01', reason: 'No ladders left', authority: 'Board 7' },
    });
    const told = () => d.ask<RuleHistoryLine[]>('rulebook.history', { requirement: known.id });
    const lines = await told();
    expect(lines.map(l => [l.did, l.from, l.inForce, l.reason, l.authority, l.change])).toEqual([
      ['ended', '2026-11-01', null, 'No ladders left', 'Board 7', expect.anything()],
      [
        'adopted',
        '2026-09-01',
        { from: '2026-09-01', to: '2026-11-01' },
        'New ladders',
        'Fire chief',
        'looser',
      ],
      [
        'adopted',
        '2026-03-01',
        { from: '2026-03-01', to: '2026-09-01' },
        'Two failed in one year',
        'Fire chief',
        'stricter',
      ],
      ['adopted', null, { from: null, to: '2026-03-01' }, null, null, null],
    ]);
    expect(lines[1]?.changed.map(c => c.what)).toContain('Clock');
    expect(lines.every(l => l.by === 'R. Alder')).toBe(true);

    d.must('void', { target: second, why: 'Decided by nobody' });
    expect((await told()).map(l => [l.did, l.inForce])).toEqual([
      ['ended', null],
      ['adopted', { from: '2026-03-01', to: '2026-11-01' }],
      ['adopted', { from: null, to: '2026-03-01' }],
    ]);
  });

  it('tells what a decision changed by what held on its day, and of one replaced before it began that it never held', async () => {
    const { d } = departmentInMemory();
    const known = shippedRequirement('ladder.service-test');
    if (known?.clock.kind !== 'since last') throw new Error('The ladder test counts from the last one.');
    const every = (months: number) => ({ ...known, clock: { ...known.clock, every: { months } } });
    const said = { reason: 'Tried out', authority: 'Fire chief' };
    const adopt = (months: number, from: string) =>
      d.must('rulebook.adopt', { requirements: [every(months)], from, ...said });
    const previewOf = (months: number, from: string) =>
      d.ask<RulePreview>('rulebook.preview', { adopt: [every(months)], from, ...said });
    adopt(6, '2026-12-12');

    // The preview names what would never begin, and judges on the day that it would have begun.
    const preview = await previewOf(9, '2026-12-01');
    expect(preview.falls.map(f => [f.requirement.id, f.from, f.ended])).toEqual([
      [known.id, '2026-12-12', false],
    ]);
    expect(preview.on).toBe('2026-12-12');
    const later = await previewOf(9, '2026-12-13');
    expect(later.falls).toEqual([]);

    adopt(9, '2026-12-01');
    const lines = await d.ask<RuleHistoryLine[]>('rulebook.history', { requirement: known.id });
    expect(lines.map(l => [l.from, l.inForce, l.changed.find(c => c.what === 'Clock')?.was])).toEqual([
      ['2026-12-01', { from: '2026-12-01', to: null }, expect.stringContaining('12 months')],
      ['2026-12-12', null, expect.stringContaining('12 months')],
      [null, { from: null, to: '2026-12-01' }, undefined],
    ]);
  });
});
