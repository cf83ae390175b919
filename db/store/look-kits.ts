/** What a check may look at of kits. */
import type { When } from '../../domain/calendar/when.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import { isSameSeal } from '../../domain/kits/kit.ts';
import type { Look } from '../actions/types.ts';
import { thingKey } from '../caches/apply.ts';
import { carryListOf } from '../caches/checkoffs.ts';
import { factsOf, identityOf, type PlainFact } from '../caches/facts.ts';
import { KIT_FAMILY, kitFacts, kitOf } from '../caches/kits.ts';
import { all, type Db } from './statements.ts';

const toldOf = (facts: readonly PlainFact[]) => ({
  known: kitOf(facts),
  lastTold: kitFacts(facts).reduce<When | null>(
    (last, { effective }) => (last === null || effective > last ? effective : last),
    null,
  ),
});

/** @param touched what this act touched: the caches still show it as it was */
export function kitLook(
  db: Db,
  item: (id: string) => Derived | null,
  touched: () => { kits: readonly string[]; templates: readonly string[] },
): Pick<Look, 'kit' | 'kitTemplate' | 'sealedWith' | 'sealDefects'> {
  const knownOf = (id: string) => {
    const key = thingKey(db, id);
    const thing = key === undefined ? null : item(id);
    return key === undefined || thing?.family !== KIT_FAMILY
      ? null
      : { number: thing.number, attributes: thing.attributes, ...toldOf(factsOf(db, key)) };
  };
  const templateNamed = (what: string): string | null => {
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
      const kit = knownOf(id);
      if (!kit) return null;
      const { kind } = kit.attributes;
      const template = typeof kind === 'string' ? templateNamed(kind) : null;
      const key = template === null ? undefined : thingKey(db, template);
      return {
        number: kit.number,
        known: kit.known,
        lastTold: kit.lastTold,
        lines: key === undefined ? [] : carryListOf(factsOf(db, key)),
      };
    },
    kitTemplate: templateNamed,
    sealDefects: kit =>
      all<{ id: string }>(
        db,
        `SELECT DISTINCT t.id FROM fact_refs r JOIN facts f ON f.key = r.fact JOIN things t ON t.key = f.thing
         WHERE r.thing = ? AND t.kind = 'defect' AND f.kind = 'identity' AND f.voided_at IS NULL
           AND f."values" ->> '$.seal' = 1 AND NOT EXISTS (SELECT 1 FROM facts c
             WHERE c.thing = f.thing AND c.kind = 'closed' AND c.voided_at IS NULL)
         ORDER BY t.id`,
        kit,
      ).map(d => d.id),
    sealedWith(seal) {
      const cached = all<{ id: string; seal: string }>(
        db,
        `SELECT t.id, k.seal FROM kits k JOIN things t ON t.key = k.key WHERE k.state = 'sealed'`,
      ).flatMap(k => (isSameSeal(k.seal, seal) ? [k.id] : []));
      for (const id of new Set([...cached, ...touched().kits])) {
        const kit = knownOf(id);
        if (kit?.known.state === 'sealed' && kit.known.seal !== null && isSameSeal(kit.known.seal, seal))
          return kit.number;
      }
      return null;
    },
  };
}
