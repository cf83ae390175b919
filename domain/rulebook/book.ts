/** The book as one department has adopted it: requirement versions with the days they are in force. */
import type { Day } from '../calendar/day.ts';
import { isJudgedIn, type ProfileFrom, profileOn } from './force.ts';
import { POLICIES } from './policies.ts';
import type { Permit, Requirement } from './types.ts';

/** A requirement and the days it is in force: from `from` (null: always) up to but not including `to`. */
export interface RuleVersion {
  requirement: Requirement;
  from: Day | null;
  to: Day | null;
}

export interface PolicyChoice {
  policy: string;
  choice: string;
  from: Day | null;
}

export interface Book {
  /** Versions by family, in the order of the days they are in force. */
  versions: ReadonlyMap<string, readonly RuleVersion[]>;
  permits: ReadonlyMap<string, Permit>;
  policies: readonly PolicyChoice[];
  /** What the department has said of itself, in the order of the days from which it holds. */
  profiles: readonly ProfileFrom[];
}

/** An adoption: the requirement in full, and from when (null: from the department's opening on). */
export interface Adoption {
  requirement: Requirement;
  from: Day | null;
  /** From that day on it is no longer judged by. */
  ended?: true;
}

/**
 * The versions in force from adoptions, policy choices, confirmed permits and profiles, each list in the order it was
 * decided. A later adoption of the same requirement ends the earlier one on its first day; one that takes effect on
 * the same day or earlier replaces it; so with policy choices and profiles. The policy `life ends` sets the day of
 * every cylinder life. A requirement of one state or kind of department is in force while the profile is of it.
 */
export function bookFrom(
  adoptions: readonly Adoption[],
  policies: readonly PolicyChoice[],
  permits: readonly Permit[],
  profiles: readonly ProfileFrom[] = [],
): Book {
  const chosen = policies.reduce<PolicyChoice[]>(
    (kept, p) => [...kept.filter(k => k.policy !== p.policy || before(k.from, p.from)), p],
    [],
  );
  const said = profiles.reduce<ProfileFrom[]>(
    (kept, p) => [...kept.filter(k => before(k.from, p.from)), p],
    [],
  );
  const versions = new Map<string, RuleVersion[]>();
  for (const list of standing(adoptions).values()) {
    list.forEach((adoption, i) => {
      if (adoption.ended) return;
      const { family } = adoption.requirement;
      const span = { from: adoption.from, to: list[i + 1]?.from ?? null };
      const parts = splitByLifePolicy(adoption, span, chosen).flatMap(v => splitByProfile(v, said));
      versions.set(family, [...(versions.get(family) ?? []), ...parts]);
    });
  }
  return {
    versions,
    permits: new Map(permits.map(p => [p.permit, p])),
    policies: chosen,
    profiles: said,
  };
}

/** By requirement, the adoptions and ends that hold on some day, the earliest first: each replaces those of its day or later. */
export function standing(adoptions: readonly Adoption[]): Map<string, Adoption[]> {
  const byRequirement = new Map<string, Adoption[]>();
  for (const adoption of adoptions) {
    const { id } = adoption.requirement;
    const kept = (byRequirement.get(id) ?? []).filter(a => before(a.from, adoption.from));
    byRequirement.set(id, [...kept, adoption]);
  }
  return byRequirement;
}

/**
 * What was decided for a day to come, or for that very day, and falls away where one of those requirements is decided
 * on anew from `from` on. The opening of the department is not a day to come.
 */
export function fallsAway(
  adoptions: readonly Adoption[],
  requirements: ReadonlySet<string>,
  from: Day | null,
): Adoption[] {
  return [...standing(adoptions)].flatMap(([id, list]) =>
    requirements.has(id) ? list.filter(a => a.from !== null && !before(a.from, from)) : [],
  );
}

/** The spans of a version in which the department is one that it is judged in. */
function splitByProfile(version: RuleVersion, profiles: readonly ProfileFrom[]): RuleVersion[] {
  if (!version.requirement.where) return [version];
  const cuts = profiles.flatMap(p =>
    p.from !== null && before(version.from, p.from) && inside(p.from, version.to) ? [p.from] : [],
  );
  const starts: (Day | null)[] = [version.from, ...cuts];
  return starts.flatMap((from, i) =>
    isJudgedIn(version.requirement, profileOn(profiles, from ?? (Number.NEGATIVE_INFINITY as Day)))
      ? [{ ...version, from, to: starts[i + 1] ?? version.to }]
      : [],
  );
}

/**
 * The families that two books judge otherwise. Permits and settings concern cylinders.
 */
export function changedFamilies(a: Book, b: Book): Set<string> {
  const text = (value: unknown) => JSON.stringify(value);
  const families = new Set([...a.versions.keys(), ...b.versions.keys()]);
  const changed = new Set([...families].filter(f => text(a.versions.get(f)) !== text(b.versions.get(f))));
  if (text([...a.permits]) !== text([...b.permits]) || text(a.policies) !== text(b.policies))
    changed.add('cylinder');
  return changed;
}

/** What the department has chosen for a policy on a day; the shipped offer where it has not. */
export function policyOn(book: Book, policy: string, day: Day): string {
  return choiceOn(book.policies, policy, day);
}

function choiceOn(policies: readonly PolicyChoice[], policy: string, day: Day): string {
  let choice = POLICIES.find(p => p.id === policy)?.offer ?? '';
  let since: Day | null = null;
  for (const p of policies) {
    if (p.policy !== policy || (p.from !== null && p.from > day)) continue;
    if (since !== null && (p.from === null || p.from < since)) continue;
    choice = p.choice;
    since = p.from;
  }
  return choice;
}

function splitByLifePolicy(
  adoption: Adoption,
  span: { from: Day | null; to: Day | null },
  policies: readonly PolicyChoice[],
): RuleVersion[] {
  const { requirement } = adoption;
  if (requirement.clock.kind !== 'cylinder life') return [{ requirement, ...span }];
  const cuts = policies
    .filter(
      p =>
        p.policy === 'life ends' && p.from !== null && before(span.from, p.from) && inside(p.from, span.to),
    )
    .map(p => p.from as Day)
    .sort((a, b) => a - b);
  const starts: (Day | null)[] = [span.from, ...new Set(cuts)];
  return starts.map((from, i) => ({
    requirement: {
      ...requirement,
      dueAt: choiceOn(
        policies,
        'life ends',
        from ?? (Number.NEGATIVE_INFINITY as Day),
      ) as Requirement['dueAt'],
    },
    from,
    to: starts[i + 1] ?? span.to,
  }));
}

/** Whether a start of force comes strictly before another; null is before every day. */
function before(a: Day | null, b: Day | null): boolean {
  if (b === null) return false;
  return a === null || a < b;
}

function inside(day: Day, end: Day | null): boolean {
  return end === null || day < end;
}
