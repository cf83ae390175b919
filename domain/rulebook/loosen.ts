/** What a department may not make milder than the book ships it. */
import { SHIPPED_REQUIREMENTS } from './index.ts';
import type { Requirement, WhenLate } from './types.ts';
import { cited } from './words.ts';

const WEIGHT: Readonly<Record<WhenLate, number>> = { notes: 0, limits: 1, blocks: 2 };

/** The least that being late may do, and the clause that says so. */
export interface LeastLate {
  late: WhenLate;
  clause: string;
}

/**
 * The least that being late may do. Each requirement's effect is the department's choice, law apart.
 * @returns null where the department may choose any effect
 */
export function leastLate(id: string): LeastLate | null {
  const shipped = SHIPPED_REQUIREMENTS.find(r => r.id === id);
  const [source] = shipped?.sources ?? [];
  if (shipped?.force !== 'law' || !source || shipped.late === 'notes') return null;
  return { late: shipped.late, clause: cited(source) };
}

/** What a requirement as it is to be adopted falls short of, or null. */
export function loosened({ id, late }: Pick<Requirement, 'id' | 'late'>): LeastLate | null {
  const least = leastLate(id);
  return least !== null && WEIGHT[late] < WEIGHT[least.late] ? least : null;
}
