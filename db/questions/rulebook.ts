/** The rule book: what is offered, what is adopted, and what it would say of a thing that is not here. */
import { z } from 'zod';
import { type Day, dayText } from '../../domain/calendar/day.ts';
import { parseWhen } from '../../domain/calendar/when.ts';
import { explain, whyLine } from '../../domain/derive/explain.ts';
import { derive, inForce, lifeEndsOn } from '../../domain/derive/thing.ts';
import { type Fact, OUTCOMES } from '../../domain/facts.ts';
import { type Book, bookFrom, policyOn } from '../../domain/rulebook/book.ts';
import { PERMIT_OFFERS, SPEC_PERIODS } from '../../domain/rulebook/cylinder.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { POLICIES } from '../../domain/rulebook/policies.ts';
import { attributeProblems, values, when } from '../actions/fields.ts';
import type { Questions, RulebookList, RuleLine, Trial, TrialRow } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const rulebookList = question({
  name: 'rulebook.list',
  title: 'Every requirement, adopted or offered, the permits and the policies',
  schema: z.strictObject({ family: z.string().optional() }) as unknown as z.ZodType<{ family?: string }>,
  answer(asking, args): RulebookList {
    const book = readBook(asking.db);
    const adopted: RuleLine[] = [...book.versions.values()].flat().map(v => ({
      requirement: v.requirement,
      from: textOrNull(v.from),
      to: textOrNull(v.to),
      adopted: true,
    }));
    const known = new Set(adopted.map(a => a.requirement.id));
    const offered: RuleLine[] = SHIPPED_REQUIREMENTS.filter(r => !known.has(r.id)).map(requirement => ({
      requirement,
      from: null,
      to: null,
      adopted: false,
    }));
    const rules = [...adopted, ...offered].filter(
      r => args.family === undefined || r.requirement.family === args.family,
    );
    return { rules, permits: permitsOf(asking, book), policies: policiesOf(asking, book) };
  },
  example: { family: 'hose' },
});

/** Every permit that is offered, confirmed, or marked on a cylinder of the department. */
function permitsOf(asking: Asking, book: Book): RulebookList['permits'] {
  const table = new Set(SPEC_PERIODS.map(s => s.spec));
  const marked = all<{ spec: string; n: number }>(
    asking.db,
    'SELECT spec, count(*) AS n FROM items WHERE spec IS NOT NULL GROUP BY spec',
  ).filter(m => !table.has(m.spec));
  const names = new Set([
    ...marked.map(m => m.spec),
    ...book.permits.keys(),
    ...PERMIT_OFFERS.map(o => o.permit),
  ]);
  return [...names].sort().map(permit => ({
    permit,
    offer: PERMIT_OFFERS.find(o => o.permit === permit) ?? null,
    confirmed: book.permits.get(permit) ?? null,
    cylinders: marked.find(m => m.spec === permit)?.n ?? 0,
  }));
}

function policiesOf(asking: Asking, book: Book): RulebookList['policies'] {
  return POLICIES.map(p => ({
    ...p,
    choice: policyOn(book, p.id, asking.today),
    adopted: book.policies.some(c => c.policy === p.id),
  }));
}

export const rulebookTrial = question({
  name: 'rulebook.trial',
  title: 'What the adopted book would say of a thing that is not in the department',
  schema: z.strictObject({
    family: z.string(),
    attributes: values,
    history: z.array(z.strictObject({ activity: z.string(), on: when, outcome: z.enum(OUTCOMES) })),
    on: day,
  }) as unknown as z.ZodType<Questions['rulebook.trial']['takes']>,
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
    return tryOn(judged, args.family, args.attributes, args.history, on);
  },
  example: {
    family: 'hose',
    attributes: { made: '2025-03-01', inService: '2025-09-01' },
    history: [{ activity: 'service test', on: '2026-02-14', outcome: 'pass' }],
    on: '2026-11-25',
  },
});

function tryOn(
  book: Book,
  family: string,
  attributes: Questions['rulebook.trial']['takes']['attributes'],
  history: Questions['rulebook.trial']['takes']['history'],
  on: Day,
): Trial {
  const base = { device: 'trial', recordedAt: 0, n: 0 };
  const facts: Fact[] = [
    {
      ...base,
      id: 'thing',
      kind: 'identity',
      effective: '0000' as Fact['effective'],
      clock: 0,
      values: { family, number: 'trial', attributes },
    },
    ...history.map(
      (h, i): Fact => ({
        ...base,
        id: `record ${i + 1}`,
        kind: 'record',
        effective: parseWhen(h.on) ?? ('0000' as Fact['effective']),
        clock: i + 1,
        values: { activity: h.activity, outcome: h.outcome },
      }),
    ),
  ];
  const derived = derive(facts, book);
  if (!derived) return { rows: [], lifeEndsOn: null };
  const rows = (book.versions.get(family) ?? [])
    .filter(v => inForce(v, on))
    .flatMap((version): TrialRow[] => {
      const why = explain(derived, version.requirement.id, book, on);
      if (!why || !derived.due.some(r => r.requirement === version.requirement.id)) return [];
      return [
        {
          requirement: version.requirement.id,
          title: version.requirement.title,
          dueOn: why.row.dueOn === null ? null : dayText(why.row.dueOn),
          state: why.state,
          why: whyLine(why),
        },
      ];
    });
  return { rows, lifeEndsOn: textOrNull(lifeEndsOn(derived, on)) };
}
