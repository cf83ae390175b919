/** Kits and their templates from their facts, and the rows by which they are found. */
import { type ContentCount, type KitFact, type KitKnown, kitFrom } from '../../domain/kits/kit.ts';
import { all, type Db, one, run } from '../store/statements.ts';
import { factsOf, identityOf, type PlainFact } from './facts.ts';

const KINDS = new Set(['sealed', 'opened', 'seal seen']);

/** The facts of a kit that tell of its seal. */
export const kitFacts = (facts: readonly PlainFact[]): KitFact[] =>
  facts.filter(f => KINDS.has(f.kind)) as unknown as KitFact[];

/** What the facts of a kit say of its seal and contents. */
export const kitOf = (facts: readonly PlainFact[]): KitKnown => kitFrom(kitFacts(facts));

/** What a kit is called and where it lies, as one text; null where the thing is no kit. */
export function kitPlace(db: Db, key: number): string | null {
  const row = one<{ number: string; place: string | null }>(
    db,
    'SELECT i.number, i.place FROM kits k JOIN items i ON i.key = k.key WHERE k.key = ?',
    key,
  );
  return row ? `${row.number} ${row.place ?? ''}` : null;
}

/** Write the row of a thing as a kit, where it is one. */
export function deriveKit(db: Db, key: number, isKit: boolean): void {
  run(db, 'DELETE FROM kits WHERE key = ?', key);
  if (!isKit) return;
  const { state, since, seal, found, why, counts, countedOn, seenOn } = kitOf(factsOf(db, key));
  run(
    db,
    `INSERT INTO kits (key, state, since, seal, found, why, counts, counted_on, seen_on)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    key,
    state,
    since,
    seal,
    found,
    why,
    JSON.stringify(counts),
    countedOn,
    seenOn,
  );
}

/** Every kit as its row has it, by its key. */
export function kitsKnown(db: Db): Map<number, KitKnown> {
  return new Map(
    all<Omit<KitKnown, 'counts'> & { key: number; counts: string }>(
      db,
      `SELECT key, state, since, seal, found, why, counts, counted_on AS countedOn, seen_on AS seenOn FROM kits`,
    ).map(({ key, counts, ...known }) => [key, { ...known, counts: JSON.parse(counts) as ContentCount[] }]),
  );
}

export function deriveKitTemplate(db: Db, key: number): void {
  run(db, 'DELETE FROM kit_templates WHERE key = ?', key);
  const told = identityOf(factsOf(db, key));
  if (typeof told?.what === 'string')
    run(db, 'INSERT INTO kit_templates (key, what) VALUES (?, ?)', key, told.what);
}
