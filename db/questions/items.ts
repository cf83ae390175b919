/** One thing: found by its number, whole on a page, with its history. */
import { z } from 'zod';
import { judgeFill, judgeStay, rechargeAt_psi } from '../../domain/acceptance/cylinder.ts';
import { cylinderDates, cylinderPolicies } from '../../domain/acceptance/cylinder-dates.ts';
import type { Day } from '../../domain/calendar/day.ts';
import { heaviest } from '../../domain/derive/due.ts';
import { owedBeforeReturn } from '../../domain/derive/storage.ts';
import { type Derived, derive, lifeEndsOn } from '../../domain/derive/thing.ts';
import type { Assignment, Condition, Values } from '../../domain/facts.ts';
import type { CylinderJudgment, HistoryLine, ItemPage, ItemSummary, Questions } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { asItemFacts, factsOf } from '../caches/facts.ts';
import { one } from '../store/statements.ts';
import { dueRowsOf } from './due.ts';
import { day, dayAsked, textOrNull, thingAsked, withNumber } from './fields.ts';
import { historyOf } from './history.ts';
import { type Asking, CannotAnswer, question } from './types.ts';
import { factInWords } from './words.ts';

interface SummaryRow {
  item: string;
  family: string;
  number: string;
  serial: string | null;
  what: string;
  place: string | null;
  placeId: string | null;
  unit: string | null;
  station: string | null;
  assignment: Assignment | null;
  condition: Condition;
  attributes: string;
  conditionSince: string | null;
}

function summary(asking: Asking, key: number, on: Day): { row: SummaryRow; summary: ItemSummary } {
  const row = one<SummaryRow>(
    asking.db,
    `SELECT t.id AS item, i.family, i.number, i.serial, i.what, p.path AS place, i.place AS placeId,
       u.name AS unit, s.name AS station, i.assignment, i.condition, i.attributes,
       i.condition_since AS conditionSince
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     LEFT JOIN units u ON u.key = p.unit LEFT JOIN places s ON s.key = p.station WHERE i.key = ?`,
    key,
  );
  if (!row) throw new CannotAnswer('not found', 'The thing is not there.', 'Find it by its number.', 'item');
  const { attributes: _attributes, conditionSince: _since, ...rest } = row;
  return { row, summary: { ...rest, state: heaviest(dueRowsOf(asking, key, on).map(r => r.state)) } };
}

export const itemFind = question({
  name: 'item.find',
  title: 'The things with a number; several where it is not unique',
  schema: z.strictObject({
    number: z.string(),
    family: z.string().optional(),
    on: day.optional(),
  }) as unknown as z.ZodType<Questions['item.find']['takes']>,
  answer: (asking, args) =>
    withNumber(asking, args.number, args.family).map(
      f => summary(asking, f.key, dayAsked(asking, args.on)).summary,
    ),
  example: { number: '31-107' },
});

export const itemPage = question({
  name: 'item.page',
  title: 'Everything that is shown of one thing',
  schema: z.strictObject({ item: z.string(), on: day.optional() }) as unknown as z.ZodType<
    Questions['item.page']['takes']
  >,
  answer(asking, args): ItemPage {
    const thing = thingAsked(asking, { item: args.item });
    const on = dayAsked(asking, args.on);
    const { row, summary: short } = summary(asking, thing.key, on);
    const derived = derive(asItemFacts(factsOf(asking.db, thing.key)), readBook(asking.db)) as Derived;
    const due = dueRowsOf(asking, thing.key, on);
    const dates = due.flatMap(r => (r.dueOn === null ? [] : [r.dueOn])).sort();
    const [earliest] = dates;
    return {
      ...short,
      attributes: JSON.parse(row.attributes) as Values,
      conditionSince: row.conditionSince,
      known: derived.place ? { how: derived.place.how, since: derived.place.since } : null,
      owed: derived.owed.map(({ activity, since, because }) => ({ activity, since, because })),
      due,
      next:
        earliest === undefined
          ? null
          : { dueOn: earliest, titles: due.filter(r => r.dueOn === earliest).map(r => r.title) },
      lifeEndsOn: textOrNull(lifeEndsOn(derived, on)),
      beforeReturn: owedBeforeReturn(derived, readBook(asking.db), on).map(r => r.title),
      clashes: withNumber(asking, short.number, short.family)
        .filter(f => f.id !== thing.id && f.condition !== 'retired' && f.condition !== 'disposed')
        .map(f => f.id),
      cylinder: short.family === 'cylinder' ? judgeCylinder(asking, derived, on) : null,
    };
  },
  example: { item: '<id>' },
});

function judgeCylinder(asking: Asking, derived: Derived, on: Day): CylinderJudgment {
  const book = readBook(asking.db);
  const dates = cylinderDates(derived, book, on);
  const policies = cylinderPolicies(book, on);
  const pressure = derived.attributes.servicePressure_psi;
  return {
    fill: judgeFill(dates, on, policies),
    stayInService: judgeStay(dates, on, policies),
    rechargeAt_psi: typeof pressure === 'number' && pressure > 0 ? rechargeAt_psi(pressure) : null,
  };
}

export const itemHistory = question({
  name: 'item.history',
  title: 'Every fact of a thing, voided ones too, the latest told first',
  schema: z.strictObject({
    number: z.string().optional(),
    item: z.string().optional(),
    family: z.string().optional(),
  }) as unknown as z.ZodType<Questions['item.history']['takes']>,
  answer(asking, args): HistoryLine[] {
    const thing = thingAsked(asking, args);
    const family =
      one<{ family: string }>(asking.db, 'SELECT family FROM items WHERE key = ?', thing.key)?.family ?? '';
    return historyOf(asking, thing.key, (kind, values) => factInWords(asking, family, kind, values));
  },
  example: { number: '31-107' },
});
