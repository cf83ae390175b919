/** Many swapped at once in the night: twelve down, twelve up, numbers owed; the numbers are settled at shift change. */
import { z } from 'zod';
import { mustCarry } from './carry.ts';
import { id, longWords, mustBe, mustHaveFamily, mustHold, notFuture, when, words } from './fields.ts';
import { action, type FactDraft, type Look, type Refusal, refuse } from './types.ts';

const amount = z.number().int().min(0).max(500);
const numbers = z.array(words).max(500).default([]);

export const swapMany = action({
  name: 'swap.many',
  v: 1,
  title: 'Many of a kind were swapped and nobody read their numbers: so many down, so many up, numbers owed',
  schema: z.strictObject({
    of: id,
    family: z.string().default('cylinder'),
    down: amount,
    up: amount,
    /** The rack they were taken to and from. */
    place: id,
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['of', 'place'],
  check(look, body) {
    const known = mustHaveFamily(body.family);
    return [
      ...('problems' in known ? known.problems : []),
      ...mustCarry(look, body.of),
      ...mustBe(look, body.place, 'place', 'place'),
      ...notFuture(look, body.on),
      ...(body.down + body.up === 0
        ? [refuse('nothing', 'Nothing was swapped.', 'Say how many went down and how many up.', 'down')]
        : []),
    ];
  },
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'swap' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: {
          of: body.of,
          family: body.family,
          down: body.down,
          up: body.up,
          place: body.place,
          note: body.note ?? null,
          by: entry.by,
        },
        refs: [body.of, body.place],
      },
    ],
  }),
  example: { of: '&0', down: 12, up: 12, place: '&2', on: '2026-11-25T03:10' },
});

export const swapSettle = action({
  name: 'swap.settle',
  v: 1,
  title: 'Numbers that were owed of a swap are read: what came down to the rack, and what went up to the rig',
  schema: z.strictObject({
    swap: id,
    down: numbers,
    up: numbers,
    /** Where on the rig those that went up lie. */
    to: id.optional(),
    /** Filled in by the store: the things with these numbers. */
    things: z.strictObject({ down: z.array(id), up: z.array(id), rack: id }).optional(),
    /** What is owed of it and will never be known, and why. */
    giveUp: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['swap', 'to'],
  check(look, body) {
    const known = look.swap(body.swap);
    if (!known)
      return [refuse('not found', `No swap has the id ${body.swap}.`, 'Choose one from the list.', 'swap')];
    return [
      ...notFuture(look, body.on),
      ...mustHold(look, body.to, 'to'),
      ...(body.down.length + body.up.length === 0 && body.giveUp === undefined
        ? [
            refuse(
              'nothing',
              'No number is given.',
              'Read the numbers, or say why they will never be known.',
              'down',
            ),
          ]
        : []),
      ...(['down', 'up'] as const).flatMap(way => [
        ...tooMany(way, body[way].length, known[way] - known.read[way]),
        ...body[way].flatMap(number => named(look, known.family, number, way)),
        ...twice(body[way], way),
      ]),
      ...(body.up.length > 0 && body.to === undefined
        ? [
            refuse(
              'missing',
              'It is not said where those that went up lie.',
              'Name the place on the rig.',
              'to',
            ),
          ]
        : []),
    ];
  },
  complete(look, body) {
    const known = look.swap(body.swap);
    if (!known) return body;
    const ids = (list: readonly string[]) =>
      list.flatMap(number => look.withNumber(known.family, number).slice(0, 1));
    return { ...body, things: { down: ids(body.down), up: ids(body.up), rack: known.place } };
  },
  apply(entry, body) {
    const things = body.things ?? { down: [], up: [], rack: '' };
    const lies = (item: string, place: string): FactDraft => ({
      thing: item,
      kind: 'place',
      effective: body.on,
      values: { place, how: 'number read' },
      refs: [place],
    });
    return {
      facts: [
        {
          thing: body.swap,
          kind: 'read',
          effective: body.on,
          values: {
            down: things.down,
            up: things.up,
            giveUp: body.giveUp ?? null,
            by: entry.by,
          },
          refs: [...things.down, ...things.up],
        },
        ...things.down.map(item => lies(item, things.rack)),
        ...(body.to === undefined ? [] : things.up.map(item => lies(item, body.to as string))),
      ],
    };
  },
  example: { swap: '&3', down: ['C-101', 'C-102'], up: ['C-207', 'C-208'], to: '&2' },
});

function tooMany(way: 'down' | 'up', given: number, owed: number): Refusal[] {
  return given <= owed
    ? []
    : [
        refuse(
          'too many',
          `${given} numbers went ${way}, and ${owed} are owed.`,
          'Give as many as were swapped; what else moved is moved by itself.',
          way,
        ),
      ];
}

function named(look: Look, family: string, number: string, way: string): Refusal[] {
  const fits = look.withNumber(family, number);
  if (fits.length === 1) return [];
  const frozen = fits.length === 0 ? 'No living thing of this family has' : 'Several things have';
  return [
    refuse(
      fits.length === 0 ? 'not found' : 'which one',
      `${frozen} the number ${number}.`,
      fits.length === 0
        ? 'Check the number; if it is another department’s, receive it as loaned in first.'
        : 'Settle which is which first, on their own pages.',
      way,
    ),
  ];
}

function twice(list: readonly string[], way: string): Refusal[] {
  const doubled = list.filter((n, i) => list.indexOf(n) !== i);
  return [...new Set(doubled)].map(n =>
    refuse('twice', `${n} is given twice.`, 'Read it again: one thing is in one place.', way),
  );
}
