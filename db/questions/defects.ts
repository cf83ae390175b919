/** What was found wrong and is not settled, or how it was. */
import { z } from 'zod';
import { isSettledDefect } from '../../domain/checkoffs/defect.ts';
import type { ExceptionKind, NextStep } from '../../domain/checkoffs/marks.ts';
import type { Condition } from '../../domain/facts.ts';
import type { Photo } from '../../domain/photos.ts';
import type { DefectLine } from '../api-checks.ts';
import { all } from '../store/statements.ts';
import { page } from './fields.ts';
import { photosOfDefects } from './photos.ts';
import { type Asking, question } from './types.ts';

export const defectsList = question({
  name: 'defects.list',
  title: 'What was found wrong: open defects only where asked, of one unit or of all, the oldest open first',
  schema: z.strictObject({
    of: z.string().optional(),
    open: z.boolean().optional(),
    limit: page.limit,
  }) as unknown as z.ZodType<{ of?: string; open?: boolean; limit?: number }>,
  answer: (asking, args) => {
    const { total, rows } = defectsOf(asking, args, true);
    return { total, rows: rows.slice(0, args.limit ?? 500) };
  },
  example: { open: true },
});

interface Row {
  key: number;
  id: string;
  of: string;
  name: string | null;
  checkoff: string | null;
  line: string | null;
  what: string;
  place: string | null;
  item: string | null;
  number: string | null;
  thing: string | null;
  condition: Condition | null;
  conditionSince: string | null;
  kind: ExceptionKind;
  next: NextStep;
  short: number | null;
  note: string | null;
  since: string;
  foundBy: string | null;
  closedOn: string | null;
  closedHow: string | null;
  closedNote: string | null;
}

/** Defects, the oldest open first or the latest first. @param withPhotos whether the photos of each are read */
export function defectsOf(
  asking: Asking,
  { of, open }: { of?: string | undefined; open?: boolean | undefined },
  withPhotos = false,
): { total: number; rows: DefectLine[] } {
  const photos: ReturnType<typeof photosOfDefects> = withPhotos ? photosOfDefects(asking) : new Map();
  const rows = all<Row>(
    asking.db,
    `SELECT d.key, t.id, d.holder AS of, coalesce(u.name, p.name) AS name, d.checkoff, d.line, d.what, d.place,
       it.id AS item, i.number, i.what AS thing, i.condition, i.condition_since AS conditionSince, d.kind, d."next",
       d.short, d.note, d.since, m.name AS foundBy, d.closed_on AS closedOn, d.closed_how AS closedHow,
       d.closed_note AS closedNote
     FROM defects d JOIN things t ON t.key = d.key
     LEFT JOIN things ht ON ht.id = d.holder LEFT JOIN units u ON u.key = ht.key LEFT JOIN places p ON p.key = ht.key
     LEFT JOIN things it ON it.key = d.item LEFT JOIN items i ON i.key = d.item
     LEFT JOIN things mt ON mt.id = d.found_by LEFT JOIN members m ON m.key = mt.key
     WHERE (:of IS NULL OR d.holder = :of) AND (:open = 0 OR d.closed_on IS NULL)
     ORDER BY d.since, d.key`,
    { of: of ?? null, open: open ? 1 : 0 },
  ).map(row => told(row, photos.get(row.key) ?? []));
  const wanted = open ? rows.filter(r => r.closed === null) : rows.reverse();
  return { total: wanted.length, rows: wanted };
}

/** Open defects, of one unit or of all, by the line of the carry list they stand against. */
export function openByLine(asking: Asking, of?: string): Map<string, DefectLine[]> {
  const open = new Map<string, DefectLine[]>();
  for (const defect of defectsOf(asking, { of, open: true }, of !== undefined).rows)
    if (defect.line !== null) open.set(defect.line, [...(open.get(defect.line) ?? []), defect]);
  return open;
}

function told(row: Row, photos: readonly Photo[]): DefectLine {
  const { key: _key, closedOn, closedHow, closedNote, conditionSince, thing, name, ...line } = row;
  const now = row.condition === null ? null : { condition: row.condition, since: conditionSince };
  const isClosed = isSettledDefect({ next: row.next, since: row.since, closedOn }, now);
  return {
    ...line,
    photos,
    name: name ?? '',
    what: line.what === '' ? (thing ?? '') : line.what,
    closed: isClosed
      ? {
          on: closedOn ?? (row.next === 'note' || row.next === 'move' ? row.since : conditionSince),
          how: (closedHow as 'found' | null) ?? endOf(row),
          note: closedNote,
        }
      : null,
  };
}

/** How a defect ended that nobody closed by word. */
function endOf({ next, condition }: Row): 'back in service' | 'gone' | 'noted' {
  if (next === 'note' || next === 'move') return 'noted';
  return condition === 'retired' || condition === 'disposed' ? 'gone' : 'back in service';
}
