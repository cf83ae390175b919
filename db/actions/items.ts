/** Tracked things: received, amended, moved, assigned. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { firstDay, lastDay, parseWhen } from '../../domain/calendar/when.ts';
import { ASSIGNMENTS, HOW_KNOWN } from '../../domain/facts.ts';
import { attributeProblems, id, mustHaveFamily, mustHold, notFuture, values, when, words } from './fields.ts';
import { ALWAYS, action, type FactDraft, type Look, type Refusal, refuse } from './types.ts';

const ARRIVES_AS = ['on order', 'received', 'serviceable'] as const;

export const itemReceive = action({
  name: 'item.receive',
  v: 1,
  title: 'Receive a thing that is tracked one by one, with its number',
  schema: z.strictObject({
    family: z.string(),
    number: words,
    serial: words.nullable().optional(),
    attributes: values.default({}),
    place: id.optional(),
    how: z.enum(HOW_KNOWN).default('sight'),
    assignment: z.enum(ASSIGNMENTS).optional(),
    condition: z.enum(ARRIVES_AS).default('serviceable'),
    /** Say so where the number is in use by another thing: both stay, shown as a clash to settle. */
    evenIfNumberInUse: z.boolean().default(false),
    on: when,
  }),
  entitlement: 'record',
  refs: ['place'],
  family: (_look, body) => body.family,
  check(look, body) {
    const known = mustHaveFamily(body.family);
    if ('problems' in known) return known.problems;
    if (body.family === 'apparatus')
      return [
        refuse(
          'a rig',
          'A rig is not received as a thing.',
          'Add the rig to the department, then amend it.',
          'family',
        ),
      ];
    return [
      ...notFuture(look, body.on, 'on', 'The day it was received,'),
      ...mustHold(look, body.place, 'place'),
      ...attributeProblems(known.family, body.attributes, look.today),
      ...(body.evenIfNumberInUse ? [] : numberInUse(look, body.family, body.number, null)),
    ];
  },
  apply(entry, body) {
    const at = { thing: entry.id, effective: body.on };
    const facts: FactDraft[] = [
      {
        thing: entry.id,
        kind: 'identity',
        effective: ALWAYS,
        values: {
          family: body.family,
          number: body.number,
          serial: body.serial ?? null,
          attributes: body.attributes,
        },
      },
      { ...at, kind: 'condition', values: { condition: body.condition } },
    ];
    if (body.place)
      facts.push({ ...at, kind: 'place', values: { place: body.place, how: body.how }, refs: [body.place] });
    if (body.assignment) facts.push({ ...at, kind: 'assignment', values: { assignment: body.assignment } });
    return { things: [{ id: entry.id, kind: 'item' }], facts };
  },
  example: {
    family: 'hose',
    number: '31-107',
    attributes: {
      diameter_in: '1.75',
      length_ft: 50,
      use: 'attack',
      made: '2021-09',
      inService: '2021-11-09',
    },
    place: '&2',
  },
});

export const itemAmend = action({
  name: 'item.amend',
  v: 1,
  title: 'Amend what is known of a thing: its number, serial or attributes (null clears one)',
  schema: z.strictObject({
    item: id,
    number: words.optional(),
    serial: words.nullable().optional(),
    attributes: values.optional(),
    /** From when the new values hold; where it is left out, from the beginning: a correction. */
    from: when.optional(),
    why: words.optional(),
  }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check(look, body) {
    const item = look.item(body.item);
    if (!item) return noItem(body.item);
    const known = mustHaveFamily(item.family);
    if (item.family === 'apparatus' && (body.number !== undefined || body.serial !== undefined))
      return [refuse('a rig', `${item.number} is a rig.`, 'Amend its name where rigs are named.', 'number')];
    return [
      ...(body.from ? notFuture(look, body.from, 'from') : []),
      ...('family' in known && body.attributes
        ? attributeProblems(known.family, body.attributes, look.today)
        : []),
      ...(body.number ? numberInUse(look, item.family, body.number, body.item) : []),
      ...(body.number || body.serial !== undefined || body.attributes
        ? []
        : [refuse('nothing to amend', 'Nothing is amended.', 'Give a number, a serial or attributes.')]),
    ];
  },
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'identity',
        // A correction was always so; the Lamport clock lets the later word win.
        effective: body.from ?? ALWAYS,
        values: {
          ...(body.number ? { number: body.number } : {}),
          ...(body.serial !== undefined ? { serial: body.serial } : {}),
          ...(body.attributes ? { attributes: body.attributes } : {}),
        },
      },
    ],
  }),
  example: { item: '&3', attributes: { made: '2021-08' }, why: 'Misread stencil' },
});

export const itemMove = action({
  name: 'item.move',
  v: 1,
  title: 'Move a thing to a place, and say how its place is known',
  schema: z.strictObject({
    item: id,
    to: id,
    how: z.enum(HOW_KNOWN).default('sight'),
    note: words.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'to'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...mustHold(look, body.to, 'to'),
    ...insideItself(look, body.item, body.to, 'to'),
    ...gone(look, body.item, 'moved'),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'place',
        effective: body.on,
        values: { place: body.to, how: body.how, ...(body.note ? { note: body.note } : {}) },
        refs: [body.to],
      },
    ],
  }),
  example: { item: '&3', to: '&2', how: 'sight' },
});

export const itemAssign = action({
  name: 'item.assign',
  v: 1,
  title: 'Change what a thing is assigned as: first line, reserve, ready spare, training only and so on',
  schema: z.strictObject({ item: id, assignment: z.enum(ASSIGNMENTS), note: words.optional(), on: when }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => [...deedOnItem(look, body.item, body.on), ...gone(look, body.item, 'assigned')],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'assignment',
        effective: body.on,
        values: { assignment: body.assignment, ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { item: '&3', assignment: 'ready spare' },
});

/** A kit lies in no place that is inside it. */
export function insideItself(look: Look, item: string, to: string, field: string): Refusal[] {
  if (!look.kit(item)) return [];
  // As many steps as any department is deep: a circle that two devices made ends too.
  for (let at: string | null = to, step = 0; at !== null && step < 50; at = look.placeUnder(at), step++)
    if (at === item)
      return [
        refuse('inside itself', 'A kit cannot lie inside itself.', 'Name the place that it lies in.', field),
      ];
  return [];
}

export function familyOfItem(look: Look, body: { item: string }): string | null {
  return look.item(body.item)?.family ?? null;
}

/**
 * The thing must be there, the date not after today and not before it was made.
 * @param rigsToo a rig is inspected, tested and repaired like any thing; it is not moved, tagged or retired as one
 */
export function deedOnItem(
  look: Look,
  item: string,
  on: ReturnType<typeof when.parse>,
  rigsToo: 'rigs too' | null = null,
): Refusal[] {
  const known = look.item(item);
  if (!known) return noItem(item);
  if (known.family === 'apparatus' && !rigsToo)
    return [
      refuse(
        'a rig',
        `${known.number} is a rig.`,
        'Take it out of service, return it or say who rides it on its own page.',
        'item',
      ),
    ];
  const made = typeof known.attributes.made === 'string' ? parseWhen(known.attributes.made) : null;
  const early =
    made !== null && lastDay(on) < firstDay(made)
      ? [
          refuse(
            'before made',
            `${showWhen(on)} is before ${known.number} was made, ${showWhen(made)}.`,
            'Enter the day it was done, or amend the day it was made.',
            'on',
          ),
        ]
      : [];
  return [...notFuture(look, on), ...early];
}

export function noItem(item: string): Refusal[] {
  return [refuse('not found', `No thing has the id ${item}.`, 'Find it by its number first.', 'item')];
}

/** A thing that was disposed of is not moved or worked on any more. */
export function gone(look: Look, item: string, verb: string): Refusal[] {
  const known = look.item(item);
  return known?.condition === 'disposed'
    ? [
        refuse(
          'disposed',
          `${known.number} was disposed of and cannot be ${verb}.`,
          'If it is still here, void the disposal and say why.',
          'item',
        ),
      ]
    : [];
}

function numberInUse(look: Look, family: string, number: string, except: string | null): Refusal[] {
  const others = look.withNumber(family, number).filter(other => other !== except);
  return others.length === 0
    ? []
    : [
        refuse(
          'number in use',
          `Number ${number} is in use by another thing of this family.`,
          'Give another number, or say evenIfNumberInUse and settle the clash later.',
          'number',
        ),
      ];
}
