/** What a sheet would become, row by row, before anything is written. */
import { z } from 'zod';
import type { ImportRequest } from '../api.ts';
import { sheetFields } from '../files/import/commit.ts';
import { planImport } from '../files/import/plan.ts';
import { readGrid, SheetError } from '../files/sheet/index.ts';
import { day, dayAsked } from './fields.ts';
import { CannotAnswer, question } from './types.ts';

export const importPreview = question({
  name: 'import.preview',
  title: 'What each row of a sheet will become, or why it is refused; nothing is written',
  schema: z.strictObject({ ...sheetFields, on: day.optional() }) as unknown as z.ZodType<ImportRequest>,
  async answer(asking, args) {
    try {
      const grid = await readGrid(Buffer.from(args.bytes, 'base64'), args.name);
      return planImport(asking.db, grid, args, dayAsked(asking, args.on)).preview;
    } catch (error) {
      if (error instanceof SheetError)
        throw new CannotAnswer('not a sheet', error.wrong, error.todo, 'bytes');
      throw error;
    }
  },
  example: { name: 'hose.csv', bytes: '<base64>', family: 'hose' },
});
