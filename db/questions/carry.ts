/** Carry lists: who has one, and one of them line by line with what is known of it. */
import { z } from 'zod';
import type { CarryHolder, CarryPage } from '../api-checks.ts';
import { holderAsked, holdersOf, linesNow, placesNow } from './carry-known.ts';
import { linesOn } from './carry-lines.ts';
import { checkoffLines } from './checkoffs.ts';
import { defectsOf } from './defects.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { question } from './types.ts';

export const carryHolders = question({
  name: 'carry.holders',
  title:
    'Units and reserve rigs with their carry lists, open defects, last check-off and the draft that waits',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args): CarryHolder[] {
    const on = dayAsked(asking, args.on);
    const open = defectsOf(asking, { open: true }).rows;
    const checkoffs = checkoffLines(asking, {});
    return holdersOf(asking).map(({ key, rig, ...holder }) => {
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
    return {
      of: holder.of,
      name: holder.name,
      kind: holder.kind,
      station: holder.station,
      rig: holder.rig && { id: holder.rig.id, name: holder.rig.name },
      on: textOrNull(on) as string,
      places: placesNow(asking, lines, holder.rig?.key ?? null),
      ...linesNow(asking, holder, lines, rig, on),
    };
  },
  example: { of: 'Engine 31' },
});
