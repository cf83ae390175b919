/** From an entry to its things, facts and voids: what `act`, an exchange and a rebuild all go through. */
import { ACTIONS } from '../actions/index.ts';
import type { Applying, FactDraft } from '../actions/types.ts';
import { all, type Db, one, prepared, run } from '../store/statements.ts';

/** What an act has touched and what must therefore be derived again. */
export interface Touched {
  things: Set<number>;
}

export function nothingTouched(): Touched {
  return { things: new Set() };
}

/**
 * Apply one entry: things, facts and voids are written, the things they concern are marked. Never refuses: an
 * action this program does not know (a newer program's) changes nothing here and is kept in the ledger.
 * @returns the facts as the action stated them
 */
export function applyEntry(db: Db, entry: Applying, touched: Touched): readonly FactDraft[] {
  const action = ACTIONS.get(entry.action);
  if (!action || entry.v > action.v) return [];
  const body = entry.v < action.v && action.upgrade ? action.upgrade(entry.v, entry.body) : entry.body;
  const { things = [], facts = [], voids = [] } = action.apply(entry, body);
  for (const thing of things) ensureThing(db, thing.id, thing.kind);
  facts.forEach((fact, n) => {
    const thing = thingKey(db, fact.thing) ?? ensureThing(db, fact.thing, 'unknown');
    const id = `${entry.id}:${n.toString(36)}`;
    const { lastInsertRowid } = prepared(
      db,
      `INSERT INTO facts (id, entry, batch, n, thing, kind, effective, clock, device, seq, recorded_at, "values")
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    ).run(
      id,
      entry.id,
      entry.batch,
      n,
      thing,
      fact.kind,
      fact.effective,
      entry.clock,
      entry.device,
      entry.seq,
      entry.recordedAt,
      JSON.stringify(fact.values),
    );
    for (const ref of fact.refs ?? [])
      run(db, 'INSERT INTO fact_refs (fact, thing) VALUES (?, ?)', lastInsertRowid, ref);
    // A void can only have come first where entries arrived out of order; then it holds all the same.
    if (one(db, 'SELECT 1 FROM voids WHERE target IN (?, ?, ?)', id, entry.id, batchName(entry.batch)))
      markVoided(db, id);
    touched.things.add(thing);
  });
  for (const { target, why } of voids) {
    run(
      db,
      'INSERT INTO voids (target, entry, clock, device, seq, recorded_at, why) VALUES (?, ?, ?, ?, ?, ?, ?)',
      target,
      entry.id,
      entry.clock,
      entry.device,
      entry.seq,
      entry.recordedAt,
      why,
    );
    markVoided(db, target);
    for (const { thing } of all<{ thing: number }>(
      db,
      `SELECT DISTINCT thing FROM facts WHERE ${NAMED}`,
      named(target),
    ))
      touched.things.add(thing);
  }
  return facts;
}

/** Of several voids of one fact the first by (clock, device) stands, whatever order they arrived in. */
function markVoided(db: Db, target: string): void {
  run(
    db,
    `UPDATE facts SET (voided_at, voided_by) = (
       SELECT recorded_at, entry FROM voids WHERE target IN (facts.id, facts.entry, 'batch:' || facts.batch)
       ORDER BY clock, device LIMIT 1)
     WHERE ${NAMED}`,
    named(target),
  );
}

/** A batch as a void names it: it bears the id of its first entry, and that entry alone can be meant too. */
export function batchName(batch: string): string {
  return `batch:${batch}`;
}

/** The facts that a void's target names: one fact, an entry's, or a batch's. */
export const NAMED = '(id = :target OR entry = :target OR batch = :batch)';

/** What `NAMED` is bound to. */
export function named(target: string): { target: string; batch: string | null } {
  return { target, batch: target.startsWith('batch:') ? target.slice('batch:'.length) : null };
}

/** The key of a thing, or undefined. */
export function thingKey(db: Db, id: string): number | undefined {
  return one<{ key: number }>(db, 'SELECT key FROM things WHERE id = ?', id)?.key;
}

function ensureThing(db: Db, id: string, kind: string): number {
  const known = one<{ key: number; kind: string }>(db, 'SELECT key, kind FROM things WHERE id = ?', id);
  if (!known)
    return Number(prepared(db, 'INSERT INTO things (id, kind) VALUES (?, ?)').run(id, kind).lastInsertRowid);
  if (known.kind === 'unknown' && kind !== 'unknown')
    run(db, 'UPDATE things SET kind = ? WHERE key = ?', kind, known.key);
  return known.key;
}
