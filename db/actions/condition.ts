/** What state a thing is in: tagged out, limited, returned, held, missing, found, retired, disposed of. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { type Condition, HOW_KNOWN } from '../../domain/facts.ts';
import type { Photo } from '../../domain/photos.ts';
import { policyOn } from '../../domain/rulebook/book.ts';
import { withArticle } from '../../domain/rulebook/words.ts';
import { id, longWords, mustHold, photos, when, words } from './fields.ts';
import { deedOnItem, familyOfItem, gone, insideItself } from './items.ts';
import { type Action, action, type Look, type Refusal, refuse } from './types.ts';

/** A deed that only sets a condition, with words that go with it. */
function conditionDeed(spec: {
  name: string;
  title: string;
  to: Condition;
  entitlement?: Action['entitlement'];
  words: 'reason' | 'note';
  needed: boolean;
  /** Whether photos of what is wrong go with it. */
  photos?: true;
  also?: (look: Look, item: string, by: string | null) => Refusal[];
}): Action {
  const said = spec.needed ? longWords : longWords.optional();
  return action({
    name: spec.name,
    v: 1,
    title: spec.title,
    schema: z.strictObject({
      item: id,
      [spec.words]: said,
      tag: words.optional(),
      ...(spec.photos ? { photos: photos.optional() } : {}),
      on: when,
    }) as unknown as z.ZodType<{
      item: string;
      on: ReturnType<typeof when.parse>;
      reason?: string;
      note?: string;
      tag?: string;
      photos?: readonly Photo[];
    }>,
    entitlement: spec.entitlement ?? 'record',
    refs: ['item'],
    family: familyOfItem,
    check: (look, body, { by }) => [
      ...deedOnItem(look, body.item, body.on),
      ...gone(look, body.item, 'changed'),
      ...frozen(look, body.item, spec.name),
      ...(spec.also?.(look, body.item, by) ?? []),
    ],
    apply: (_entry, body) => ({
      facts: [
        {
          thing: body.item,
          kind: 'condition',
          effective: body.on,
          values: {
            condition: spec.to,
            ...(body.reason ? { reason: body.reason } : {}),
            ...(body.note ? { reason: body.note } : {}),
            ...(body.tag ? { tag: body.tag } : {}),
            ...(body.photos ? { photos: body.photos } : {}),
          },
        },
      ],
    }),
    example: { item: '&3', [spec.words]: 'Jacket cut 12 ft from the male end' },
  });
}

export const itemTagOut = conditionDeed({
  name: 'item.tagOut',
  title: 'Tag a thing out of service',
  to: 'tagged out',
  words: 'reason',
  needed: true,
  photos: true,
});
export const itemLimit = conditionDeed({
  name: 'item.limit',
  title: 'Tag a thing for limited use',
  to: 'limited use',
  words: 'reason',
  needed: true,
  photos: true,
});
export const itemHold = conditionDeed({
  name: 'item.hold',
  title: 'Hold a thing for investigation: no cleaning, filling, repair or test until it is released',
  to: 'held for investigation',
  words: 'reason',
  needed: true,
});
export const itemRelease = conditionDeed({
  name: 'item.release',
  title: 'Release a thing that was held for investigation; it is then tagged out until returned',
  to: 'tagged out',
  entitlement: 'return',
  words: 'note',
  needed: true,
  also: (look, item) =>
    look.item(item)?.condition === 'held for investigation'
      ? []
      : [refuse('not held', 'It is not held for investigation.', 'Only a held thing is released.', 'item')],
});
export const itemMissing = conditionDeed({
  name: 'item.missing',
  title: 'Report a thing missing',
  to: 'missing',
  words: 'note',
  needed: false,
  photos: true,
});
export const itemRetire = conditionDeed({
  name: 'item.retire',
  title: 'Retire a thing: it owes nothing any more and is not returned to service',
  to: 'retired',
  entitlement: 'return',
  words: 'reason',
  needed: true,
});

export const itemReturn = conditionDeed({
  name: 'item.return',
  title: 'Return a thing to service; refused while a test or inspection is owed',
  to: 'serviceable',
  entitlement: 'return',
  words: 'note',
  needed: false,
  also(look, item, by) {
    const known = look.item(item);
    if (!known) return [];
    if (
      policyOn(look.book, 'return after repair', look.today) === 'another member' &&
      by !== null &&
      look.repairedBy(item) === by
    )
      return [
        refuse(
          'repaired it',
          `Whoever repaired ${known.number} does not return it to service: the department has chosen so.`,
          'Let another member look at it and sign.',
          'by',
        ),
      ];
    if (known.condition === 'retired')
      return [
        refuse(
          'retired',
          `${known.number} was retired.`,
          'If that was a mistake, void the retirement and say why.',
          'item',
        ),
      ];
    return known.owed.map(owed =>
      refuse(
        'retest owed',
        `${known.number} owes ${withArticle(owed.activity)} since ${showWhen(owed.since)}: ${owed.because}.`,
        `Record a passed ${owed.activity} first, or keep it tagged out.`,
        'item',
      ),
    );
  },
});

export const itemFound = action({
  name: 'item.found',
  v: 1,
  title: 'A missing thing was found, and where',
  schema: z.strictObject({
    item: id,
    place: id,
    how: z.enum(HOW_KNOWN).default('sight'),
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'place'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...mustHold(look, body.place, 'place'),
    ...insideItself(look, body.item, body.place, 'place'),
    ...(look.item(body.item)?.condition === 'missing'
      ? []
      : [refuse('not missing', 'It was not reported missing.', 'Move it instead.', 'item')]),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'condition',
        effective: body.on,
        // Nobody knows yet what it went through: it waits for somebody entitled to return it.
        values: { condition: 'tagged out', reason: body.note ?? 'Found again after it was missing' },
      },
      {
        thing: body.item,
        kind: 'place',
        effective: body.on,
        values: { place: body.place, how: body.how },
        refs: [body.place],
      },
    ],
  }),
  example: { item: '&3', place: '&2' },
});

export const itemDispose = action({
  name: 'item.dispose',
  v: 1,
  title: 'Dispose of a thing, and say how',
  schema: z.strictObject({ item: id, how: longWords, on: when }),
  entitlement: 'return',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...gone(look, body.item, 'disposed of'),
    ...frozen(look, body.item, 'item.dispose'),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'condition',
        effective: body.on,
        values: { condition: 'disposed', reason: body.how },
      },
    ],
  }),
  example: { item: '&3', how: 'Destroyed by the requalifier, certificate attached' },
});

export const itemSearched = action({
  name: 'item.searched',
  v: 1,
  title: 'A missing thing was searched for, and where; it stays missing',
  schema: z.strictObject({ item: id, where: words, note: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...(look.item(body.item)?.condition === 'missing'
      ? []
      : [refuse('not missing', 'It was not reported missing.', 'Report it missing first.', 'item')]),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'searched',
        effective: body.on,
        values: { where: body.where, ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { item: '&3', where: 'Crosslays and hosebed of Engine 31' },
});

export const itemHandOver = action({
  name: 'item.handOver',
  v: 1,
  title: 'Who has a thing that is held for investigation from now on: the line of its custody',
  schema: z.strictObject({ item: id, to: words, note: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...(look.item(body.item)?.condition === 'held for investigation'
      ? []
      : [refuse('not held', 'It is not held for investigation.', 'Move it instead.', 'item')]),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'custody',
        effective: body.on,
        values: { to: body.to, ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { item: '&3', to: 'R. Alder, evidence locker, seal 0412' },
});

/** Held for investigation freezes everything but its release and a report that it is missing. */
export function frozen(look: Look, item: string, deed: string): Refusal[] {
  const known = look.item(item);
  if (known?.condition !== 'held for investigation') return [];
  if (deed === 'item.release' || deed === 'item.missing') return [];
  return [
    refuse(
      'held',
      `${known.number} is held for investigation.`,
      'Nothing is done to it until whoever the department names has released it.',
      'item',
    ),
  ];
}
