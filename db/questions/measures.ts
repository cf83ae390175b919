/** The units the department reads measures in. */
import type { UnitSystem } from '../../domain/units.ts';
import { factsOf, identityOf } from '../caches/facts.ts';
import { type Db, one } from '../store/statements.ts';

/** US customary unless the department has asked for SI. */
export function measuresOf(db: Db): UnitSystem {
  const department = one<{ key: number }>(db, 'SELECT key FROM departments ORDER BY key');
  return department && identityOf(factsOf(db, department.key))?.units === 'SI' ? 'SI' : 'US';
}
