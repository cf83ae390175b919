/** What state a thing is in: tagged out, at repair, repaired, owed a retest, returned, held, missing, retired. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { withArticle } from '../../domain/derive/explain.ts';
import type { Condition } from '../../domain/facts.ts';
import { HOW_KNOWN } from '../../domain/facts.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { id, longWords, mustBe, when, words } from './fields.ts';
import { deedOnItem, familyOfItem, gone } from './items.ts';
import { type Action, action, type Look, type Refusal, refuse } from './types.ts';

/** A deed that only sets a condition, with words that go with it. */
function conditionDeed(spec: {
  name: string;
  title: string;
  to: Condition;
  entitlement?: Action['entitlement'];
  words: 'reason' | 'note';
  needed: boolean;
  also?: (look: Look, item: string) => Refusal[];
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
      on: when,
    }) as unknown as z.ZodType<{
      item: string;
      on: ReturnType<typeof when.parse>;
      reason?: string;
      note?: string;
      tag?: string;
    }>,
    entitlement: spec.entitlement ?? 'record',
    refs: ['item'],
    family: familyOfItem,
    check: (look, body) => [
      ...deedOnItem(look, body.item, body.on),
      ...gone(look, body.item, 'changed'),
      ...frozen(look, body.item, spec.name),
      ...(spec.also?.(look, body.item) ?? []),
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
});
export const itemLimit = conditionDeed({
  name: 'item.limit',
  title: 'Tag a thing for limited use',
  to: 'limited use',
  words: 'reason',
  needed: true,
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
  also(look, item) {
    const known = look.item(item);
    if (!known) return [];
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

export const itemSendToRepair = action({
  name: 'item.sendToRepair',
  v: 1,
  title: 'Send a thing to repair',
  schema: z.strictObject({
    item: id,
    vendor: id.optional(),
    reason: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'vendor'],
  family: familyOfItem,
  check: (look, body) => [
    ...deedOnItem(look, body.item, body.on),
    ...gone(look, body.item, 'repaired'),
    ...frozen(look, body.item, 'item.sendToRepair'),
    ...mustBe(look, body.vendor, 'place', 'vendor'),
  ],
  apply(_entry, body) {
    const at = { thing: body.item, effective: body.on };
    const sent = {
      ...at,
      kind: 'condition',
      values: { condition: 'at repair', reason: body.reason ?? null },
    };
    if (!body.vendor) return { facts: [sent] };
    return {
      facts: [
        sent,
        { ...at, kind: 'place', values: { place: body.vendor, how: 'told' }, refs: [body.vendor] },
      ],
    };
  },
  example: { item: '&3', reason: 'Broken rung' },
});

export const itemRepaired = action({
  name: 'item.repaired',
  v: 1,
  title: 'Record a repair by its kind; what it owes before return depends on the kind',
  schema: z.strictObject({
    item: id,
    kind: z.string(),
    /** Filled from the rule book as it stands: the activities this kind of repair owes. */
    owes: z.array(z.string()).optional(),
    performedBy: words.optional(),
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check(look, body) {
    const item = look.item(body.item);
    const kinds = item ? (familyOf(item.family)?.repairs ?? []) : [];
    const kind = kinds.find(k => k.kind === body.kind);
    return [
      ...deedOnItem(look, body.item, body.on),
      ...gone(look, body.item, 'repaired'),
      ...frozen(look, body.item, 'item.repaired'),
      ...(item && !kind
        ? [
            refuse(
              'unknown repair',
              `${body.kind} is not a kind of repair of this family.`,
              `Use one of: ${kinds.map(k => k.kind).join(', ')}.`,
              'kind',
            ),
          ]
        : []),
      ...(kind && kind.kind === 'no fault found' && !body.note
        ? [refuse('reason owed', 'No fault found closes with a reason.', 'Say what was looked at.', 'note')]
        : []),
    ];
  },
  complete: (look, body) => ({
    ...body,
    owes: [
      ...(familyOf(familyOfItem(look, body) ?? '')?.repairs.find(k => k.kind === body.kind)?.owes ?? []),
    ],
  }),
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'owed',
        effective: body.on,
        values: {
          activities: body.owes ?? [],
          because: `repaired: ${body.kind}`,
          ...(body.note ? { note: body.note } : {}),
          ...(body.performedBy ? { performedBy: body.performedBy } : {}),
        },
      },
    ],
  }),
  example: { item: '&3', kind: 'halyard' },
});

export const itemOweRetest = action({
  name: 'item.oweRetest',
  v: 1,
  title: 'Note a happening after which a test is owed whatever its date: damage, overload, heat',
  schema: z.strictObject({
    item: id,
    trigger: z.string(),
    /** Filled from the rule book as it stands. */
    owes: z.string().optional(),
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check(look, body) {
    const item = look.item(body.item);
    const triggers = item ? (familyOf(item.family)?.triggers ?? []) : [];
    return [
      ...deedOnItem(look, body.item, body.on),
      ...gone(look, body.item, 'tested'),
      ...(item && !triggers.some(t => t.id === body.trigger)
        ? [
            refuse(
              'unknown happening',
              `${body.trigger} is not in the book for this family.`,
              triggers.length > 0
                ? `Use one of: ${triggers.map(t => t.id).join(', ')}.`
                : 'This family has none; tag it out with a reason.',
              'trigger',
            ),
          ]
        : []),
    ];
  },
  complete(look, body) {
    const owes = familyOf(familyOfItem(look, body) ?? '')?.triggers.find(t => t.id === body.trigger)?.owes;
    return owes === undefined ? body : { ...body, owes };
  },
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'owed',
        effective: body.on,
        values: {
          activities: body.owes ? [body.owes] : [],
          because: body.trigger,
          ...(body.note ? { note: body.note } : {}),
        },
      },
    ],
  }),
  example: { item: '&3', trigger: 'overload' },
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
    ...mustBe(look, body.place, 'place', 'place'),
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
