/**
 * The published check values and how each is run. The JSON beside this file is data from outside the project, with
 * its sources and how far each was seen: `read` (the text or a public copy of it), `practice` (common trade
 * practice, no source), `memory` (recalled, not seen). `fact-sheet.json`, and the rows of `gear.json` that say so, are
 * rows of the same tables for which no check value is published; their example dates are ours, the rule and its source
 * are not.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';

const vector = z.object({
  id: z.string(),
  topic: z.string(),
  statement: z.string(),
  inputs: z.record(z.string(), z.unknown()),
  expected: z.unknown(),
  source: z.string().min(1),
  confidence: z.enum(['read', 'practice', 'memory']),
});
export type Vector = z.infer<typeof vector>;

/** Runs a vector through the real code and asserts what it expects. */
export interface Check {
  ids: RegExp;
  run(vector: Vector): void | Promise<void>;
}

const FILES = [
  'cylinders-and-packs.json',
  'hose-and-ladders.json',
  'fact-sheet.json',
  'rigs.json',
  'gear.json',
  'air-and-extinguishers.json',
] as const;

/** Every published vector, in the order of the files. */
export const VECTORS: readonly Vector[] = FILES.flatMap(file =>
  z.array(vector).parse(JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8'))),
);

const SEEN: Readonly<Record<Vector['confidence'], string>> = {
  read: 'read',
  practice: 'common practice, no source',
  memory: 'from memory, not seen',
};

/** Id, how far it was seen, statement and source: what a failing run prints. */
export function titleOf({ id, confidence, statement, source }: Vector): string {
  return `${id} [${SEEN[confidence]}] ${statement} (${source})`;
}

/** The inputs in the shape a check needs. @throws where a vector has another shape */
export function inputsOf<S extends z.ZodRawShape>(v: Vector, shape: S) {
  return z.object(shape).parse(v.inputs);
}
