/** The form that mends what a thing is: its number, serial and details. Only what was changed is sent. */
import {
  attributeField,
  body,
  type DeedForm,
  dateOf,
  type Filled,
  type FormField,
  type ThingRef,
  type Vocabulary,
  valuesOf,
} from './deedForm.ts';
import type { DeedOptions } from './deeds.ts';

export function amendForm(thing: ThingRef, vocabulary: Vocabulary, now: DeedOptions['now']): DeedForm {
  const family = vocabulary.families.find(f => f.id === thing.family);
  const attributes = family?.attributes ?? [];
  const initial: Record<string, string> = {
    number: now?.number ?? thing.number,
    serial: now?.serial ?? '',
    from: '',
    why: '',
  };
  for (const attribute of attributes) {
    const known = now?.attributes[attribute.key];
    initial[`attributes.${attribute.key}`] =
      known === true ? 'yes' : known === undefined || known === null || known === false ? '' : String(known);
  }
  return {
    title: `Mend ${thing.number}`,
    verb: 'Mend',
    initial,
    rows: () => [
      // A rig is named where rigs are named.
      ...(thing.family === 'apparatus'
        ? []
        : [
            [
              { kind: 'text' as const, key: 'number', title: 'Number', required: true },
              { kind: 'text' as const, key: 'serial', title: 'Serial' },
            ],
          ]),
      attributes.map((a): FormField => attributeField(a, 'attributes')),
      [
        {
          kind: 'text',
          key: 'from',
          title: 'So since',
          note: 'Empty: it was always so, and what stood there was wrong.',
        },
        { kind: 'text', key: 'why', title: 'Why' },
      ],
    ],
    deeds(filled, today) {
      const changed = attributes.filter(a => differs(filled, initial, `attributes.${a.key}`));
      const values = valuesOf(changed, filled, 'attributes', today);
      const cleared = changed.filter(a => !(a.key in values)).map(a => [a.key, null] as const);
      const all = { ...values, ...Object.fromEntries(cleared) };
      return [
        {
          action: 'item.amend',
          body: {
            ...body({
              item: thing.item,
              from: filled.from?.trim() ? dateOf(filled, today, 'from') : undefined,
              why: filled.why,
              number: differs(filled, initial, 'number') ? filled.number : undefined,
              attributes: changed.length > 0 ? all : undefined,
            }),
            ...(differs(filled, initial, 'serial') ? { serial: filled.serial || null } : {}),
          },
        },
      ];
    },
    done: filled => `${filled.number} mended.`,
  };
}

const differs = (a: Filled, b: Filled, key: string) => (a[key] ?? '').trim() !== (b[key] ?? '').trim();
