/** What was decided on a requirement, when, by whom and why; and the editions that would renumber the book. */
import { z } from 'zod';
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import { type Adoption, standing } from '../../domain/rulebook/book.ts';
import { EDITIONS, underEdition } from '../../domain/rulebook/editions.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { isSame } from '../../domain/rulebook/same.ts';
import type { Requirement } from '../../domain/rulebook/types.ts';
import { versionChanges } from '../../domain/rulebook/version-words.ts';
import type { RuleHistoryLine } from '../api-rules.ts';
import { readBook } from '../caches/book.ts';
import { all } from '../store/statements.ts';
import { textOrNull } from './fields.ts';
import { question } from './types.ts';

interface Decision {
  entry: string;
  kind: 'rule' | 'rule end';
  recordedAt: number;
  by: string | null;
  values: string;
}

export const rulebookHistory = question({
  name: 'rulebook.history',
  title: 'Every decision on a requirement: what, from when, by whom and why, the newest first',
  schema: z.strictObject({ requirement: z.string() }),
  answer({ db }, { requirement: id }): RuleHistoryLine[] {
    const versions = [...readBook(db).versions.values()].flat().filter(v => v.requirement.id === id);
    const decisions = all<Decision>(
      db,
      `SELECT f.entry, f.kind, f.recorded_at AS recordedAt, coalesce(m.name, e.by) AS by, f."values"
       FROM things b JOIN facts f ON f.thing = b.key
       JOIN entries e ON e.device = f.device AND e.seq = f.seq
       LEFT JOIN things t ON t.id = e.by LEFT JOIN members m ON m.key = t.key
       WHERE b.id = 'rulebook' AND f.kind IN ('rule', 'rule end') AND f.voided_at IS NULL
         AND coalesce(f."values" ->> '$.requirement.id', f."values" ->> '$.requirement') = ?
       ORDER BY f.clock, f.device, f.n`,
      id,
    );
    const decided: Adoption[] = [];
    const lines = decisions.flatMap((d): RuleHistoryLine[] => {
      const values = JSON.parse(d.values) as {
        requirement: Requirement | string;
        from: string | null;
        reason?: string;
        authority?: string;
      };
      const requirement =
        typeof values.requirement === 'string' ? decided.at(-1)?.requirement : values.requirement;
      if (!requirement) return [];
      const from = values.from === null ? null : (parseDay(values.from) as Day);
      const before = heldBy(decided, from);
      decided.push({ requirement, from, ...(d.kind === 'rule end' ? { ended: true } : {}) });
      const spans = versions.filter(v => d.kind === 'rule' && isSame(v.requirement, requirement));
      const span = spans.find(v => textOrNull(v.from) === values.from) ?? spans.at(0);
      const line: RuleHistoryLine = {
        entry: d.entry,
        at: new Date(d.recordedAt).toISOString(),
        by: d.by,
        did: d.kind === 'rule' ? 'adopted' : 'ended',
        requirement,
        from: textOrNull(from),
        inForce: span ? { from: textOrNull(span.from), to: textOrNull(spans.at(-1)?.to ?? null) } : null,
        reason: values.reason ?? null,
        authority: values.authority ?? null,
        change: requirement.own?.change ?? null,
        changed:
          before && d.kind === 'rule'
            ? versionChanges(before, requirement, familyOf(requirement.family))
            : [],
      };
      return [line];
    });
    return lines.reverse();
  },
  example: { requirement: 'hose.service-test' },
});

/** What would have held on the day of a decision, by what had been decided until then: that is what it changed. */
function heldBy(decided: readonly Adoption[], from: Day | null): Requirement | null {
  const [list = []] = standing(decided).values();
  const held = list.findLast(a => a.from === null || (from !== null && a.from <= from));
  return held && !held.ended ? held.requirement : null;
}

export const rulebookEditions = question({
  name: 'rulebook.editions',
  title: 'Editions that the book knows, with what each would renumber in the department’s own',
  schema: z.strictObject({}) as unknown as z.ZodType<Record<string, never>>,
  answer(asking) {
    const open = [...readBook(asking.db).versions.values()].flat().filter(v => v.to === null);
    return EDITIONS.map(edition => ({
      edition,
      adopts: open.flatMap(v => underEdition(v.requirement, edition) ?? []),
    }));
  },
  example: {},
});
