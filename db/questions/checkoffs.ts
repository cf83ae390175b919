/** Check-offs: every one in a line, and one place by place. */
import { z } from 'zod';
import { type Day, dayText } from '../../domain/calendar/day.ts';
import { firstDay } from '../../domain/calendar/when.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { type Haste, suspicious } from '../../domain/checkoffs/haste.ts';
import { inScope, markOf, unfinished } from '../../domain/checkoffs/marks.ts';
import type { CheckoffLine, CheckoffPage, CheckoffState } from '../api-checks.ts';
import { thingKey } from '../caches/apply.ts';
import { carryListOf, checkoffOf } from '../caches/checkoffs.ts';
import { factsAsOf, factsOf } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { holderAsked, linesNow, placesNow } from './carry-known.ts';
import { linesOn } from './carry-lines.ts';
import { page } from './fields.ts';
import { hasteUnderOf } from './measures.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

const STATES = ['draft', 'signed', 'countersigned', 'set aside'] as const;

export const checkoffsList = question({
  name: 'checkoffs.list',
  title: 'Check-offs, the newest first: of one unit or all, in one state or any',
  schema: z.strictObject({
    of: z.string().optional(),
    state: z.enum(STATES).optional(),
    limit: page.limit,
  }) as unknown as z.ZodType<{ of?: string; state?: CheckoffState; limit?: number }>,
  answer(asking, args) {
    const rows = checkoffLines(
      asking,
      '(:of IS NULL OR c.holder = :of) AND (:state IS NULL OR c.state = :state)',
      { of: args.of ?? null, state: args.state ?? null },
    );
    return { total: rows.length, rows: rows.slice(0, args.limit ?? 200) };
  },
  example: { of: '<id>' },
});

/** Of each unit or rig, the newest that was signed and the newest draft: the rest need not be read to tell of now. */
export const NEWEST = `c.key IN (SELECT key FROM (
  SELECT key, row_number() OVER (PARTITION BY holder, state = 'draft' ORDER BY started_at DESC, key DESC) AS n
  FROM checkoffs WHERE state <> 'set aside') WHERE n = 1)`;

/**
 * Check-offs, the newest first.
 * @param where which ones: SQL on the check-off `c`
 */
export function checkoffLines(
  asking: Asking,
  where: string,
  args: Record<string, string | number | null> = {},
): CheckoffLine[] {
  const under_s = hasteUnderOf(asking.db);
  return all<Omit<CheckoffLine, 'signedOn' | 'haste'> & { signedDay: Day | null }>(
    asking.db,
    `SELECT t.id, c.holder AS of, coalesce(u.name, p.name, '') AS name, r.name AS rig, c.state, c.started_at AS started,
       c.finished_at AS finished, c.signed_on AS signedDay, sm.name AS signedBy, cm.name AS countersignedBy, c.lines,
       c.exceptions
     FROM checkoffs c JOIN things t ON t.key = c.key
     LEFT JOIN things ht ON ht.id = c.holder LEFT JOIN units u ON u.key = ht.key LEFT JOIN places p ON p.key = ht.key
     LEFT JOIN things rt ON rt.id = c.rig LEFT JOIN places r ON r.key = rt.key
     LEFT JOIN things st ON st.id = c.signed_by LEFT JOIN members sm ON sm.key = st.key
     LEFT JOIN things ct ON ct.id = c.countersigned_by LEFT JOIN members cm ON cm.key = ct.key
     WHERE ${where} ORDER BY c.started_at DESC, c.key DESC`,
    args,
  ).map(({ signedDay, ...line }) => ({
    ...line,
    signedOn: signedDay === null ? null : dayText(signedDay),
    haste: hasteOf(line, under_s),
  }));
}

/** Timed from the sheet's own start and finish, and only once it is signed. */
function hasteOf(
  { started, finished, lines }: Pick<CheckoffLine, 'started' | 'finished' | 'lines'>,
  under_s: number | null,
): Haste | null {
  if (finished === null || lines === null || under_s === null) return null;
  const found = suspicious(started, finished, lines, under_s);
  return found && { ...found, under_s };
}

export const checkoffPage = question({
  name: 'checkoff.page',
  title:
    'One check-off, place by place: what the list asks for, what stands for it, what is still to be done',
  schema: z.strictObject({ checkoff: z.string() }) as unknown as z.ZodType<{ checkoff: string }>,
  answer(asking, args): CheckoffPage {
    const key = thingKey(asking.db, args.checkoff);
    const known = key === undefined ? null : checkoffOf(asking.db, key);
    const [line] = checkoffLines(asking, 'c.key = :key', { key: key ?? null });
    if (key === undefined || !known || !line)
      throw new CannotAnswer(
        'not found',
        `There is no check-off ${args.checkoff}.`,
        'Choose one from the list.',
        'checkoff',
      );
    const holder = holderAsked(asking, known.of);
    const isDraft = line.state === 'draft';
    const rig = known.rig === null ? null : (thingKey(asking.db, known.rig) ?? null);
    const all = isDraft ? linesOn(asking, holder.key, asking.today) : asSigned(asking, key, holder.key);
    const lines = inScope(all, known);
    const places = placesNow(asking, lines, rig);
    const now = linesNow(asking, holder, lines, places, isDraft ? rig : null, asking.today);
    return {
      ...line,
      rigId: known.rig,
      station: holder.station,
      places: places.map(place => ({
        ...place,
        lines: now.lines.filter(l => l.place.toLowerCase() === place.name.toLowerCase()),
        mark: markOf(known.marks, place.name) ?? null,
      })),
      unfinished: isDraft ? unfinished(lines, known.marks) : [],
      extra: now.extra,
    };
  },
  example: { checkoff: '<id>' },
});

/** The list as the department knew it when the check-off was signed, whatever was said of that day since. */
function asSigned(asking: Asking, checkoff: number, holder: number): CarryLine[] {
  const facts = factsOf(asking.db, checkoff);
  const signed = facts.find(f => f.kind === 'signed') ?? facts.find(f => f.kind === 'set aside');
  if (!signed) return [];
  return carryListOf(factsAsOf(asking.db, holder, signed.recordedAt, dayText(firstDay(signed.effective))));
}
