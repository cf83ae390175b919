/** What speaks against filling a cylinder: each matter in words, with its clause and what authority it has. */
import { showWhen } from '../calendar/show.ts';
import type { When } from '../calendar/when.ts';
import { forceIn, type Profile } from '../rulebook/force.ts';
import type { Binding, Confidence, Force, Source } from '../rulebook/types.ts';
import { cited } from '../rulebook/words.ts';

export const FILL_MATTERS = [
  'condemned',
  'examination owed',
  'life ended',
  'examination overdue',
  'due month',
  'test owed',
  'not confirmed',
  'condition',
  'mark read',
  'pressure',
  'service pressure',
  'gas',
  'air',
  'fill station',
  'not ours',
] as const;
export type FillMatter = (typeof FILL_MATTERS)[number];

/** `note`: to be known, and stops nobody. */
export const FILL_EFFECTS = ['do not fill', 'not judged', 'note'] as const;
export type FillEffect = (typeof FILL_EFFECTS)[number];
export type FillVerdict = 'fill' | 'do not fill' | 'not judged';

export interface AgainstFill {
  what: FillMatter;
  /** A sentence. */
  says: string;
  /** `49 CFR 180.205(c)`; null where it is common practice, without a source. */
  clause: string | null;
  /** How far the clause was seen. */
  confidence: Confidence;
  /** Whether it is law here, a standard, the maker's word or practice. */
  force: Force;
  effect: FillEffect;
  /** Whether a bottle that was filled all the same is pulled. */
  pulls: boolean;
}

type Said = Pick<AgainstFill, 'what' | 'says' | 'effect' | 'pulls'>;

/** By a clause of a document, with the force that it has in a department. */
export function byClause(
  said: Said,
  source: Source,
  rule: { force: Force; bindings?: readonly Binding[] },
  profile: Profile,
): AgainstFill {
  return {
    ...said,
    clause: cited(source),
    confidence: source.confidence,
    force: forceIn(rule, profile).force,
  };
}

/** By common practice, which has no source. */
export function byPractice(said: Said): AgainstFill {
  return { ...said, clause: null, confidence: 'common practice', force: 'practice' };
}

/** May it be filled: no, where anything forbids it; not judged, where something it hangs on is not known. */
export function fillVerdict(against: readonly Pick<AgainstFill, 'effect'>[]): FillVerdict {
  const heaviest = FILL_EFFECTS.find(e => against.some(a => a.effect === e));
  return heaviest === undefined || heaviest === 'note' ? 'fill' : heaviest;
}

/** The gravest first: what forbids, then what is not judged, then what is only to be known; law before the rest. */
export function byGravity(a: AgainstFill, b: AgainstFill): number {
  return (
    FILL_EFFECTS.indexOf(a.effect) - FILL_EFFECTS.indexOf(b.effect) ||
    Number(b.force === 'law') - Number(a.force === 'law') ||
    FILL_MATTERS.indexOf(a.what) - FILL_MATTERS.indexOf(b.what)
  );
}

/** A matter with its clause: `Its requalification was due by 30 Sep 2026 (49 CFR 180.205(c)).` */
export function againstWords({ says, clause }: Pick<AgainstFill, 'says' | 'clause'>): string {
  return clause === null ? says : `${says.replace(/\.$/, '')} (${clause}).`;
}

/** Why a bottle that was filled all the same is pulled, for its tag; null where nothing pulls it. */
export function pullWords(against: readonly AgainstFill[], on: When): string | null {
  const pulling = [...against].sort(byGravity).filter(a => a.pulls);
  return pulling.length === 0
    ? null
    : `Filled on ${showWhen(on)} all the same. ${pulling.map(againstWords).join(' ')}`;
}
