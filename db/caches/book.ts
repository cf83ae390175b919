/** The adopted book, read from its facts. */
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import { type Adoption, type Book, bookFrom, type PolicyChoice } from '../../domain/rulebook/book.ts';
import type { Profile, ProfileFrom } from '../../domain/rulebook/force.ts';
import type { Permit, Requirement } from '../../domain/rulebook/types.ts';
import { type Db, one } from '../store/statements.ts';
import { thingKey } from './apply.ts';
import { asTold, factsOf, type PlainFact } from './facts.ts';

const read = new WeakMap<Db, { token: string; book: Book }>();

/** The book as this file's entries make it; empty where nothing was adopted. Read again only when it changed. */
export function readBook(db: Db): Book {
  const key = thingKey(db, 'rulebook');
  if (key === undefined) return bookFrom([], [], []);
  const { token } = one<{ token: string }>(
    db,
    `SELECT max(key) || ' ' || count(*) || ' ' || count(voided_at) AS token FROM facts WHERE thing = ?`,
    key,
  ) as { token: string };
  let known = read.get(db);
  if (known?.token !== token) {
    known = { token, book: bookOf(factsOf(db, key)) };
    read.set(db, known);
  }
  return known.book;
}

const judged = new WeakMap<Db, Book>();

/** The book by which the caches of this file stand, where this program has derived them; else null. */
export function judgedBy(db: Db): Book | null {
  return judged.get(db) ?? null;
}

/** The caches stand by this book now. */
export function standsBy(db: Db, book: Book): void {
  judged.set(db, book);
}

/** Read the book anew next time: after a transaction was rolled back, the token may stand for other facts. */
export function forgetBook(db: Db): void {
  read.delete(db);
  judged.delete(db);
}

/** What was decided on the book, each list in the order it was decided. */
export interface Decisions {
  adoptions: Adoption[];
  policies: PolicyChoice[];
  permits: Permit[];
  profiles: ProfileFrom[];
}

/** The book from its facts. */
export function bookOf(facts: readonly PlainFact[]): Book {
  const { adoptions, policies, permits, profiles } = decisionsOf(facts);
  return bookFrom(adoptions, policies, permits, profiles);
}

export function decisionsOf(facts: readonly PlainFact[]): Decisions {
  const adoptions: Adoption[] = [];
  const policies: PolicyChoice[] = [];
  const permits: Permit[] = [];
  const profiles: ProfileFrom[] = [];
  const known = new Map<string, Requirement>();
  for (const fact of asTold(facts)) {
    const { from, ...values } = fact.values;
    const day = typeof from === 'string' ? (parseDay(from) as Day) : null;
    if (fact.kind === 'rule') {
      const requirement = values.requirement as Requirement;
      known.set(requirement.id, requirement);
      adoptions.push({ requirement, from: day });
    } else if (fact.kind === 'rule end') {
      // Of a requirement that another device adopted and this file does not know yet there is nothing to end.
      const requirement = known.get(String(values.requirement));
      if (requirement) adoptions.push({ requirement, from: day, ended: true });
    } else if (fact.kind === 'profile')
      profiles.push({ profile: values.profile as unknown as Profile, from: day });
    else if (fact.kind === 'policy')
      policies.push({ policy: String(values.policy), choice: String(values.choice), from: day });
    else if (fact.kind === 'permit') permits.push(values as unknown as Permit);
  }
  return { adoptions, policies, permits, profiles };
}
