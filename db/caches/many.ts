/** The facts of many things at once, in one scan. */
import type { When } from '../../domain/calendar/when.ts';
import { all, type Db } from '../store/statements.ts';
import type { PlainFact } from './facts.ts';

type Told = { key: number; id: string; facts: PlainFact[] }[];

/** Every thing of a kind with its facts that count. */
export const factsByThing = (db: Db, kind: string): Told => factsOfThings(db, 't.kind = ?', kind);

/** Every place with what says what it is and who rides it: what else was said of rigs is passed over unread. */
export const factsOfPlaces = (db: Db): Told =>
  told(db, "t.kind = 'place'", "AND f.kind IN ('identity', 'ride')");

/** The things `t` that a condition holds for, each with its facts that count. */
export function factsOfThings(db: Db, where: string, ...values: unknown[]): Told {
  return told(db, where, '', ...values);
}

function told(db: Db, where: string, facts: string, ...values: unknown[]): Told {
  const byKey = new Map<number, { key: number; id: string; facts: PlainFact[] }>();
  for (const { key, id } of all<{ key: number; id: string }>(
    db,
    `SELECT t.key, t.id FROM things t WHERE ${where}`,
    ...values,
  ))
    byKey.set(key, { key, id, facts: [] });
  const rows = all<
    Omit<PlainFact, 'values' | 'effective'> & { thing: number; effective: string; values: string }
  >(
    db,
    `SELECT f.thing, f.id, f.n, f.kind, f.effective, f.clock, f.device, f.recorded_at AS recordedAt, f."values"
     FROM things t JOIN facts f ON f.thing = t.key WHERE ${where} AND f.voided_at IS NULL ${facts}`,
    ...values,
  );
  for (const { thing, effective, values, ...row } of rows)
    byKey.get(thing)?.facts.push({
      ...row,
      effective: effective as When,
      values: JSON.parse(values) as Record<string, unknown>,
    });
  return [...byKey.values()];
}
