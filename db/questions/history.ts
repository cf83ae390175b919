/** Every fact of one thing in words, voided ones too. */
import { photosOf } from '../../domain/photos.ts';
import type { HistoryLine, Via } from '../api.ts';
import { batchName } from '../caches/apply.ts';
import { all, one } from '../store/statements.ts';
import { memberNames } from './notes.ts';
import type { Asking } from './types.ts';

interface HistoryRow {
  fact: string;
  entry: string;
  batch: string;
  kind: string;
  effective: string;
  recordedAt: number;
  values: string;
  by: string | null;
  via: Via;
  voidedBy: string | null;
  voidedAt: number | null;
}

/** The facts of a thing, the latest first. @param inWords what a fact of a kind says */
export function historyOf(
  asking: Asking,
  key: number,
  inWords: (kind: string, values: Record<string, unknown>) => string,
): HistoryLine[] {
  const names = memberNames(asking);
  return all<HistoryRow>(
    asking.db,
    `SELECT f.id AS fact, f.entry, f.batch, f.kind, f.effective, f.recorded_at AS recordedAt, f."values",
       e.by, e.via, f.voided_by AS voidedBy, f.voided_at AS voidedAt
     FROM facts f JOIN entries e ON e.device = f.device AND e.seq = f.seq
     WHERE f.thing = ? ORDER BY f.effective DESC, f.clock DESC, f.n DESC`,
    key,
  ).map(row => {
    const values = JSON.parse(row.values) as Record<string, unknown>;
    return {
      fact: row.fact,
      entry: row.entry,
      batch: batchName(row.batch),
      kind: row.kind,
      what: inWords(row.kind, values),
      effective: row.effective,
      recordedAt: new Date(row.recordedAt).toISOString(),
      by: row.by,
      byName: row.by === null ? null : (names.get(row.by) ?? row.by),
      via: row.via,
      voided: row.voidedBy === null ? null : voidOf(asking, row.voidedBy, row.voidedAt ?? 0, names),
      photos: photosOf(values),
      details: values,
    };
  });
}

function voidOf(
  asking: Asking,
  entry: string,
  at: number,
  names: ReadonlyMap<string, string>,
): HistoryLine['voided'] {
  const row = one<{ why: string; by: string | null }>(
    asking.db,
    `SELECT v.why, e.by FROM voids v JOIN entries e ON e.device = v.device AND e.seq = v.seq
     WHERE v.entry = ?`,
    entry,
  );
  return {
    on: new Date(at).toISOString(),
    why: row?.why ?? '',
    by: row?.by ? (names.get(row.by) ?? row.by) : null,
  };
}
