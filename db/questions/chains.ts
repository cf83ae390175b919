/** Things out of service, each with its chain: where it stands, since when, what comes next. Stuck ones first. */
import { z } from 'zod';
import {
  chainsOf,
  nextWords,
  type SideFact,
  STAGES,
  type Stage,
  stuckFor,
} from '../../domain/chains/chain.ts';
import { derive } from '../../domain/derive/thing.ts';
import type { Condition, Fact } from '../../domain/facts.ts';
import type { ChainLine } from '../api-checks.ts';
import { readBook } from '../caches/book.ts';
import { asItemFacts, factsOf } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { namer } from './notes.ts';
import { type Asking, question } from './types.ts';

/** Conditions in which a thing is in a chain. */
const OUT = ['tagged out', 'at repair', 'retest owed', 'held for investigation', 'missing', 'limited use'];

export const chainsList = question({
  name: 'chains.list',
  title: 'Things out of service with their chains, the stuck ones first: at one stage, or holding some words',
  schema: z.strictObject({
    stage: z.enum(STAGES).optional(),
    text: z.string().optional(),
  }) as unknown as z.ZodType<{ stage?: Stage; text?: string }>,
  answer(asking, args) {
    const words = (args.text ?? '').toLowerCase().split(/\s+/).filter(Boolean);
    const rows = openChains(asking)
      .filter(row => args.stage === undefined || row.stage === args.stage)
      .filter(row => {
        const text = `${row.number} ${row.what} ${row.place ?? ''} ${row.reason ?? ''}`.toLowerCase();
        return words.every(w => text.includes(w));
      });
    return { total: rows.length, rows };
  },
  example: { stage: 'at repair' },
});

/** Every open chain, the stuck ones first and of those the longest. */
export function openChains(asking: Asking): ChainLine[] {
  const book = readBook(asking.db);
  const byName = namer(asking);
  return all<{
    key: number;
    item: string;
    number: string;
    family: string;
    what: string;
    condition: Condition;
    since: string | null;
    place: string | null;
    unit: string | null;
  }>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, i.family, i.what, i.condition, i.condition_since AS since, p.path AS place,
       u.name AS unit
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     LEFT JOIN units u ON u.key = p.unit
     WHERE i.condition IN (SELECT value FROM json_each(?))`,
    JSON.stringify(OUT),
  )
    .map(({ key, since, ...thing }): ChainLine => {
      const facts = asItemFacts(factsOf(asking.db, key));
      const known = derive(facts, book);
      const chain = chainsOf(facts as (Fact | SideFact)[]).at(-1);
      const owed = known?.owed.map(o => o.activity) ?? [];
      // Of two devices' words the condition is what counts; the chain tells how it came to it.
      const open = chain?.until === null ? chain : null;
      const stage = open?.stage ?? 'tagged';
      const stageSince = open?.stageSince ?? null;
      const { days, stuck } = stuckFor({ stage, stageSince, promised: open?.promised ?? null }, asking.today);
      return {
        ...thing,
        stage,
        from: open?.from ?? since ?? '',
        stageSince,
        days,
        stuck,
        reason: open?.reason ?? null,
        tag: open?.tag ?? null,
        promised: open?.promised ?? null,
        next: nextWords(stage, owed),
        owed,
        steps: (open?.steps ?? []).map(({ fact, ...step }) => ({ ...step, byName: byName(fact) })),
      };
    })
    .sort(
      (a, b) =>
        Number(b.stuck) - Number(a.stuck) ||
        b.days - a.days ||
        (a.from < b.from ? -1 : a.from > b.from ? 1 : 0) ||
        (a.number < b.number ? -1 : 1),
    );
}
