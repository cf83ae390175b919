/** Steps of random histories on kits: few of them and few seals, so that they meet. */
import type { Deed } from '../../../db/api.ts';
import { carryListOf } from '../../../db/caches/checkoffs.ts';
import { factsOf } from '../../../db/caches/facts.ts';
import { all, type Db } from '../../../db/store/statements.ts';

interface Numbers {
  a: number;
  b: number;
  c: number;
}

type Kind = 'kit' | 'kitSeal' | 'kitOpen' | 'kitCheck' | 'intoKit';

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

/** A deed of one of these kinds against the department as it is, or null where there is nothing to do it on. */
export function kitDeedOf(db: Db, kind: Kind, s: Numbers, on: string): Deed | null {
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body: { ...body, on } });
  const things = (sql: string) =>
    all<{ key: number; id: string }>(
      db,
      `SELECT t.key, t.id FROM things t WHERE ${sql} AND EXISTS (SELECT 1 FROM facts f WHERE f.thing = t.key
         AND f.voided_at IS NULL) ORDER BY t.key`,
    );
  const [template] = things("t.kind = 'kit template'");
  const kits = things("t.key IN (SELECT key FROM items WHERE family = 'kit')");
  // Without these nothing else can be done: then that is what is done.
  if (!template) return deed('kit.template', { what: 'Trauma bag' });
  const lines = carryListOf(factsOf(db, template.key));
  if (lines.length === 0 || (kind === 'kit' && s.c % 3 === 0))
    return deed('carry.set', {
      of: template.id,
      lines: [
        { what: `Content ${s.a % 4}`, qty: 1 + (s.b % 3), min: 1, place: 'main', critical: s.c % 2 === 0 },
      ],
    });
  const place = pick(things("t.kind = 'place'"), s.b)?.id;
  if (kits.length === 0 || kind === 'kit')
    return deed('item.receive', {
      family: 'kit',
      number: `BAG-${s.a % 3}`,
      attributes: { kind: 'trauma bag' },
      ...(place ? { place } : {}),
    });
  const item = pick(kits, s.a)?.id;
  const seal = String(s.b % 5);
  switch (kind) {
    case 'kitSeal':
      return deed('kit.seal', {
        item,
        seal,
        counts: lines.map((l, i) => ({
          line: l.line,
          amount: (s.c + i) % 4,
          expires: s.a % 2 ? '2021-06' : null,
        })),
      });
    case 'kitOpen':
      return deed('kit.open', { item, why: 'Used' });
    case 'kitCheck':
      return deed('kit.check', { item, seal, intact: s.c % 4 > 0 });
    case 'intoKit': {
      // A kit into a kit now and then: never into itself.
      const thing = pick(things("t.kind = 'item'"), s.c)?.id;
      return thing && item ? deed('item.move', { item: thing, to: item }) : null;
    }
  }
}
