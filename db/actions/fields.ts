/** Field schemas that several actions share, and the checks that go with them. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { showDay, showWhen } from '../../domain/calendar/show.ts';
import { firstDay, parseWhen, type When } from '../../domain/calendar/when.ts';
import { PHOTO_TYPES, PHOTOS_LIMIT, SHA256 } from '../../domain/photos.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type { Attribute, Family } from '../../domain/rulebook/types.ts';
import type { Look, Refusal } from './types.ts';
import { refuse } from './types.ts';

export const id = z.string().min(1).max(80);
export const words = z.string().trim().min(1).max(400);
export const longWords = z.string().trim().min(1).max(4000);
/** A partial date; its place in the body is filled with today where it is left out. */
export const when = z
  .string()
  .refine(text => parseWhen(text) !== null, {
    error: 'is not a date. Write 2026, 2026-06, 2026-06-14 or 2026-06-14T03:10, with a day that exists.',
  })
  .transform(text => text as When);
/** A field's value. A decimal given as a number is kept as text: the ledger's numbers are whole. */
export const value = z.union([
  z.string(),
  z.number().transform(n => (Number.isSafeInteger(n) ? n : String(n))),
  z.boolean(),
  z.null(),
]);
export const values = z.record(z.string(), value);
/** Photos of what is told. A deed may say `#0`, the first that its act brings, or the SHA-256 of one that is here. */
export const photos = z
  .array(
    z.strictObject({
      sha256: z.string().regex(SHA256),
      mime: z.enum(PHOTO_TYPES),
      size_bytes: z.number().int().min(1),
    }),
  )
  .min(1)
  .max(PHOTOS_LIMIT);

/** Refuse a date after today: what happened on the floor has happened. */
export function notFuture(look: Look, on: When, field = 'on', what = 'The date'): Refusal[] {
  return firstDay(on) > look.today
    ? [
        refuse(
          'future date',
          `${what} ${showWhen(on)} is after today, ${showDay(look.today)}.`,
          'Enter the day it was done.',
          field,
        ),
      ]
    : [];
}

/** Refuse a reference to a thing that is not there, or is of another kind. */
export function mustBe(look: Look, thing: string | undefined, kind: string, field: string): Refusal[] {
  if (thing === undefined || look.kindOf(thing) === kind) return [];
  return [
    refuse(
      'not found',
      `No ${kind} has the id ${thing}.`,
      `Name a ${kind} that is in the department.`,
      field,
    ),
  ];
}

/** Refuse what holds no things: a place does, and a kit, which is a thing as well. */
export function mustHold(look: Look, place: string | undefined, field: string): Refusal[] {
  return place !== undefined && look.kit(place) ? [] : mustBe(look, place, 'place', field);
}

/** Refuse attributes that the family does not have, or whose value has another form. */
export function attributeProblems(
  family: Family,
  attributes: Readonly<Record<string, unknown>>,
  today: Day,
): Refusal[] {
  const problems: Refusal[] = [];
  for (const [key, v] of Object.entries(attributes)) {
    const field = `attributes.${key}`;
    const attribute = family.attributes.find(a => a.key === key);
    if (!attribute) {
      problems.push(
        refuse(
          'unknown attribute',
          `${family.title} has no attribute ${key}.`,
          `Use one of: ${family.attributes.map(a => a.key).join(', ')}.`,
          field,
        ),
      );
      continue;
    }
    const wrong = v === null ? null : valueProblem(attribute, v, today);
    if (wrong) problems.push(refuse('bad value', `${attribute.title} ${wrong.wrong}`, wrong.todo, field));
  }
  return problems;
}

/** What is wrong with a value of an attribute or reading, or null. */
export function valueProblem(
  attribute: Attribute,
  v: unknown,
  today: Day,
): { wrong: string; todo: string } | null {
  switch (attribute.type) {
    case 'text':
      return typeof v === 'string' ? null : { wrong: 'is not text.', todo: 'Write it in words.' };
    case 'flag':
      return typeof v === 'boolean' ? null : { wrong: 'is neither yes nor no.', todo: 'Say true or false.' };
    case 'choice': {
      const choices = attribute.choices?.map(c => c.value) ?? [];
      return typeof v === 'string' && choices.includes(v)
        ? null
        : { wrong: `cannot be ${String(v)}.`, todo: `Choose one of: ${choices.join(', ')}.` };
    }
    case 'whole':
      return Number.isSafeInteger(v) && (v as number) >= 0
        ? null
        : {
            wrong: `is ${String(v)}, not a whole number.`,
            todo: `Enter it in whole ${attribute.unit ?? 'units'}.`,
          };
    case 'decimal':
      return (typeof v === 'string' && /^\d+(\.\d+)?$/.test(v)) ||
        (Number.isSafeInteger(v) && (v as number) >= 0)
        ? null
        : {
            wrong: `is ${String(v)}, not a number.`,
            todo: `Enter it in ${attribute.unit ?? 'units'} with a decimal point, as text: "1.75".`,
          };
    case 'when': {
      const date = typeof v === 'string' ? parseWhen(v) : null;
      if (!date) return { wrong: `${String(v)} is not a date.`, todo: 'Write 2026, 2026-06 or 2026-06-14.' };
      if ((attribute.key === 'made' || attribute.key === 'inService') && firstDay(date) > today)
        return { wrong: `${showWhen(date)} is after today.`, todo: 'Enter the date that has been.' };
      return null;
    }
  }
}

/** The family by id, or the refusal that names those there are. */
export function mustHaveFamily(familyId: string): { family: Family } | { problems: Refusal[] } {
  const family = familyOf(familyId);
  if (family) return { family };
  return {
    problems: [
      refuse('unknown family', `There is no family ${familyId}.`, 'Use a family of the rule book.', 'family'),
    ],
  };
}
