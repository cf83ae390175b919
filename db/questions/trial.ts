/** What the adopted book would say of a thing that is not in the department. */

import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { parseWhen } from '../../domain/calendar/when.ts';
import { explain, whyLine } from '../../domain/derive/explain.ts';
import { derive, inForce, lifeEndsOn } from '../../domain/derive/thing.ts';
import { ASSIGNMENTS, type Fact, OUTCOMES } from '../../domain/facts.ts';
import { type Book, bookFrom } from '../../domain/rulebook/book.ts';
import { isConfirmed } from '../../domain/rulebook/force.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { METERS } from '../../domain/rulebook/types.ts';
import { attributeProblems, values, when } from '../actions/fields.ts';
import type { Questions, Trial, TrialRow } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { CannotAnswer, question } from './types.ts';

type Asked = Questions['rulebook.trial']['takes'];

export const rulebookTrial = question({
  name: 'rulebook.trial',
  title: 'What the adopted book would say of a thing that is not in the department',
  schema: z.strictObject({
    family: z.string(),
    attributes: values,
    history: z.array(
      z.strictObject({
        activity: z.string(),
        on: when,
        outcome: z.enum(OUTCOMES),
        readings: values.optional(),
      }),
    ),
    meters: z
      .array(z.strictObject({ meter: z.enum(METERS), reading: z.number().int().min(0), on: when }))
      .optional(),
    happenings: z.array(z.strictObject({ trigger: z.string(), on: when })).optional(),
    assignment: z.enum(ASSIGNMENTS).optional(),
    on: day,
  }) as unknown as z.ZodType<Asked>,
  answer(asking, args): Trial {
    const family = familyOf(args.family);
    if (!family)
      throw new CannotAnswer(
        'unknown family',
        `There is no family ${args.family}.`,
        `Use one of: ${FAMILIES.map(f => f.id).join(', ')}.`,
        'family',
      );
    const on = dayAsked(asking, args.on);
    const [problem] = attributeProblems(family, args.attributes, on);
    if (problem) throw new CannotAnswer(problem.code, problem.message, problem.todo, problem.field);
    args.history.forEach(({ activity }, i) => {
      if (!family.activities.some(a => a.id === activity))
        throw new CannotAnswer(
          'unknown activity',
          `${activity} is not done to a ${family.title.toLowerCase()}.`,
          `Use one of: ${family.activities.map(a => a.id).join(', ')}.`,
          `history.${i}.activity`,
        );
    });
    const book = readBook(asking.db);
    // Before a department is open there is only the offer to try.
    const judged =
      book.versions.size > 0
        ? book
        : bookFrom(
            SHIPPED_REQUIREMENTS.map(requirement => ({ requirement, from: null })),
            [],
            [],
          );
    args.happenings?.forEach(({ trigger }, i) => {
      if (!family.triggers.some(h => h.id === trigger))
        throw new CannotAnswer(
          'unknown happening',
          `${trigger} is not in the book for a ${family.title.toLowerCase()}.`,
          `Use one of: ${family.triggers.map(h => h.id).join(', ') || 'none'}.`,
          `happenings.${i}.trigger`,
        );
    });
    return tryOn(judged, args, on);
  },
  example: {
    family: 'hose',
    attributes: { made: '2025-03-01', inService: '2025-09-01' },
    history: [{ activity: 'service test', on: '2026-02-14', outcome: 'pass' }],
    on: '2026-11-25',
  },
});

function tryOn(book: Book, asked: Asked, on: Day): Trial {
  const { family } = asked;
  const derived = derive(imagined(asked), book);
  if (!derived) return { rows: [], lifeEndsOn: null };
  const rows = (book.versions.get(family) ?? [])
    .filter(v => inForce(v, on))
    .flatMap((version): TrialRow[] => {
      const { requirement } = version;
      const why = explain(derived, requirement.id, book, on);
      if (!why || !derived.due.some(r => r.requirement === requirement.id && inForce(r, on))) return [];
      return [
        {
          requirement: requirement.id,
          title: requirement.title,
          dueOn: textOrNull(why.row.dueOn ?? onceConfirmed(asked, requirement.id, book, on)),
          state: why.state,
          why: whyLine(why),
        },
      ];
    });
  return { rows, lifeEndsOn: textOrNull(lifeEndsOn(derived, on)) };
}

/** The date of a requirement that the department has not confirmed, as it would be if it had; null for every other. */
function onceConfirmed(asked: Asked, id: string, book: Book, on: Day): Day | null {
  const versions = book.versions.get(asked.family) ?? [];
  if (versions.every(v => v.requirement.id !== id || isConfirmed(v.requirement))) return null;
  const confirmed = versions.map(v => ({ ...v, requirement: { ...v.requirement, confirmed: 'a trial' } }));
  const would = derive(imagined(asked), { ...book, versions: new Map([[asked.family, confirmed]]) });
  return would?.due.find(r => r.requirement === id && inForce(r, on))?.dueOn ?? null;
}

/** The facts of a thing that is only imagined. */
function imagined({ family, attributes, history, meters = [], happenings = [], assignment }: Asked): Fact[] {
  const base = { device: 'trial', recordedAt: 0, n: 0 };
  const always = '0000' as Fact['effective'];
  const on = (text: string) => parseWhen(text) ?? always;
  const owes = (trigger: string) => familyOf(family)?.triggers.find(t => t.id === trigger)?.owes ?? '';
  return [
    {
      ...base,
      id: 'thing',
      kind: 'identity',
      effective: always,
      clock: 0,
      values: { family, number: 'trial', attributes },
    },
    ...(assignment
      ? [
          {
            ...base,
            id: 'assigned',
            kind: 'assignment',
            effective: always,
            clock: 0,
            values: { assignment },
          } as const,
        ]
      : []),
    ...happenings.map(
      (h, i): Fact => ({
        ...base,
        id: `happening ${i + 1}`,
        kind: 'owed',
        effective: on(h.on),
        clock: i + 1,
        values: { activities: [owes(h.trigger)], because: h.trigger },
      }),
    ),
    ...meters.map(
      (m, i): Fact => ({
        ...base,
        id: `reading ${i + 1}`,
        kind: 'meter',
        effective: on(m.on),
        clock: i + 1,
        values: { meter: m.meter, reading: m.reading },
      }),
    ),
    ...history.map(
      (h, i): Fact => ({
        ...base,
        id: `record ${i + 1}`,
        kind: 'record',
        effective: on(h.on),
        clock: happenings.length + i + 1,
        values: { activity: h.activity, outcome: h.outcome, ...(h.readings ? { readings: h.readings } : {}) },
      }),
    ),
  ];
}
