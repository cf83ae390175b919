/** Papers: what a screen shows, as a PDF that is the same from every host. */
import { z } from 'zod';
import type { DepartmentSummary } from '../api.ts';
import type { Paper, PdfFile } from '../api-desk.ts';
import { changeoverSheet } from '../paper/changeover-sheet.ts';
import { checkoffSheet } from '../paper/checkoff-sheet.ts';
import { comingDue, type ListFilter } from '../paper/coming-due.ts';
import { fillLog } from '../paper/fill-log.ts';
import { framed, nameOf, type Printing, type Sheet } from '../paper/frame.ts';
import { itemHistorySheet } from '../paper/item-history.ts';
import { morningPage } from '../paper/morning-page.ts';
import { type Printed, print } from '../paper/print.ts';
import { reorderList } from '../paper/reorder-list.ts';
import { rigSheet } from '../paper/rig-sheet.ts';
import { ruleSheet } from '../paper/rule-sheet.ts';
import { tagSheet } from '../paper/tag.ts';
import { departmentSummary } from './department.ts';
import { filterFields } from './due-filter.ts';
import { ledgerHeads } from './exports.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { fillLogFields } from './fills.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

const by = z.string().max(200).optional();

export const paperMake = question({
  name: 'paper.make',
  title:
    'A paper as a PDF, base64: a morning page, a list of what is coming due, a thing’s history, a tag, a rig, a check-off sheet, a changeover sheet, a rule sheet, a reorder list, a fill log',
  schema: z.discriminatedUnion('paper', [
    z.strictObject({ paper: z.literal('morning page'), station: z.string(), on: day.optional(), by }),
    z.strictObject({
      paper: z.literal('coming due'),
      filter: z.strictObject({
        ...filterFields,
        sort: z.enum(['due', 'number', 'place', 'title']).optional(),
        descending: z.boolean().optional(),
        by: z.enum(['month', 'unit', 'family']).optional(),
      }),
      on: day.optional(),
      by,
    }),
    z.strictObject({ paper: z.literal('item history'), item: z.string(), by }),
    z.strictObject({ paper: z.literal('tag'), item: z.string(), by }),
    z.strictObject({ paper: z.literal('rig sheet'), rig: z.string(), on: day.optional(), by }),
    z.strictObject({ paper: z.literal('check-off sheet'), of: z.string(), by }),
    z.strictObject({ paper: z.literal('changeover sheet'), from: z.string(), to: z.string(), by }),
    z.strictObject({ paper: z.literal('rule sheet'), family: z.string(), by }),
    z.strictObject({ paper: z.literal('reorder list'), on: day.optional(), by }),
    z.strictObject({ paper: z.literal('fill log'), ...fillLogFields, by }),
  ]) as unknown as z.ZodType<Paper & { by?: string }>,
  async answer(asking, args): Promise<PdfFile> {
    const department = await departmentSummary.answer(asking, {});
    if (department === null)
      throw new CannotAnswer('no department', 'No department is open.', 'Open or start a department first.');
    const sheet = await sheetOf(asking, args, department);
    const ledger = await ledgerHeads.answer(asking, {});
    const printing = { department, at: asking.now(), by: args.by ?? null, ledger };
    const tight = await print(framed(sheet, printing), sheet.rows, asking.watch);
    const { bytes, pages } = (await roomier(sheet, printing, tight.pages)) ?? tight;
    return { name: fileNameOf(sheet), pages, base64: bytes.toString('base64') };
  },
  example: { paper: 'morning page', station: 'Station 31', on: '2026-11-25' },
});

/** The paper with more room to write; null where it has none, or would need more pages. */
async function roomier(sheet: Sheet, printing: Printing, pages: number): Promise<Printed | null> {
  if (!sheet.roomier) return null;
  const made = await print(framed({ ...sheet, content: sheet.roomier() }, printing), sheet.rows, undefined);
  return made.pages === pages ? made : null;
}

async function sheetOf(asking: Asking, paper: Paper, department: DepartmentSummary): Promise<Sheet> {
  const today = textOrNull(asking.today) as string;
  switch (paper.paper) {
    case 'morning page':
      return morningPage(asking, paper.station, textOrNull(dayAsked(asking, paper.on)) as string, department);
    case 'coming due': {
      // Checked by the schema above; the contract leaves the filter's shape open.
      const filter = paper.filter as ListFilter;
      const on = textOrNull(dayAsked(asking, paper.on ?? filter.on)) as string;
      return comingDue(asking, filter, on);
    }
    case 'item history':
      return itemHistorySheet(asking, paper.item, today, department);
    case 'tag':
      return tagSheet(asking, paper.item, today);
    case 'rig sheet':
      return rigSheet(asking, paper.rig, textOrNull(dayAsked(asking, paper.on)) as string);
    case 'check-off sheet':
      return checkoffSheet(asking, paper.of, today);
    case 'changeover sheet':
      return changeoverSheet(asking, paper.from, paper.to, today);
    case 'rule sheet':
      return ruleSheet(asking, paper.family, today);
    case 'reorder list':
      return reorderList(asking, textOrNull(dayAsked(asking, paper.on)) as string);
    case 'fill log': {
      // Its name and whoever prints it are the paper's own.
      const { paper: _name, by: _by, ...filter } = paper as typeof paper & { by?: string };
      return fillLog(asking, filter, today);
    }
  }
}

/** `Morning page, Station 31, 2026-11-25.pdf`, without what a file's name may not hold on some system. */
function fileNameOf(sheet: Sheet): string {
  const plain = `${nameOf(sheet)}, ${sheet.on}`.replace(/[/\\:*?"<>|\p{Cc}]/gu, ' ').replace(/\s+/g, ' ');
  return `${plain.slice(0, 120).trim()}.pdf`;
}
