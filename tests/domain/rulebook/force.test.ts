/**
 * Where a rule is law. 29 U.S.C. 652(5): an employer is none of a State's; 667(c)(6): an approved plan covers a State's
 * own employees. OSHA's public list of State Plans: 22 for private and public employers, 7 for public ones alone (the
 * two lists below were written down from memory of that list, by name, and not from the book).
 */
import { describe, expect, it } from 'vitest';
import { forceIn, isJudgedIn, type Profile, profileOn } from '../../../domain/rulebook/force.ts';
import { STATES } from '../../../domain/rulebook/states.ts';
import type { DepartmentKind, Requirement } from '../../../domain/rulebook/types.ts';
import { day, shipped } from '../notation.ts';

const BOTH =
  'Alaska, Arizona, California, Hawaii, Indiana, Iowa, Kentucky, Maryland, Michigan, Minnesota, Nevada, New Mexico, North Carolina, Oregon, Puerto Rico, South Carolina, Tennessee, Utah, Vermont, Virginia, Washington, Wyoming'.split(
    ', ',
  );
const PUBLIC_ALONE =
  'Connecticut, Illinois, Maine, Massachusetts, New Jersey, New York, Virgin Islands'.split(', ');

const OSHA: Pick<Requirement, 'force' | 'bindings'> = {
  force: 'law',
  bindings: [{ reach: 'osha', cite: '29 CFR 1910.157(e)' }],
};
const profile = (
  state: string | null,
  kind: DepartmentKind | null,
  more: Partial<Profile> = {},
): Profile => ({
  ...{ country: 'US', state, kind, oshaBinds: null },
  ...more,
});
const told = (p: Profile, r = OSHA) => {
  const { force, certain, clause } = forceIn(r, p);
  return { force, certain, clause };
};
const LAW = { force: 'law', certain: true, clause: '29 CFR 1910.157(e)' };
const BENCHMARK = { force: 'standard', certain: true, clause: null };
const ASK = { ...LAW, certain: false };

describe('a workplace-safety rule', () => {
  it('is law for a private brigade in every state, and where none is on file', () => {
    for (const state of [...Object.keys(STATES), null])
      expect([state, told(profile(state, 'private brigade'))]).toEqual([state, LAW]);
  });

  it('is law for a public career department in the 22 and the 7, and in no other', () => {
    expect([BOTH.length, PUBLIC_ALONE.length]).toEqual([22, 7]);
    const plans = new Set([...BOTH, ...PUBLIC_ALONE]);
    for (const [state, name] of Object.entries(STATES))
      expect([name, told(profile(state, 'career'))]).toEqual([name, plans.has(name) ? LAW : BENCHMARK]);
  });

  it('is taken as law, and asked about, for volunteers in a state with a plan', () => {
    for (const kind of ['volunteer', 'combination'] as const) {
      expect(told(profile('WA', kind))).toEqual(ASK);
      expect(told(profile('CO', kind))).toEqual(BENCHMARK);
    }
    expect(forceIn(OSHA, profile('WA', 'volunteer')).says).toContain('Ask the plan');
  });

  it('is taken as law while the profile is not on file', () => {
    for (const p of [profile(null, null), profile('CO', null), profile(null, 'career')])
      expect(told(p)).toEqual(ASK);
  });

  it('is what the department has found out, whatever its state and kind', () => {
    expect(told(profile('CO', 'volunteer', { oshaBinds: true }))).toEqual(LAW);
    expect(told(profile('WA', 'career', { oshaBinds: false }))).toEqual(BENCHMARK);
  });
});

describe('outside the United States', () => {
  it('nothing is law, and nothing that names a state or kind is judged', () => {
    const abroad = profile('WA', 'private brigade', { country: 'other', oshaBinds: true });
    for (const id of ['hose.service-test', 'cylinder.requalification', 'extinguisher.annual-maintenance']) {
      const r = id.startsWith('ext') ? OSHA : shipped(id);
      expect([id, forceIn(r, abroad).force === 'law']).toEqual([id, false]);
    }
    expect(isJudgedIn({ where: { states: ['WA'] } }, abroad)).toBe(false);
    expect(isJudgedIn({ where: { kinds: ['private brigade'] } }, abroad)).toBe(false);
    expect(isJudgedIn({}, abroad)).toBe(true);
  });
});

describe('49 CFR 180.205(c) binds everyone who fills', () => {
  it('so the requalification is law in every state and kind', () => {
    for (const state of Object.keys(STATES))
      expect(told(profile(state, 'volunteer'), shipped('cylinder.requalification'))).toMatchObject({
        force: 'law',
        certain: true,
      });
  });
});

describe('WAC 296-305-06003(1), hose', () => {
  const hose = shipped('hose.service-test');
  it('is law in Washington and a standard elsewhere', () => {
    expect(told(profile('WA', 'volunteer'), hose)).toMatchObject({
      force: 'law',
      certain: true,
      clause: 'WAC 296-305-06003(1)',
    });
    expect(told(profile('OR', 'career'), hose)).toMatchObject({ force: 'standard', certain: true });
    expect(told(profile(null, 'career'), hose)).toMatchObject({ force: 'law', certain: false });
  });
});

describe('a profile', () => {
  it('holds from its day on; what names a state is not judged before the state is known', () => {
    const wa = profile('WA', 'career');
    const list = [{ profile: wa, from: day('2026-03-01') }];
    expect(profileOn(list, day('2026-02-28')).state).toBeNull();
    expect(profileOn(list, day('2026-03-01'))).toEqual(wa);
    expect(isJudgedIn({ where: { states: ['WA'] } }, profile(null, 'career'))).toBe(false);
    expect(isJudgedIn({ where: { kinds: ['career'] } }, profile('WA', null))).toBe(false);
    expect(isJudgedIn({ where: { states: ['WA'], kinds: ['career'] } }, wa)).toBe(true);
  });
});
