/** What a use at an incident owes by the adopted book: the happening `used` of the family, where it is judged by. */
import type { Day } from '../calendar/day.ts';
import { holds, inForce } from '../derive/thing.ts';
import type { Values } from '../facts.ts';
import type { RuleVersion } from '../rulebook/book.ts';
import { familyOf } from '../rulebook/index.ts';

/** The happening after which most families owe a look, by its name in the book. */
export const USED = 'used';

/**
 * The activity that a thing owes once it was used; null where its family owes none, or nothing that the department has
 * adopted asks for it.
 * @param versions the adopted versions of its family
 */
export function owedAfterUse(
  family: string,
  attributes: Values,
  versions: readonly RuleVersion[],
  on: Day,
): string | null {
  const owes = familyOf(family)?.triggers.find(t => t.id === USED)?.owes;
  if (owes === undefined) return null;
  const isAsked = versions.some(
    v =>
      inForce(v, on) &&
      v.requirement.activity === owes &&
      v.requirement.appliesTo.every(c => holds(c, attributes)),
  );
  return isAsked ? owes : null;
}
