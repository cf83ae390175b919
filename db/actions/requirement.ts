/** The Zod form of a requirement: what may be adopted into a ledger. Mirrors `domain/rulebook/types`. */
import { z } from 'zod';
import type { Requirement } from '../../domain/rulebook/types.ts';

const every = z.union([
  z.strictObject({ months: z.number().int().min(0).max(1200) }),
  z.strictObject({ days: z.number().int().min(0).max(36_500) }),
]);
const first = z.strictObject({
  counts: z.enum(['made', 'later of made and in service', 'in service']),
  plus: every,
});
const tables = {
  specs: z.array(
    z.strictObject({
      spec: z.string(),
      construction: z.string(),
      months: z.number().int().nullable(),
      lifeMonths: z.number().int().nullable(),
      unless: z
        .strictObject({
          attribute: z.string(),
          is: z.union([z.string(), z.boolean()]),
          months: z.number().int(),
          clause: z.string(),
        })
        .optional(),
    }),
  ),
  constructions: z.array(
    z.strictObject({
      construction: z.string(),
      months: z.number().int(),
      lifeMonths: z.number().int().nullable(),
    }),
  ),
};
const clock = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('since last'), every, first }),
  z.strictObject({ kind: z.literal('cylinder period'), ...tables }),
  z.strictObject({ kind: z.literal('cylinder life'), ...tables }),
  z.strictObject({ kind: z.literal('printed date'), attribute: z.string() }),
  z.strictObject({ kind: z.literal('made before'), day: z.iso.date() }),
]);
const condition = z.union([
  z.strictObject({ attribute: z.string(), in: z.array(z.string()) }),
  z.strictObject({ attribute: z.string(), notIn: z.array(z.string()) }),
  z.strictObject({ attribute: z.string(), known: z.literal(true) }),
]);
const source = z.strictObject({
  document: z.string(),
  section: z.string(),
  edition: z.string(),
  confidence: z.enum(['read', 'read second-hand', 'memory', 'common practice']),
  note: z.string().optional(),
});

export const requirementSchema = z.strictObject({
  id: z.string().min(1),
  family: z.string().min(1),
  title: z.string().min(1),
  activity: z.string().min(1),
  appliesTo: z.array(condition),
  clock,
  dueAt: z.enum(['day', 'month end', 'month start']),
  warnDays: z.number().int().min(0).max(3650),
  satisfiedBy: z.array(z.string()),
  countedOutcomes: z.array(z.enum(['pass', 'fail'])),
  coveredBy: z.array(z.string()).optional(),
  sources: z.array(source).min(1),
  force: z.enum(['law', 'standard', 'manufacturer', 'practice']),
  binds: z.string(),
  late: z.enum(['blocks', 'limits', 'notes']),
  who: z.string(),
  cautions: z.array(z.string()),
}) as unknown as z.ZodType<Requirement>;
