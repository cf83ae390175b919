/** Makes and models in the department, for the intervals that their makers give. */
import { z } from 'zod';
import { holds } from '../../domain/derive/thing.ts';
import type { MakeLine } from '../api-rules.ts';
import { readBook } from '../caches/book.ts';
import { all } from '../store/statements.ts';
import { question } from './types.ts';

export const makesList = question({
  name: 'makes.list',
  title: 'Makes and models in the department, how many of each, and the requirements that name them',
  schema: z.strictObject({ family: z.string().optional() }) as unknown as z.ZodType<{ family?: string }>,
  answer({ db }, { family }): MakeLine[] {
    const book = readBook(db);
    return all<Omit<MakeLine, 'requirements'>>(
      db,
      `SELECT family, attributes ->> '$.maker' AS maker, attributes ->> '$.model' AS model, count(*) AS things
       FROM items WHERE condition NOT IN ('retired', 'disposed') AND (:family IS NULL OR family = :family)
         AND coalesce(attributes ->> '$.maker', attributes ->> '$.model') IS NOT NULL
       GROUP BY 1, 2, 3 ORDER BY 1, 2, 3`,
      { family: family ?? null },
    ).map(line => ({ ...line, requirements: requirementsNaming(line, book) }));
  },
  example: { family: 'hose' },
});

function requirementsNaming(
  line: Omit<MakeLine, 'requirements'>,
  book: ReturnType<typeof readBook>,
): string[] {
  const made = {
    ...(line.maker === null ? {} : { maker: line.maker }),
    ...(line.model === null ? {} : { model: line.model }),
  };
  return (book.versions.get(line.family) ?? [])
    .filter(v => v.to === null)
    .map(v => v.requirement)
    .filter(r => {
      const named = r.appliesTo.filter(
        c => 'matches' in c && (c.attribute === 'maker' || c.attribute === 'model'),
      );
      return named.length > 0 && named.every(c => holds(c, made));
    })
    .map(r => r.id);
}
