/** What is law stays law in the store, whichever door a deed comes by. The program's own rule; clauses as the book cites them. */
import { describe, expect, it } from 'vitest';
import { SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { departmentInMemory } from './kit/department.ts';

const shipped = (id: string) => SHIPPED_REQUIREMENTS.find(r => r.id === id);

describe('adopting a requirement that ships as law', () => {
  it('with a milder effect is refused beside its field, by its clause; the rest of the list is not adopted either', () => {
    const { d } = departmentInMemory();
    const answer = d.act([
      {
        action: 'rulebook.adopt',
        body: {
          requirements: [
            shipped('cylinder.end-of-life'),
            { ...shipped('cylinder.requalification'), late: 'notes' },
          ],
          from: '2026-01-01',
        },
      },
    ]);
    expect(answer.ok).toBe(false);
    if (answer.ok) return;
    expect(answer.error).toMatchObject({
      code: 'the law',
      field: 'requirements.1.late',
      todo: 'What is stricter may be adopted; what is looser may not.',
    });
    // 49 CFR 180.205(c): not filled after it becomes due.
    expect(answer.error.message).toContain('49 CFR 180.205(c)');
    expect(answer.error.message).toContain('What being late does may not be looser');
  });

  it('with a longer warning, or with a heavier effect, is adopted; so is a standard with a milder one', () => {
    const { d } = departmentInMemory();
    // In Washington the yearly hose test is law; where the state is not on file it may be.
    d.must('profile.set', { state: 'CO', kind: 'combination' });
    for (const requirement of [
      { ...shipped('cylinder.requalification'), warnDays: 365 },
      { ...shipped('hose.inspection'), late: 'blocks' },
      { ...shipped('hose.service-test'), late: 'limits' },
    ])
      d.must('rulebook.adopt', {
        requirements: [requirement],
        from: '2026-01-01',
        reason: 'The district keeps a second set on every engine.',
        authority: 'Fire chief',
      });
  });
});

describe('moving to where a rule is law', () => {
  it('is refused while the department has it looser, and goes once it is as the book has it', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', { state: 'CO', kind: 'career' });
    const hose = shipped('hose.service-test');
    const decided = { reason: 'One machine for two stations.', authority: 'Fire chief' };
    d.must('rulebook.adopt', {
      requirements: [{ ...hose, graceDays: 30 }],
      from: '2026-01-01',
      ...decided,
    });
    // WAC 296-305-06003(1): in Washington the yearly test is law.
    const [problem] = d.refused('profile.set', { state: 'WA', kind: 'career', from: '2026-12-01' });
    expect(problem).toMatchObject({ code: 'the law', field: 'state' });
    d.must('rulebook.adopt', { requirements: [hose], from: '2026-01-01' });
    d.must('profile.set', { state: 'WA', kind: 'career', from: '2026-12-01' });
  });
});
