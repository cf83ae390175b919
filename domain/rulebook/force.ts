/** Where force binds: the same rule is law for one department and a benchmark for another. */
import type { Day } from '../calendar/day.ts';
import { planCoversPublic, STATES } from './states.ts';
import type { Binding, DepartmentKind, Force, Requirement } from './types.ts';

/** What a department has said of itself; null where it has not. */
export interface Profile {
  country: 'US' | 'other';
  /** Two letters. */
  state: string | null;
  kind: DepartmentKind | null;
  /** Whether the workplace-safety rules bind it, where the department has found out; null: by its state and kind. */
  oshaBinds: boolean | null;
}

/** A profile and the day from which it holds; null: always. */
export interface ProfileFrom {
  profile: Profile;
  from: Day | null;
}

export const UNKNOWN_PROFILE: Profile = { country: 'US', state: null, kind: null, oshaBinds: null };

/** The force a requirement has for one department, in a sentence, and whether that is certain. */
export interface BoundForce {
  force: Force;
  says: string;
  /** False where the answer hangs on something the department has not said, or that differs by state. */
  certain: boolean;
  /** The clause that makes it law, or null where it is not. */
  clause: string | null;
}

/** What the department said of itself last, by a day. */
export function profileOn(profiles: readonly ProfileFrom[], day: Day): Profile {
  let found = UNKNOWN_PROFILE;
  for (const { profile, from } of profiles) if (from === null || from <= day) found = profile;
  return found;
}

/**
 * The force of a requirement in a department. The first binding that holds for certain decides; one that may hold
 * is taken to hold, since nothing that may be law is loosened by accident.
 */
export function forceIn(requirement: Pick<Requirement, 'force' | 'bindings'>, profile: Profile): BoundForce {
  const { force, bindings } = requirement;
  if (!bindings || bindings.length === 0)
    return { force, says: AS_IT_STANDS[force], certain: true, clause: null };
  const held = bindings.map(b => ({ binding: b, ...holds(b, profile) }));
  const law = held.find(h => h.holds === true) ?? held.find(h => h.holds === null);
  if (law)
    return {
      force: 'law',
      says: `${law.holds === null ? 'Taken as law here' : 'Law here'}, ${law.binding.cite}: ${law.says}`,
      certain: law.holds !== null,
      clause: law.binding.cite,
    };
  const says = held.map(h => h.says).join(' ');
  return {
    force: force === 'law' ? 'standard' : force,
    says:
      force === 'law'
        ? `Not law here, but the benchmark the department adopted. ${says}`
        : `${AS_IT_STANDS[force]} ${says}`,
    certain: true,
    clause: null,
  };
}

const AS_IT_STANDS: Readonly<Record<Force, string>> = {
  law: 'Law.',
  standard: 'A standard, by which the department has chosen to be held.',
  manufacturer: 'The manufacturer’s word.',
  practice: 'Practice: the department’s own choice.',
};

/** `holds` is null where it hangs on what is not known. */
function holds({ reach }: Binding, profile: Profile): { holds: boolean | null; says: string } {
  if (profile.country === 'other')
    return { holds: false, says: 'The department is outside the United States.' };
  if (reach === 'everywhere') return { holds: true, says: 'it binds everywhere in the United States.' };
  const { state, kind, oshaBinds } = profile;
  if (reach !== 'osha') {
    if (state === null) return { holds: null, says: 'which state the department is in is not on file.' };
    const names = reach.states.map(s => STATES[s] ?? s).join(', ');
    return reach.states.includes(state)
      ? { holds: true, says: `the department is in ${STATES[state] ?? state}.` }
      : { holds: false, says: `It is law in ${names}.` };
  }
  if (oshaBinds !== null)
    return {
      holds: oshaBinds,
      says: oshaBinds
        ? 'as the department has found out.'
        : 'The department has found out that it is not bound.',
    };
  if (kind === 'private brigade') return { holds: true, says: 'it binds private brigades in every state.' };
  if (state === null || kind === null)
    return { holds: null, says: 'the department’s state and kind are not both on file.' };
  const name = STATES[state] ?? state;
  if (!planCoversPublic(state))
    return { holds: false, says: `${name} has no plan of its own that covers public employers.` };
  if (kind === 'career') return { holds: true, says: `${name} has a plan that covers public employers.` };
  return {
    holds: null,
    says: `${name} has a plan that covers public employers; whether unpaid members are covered differs by state (from memory). Ask the plan, and say so in the profile.`,
  };
}

/** Whether a requirement is judged in a department at all. What names a state is not judged before the state is known. */
export function isJudgedIn(
  { where }: Pick<Requirement, 'where'>,
  { state, kind, country }: Profile,
): boolean {
  if (!where) return true;
  if (country === 'other') return false;
  if (where.states && (state === null || !where.states.includes(state))) return false;
  return !where.kinds || (kind !== null && where.kinds.includes(kind));
}

/** Whether a requirement may be judged by: one whose sources are all from memory only once the department confirmed it. */
export function isConfirmed({ sources, confirmed }: Pick<Requirement, 'sources' | 'confirmed'>): boolean {
  return confirmed !== undefined || sources.some(s => s.confidence !== 'memory');
}
