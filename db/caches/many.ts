/** The facts of many things at once, in one scan. */
import type { When } from '../../domain/calendar/when.ts';
import { all, type Db } from '../store/statements.ts';
import type { PlainFact } from './facts.ts';

/** Every thing of a kind with its facts that count. */
export function factsByThing(db: Db, kind: string): { key: number; id: string; facts: PlainFact[] }[] {
  const byKey = new Map<number, { key: number; id: string; facts: PlainFact[] }>();
  for (const { key, id } of all<{ key: number; id: string }>(
    db,
    'SELECT key, id FROM things WHERE kind = ?',
    kind,
  ))
    byKey.set(key, { key, id, facts: [] });
  const rows = all<
    Omit<PlainFact, 'values' | 'effective'> & { thing: number; effective: string; values: string }
  >(
    db,
    `SELECT f.thing, f.id, f.n, f.kind, f.effective, f.clock, f.device, f.recorded_at AS recordedAt, f."values"
     FROM things t JOIN facts f ON f.thing = t.key WHERE t.kind = ? AND f.voided_at IS NULL`,
    kind,
  );
  for (const { thing, effective, values, ...row } of rows)
    byKey.get(thing)?.facts.push({
      ...row,
      effective: effective as When,
      values: JSON.parse(values) as Record<string, unknown>,
    });
  return [...byKey.values()];
}
