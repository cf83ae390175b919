/** What a check may look at of kits. */

import { dayText } from '../../domain/calendar/day.ts';
import { lastDay } from '../../domain/calendar/when.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import { sealKey } from '../../domain/kits/kit.ts';
import { KIT_FAMILY } from '../../domain/rulebook/kit.ts';
import type { Look } from '../actions/types.ts';
import { thingKey } from '../caches/apply.ts';
import { carryListOf } from '../caches/checkoffs.ts';
import { factsOf, identityOf } from '../caches/facts.ts';
import { kitOf } from '../caches/kits.ts';
import { all, type Db } from './statements.ts';

/** @param touched what this act touched: the caches still show it as it was */
export function kitLook(
  db: Db,
  item: (id: string) => Derived | null,
  touched: () => { kits: readonly string[]; templates: readonly string[] },
): Pick<Look, 'kit' | 'kitTemplate' | 'sealedWith' | 'sealDefects'> {
  const kitTemplate = (what: string): string | null => {
    const cached = all<{ id: string }>(
      db,
      'SELECT t.id FROM kit_templates k JOIN things t ON t.key = k.key WHERE lower(k.what) = lower(?)',
      what,
    ).map(t => t.id);
    const isNamed = (id: string) => {
      const told = identityOf(factsOf(db, thingKey(db, id) ?? -1));
      return typeof told?.what === 'string' && told.what.toLowerCase() === what.toLowerCase();
    };
    return [...cached, ...touched().templates].filter(isNamed).sort()[0] ?? null;
  };
  return {
    kit(id) {
      const key = thingKey(db, id);
      const thing = key === undefined ? null : item(id);
      if (key === undefined || thing?.family !== KIT_FAMILY) return null;
      const { kind } = thing.attributes;
      const template = typeof kind === 'string' ? kitTemplate(kind) : null;
      const list = template === null ? undefined : thingKey(db, template);
      return {
        number: thing.number,
        known: kitOf(factsOf(db, key)),
        lines: list === undefined ? [] : carryListOf(factsOf(db, list)),
      };
    },
    kitTemplate,
    sealedWith(seal) {
      // From the facts: what an earlier deed of the act has sealed is there as well.
      const put = all<{ id: string; seal: string }>(
        db,
        `SELECT t.id, f."values" ->> '$.seal' AS seal FROM things t JOIN facts f ON f.thing = t.key
         WHERE (t.key IN (SELECT key FROM kits) OR t.id IN (SELECT value FROM json_each(?)))
           AND f.kind = 'sealed' AND f.voided_at IS NULL`,
        JSON.stringify(touched().kits),
      ).find(s => sealKey(s.seal) === sealKey(seal));
      return put ? (item(put.id)?.number ?? null) : null;
    },
    sealDefects: (kit, by) =>
      all<{ id: string }>(
        db,
        `SELECT DISTINCT t.id FROM fact_refs r JOIN facts f ON f.key = r.fact JOIN things t ON t.key = f.thing
         WHERE r.thing = ? AND t.kind = 'defect' AND f.kind = 'identity' AND f.voided_at IS NULL
           AND f."values" ->> '$.seal' = 1 AND substr(f.effective, 1, 10) <= ? AND NOT EXISTS (SELECT 1 FROM facts c
             WHERE c.thing = f.thing AND c.kind = 'closed' AND c.voided_at IS NULL)
         ORDER BY t.id`,
        kit,
        dayText(lastDay(by)),
      ).map(d => d.id),
  };
}
