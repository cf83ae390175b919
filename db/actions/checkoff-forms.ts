/** What the deeds of a check-off share: the shape of a mark, and what must be so of a draft. */
import { z } from 'zod';
import { showDay } from '../../domain/calendar/show.ts';
import { lastDay } from '../../domain/calendar/when.ts';
import { EXCEPTIONS, inScope, NEXT_STEPS } from '../../domain/checkoffs/marks.ts';
import { id, longWords, photos, when, words } from './fields.ts';
import { type CheckoffKnown, type Look, type Refusal, refuse } from './types.ts';

/** A local clock time of a day, as a sheet has it. */
export const clockTime = when.refine(at => at.length === 16, {
  error: 'is not a day with a clock time. Write it as 2026-11-25T07:10.',
});

const exception = z.strictObject({
  line: id.nullable().default(null),
  item: id.nullable().default(null),
  kind: z.enum(EXCEPTIONS),
  short: z.number().int().min(0).nullable().default(null),
  reading: words.nullable().default(null),
  note: longWords.nullable().default(null),
  next: z.enum(NEXT_STEPS),
  with: id.nullable().default(null),
  to: id.nullable().default(null),
  defect: id.nullable().default(null),
  photos: photos.optional(),
});

export const placeMark = z.strictObject({
  place: words,
  at: id.nullable().default(null),
  present: z.boolean(),
  exceptions: z.array(exception).max(500).default([]),
  operated: z
    .array(
      z.strictObject({
        line: id,
        item: id.nullable().default(null),
        works: z.boolean(),
        reading: words.nullable().default(null),
      }),
    )
    .max(500)
    .default([]),
  seen: z.array(id).max(1000).default([]),
  leftOut: longWords.nullable().default(null),
});

/** The lines that a check-off goes through: those of its places, as the list stands. */
export function linesOf(look: Look, known: CheckoffKnown) {
  return inScope(look.carryList(known.of), known);
}

export function noCheckoff(checkoff: string): Refusal[] {
  return [refuse('not found', `No check-off has the id ${checkoff}.`, 'Begin one first.', 'checkoff')];
}

export function stillDraft(known: CheckoffKnown): Refusal[] {
  if (known.signed !== null)
    return [
      refuse(
        'signed',
        `It was signed on ${showDay(lastDay(known.signed))}.`,
        'A mistake in it is corrected in the open: void what was wrong, or write what is so now.',
        'checkoff',
      ),
    ];
  return known.setAside ? [refuse('set aside', 'It was set aside.', 'Begin another one.', 'checkoff')] : [];
}
