/** Why this date: the rule as adopted, the records that count and those that do not, the arithmetic. */
import { z } from 'zod';
import { explain } from '../../domain/derive/explain.ts';
import { derive } from '../../domain/derive/thing.ts';
import type { Explanation } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { asItemFacts, factsOf } from '../caches/facts.ts';
import { day, dayAsked, textOrNull, thingAsked } from './fields.ts';
import { CannotAnswer, question } from './types.ts';

export const dueExplain = question({
  name: 'due.explain',
  title: 'Why a requirement of a thing stands as it does on a day',
  schema: z.strictObject({
    number: z.string().optional(),
    item: z.string().optional(),
    family: z.string().optional(),
    requirement: z.string(),
    on: day.optional(),
  }) as unknown as z.ZodType<import('../api.ts').Questions['due.explain']['takes']>,
  answer(asking, args): Explanation {
    const thing = thingAsked(asking, args);
    const on = dayAsked(asking, args.on);
    const book = readBook(asking.db);
    const derived = derive(asItemFacts(factsOf(asking.db, thing.key)), book);
    const why = derived && explain(derived, args.requirement, book, on);
    if (!derived || !why) {
      const ids = (book.versions.get(derived?.family ?? '') ?? []).map(v => v.requirement.id);
      throw new CannotAnswer(
        'not in force',
        `${args.requirement} is not in force for ${derived?.number ?? thing.id} on that day.`,
        `Use one of: ${[...new Set(ids)].join(', ') || 'none is adopted for this family'}.`,
        'requirement',
      );
    }
    return {
      item: thing.id,
      number: derived.number,
      title: why.requirement.title,
      requirement: why.requirement.id,
      on: textOrNull(on) as string,
      state: why.state,
      dueOn: why.state === 'never done' ? null : textOrNull(why.row.dueOn),
      lastOn: textOrNull(why.row.lastOn),
      paragraph: why.paragraph,
      rule: why.requirement,
      inForce: why.inForce,
      steps: why.steps,
      counted: why.counted,
      notCounted: why.notCounted,
      clocks: why.clocks,
      wouldChange: why.wouldChange,
      force: why.force,
      dueTo: textOrNull(why.row.dueTo),
    };
  },
  example: { number: '31-107', requirement: 'hose.service-test', on: '2026-11-25' },
});
