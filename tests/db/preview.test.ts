/**
 * What a change of the book would do is what it then does: recounted from the caches before and after the commit, on
 * seeded departments, by statements of the test's own.
 */
import { describe, expect, it } from 'vitest';
import type { RulePreview } from '../../db/api-rules.ts';
import { all } from '../../db/store/statements.ts';
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { type Basis, stateOn } from '../../domain/derive/due.ts';
import { shippedRequirement } from '../../domain/rulebook/index.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { departmentInMemory, type Ground, type TestDepartment } from './kit/department.ts';
import { type Seeded, seeded } from './kit/seeded.ts';

const WHY = { reason: 'Tried in every station.', authority: 'Fire chief' };
const TODAY = parseDay('2026-11-25') as Day;

interface Row {
  key: string;
  family: string;
  basis: Basis;
  dueOn: Day | null;
  dueTo: Day | null;
  warnOn: Day | null;
  lateOn: Day | null;
}

/** Every row in force on a day, by thing and requirement. */
function snapshot(d: TestDepartment, on: Day): Map<string, Row> {
  const rows = all<Row>(
    d.db,
    `SELECT t.id || ' ' || d.requirement AS key, d.family, d.basis, d.due_on AS dueOn, d.due_to AS dueTo,
       d.warn_on AS warnOn, d.late_on AS lateOn
     FROM due d JOIN things t ON t.key = d.item
     WHERE (d.from_day IS NULL OR d.from_day <= ?) AND (d.to_day IS NULL OR d.to_day > ?)`,
    on,
    on,
  );
  return new Map(rows.map(r => [r.key, r]));
}

const LATE = ['overdue', 'never done', 'life ended'];
/** What has changed, counted anew. */
function recount(before: Map<string, Row>, after: Map<string, Row>, on: Day) {
  const told = {
    moved: { earlier: 0, later: 0, gained: 0, lost: 0 },
    becomesLate: 0,
    noLongerLate: 0,
    notJudged: 0,
  };
  for (const key of new Set([...before.keys(), ...after.keys()])) {
    const [a, b] = [before.get(key), after.get(key)];
    if (b?.basis === 'unjudged' && a?.basis !== 'unjudged') told.notJudged++;
    const isLate = (r: Row | undefined) => r !== undefined && LATE.includes(stateOn(r, on));
    if (isLate(b) && !isLate(a)) told.becomesLate++;
    if (isLate(a) && !isLate(b)) told.noLongerLate++;
    if (!a) told.moved.gained++;
    else if (!b) told.moved.lost++;
    else if ((a.dueOn ?? -1e9) > (b.dueOn ?? -1e9)) told.moved.earlier++;
    else if ((a.dueOn ?? -1e9) < (b.dueOn ?? -1e9)) told.moved.later++;
  }
  return told;
}

function fill(d: TestDepartment, g: Ground, r: Seeded): void {
  const some = (from: number, days: number) =>
    dayText(((parseDay(`${from}-01-01`) as number) + r.below(days)) as Day);
  for (let i = 0; i < 40; i++) {
    const family = r.pick(['hose', 'hose', 'ladder', 'pack', 'cylinder']);
    const attributes: Record<string, unknown> = { made: some(2010, 3000), inService: some(2019, 1000) };
    if (r.chance(0.2)) delete attributes.inService;
    if (family === 'hose') attributes.use = r.pick(['attack', 'occupant']);
    if (family === 'cylinder') attributes.spec = r.pick(['3AL', 'DOT-SP 10915', '3HT']);
    const item = d.must('item.receive', {
      ...{ family, number: `${family}-${i}`, attributes, place: r.pick([g.bed, g.rack]), on: '2021-12-01' },
      assignment: r.pick(['first line', 'storage', 'reserve']),
    });
    const activity = {
      hose: 'service test',
      ladder: 'service test',
      pack: 'inspection',
      cylinder: 'requalification',
    }[family];
    for (let n = r.below(4); n > 0; n--)
      d.must('record.add', {
        ...{ item, activity, on: some(2022, 1700), outcome: r.pick(['pass', 'pass', 'pass', 'fail']) },
        ...(family === 'cylinder' ? { rin: 'A123' } : {}),
      });
    if (r.chance(0.1)) d.must('item.retire', { item, reason: 'Worn' });
  }
}

function shipped(id: string): Requirement {
  const known = shippedRequirement(id);
  if (!known) throw new Error(`${id} is not shipped.`);
  return known;
}

function aChange(r: Seeded): { adopt?: Requirement[]; end?: string[]; profile?: object } {
  const id = r.pick([
    'hose.service-test',
    'ladder.service-test',
    'ladder.inspection',
    'pack.inspection',
    'hose.inspection',
  ]);
  const known = shipped(id);
  const first = { counts: 'in service', plus: { months: r.below(24) } } as const;
  const clock: Requirement['clock'] = r.pick([
    { kind: 'since last', every: { months: 1 + r.below(30) }, first },
    {
      kind: 'fixed month',
      month: 1 + r.below(12),
      every_months: r.pick([6, 12, 24]),
      early_months: r.below(3),
      first,
    },
    { kind: 'once', first },
    { kind: 'life', counts: 'made', plus: { months: 60 + r.below(120) } },
    {
      kind: 'first of',
      clocks: [
        { kind: 'since last', every: { days: 200 }, first },
        { kind: 'life', counts: 'in service', plus: { months: 70 } },
      ],
    },
  ]);
  const own: Requirement = {
    ...known,
    clock,
    ...(r.chance(0.3) ? { graceDays: r.below(90) } : {}),
    ...(r.chance(0.3) ? { inStorage: 'waits' as const } : {}),
  };
  switch (r.below(5)) {
    case 0:
      return { end: [id] };
    case 1:
      return {
        profile: { country: 'US', state: 'ME', kind: r.pick(['career', 'volunteer']), oshaBinds: false },
      };
    case 2:
      return { adopt: [{ ...own, id: `${id}-local`, besides: id }] };
    default:
      return { adopt: [own] };
  }
}

describe('the preview of a change', () => {
  it('is what the commit then does, on 60 seeded departments', async () => {
    let [taken, moved, late] = [0, 0, 0];
    for (let seed = 1; seed <= 60; seed++) {
      const r = seeded(seed);
      const { d, g } = departmentInMemory();
      d.must('profile.set', { state: 'CO', kind: 'volunteer', oshaBinds: false });
      d.must('rulebook.adopt', {
        requirements: [
          shipped('pack.inspection-maine-volunteer'),
          shipped('pack.inspection-maine-full-time'),
        ],
        ...WHY,
      });
      fill(d, g, r);
      const from = r.pick(['opening', '2026-11-25', '2026-12-20', '2026-03-01']);
      const on = Math.max(from === 'opening' ? TODAY : (parseDay(from) as Day), TODAY) as Day;
      const { adopt, end, profile } = aChange(r);
      const entries = d.count('entries');
      const told = await d.ask<RulePreview>('rulebook.preview', { adopt, end, profile, from, ...WHY });
      expect(d.count('entries')).toBe(entries);
      const before = snapshot(d, on);
      const deeds = [
        ...(adopt ? [{ action: 'rulebook.adopt', body: { requirements: adopt, from, ...WHY } }] : []),
        ...(end ?? []).map(requirement => ({ action: 'rulebook.end', body: { requirement, from, ...WHY } })),
        ...(profile ? [{ action: 'profile.set', body: { ...profile, from } }] : []),
      ];
      const answer = d.act(deeds);
      expect([seed, answer.ok]).toEqual([seed, told.problems.length === 0]);
      if (!answer.ok) continue;
      taken++;
      const counted = recount(before, snapshot(d, on), on);
      const { moved: shown, becomesLate, noLongerLate, notJudged } = told;
      expect({ seed, moved: shown, becomesLate, noLongerLate, notJudged }).toEqual({ seed, ...counted });
      moved += shown.earlier + shown.later + shown.gained + shown.lost;
      late += becomesLate + noLongerLate;
    }
    // A comparison of nothing with nothing would pass as well.
    expect([taken > 50, moved > 400, late > 100]).toEqual([true, true, true]);
  }, 60_000);

  it('tells the refusal that the deed would meet, beside the field, and its verdict', async () => {
    const { d } = departmentInMemory();
    d.must('profile.set', { state: 'CO', kind: 'volunteer' });
    const law = { ...shipped('cylinder.requalification'), graceDays: 9 };
    const told = await d.ask<RulePreview>('rulebook.preview', { adopt: [law], from: 'opening', ...WHY });
    const refused = d.refused('rulebook.adopt', { requirements: [law], from: 'opening', ...WHY });
    expect(told.problems).toEqual(refused.map(({ deed: _deed, ...problem }) => problem));
    expect(told.verdicts[0]).toMatchObject({
      change: 'looser',
      differences: [{ field: 'graceDays', effect: 'looser' }],
      force: { force: 'law', certain: true },
    });
  });
});
