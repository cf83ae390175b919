/** Rows to facts: the only place where the columns of a fact meet the domain. */
import type { When } from '../../domain/calendar/when.ts';
import type { Fact } from '../../domain/facts.ts';
import { all, type Db, one } from '../store/statements.ts';

interface FactRow {
  id: string;
  n: number;
  kind: string;
  effective: string;
  clock: number;
  device: string;
  recordedAt: number;
  values: string;
}

/** A fact of any kind of thing: item facts are `Fact`, the rest are read by whoever knows their kind. */
export interface PlainFact {
  id: string;
  n: number;
  kind: string;
  effective: When;
  clock: number;
  device: string;
  recordedAt: number;
  values: Record<string, unknown>;
}

/** The facts of a thing that count today: every one that is not voided. */
export function factsOf(db: Db, thing: number): PlainFact[] {
  return all<FactRow>(
    db,
    `SELECT id, n, kind, effective, clock, device, recorded_at AS recordedAt, "values"
     FROM facts WHERE thing = ? AND voided_at IS NULL`,
    thing,
  ).map(plain);
}

/** The facts of a thing as an old day sees them: known by the instant, in effect by the day, not voided by then. */
export function factsAsOf(db: Db, thing: number, known: number, effective: string): PlainFact[] {
  return all<FactRow>(
    db,
    `SELECT id, n, kind, effective, clock, device, recorded_at AS recordedAt, "values"
     FROM facts WHERE thing = :thing AND recorded_at <= :known AND (voided_at IS NULL OR voided_at > :known)
       AND substr(effective, 1, 10) <= :effective`,
    { thing, known, effective },
  ).map(plain);
}

/** The facts of a thing that count today and took effect until a time; one known less precisely counts where it may have. */
export function factsUntil(db: Db, thing: number, at: string): PlainFact[] {
  return factsOf(db, thing).filter(f => f.effective.slice(0, at.length) <= at);
}

/** The family whose things are the rigs themselves. */
export const RIG_FAMILY = 'apparatus';

/** Item facts as the domain knows them; a rig is a thing of its own family, whose number is its name. */
export function asItemFacts(facts: readonly PlainFact[]): Fact[] {
  const isRig = facts.some(f => f.kind === 'identity' && f.values.kind === 'rig');
  return (isRig ? facts.map(asRigFact) : facts) as unknown as Fact[];
}

function asRigFact(fact: PlainFact): PlainFact {
  if (fact.kind !== 'identity') return fact;
  const { kind, name, attributes } = fact.values;
  return {
    ...fact,
    values: {
      ...(kind === 'rig' ? { family: RIG_FAMILY } : {}),
      ...(typeof name === 'string' ? { number: name } : {}),
      ...(attributes === undefined ? {} : { attributes }),
    },
  };
}

/** Facts in the order in which people told them, the latest last. */
export function asTold(facts: readonly PlainFact[]): PlainFact[] {
  return [...facts].sort(
    (a, b) => a.clock - b.clock || (a.device < b.device ? -1 : a.device > b.device ? 1 : a.n - b.n),
  );
}

/** A value of a fact that is text, or null. */
export const textOf = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** Who told a fact: the member's id, and the name where the department knows one; null where nobody was named. */
export function tellerOf(db: Db, fact: string): { by: string; name: string | null } | null {
  return (
    one<{ by: string; name: string | null }>(
      db,
      `SELECT e.by, m.name FROM facts f JOIN entries e ON e.device = f.device AND e.seq = f.seq
       LEFT JOIN things t ON t.id = e.by LEFT JOIN members m ON m.key = t.key WHERE f.id = ? AND e.by IS NOT NULL`,
      fact,
    ) ?? null
  );
}

/** The latest word on each field of a plain thing, or null where no fact says what it is. */
export function identityOf(facts: readonly PlainFact[]): Record<string, unknown> | null {
  const told = asTold(facts.filter(f => f.kind === 'identity'));
  return told.length === 0 ? null : Object.assign({}, ...told.map(f => f.values));
}

/**
 * A member as known, or null: also where only their later entitlements stand, because another device voided what
 * brought them in.
 */
export function memberOf(
  facts: readonly PlainFact[],
): ({ number: string; name: string } & Record<string, unknown>) | null {
  const identity = identityOf(facts);
  return typeof identity?.number === 'string' && typeof identity.name === 'string'
    ? { ...identity, number: identity.number, name: identity.name }
    : null;
}

function plain(row: FactRow): PlainFact {
  return {
    ...row,
    effective: row.effective as When,
    values: JSON.parse(row.values) as Record<string, unknown>,
  };
}
