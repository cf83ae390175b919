/** Which problem stands beside which field, and which concern the deed as a whole. */
import type { Problem } from '../../../db/api.ts';

/**
 * A problem belongs to the field it names; one that names something deeper or wider than a field of the form
 * belongs to the nearest (`readings` to the first reading); what names no field of the form is for the whole.
 */
export function problemsByField(
  problems: readonly Problem[],
  fields: readonly string[],
): { beside: ReadonlyMap<string, Problem>; rest: readonly Problem[] } {
  const beside = new Map<string, Problem>();
  const rest: Problem[] = [];
  for (const problem of problems) {
    const named = problem.field;
    const field =
      named === null
        ? undefined
        : (fields.find(f => f === named) ??
          fields.find(f => f.startsWith(`${named}.`)) ??
          fields.find(f => named.startsWith(`${f}.`)));
    if (field === undefined || beside.has(field)) rest.push(problem);
    else beside.set(field, problem);
  }
  return { beside, rest };
}
