/** What a thing could be swapped with: others of its family that are elsewhere, the one to take first first. */
import { z } from 'zod';
import { type DueState, heaviest } from '../../domain/derive/due.ts';
import type { Assignment, Condition } from '../../domain/facts.ts';
import { against, inOrderToTake } from '../../domain/rigs/swap.ts';
import type { SpareLine, Spares } from '../api-desk.ts';
import { all, one } from '../store/statements.ts';
import { day, dayAsked, page, thingAsked } from './fields.ts';
import { kitsNow, unreadyKits } from './kits-known.ts';
import { KIND } from './spares.ts';
import { standingOf, statesIn } from './states.ts';
import { question } from './types.ts';

/** So many are weighed by their dates; the rest of a large family comes after them and is found by its words. */
const WEIGHED = 400;

interface Candidate {
  key: number;
  item: string;
  number: string;
  what: string;
  kind: string;
  station: string | null;
  condition: Condition;
  assignment: Assignment | null;
  place: string | null;
  placeId: string | null;
  rig: string | null;
}

const SELECT = `SELECT i.key, t.id AS item, i.number, i.what, i.condition, i.assignment, p.path AS place,
  i.place AS placeId, r.name AS rig, s.name AS station, ${KIND} AS kind
  FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
  LEFT JOIN places r ON r.key = p.rig LEFT JOIN places s ON s.key = p.station`;

export const itemSpares = question({
  name: 'item.spares',
  title: 'What a thing could be swapped with: others of its family elsewhere, the one to take first first',
  schema: z.strictObject({
    item: z.string(),
    text: z.string().optional(),
    limit: page.limit,
    on: day.optional(),
  }) as unknown as z.ZodType<{ item: string; text?: string; limit?: number; on?: string }>,
  answer(asking, args): Spares {
    const on = dayAsked(asking, args.on);
    const thing = thingAsked(asking, { item: args.item });
    const current = one<Candidate>(asking.db, `${SELECT} WHERE i.key = ?`, thing.key) as Candidate;
    const words = (args.text ?? '').toLowerCase().split(/\s+/).filter(Boolean);
    const values = { thing: thing.key, words: JSON.stringify(words) };
    const candidates = all<Candidate>(
      asking.db,
      `${SELECT} ${ELSEWHERE} ORDER BY i.what <> me.what, i.condition <> 'serviceable',
         CASE i.assignment WHEN 'ready spare' THEN 0 WHEN 'reserve' THEN 1 WHEN 'storage' THEN 2 ELSE 3 END,
         i.number_sort LIMIT ${WEIGHED}`,
      values,
    );
    const states = standingOf(asking, on, 'json_each(:items) j JOIN due d ON d.item = j.value', 'true', {
      items: JSON.stringify([thing.key, ...candidates.map(c => c.key)]),
    });
    const unready = unreadyKits(kitsNow(asking, on));
    const told = ({ key, ...line }: Candidate): Told => ({
      ...line,
      isUnready: unready.has(key),
      state: heaviest(statesIn(states.get(key))),
    });
    const now = told(current);
    return {
      total:
        one<{ n: number }>(asking.db, `SELECT count(*) AS n FROM (${SELECT} ${ELSEWHERE})`, values)?.n ?? 0,
      current: lineOf(now, []),
      spares: inOrderToTake(now, candidates.map(told))
        .slice(0, args.limit ?? 60)
        .map(spare => lineOf(spare, against(now, spare, spare.rig))),
    };
  },
  example: { item: '<id>' },
});

type Told = Omit<Candidate, 'key'> & { state: DueState; isUnready: boolean };

/** Without what only the order looks at. */
const lineOf = (
  { kind: _kind, station: _station, isUnready: _isUnready, ...line }: Told,
  reasons: string[],
): SpareLine => ({
  ...line,
  against: reasons,
});

/** Of the thing's family, there to be taken, not on the rig the thing is on nor in its very place, and with every word. */
const ELSEWHERE = `JOIN items me ON me.key = :thing LEFT JOIN places mp ON mp.key = me.place_key
  WHERE i.family = me.family AND i.key <> me.key AND i.place_key IS NOT me.place_key
  AND (p.rig IS NULL OR mp.rig IS NULL OR p.rig <> mp.rig) AND p.kit IS NULL
  AND i.condition NOT IN ('retired', 'disposed', 'missing', 'on order', 'held for investigation')
  AND NOT EXISTS (SELECT 1 FROM json_each(:words) w
    WHERE instr(lower(i.number || ' ' || i.what || ' ' || coalesce(p.path, '') || ' ' || coalesce(i.assignment, '')), w.value) = 0)`;
