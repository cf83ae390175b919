/**
 * A book of the department's own. The program's own rules: law is neither loosened nor ended, a standard is with a
 * reason and an authority. 49 CFR 180.205(c) and WAC 296-305-06003(1) as the book cites them.
 */
import { describe, expect, it } from 'vitest';
import type { RuleQuestions } from '../../db/api-rules.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { aHose, departmentInMemory, type TestDepartment } from './kit/department.ts';

const shipped = (id: string): Requirement => {
  const known = shippedRequirement(id);
  if (!known) throw new Error(`${id} is not shipped.`);
  return known;
};
const WHY = { reason: 'The district has two sets.', authority: 'Fire chief' };
const every = (id: string, months: number): Requirement => {
  const known = shipped(id);
  if (known.clock.kind !== 'since last') throw new Error(`${id} does not count from the last one.`);
  return { ...known, clock: { ...known.clock, every: { months } } };
};
const adopt = (requirement: Requirement, from = 'opening', more: object = WHY) => ({
  requirements: [requirement],
  from,
  ...more,
});
const CO = { state: 'CO', kind: 'volunteer' };
const WA = { state: 'WA', kind: 'volunteer' };

interface Row {
  requirement: string;
  dueOn: string | null;
  state: string;
  own: string | null;
}
async function rowsOf(d: TestDepartment, item: string, on: string): Promise<Row[]> {
  const { rows } = await d.ask<{ rows: (Row & { item: { id: string } | string })[] }>('due.list', {
    on,
    limit: 200,
  });
  return rows.filter(r => JSON.stringify(r).includes(item));
}
const rowOf = async (d: TestDepartment, item: string, id: string, on: string) =>
  (await rowsOf(d, item, on)).find(r => r.requirement === id);

function withHose(profile: object) {
  const { d, g } = departmentInMemory();
  d.must('profile.set', { ...profile });
  const hose = aHose(d, 'H-1', { place: g.bed });
  d.must('record.add', { item: hose, activity: 'service test', outcome: 'pass', on: '2025-12-10' });
  return { d, g, hose };
}

describe('what is law', () => {
  it('everywhere may not be loosened, in whatever field, and the clause is said', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', CO);
    const law = shipped('cylinder.requalification');
    for (const own of [
      { graceDays: 30 },
      { late: 'notes' as const },
      { appliesTo: [{ attribute: 'spec', in: ['3AA'] }] },
      { satisfiedBy: [...law.satisfiedBy, 'inspection'] },
      { countedOutcomes: ['pass', 'fail'] as const },
      { inStorage: 'waits' as const },
      { where: { states: ['WA'] } },
      { activity: 'inspection' },
      { sources: law.sources.map(s => ({ ...s, confidence: 'memory' as const })) },
    ]) {
      const [problem] = d.refused('rulebook.adopt', adopt({ ...law, ...own }));
      expect([Object.keys(own)[0], problem?.code]).toEqual([Object.keys(own)[0], 'the law']);
      expect(problem?.message).toContain('180.205(c)');
    }
  });

  it('may not be ended; a standard may, with a reason and an authority', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', CO);
    expect(
      d.codes('rulebook.end', { requirement: 'cylinder.requalification', from: '2026-12-01', ...WHY }),
    ).toEqual(['the law']);
    d.must('rulebook.end', { requirement: 'hose.service-test', from: '2026-12-01', ...WHY });
  });

  it('may be made stricter with a reason', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', WA);
    d.must('rulebook.adopt', adopt(every('hose.service-test', 6)));
  });

  it('in Washington alone binds there: the hose test may not be loosened nor ended', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', WA);
    const [problem] = d.refused('rulebook.adopt', adopt(every('hose.service-test', 24)));
    expect(problem).toMatchObject({ code: 'the law', field: 'requirements.0.clock' });
    expect(problem?.message).toContain('WAC 296-305-06003(1)');
    expect(d.codes('rulebook.end', { requirement: 'hose.service-test', ...WHY })).toEqual(['the law']);
  });

  it('is nothing outside the United States', () => {
    const { d } = departmentInMemory();
    d.must('profile.set', { country: 'other', state: null, kind: 'career' });
    d.must('rulebook.adopt', adopt({ ...shipped('cylinder.requalification'), graceDays: 30 }));
    d.must('rulebook.end', { requirement: 'cylinder.requalification', from: '2026-12-01', ...WHY });
  });
});

describe('a standard', () => {
  it('made looser owes both a reason and an authority, and is marked wherever it is due', async () => {
    const { d, hose } = withHose(CO);
    const looser = every('hose.service-test', 24);
    expect(d.codes('rulebook.adopt', adopt(looser, 'opening', {}))).toEqual([
      'reason owed',
      'authority owed',
    ]);
    expect(d.codes('rulebook.adopt', adopt(looser, 'opening', { reason: WHY.reason }))).toEqual([
      'authority owed',
    ]);
    expect(await rowOf(d, hose, 'hose.service-test', '2026-11-25')).toMatchObject({
      dueOn: '2026-12-10',
      own: null,
    });
    d.must('rulebook.adopt', adopt(looser));
    expect(await rowOf(d, hose, 'hose.service-test', '2026-11-25')).toMatchObject({
      dueOn: '2027-12-10',
      own: 'looser',
    });
  });

  it('is marked by the store, whatever is sent', async () => {
    const { d, hose } = withHose(CO);
    const own = { change: 'stricter' as const, reason: 'x', authority: 'x' };
    d.must('rulebook.adopt', adopt({ ...every('hose.service-test', 24), own }));
    expect(await rowOf(d, hose, 'hose.service-test', '2026-11-25')).toMatchObject({ own: 'looser' });
  });

  it('keeps an old day judged by that day’s rule', async () => {
    const { d, hose } = withHose(CO);
    d.must('rulebook.adopt', adopt(every('hose.service-test', 6), '2026-11-01'));
    const told = async (on: string) => {
      const row = await rowOf(d, hose, 'hose.service-test', on);
      return [row?.dueOn, row?.state];
    };
    expect(await told('2026-10-31')).toEqual(['2026-12-10', 'due soon']);
    expect(await told('2026-11-01')).toEqual(['2026-06-10', 'overdue']);
    d.must('rulebook.end', { requirement: 'hose.service-test', from: '2026-11-10', ...WHY });
    expect(await told('2026-11-09')).toEqual(['2026-06-10', 'overdue']);
    expect(await told('2026-11-10')).toEqual([undefined, undefined]);
    expect(await told('2026-10-31')).toEqual(['2026-12-10', 'due soon']);
  });
});

describe('a requirement of the department’s own', () => {
  const local: Requirement = {
    ...shipped('hose.service-test'),
    id: 'hose.district-walk',
    title: 'District hose walk',
    activity: 'inspection',
    satisfiedBy: ['inspection'],
    clock: { kind: 'since last', every: { months: 3 }, first: { counts: 'in service', plus: { months: 3 } } },
    force: 'practice',
    late: 'notes',
  };
  const { bindings: _bindings, ...unbound } = local;

  it('says who decided it, speaks of what its family has, and is marked local; the manufacturer’s too', async () => {
    const { d, hose } = withHose(CO);
    expect(d.codes('rulebook.adopt', adopt(unbound, 'opening', {}))).toEqual([
      'reason owed',
      'authority owed',
    ]);
    expect(d.codes('rulebook.adopt', adopt({ ...unbound, activity: 'flow test' }))).toContain(
      'unknown activity',
    );
    expect(d.codes('rulebook.adopt', adopt({ ...unbound, family: 'kettle' }))).toContain('unknown family');
    expect(d.codes('rulebook.adopt', adopt({ ...unbound, besides: 'pack.inspection' }))).toContain(
      'not adopted',
    );
    expect(
      d.codes('rulebook.adopt', adopt({ ...unbound, appliesTo: [{ attribute: 'colour', in: ['red'] }] })),
    ).toContain('unknown attribute');
    d.must('rulebook.adopt', adopt(unbound));
    const makers: Requirement = { ...unbound, id: 'hose.maker-walk', force: 'manufacturer' };
    d.must('rulebook.adopt', adopt(makers, 'opening', { ...WHY, authority: 'The maker’s manual, rev. C' }));
    for (const id of ['hose.district-walk', 'hose.maker-walk'])
      expect(await rowOf(d, hose, id, '2026-11-25')).toMatchObject({ state: 'never done', own: 'local' });
  });

  it('that names a fixed month comes round in whole rounds of it', () => {
    const { d } = departmentInMemory();
    const first = { counts: 'in service', plus: { months: 0 } } as const;
    const fixed = (every_months: number): Requirement => ({
      ...unbound,
      clock: { kind: 'fixed month', month: 6, every_months, early_months: 1, first },
    });
    for (const months of [5, 7, 18])
      expect(d.codes('rulebook.adopt', adopt(fixed(months)))).toEqual(['bad value']);
    for (const months of [1, 3, 6, 12, 24]) d.must('rulebook.adopt', adopt(fixed(months)));
  });

  it('beside law hides none of it by stopping less', async () => {
    const { d, hose } = withHose(WA);
    d.must('rulebook.adopt', adopt({ ...unbound, besides: 'hose.service-test' }));
    const rows = await rowsOf(d, hose, '2027-01-15');
    expect(rows.map(r => r.requirement)).toEqual(
      expect.arrayContaining(['hose.service-test', 'hose.district-walk']),
    );
  });
});

describe('the profile', () => {
  it('brings the rules of a state into force from its day, and out again', async () => {
    const { d, g } = departmentInMemory();
    const weekly = shipped('pack.inspection-maine-full-time');
    d.must('rulebook.adopt', adopt(weekly));
    const pack = d.must('item.receive', {
      ...{ family: 'pack', number: 'P-1', place: g.rack, on: '2020-01-05' },
      attributes: { inService: '2020-01-05' },
    });
    d.must('profile.set', { ...CO, from: 'opening' });
    d.must('profile.set', { state: 'ME', kind: 'career', from: '2026-03-01' });
    d.must('profile.set', { state: 'ME', kind: 'volunteer', from: '2026-06-01' });
    const isJudged = async (on: string) => (await rowOf(d, pack, weekly.id, on)) !== undefined;
    const days = ['2026-02-28', '2026-03-01', '2026-05-31', '2026-06-01'];
    const judged: boolean[] = [];
    for (const on of days) judged.push(await isJudged(on));
    expect(judged).toEqual([false, true, true, false]);
  });

  it('tells the force of each rule by what it says', async () => {
    const { d } = departmentInMemory();
    const force = async () => {
      const { rules } = await d.ask<RuleQuestions['rulebook.list']['gives']>('rulebook.list');
      return rules.find(r => r.requirement.id === 'hose.service-test')?.force.force;
    };
    d.must('profile.set', WA);
    expect(await force()).toBe('law');
    d.must('profile.set', CO);
    expect(await force()).toBe('standard');
  });
});
