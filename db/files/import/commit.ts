/** `import.commit`: one deed that stands for the deeds a sheet comes to. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { Day } from '../../../domain/calendar/day.ts';
import { FAMILIES } from '../../../domain/rulebook/index.ts';
import type { Deed } from '../../api.ts';
import type { Db } from '../../store/statements.ts';
import { type Grid, readGrid } from '../sheet/index.ts';
import { deedsOf } from './deeds.ts';
import { knownPlace } from './places.ts';
import { planImport } from './plan.ts';

const accepting = z.union([z.literal('all'), z.array(z.string())]).default([]);

/** What both the preview and the commit take: the file and how it is to be read. */
export const sheetFields = {
  name: z.string().min(1).max(400),
  bytes: z.base64(),
  family: z.enum(FAMILIES.map(f => f.id) as [string, ...string[]]),
  mapping: z.record(z.string(), z.string().nullable()).optional(),
  dayOrder: z.record(z.string(), z.enum(['day first', 'month first'])).optional(),
};

export const commitSchema = z.strictObject({
  ...sheetFields,
  accept: z.strictObject({ places: accepting, permits: accepting }).default({ places: [], permits: [] }),
});

export type Commit = z.infer<typeof commitSchema>;

/** A commit whose file has been read; reading is done before the transaction begins. */
export interface PreparedCommit {
  body: Commit;
  grid: Grid;
  sha256: string;
}

/** @throws SheetError where the file is not a sheet; ZodError where the body has another shape */
export async function prepareCommit(body: unknown): Promise<PreparedCommit> {
  const parsed = commitSchema.parse(body);
  const bytes = Buffer.from(parsed.bytes, 'base64');
  return {
    body: parsed,
    grid: await readGrid(bytes, parsed.name),
    sha256: createHash('sha256').update(bytes).digest('hex'),
  };
}

/** The deeds, planned inside the transaction so that they meet the department as it is then. */
export function expandCommit(db: Db, prepared: PreparedCommit, today: Day): Deed[] {
  const { body, grid, sha256 } = prepared;
  const plan = planImport(db, grid, body, today);
  return deedsOf(plan, { name: body.name, sha256 }, body.accept, today, path => knownPlace(db, path));
}
