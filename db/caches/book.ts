/** The adopted book, read from its facts. */
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import { type Adoption, type Book, bookFrom, type PolicyChoice } from '../../domain/rulebook/book.ts';
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

/** Read the book anew next time: after a transaction was rolled back, the token may stand for other facts. */
export function forgetBook(db: Db): void {
  read.delete(db);
}

/** The book from its facts, each list in the order it was decided. */
export function bookOf(facts: readonly PlainFact[]): Book {
  const adoptions: Adoption[] = [];
  const policies: PolicyChoice[] = [];
  const permits: Permit[] = [];
  for (const fact of asTold(facts)) {
    const { from, ...values } = fact.values;
    const day = typeof from === 'string' ? (parseDay(from) as Day) : null;
    if (fact.kind === 'rule') adoptions.push({ requirement: values.requirement as Requirement, from: day });
    else if (fact.kind === 'policy')
      policies.push({ policy: String(values.policy), choice: String(values.choice), from: day });
    else if (fact.kind === 'permit') permits.push(values as unknown as Permit);
  }
  return bookFrom(adoptions, policies, permits);
}
