/** Carry lists: who has one, and one of them line by line with what is known of it. */
import { z } from 'zod';
import { holdAgainst, publishedKind } from '../../domain/carry/required.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import type { Deed } from '../api.ts';
import type { CarryHolder, CarryPage, CarrySheet, PublishedLine } from '../api-checks.ts';
import { factsOf } from '../caches/facts.ts';
import { schedulesOf } from '../caches/schedules.ts';
import { readCarrySheet } from '../files/carry/read.ts';
import { readGrid, SheetError } from '../files/sheet/index.ts';
import { one } from '../store/statements.ts';
import { type Holder, holderAsked, holdersOf, linesNow, placesNow } from './carry-known.ts';
import { linesOn } from './carry-lines.ts';
import { checkoffLines, NEWEST } from './checkoffs.ts';
import { defectsOf } from './defects.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { owedOf } from './owed.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const carryHolders = question({
  name: 'carry.holders',
  title:
    'Units and reserve rigs with their carry lists, open defects, last check-off and the draft that waits',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args): CarryHolder[] {
    const on = dayAsked(asking, args.on);
    const open = defectsOf(asking, { open: true }).rows;
    const checkoffs = checkoffLines(asking, NEWEST);
    return holdersOf(asking).map(known => {
      const { key, rig, ...holder } = known;
      const lines = linesOn(asking, key, on);
      const own = checkoffs.filter(c => c.of === holder.of);
      return {
        ...holder,
        rig: rig && { id: rig.id, name: rig.name },
        lines: lines.length,
        critical: lines.filter(l => l.critical).length,
        openDefects: open.filter(d => d.of === holder.of).length,
        last: own.find(c => c.state === 'signed' || c.state === 'countersigned') ?? null,
        draft: own.find(c => c.state === 'draft') ?? null,
        owed: owedOf(asking, known).filter(o => o.state !== 'done'),
      };
    });
  },
  example: {},
});

export const carryPage = question({
  name: 'carry.page',
  title:
    'The carry list of a unit or reserve rig, line by line, with what fills each line and what is lacking',
  schema: z.strictObject({ of: z.string(), on: day.optional() }) as unknown as z.ZodType<{
    of: string;
    on?: string;
  }>,
  answer(asking, args): CarryPage {
    const on = dayAsked(asking, args.on);
    const holder = holderAsked(asking, args.of);
    const lines = linesOn(asking, holder.key, on);
    // What rides on it is told as it is now; of an old day the list alone.
    const rig = on < asking.today ? null : (holder.rig?.key ?? null);
    const places = placesNow(asking, lines, holder.rig?.key ?? null);
    return {
      of: holder.of,
      name: holder.name,
      kind: holder.kind,
      station: holder.station,
      rig: holder.rig && { id: holder.rig.id, name: holder.rig.name },
      on: textOrNull(on) as string,
      places,
      ...linesNow(asking, holder, lines, places, rig, on),
      schedules: schedulesOf(factsOf(asking.db, holder.key)).filter(
        s => s.from <= on && (s.until === null || s.until >= on),
      ),
      published: publishedFor(asking, holder, lines),
    };
  },
  example: { of: 'Engine 31' },
});

/** The published list for the kind of unit, held against its lines and the rig its crew rides. */
function publishedFor(asking: Asking, holder: Holder, lines: readonly CarryLine[]): PublishedLine[] {
  const kind = publishedKind(holder.kind);
  if (kind === null) return [];
  const rig = one<{ pump: number | null; tank: number | null }>(
    asking.db,
    `SELECT attributes ->> '$.pump_gpm' AS pump, attributes ->> '$.tank_gal' AS tank FROM items WHERE key = ?`,
    holder.rig?.key ?? -1,
  );
  return holdAgainst(kind, lines, {
    pump_gpm: rig?.pump ?? null,
    tank_gal: rig?.tank ?? null,
  }).map(({ minimum: { id, title, unit, atLeast, source }, ...held }) => ({
    id,
    title,
    unit,
    atLeast,
    source,
    ...held,
  }));
}

export const carryPreview = question({
  name: 'carry.preview',
  title:
    'What each row of a sheet would become on a unit’s carry list, or why it is refused; nothing is written',
  schema: z.strictObject({
    name: z.string(),
    bytes: z.string(),
    of: z.string(),
    on: day.optional(),
  }) as unknown as z.ZodType<{ name: string; bytes: string; of: string; on?: string }>,
  async answer(asking, args) {
    const holder = holderAsked(asking, args.of);
    const known = linesOn(asking, holder.key, dayAsked(asking, args.on));
    try {
      const sheet = readCarrySheet(await readGrid(Buffer.from(args.bytes, 'base64'), args.name));
      return { ...sheet, of: holder.of, replaces: known.length, deeds: deedsOf(sheet, holder.of, known) };
    } catch (error) {
      if (error instanceof SheetError)
        throw new CannotAnswer('not a sheet', error.wrong, error.todo, 'bytes');
      throw error;
    }
  },
  example: { name: 'carry-engine-31.csv', bytes: '<base64>', of: 'Engine 31' },
});

/** A line of the same words in the same place is that line; every other one is new, and none is ended by a sheet. */
function deedsOf(sheet: CarrySheet, of: string, known: readonly CarryLine[]): Deed[] {
  const key = (l: { what: string; place: string }) => `${l.place}\u0000${l.what}`.toLowerCase();
  const lines = new Map(known.map(l => [key(l), l]));
  const rows = sheet.rows.flatMap(r => (r.body ? [{ body: r.body, short: r.short }] : []));
  if (rows.length === 0) return [];
  const set: Deed = {
    action: 'carry.set',
    body: {
      of,
      lines: rows.map(({ body }) => {
        const same = lines.get(key(body));
        return same ? { ...body, line: same.line, source: same.source } : body;
      }),
    },
  };
  const short = rows.flatMap(({ body, short }, i): Deed[] => {
    // Of what is tracked the things themselves tell how many there are.
    if (short === 0 || body.family !== null) return [];
    const line = lines.get(key(body))?.line ?? `&0.${i.toString(36)}`;
    return [
      {
        action: 'defect.report',
        body: { of, line, place: body.place, kind: 'short', short, note: 'By the sheet that was brought in' },
      },
    ];
  });
  return [set, ...short];
}
