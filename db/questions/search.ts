/** One box that reaches any number, serial, place, member or requirement. */
import { z } from 'zod';
import type { SearchHit } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { all, one } from '../store/statements.ts';
import { prefixQuery, textWords } from './due-filter.ts';
import { type Asking, question } from './types.ts';

interface Hit {
  key: number;
  id: string;
  kind: string;
}

export const searchAll = question({
  name: 'search.all',
  title: 'Things, places, members and requirements by the beginnings of words',
  schema: z.strictObject({
    text: z.string().max(200),
    limit: z.number().int().min(1).max(200).optional(),
  }) as unknown as z.ZodType<{ text: string; limit?: number }>,
  answer(asking, args): SearchHit[] {
    const words = textWords(args.text);
    if (words.length === 0) return [];
    const limit = args.limit ?? 20;
    const exact = all<Hit>(
      asking.db,
      `SELECT t.key, t.id, t.kind FROM items i JOIN things t ON t.key = i.key
       WHERE i.number = :number OR i.number = upper(:number) LIMIT 5`,
      { number: args.text.trim() },
    );
    // In the order of the index, not by rank: ranking a common word costs a hundred times as much.
    const found = all<Hit>(
      asking.db,
      `SELECT t.key, t.id, t.kind FROM words JOIN things t ON t.key = words.rowid
       WHERE words MATCH :query LIMIT :limit`,
      { query: words.map(prefixQuery).join(' '), limit },
    );
    const seen = new Set<string>();
    const hits: SearchHit[] = [];
    for (const hit of [...exact, ...found]) {
      if (seen.has(hit.id)) continue;
      seen.add(hit.id);
      const told = tell(asking, hit);
      if (told) hits.push(told);
    }
    return [...hits.slice(0, limit), ...requirementsLike(asking, words)].slice(0, limit);
  },
  example: { text: '31-1' },
});

function tell(asking: Asking, hit: Hit): SearchHit | null {
  if (hit.kind === 'item') {
    const row = one<{ number: string; what: string; place: string | null; condition: string }>(
      asking.db,
      `SELECT i.number, i.what, p.path AS place, i.condition FROM items i
       LEFT JOIN places p ON p.key = i.place_key WHERE i.key = ?`,
      hit.key,
    );
    if (!row) return null;
    const condition = row.condition === 'serviceable' ? '' : ` · ${row.condition}`;
    return {
      kind: 'item',
      id: hit.id,
      label: row.number,
      detail: `${row.what} · ${row.place ?? 'no place known'}${condition}`,
    };
  }
  if (hit.kind === 'place') {
    const row = one<{ path: string; kind: string; items: number }>(
      asking.db,
      `SELECT p.path, p.kind, (SELECT count(*) FROM items i WHERE i.place_key = p.key) AS items
       FROM places p WHERE p.key = ?`,
      hit.key,
    );
    if (!row) return null;
    const kind = row.kind === 'rig' || row.kind === 'station' ? row.kind : 'place';
    return { kind, id: hit.id, label: row.path, detail: `${row.kind} · ${row.items} things here` };
  }
  if (hit.kind === 'member') {
    const row = one<{ number: string; name: string; position: string | null }>(
      asking.db,
      'SELECT number, name, position FROM members WHERE key = ?',
      hit.key,
    );
    return row
      ? { kind: 'member', id: hit.id, label: row.name, detail: `${row.position ?? 'member'} · ${row.number}` }
      : null;
  }
  return null;
}

function requirementsLike(asking: Asking, words: readonly string[]): SearchHit[] {
  const seen = new Set<string>();
  return [...readBook(asking.db).versions.values()].flat().flatMap(({ requirement }) => {
    const text =
      `${requirement.title} ${requirement.family} ${requirement.sources[0]?.document ?? ''}`.toLowerCase();
    const fits = words.every(w => text.split(/\s+/).some(t => t.startsWith(w.toLowerCase())));
    if (!fits || seen.has(requirement.id)) return [];
    seen.add(requirement.id);
    return [
      {
        kind: 'requirement' as const,
        id: requirement.id,
        label: `${requirement.title} (${requirement.family})`,
        detail: requirement.sources[0]?.document ?? '',
      },
    ];
  });
}
