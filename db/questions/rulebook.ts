/** The rule book: what is offered, what is adopted, and what it would say of a thing that is not here. */
import { z } from 'zod';
import { type Book, policyOn } from '../../domain/rulebook/book.ts';
import { PERMIT_OFFERS, SPEC_PERIODS } from '../../domain/rulebook/cylinder.ts';
import { forceIn, isConfirmed, isJudgedIn, profileOn } from '../../domain/rulebook/force.ts';
import { SHIPPED_REQUIREMENTS, shippedRequirement } from '../../domain/rulebook/index.ts';
import { POLICIES } from '../../domain/rulebook/policies.ts';
import { isSame } from '../../domain/rulebook/same.ts';
import { changeOf, differences } from '../../domain/rulebook/strictness.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import type { RulebookList, RuleLine } from '../api-rules.ts';
import { thingKey } from '../caches/apply.ts';
import { decisionsOf, readBook } from '../caches/book.ts';
import { factsOf } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { textOrNull } from './fields.ts';
import { type Asking, question } from './types.ts';

export const rulebookList = question({
  name: 'rulebook.list',
  title: 'Every requirement, adopted or offered, with its force here; the permits and the policies',
  schema: z.strictObject({ family: z.string().optional() }) as unknown as z.ZodType<{ family?: string }>,
  answer(asking, args): RulebookList {
    const book = readBook(asking.db);
    const profile = profileOn(book.profiles, asking.today);
    const line = (requirement: Requirement, rest: Pick<RuleLine, 'from' | 'to' | 'adopted'>): RuleLine => ({
      requirement,
      ...rest,
      force: forceIn(requirement, profile),
      toConfirm: !isConfirmed(requirement),
      hasNewer: rest.adopted && rest.to === null && hasNewer(requirement),
      isJudgedHere: isJudgedIn(requirement, profile),
    });
    const inForce = [...book.versions.values()].flat();
    const adopted = inForce.map(v =>
      line(v.requirement, { from: textOrNull(v.from), to: textOrNull(v.to), adopted: true }),
    );
    // What was adopted and rests, since the department is of another state or kind, is adopted all the same.
    const known = new Set(inForce.map(v => v.requirement.id));
    const resting = restingIn(asking).filter(r => !known.has(r.id));
    for (const requirement of resting) {
      known.add(requirement.id);
      adopted.push(line(requirement, { from: null, to: null, adopted: true }));
    }
    const offered = SHIPPED_REQUIREMENTS.filter(r => !known.has(r.id)).map(requirement =>
      line(requirement, { from: null, to: null, adopted: false }),
    );
    const rules = [...adopted, ...offered].filter(
      r => args.family === undefined || r.requirement.family === args.family,
    );
    return { rules, permits: permitsOf(asking, book), policies: policiesOf(asking, book), profile };
  },
  example: { family: 'hose' },
});

/** Whether the program ships another text than the one adopted; a version of the department’s own stays its own. */
function hasNewer(adopted: Requirement): boolean {
  const shipped = shippedRequirement(adopted.id);
  if (!shipped || adopted.own) return false;
  return (
    changeOf(differences(adopted, shipped)) !== null ||
    !isSame([adopted.bindings, adopted.force], [shipped.bindings, shipped.force])
  );
}

/** Adopted requirements of one state or kind of department, whether it is of it or not. */
function restingIn(asking: Asking): Requirement[] {
  const key = thingKey(asking.db, 'rulebook');
  if (key === undefined) return [];
  const { adoptions } = decisionsOf(factsOf(asking.db, key));
  const last = new Map(adoptions.map(a => [a.requirement.id, a]));
  return [...last.values()].filter(a => !a.ended && a.requirement.where).map(a => a.requirement);
}

/** Every permit that is offered, confirmed, or marked on a cylinder of the department. */
function permitsOf(asking: Asking, book: Book): RulebookList['permits'] {
  const table = new Set(SPEC_PERIODS.map(s => s.spec));
  const marked = all<{ spec: string; n: number }>(
    asking.db,
    'SELECT spec, count(*) AS n FROM items WHERE spec IS NOT NULL GROUP BY spec',
  ).filter(m => !table.has(m.spec));
  const names = new Set([
    ...marked.map(m => m.spec),
    ...book.permits.keys(),
    ...PERMIT_OFFERS.map(o => o.permit),
  ]);
  return [...names].sort().map(permit => ({
    permit,
    offer: PERMIT_OFFERS.find(o => o.permit === permit) ?? null,
    confirmed: book.permits.get(permit) ?? null,
    cylinders: marked.find(m => m.spec === permit)?.n ?? 0,
  }));
}

function policiesOf(asking: Asking, book: Book): RulebookList['policies'] {
  return POLICIES.map(p => ({
    ...p,
    choice: policyOn(book, p.id, asking.today),
    adopted: book.policies.some(c => c.policy === p.id),
  }));
}
