/** Is the ledger whole, and what is the vocabulary. */
import { z } from 'zod';
import { ASSIGNMENTS, CONDITIONS, OUTCOMES } from '../../domain/facts.ts';
import { FAMILIES } from '../../domain/rulebook/index.ts';
import type { Questions } from '../api.ts';
import { verifyAttachments } from '../ledger/attachments.ts';
import { verifyLedger } from '../ledger/verify.ts';
import { question } from './types.ts';

export const ledgerVerify = question({
  name: 'ledger.verify',
  title:
    'Check every entry of the ledger and every photo; with an anchor from paper or a backup, also that no tail is cut off',
  schema: z.strictObject({
    anchor: z
      .strictObject({
        device: z.string(),
        seq: z.number().int(),
        hash: z.string().regex(/^[0-9a-f]{16,64}$/),
      })
      .optional(),
  }) as unknown as z.ZodType<Questions['ledger.verify']['takes']>,
  answer(asking, args) {
    const ledger = verifyLedger(asking.db, args.anchor, asking.watch);
    const { entries } = ledger;
    const photos = verifyAttachments(asking.db, () => asking.watch?.(entries, entries) ?? 'go on');
    return { ...ledger, ok: ledger.ok && photos.damaged.length === 0, photos };
  },
  example: {},
});

export const vocabularyList = question({
  name: 'vocabulary.list',
  title:
    'Families with their attributes, activities, repairs and happenings; assignments, conditions, outcomes',
  schema: z.strictObject({}) as unknown as z.ZodType<Record<string, never>>,
  answer: () => ({
    families: [...FAMILIES],
    assignments: [...ASSIGNMENTS],
    conditions: [...CONDITIONS],
    outcomes: [...OUTCOMES],
  }),
  example: {},
});
