/** Repairs and what they owe: sent, repaired by kind, and happenings after which a test is owed. */
import { z } from 'zod';
import { familyOf } from '../../domain/rulebook/index.ts';
import { frozen } from './condition.ts';
import { id, longWords, mustBe, when, words } from './fields.ts';
import { deedOnItem, familyOfItem, gone } from './items.ts';
import { action, refuse } from './types.ts';

export const itemSendToRepair = action({
  name: 'item.sendToRepair',
  v: 2,
  title: 'Send a thing to repair: where, promised for when, at what estimate',
  schema: z.strictObject({
    item: id,
    vendor: id.optional(),
    reason: longWords.optional(),
    /** The day it was promised for. */
    promised: when.optional(),
    /** What it is to cost, in US dollars, a decimal as text. */
    cost_usd: z
      .string()
      .regex(/^\d+(\.\d{1,2})?$/, { error: 'is not an amount. Write dollars and cents: "120.50".' })
      .optional(),
    on: when,
  }),
  upgrade: (_v, body) => body,
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
    const terms =
      body.promised || body.cost_usd
        ? [
            {
              ...at,
              kind: 'sent',
              values: {
                ...(body.promised ? { promised: body.promised } : {}),
                ...(body.cost_usd ? { cost_usd: body.cost_usd } : {}),
              },
            },
          ]
        : [];
    if (!body.vendor) return { facts: [sent, ...terms] };
    return {
      facts: [
        sent,
        ...terms,
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
      ...deedOnItem(look, body.item, body.on, 'rigs too'),
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
      ...deedOnItem(look, body.item, body.on, 'rigs too'),
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
