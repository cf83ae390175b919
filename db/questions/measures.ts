/** What the department has set for itself: the units it reads measures in, from when on haste is noted. */
import type { UnitSystem } from '../../domain/units.ts';
import { factsOf, identityOf } from '../caches/facts.ts';
import { type Db, one } from '../store/statements.ts';

/** US customary unless the department has asked for SI. */
export function measuresOf(db: Db): UnitSystem {
  return settingsOf(db)?.units === 'SI' ? 'SI' : 'US';
}

/** Under how many seconds a line a check-off is noted as hasty; null, unless the department has set it: none is. */
export function hasteUnderOf(db: Db): number | null {
  const under = settingsOf(db)?.hasteUnder_s;
  return typeof under === 'number' ? under : null;
}

function settingsOf(db: Db): Record<string, unknown> | null {
  const department = one<{ key: number }>(db, 'SELECT key FROM departments ORDER BY key');
  return department ? identityOf(factsOf(db, department.key)) : null;
}
