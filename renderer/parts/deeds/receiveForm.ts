/** A thing that is tracked one by one is received: its number, what it is, where it is put. */
import { capital } from '../../../domain/capital.ts';
import type { Assignment } from '../../../domain/facts.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { attributeField, body, type DeedForm, dateOf, type FormField, valuesOf } from './deedForm.ts';

const OFFERED: readonly Assignment[] = ['first line', 'ready spare', 'reserve', 'storage', 'training only'];

/** @param instead fields that stand in place of those of the family, by the attribute's key */
export function receiveForm(
  family: Family,
  instead: Readonly<Record<string, Partial<FormField>>> = {},
): DeedForm {
  const own = family.attributes.map((a): FormField => {
    const field = attributeField(a, 'attributes');
    return { ...field, ...instead[a.key] } as FormField;
  });
  const what = family.title.toLowerCase();
  return {
    title: `Receive a ${what}`,
    verb: 'Receive it',
    initial: { assignment: 'first line', on: '' },
    rows: () => [
      [
        { kind: 'text', key: 'number', title: 'Number', required: true, note: 'As it is marked on it' },
        { kind: 'text', key: 'serial', title: 'Serial' },
      ],
      ...pairs(own),
      [{ kind: 'place', key: 'place', title: 'Where it is put' }],
      [
        {
          kind: 'one of',
          key: 'assignment',
          title: 'Assigned as',
          choices: OFFERED.map(a => ({ value: a, title: capital(a) })),
        },
      ],
      [{ kind: 'date', key: 'on', title: 'Received on' }],
    ],
    deeds: (filled, today) => [
      {
        action: 'item.receive',
        body: {
          ...body({
            family: family.id,
            number: filled.number,
            serial: filled.serial,
            place: filled.place,
            assignment: filled.assignment,
            on: dateOf(filled, today),
          }),
          attributes: valuesOf(family.attributes, filled, 'attributes', today),
        },
      },
    ],
    done: filled => `${filled.number} is received.`,
  };
}

function pairs(fields: readonly FormField[]): FormField[][] {
  return fields.flatMap((_, i) => (i % 2 === 0 ? [fields.slice(i, i + 2)] : []));
}
