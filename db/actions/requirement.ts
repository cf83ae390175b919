/** The Zod form of a requirement: what may be adopted into a ledger. Mirrors `domain/rulebook/types`. */
import { z } from 'zod';
import { DEPARTMENT_KINDS, METERS, type Requirement } from '../../domain/rulebook/types.ts';

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
const limits = {
  reading: z.string().min(1),
  owedWhen: z.enum(['at or under', 'under', 'over', 'at or over']),
  value: z.string().regex(/^\d+(\.\d+)?$/, { error: 'is not a number. Write it as text: "90".' }),
  percentOf: z.string().optional(),
  lostFrom: z.string().optional(),
};
const plain = [
  z.strictObject({ kind: z.literal('since last'), every, first }),
  z.strictObject({ kind: z.literal('once'), first }),
  z.strictObject({
    kind: z.literal('fixed month'),
    month: z.number().int().min(1).max(12),
    every_months: z
      .number()
      .int()
      .min(1)
      .max(120)
      .refine(n => 12 % n === 0 || n % 12 === 0, {
        error: 'does not come round in one month of the year. Use 1, 2, 3, 4, 6, 12 or whole years.',
      }),
    early_months: z.number().int().min(0).max(11),
    atMost: every.optional(),
    first,
  }),
  z.strictObject({ kind: z.literal('meter'), meter: z.enum(METERS), every: z.number().int().min(1) }),
  z.strictObject({ kind: z.literal('life'), counts: z.enum(['made', 'in service']), plus: every }),
  z.strictObject({ kind: z.literal('reading limit'), ...limits }),
  z.strictObject({ kind: z.literal('after happenings') }),
  z.strictObject({ kind: z.literal('cylinder period'), ...tables }),
  z.strictObject({ kind: z.literal('cylinder life'), ...tables }),
  z.strictObject({
    kind: z.literal('printed date'),
    attribute: z.string(),
    plus: every.optional(),
    needed: z.literal(true).optional(),
  }),
  z.strictObject({ kind: z.literal('made before'), day: z.iso.date() }),
] as const;
const clock = z.discriminatedUnion('kind', [
  ...plain,
  z.strictObject({
    kind: z.literal('first of'),
    clocks: z
      .array(z.discriminatedUnion('kind', [...plain]))
      .min(2)
      .max(5),
  }),
]);
const number = z.string().regex(/^\d+(\.\d+)?$/, { error: 'is not a number. Write it as text: "2000".' });
const condition = z.union([
  z.strictObject({ attribute: z.string(), in: z.array(z.string()) }),
  z.strictObject({ attribute: z.string(), notIn: z.array(z.string()) }),
  z.strictObject({ attribute: z.string(), known: z.boolean() }),
  z.strictObject({ attribute: z.string(), is: z.boolean() }),
  z.strictObject({ attribute: z.string(), matches: z.array(z.string().min(1)).min(1) }),
  z.strictObject({ attribute: z.string(), atLeast: number }),
  z.strictObject({ attribute: z.string(), below: number }),
]);
export const sourceForm = z.strictObject({
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
  sources: z.array(sourceForm).min(1),
  force: z.enum(['law', 'standard', 'manufacturer', 'practice']),
  binds: z.string(),
  late: z.enum(['blocks', 'limits', 'notes']),
  who: z.string(),
  cautions: z.array(z.string()),
  bindings: z
    .array(
      z.strictObject({
        reach: z.union([
          z.literal('osha'),
          z.literal('everywhere'),
          z.strictObject({ states: z.array(z.string().length(2)).min(1) }),
        ]),
        cite: z.string().min(1),
      }),
    )
    .optional(),
  where: z
    .strictObject({
      states: z.array(z.string().length(2)).min(1).optional(),
      kinds: z.array(z.enum(DEPARTMENT_KINDS)).min(1).optional(),
    })
    .optional(),
  graceDays: z.number().int().min(0).max(365).optional(),
  inStorage: z.literal('waits').optional(),
  besides: z.string().min(1).optional(),
  asks: z.string().min(1).optional(),
  confirmed: z.string().min(1).optional(),
  /** Written by the store, whatever is sent. */
  own: z
    .strictObject({
      change: z.enum(['stricter', 'looser', 'other', 'local']),
      reason: z.string(),
      authority: z.string(),
    })
    .optional(),
}) as unknown as z.ZodType<Requirement>;
