/** Swaps of many: what is still owed of their numbers. */
import { z } from 'zod';
import type { SwapLine } from '../api-checks.ts';
import { factsByThing } from '../caches/many.ts';
import { swapOf } from '../caches/swaps.ts';
import { all } from '../store/statements.ts';
import { holdersOf } from './carry-known.ts';
import { memberNames } from './notes.ts';
import { question } from './types.ts';

export const swapsList = question({
  name: 'swaps.list',
  title: 'Swaps of many at once: those whose numbers are owed, or all',
  schema: z.strictObject({ open: z.boolean().optional() }) as unknown as z.ZodType<{ open?: boolean }>,
  answer(asking, args): SwapLine[] {
    const holders = new Map(holdersOf(asking).map(h => [h.of, h]));
    const members = memberNames(asking);
    const places = new Map(
      all<{ id: string; path: string }>(
        asking.db,
        'SELECT t.id, p.path FROM places p JOIN things t ON t.key = p.key',
      ).map(p => [p.id, p.path]),
    );
    return factsByThing(asking.db, 'swap')
      .flatMap(({ id, facts }): SwapLine[] => {
        const told = swapOf(facts);
        if (!told) return [];
        const owed = { down: told.down - told.read.down, up: told.up - told.read.up };
        const isOpen = told.giveUp === null && owed.down + owed.up > 0;
        if (args.open && !isOpen) return [];
        const { by, place, read: _read, ...rest } = told;
        return [
          {
            id,
            ...rest,
            name: holders.get(told.of)?.name ?? '',
            rig: holders.get(told.of)?.rig?.id ?? null,
            rack: places.get(place) ?? '',
            byName: by === null ? null : (members.get(by) ?? by),
            owed,
          },
        ];
      })
      .sort((a, b) => (a.on < b.on ? -1 : 1));
  },
  example: { open: true },
});
