/** A thing that is tracked one by one is received: what it is, its number, where it is put. */
import { capital } from '../../../domain/capital.ts';
import type { Assignment } from '../../../domain/facts.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { attributeField, body, type DeedForm, dateOf, type FormField, valuesOf } from './deedForm.ts';
import { RIG_FAMILY } from './deeds.ts';

const OFFERED: readonly Assignment[] = ['first line', 'ready spare', 'reserve', 'storage', 'training only'];

interface Receiving {
  /** Where it is put, unless another place is chosen. */
  place?: { id: string; name: string };
  assignment?: Assignment;
  /** Fields that stand in place of those of the family, by the attribute's key. */
  instead?: Readonly<Record<string, Partial<FormField>>>;
}

/** @param families what can be received; of several one is chosen first */
export function receiveForm(families: readonly Family[], receiving: Receiving = {}): DeedForm {
  const { place, assignment = 'first line', instead = {} } = receiving;
  const known = families.filter(f => f.id !== RIG_FAMILY);
  const [only, ...others] = known;
  const chosen = (id: string | undefined) => known.find(f => f.id === id);
  const fieldsOf = (family: Family | undefined) =>
    (family?.attributes ?? []).map(
      (a): FormField => ({ ...attributeField(a, 'attributes'), ...instead[a.key] }) as FormField,
    );
  return {
    title: others.length > 0 || !only ? 'Receive a thing' : `Receive a ${only.title.toLowerCase()}`,
    verb: 'Receive it',
    initial: {
      family: others.length > 0 ? '' : (only?.id ?? ''),
      assignment,
      on: '',
      ...(place ? { place: place.id } : {}),
    },
    rows: filled => [
      ...(others.length > 0
        ? [
            [
              {
                kind: 'pick',
                key: 'family',
                title: 'What it is',
                required: true,
                choices: known.map(f => ({ value: f.id, title: f.title })),
              } as const,
            ],
          ]
        : []),
      [
        { kind: 'text', key: 'number', title: 'Number', required: true, note: 'As it is marked on it' },
        { kind: 'text', key: 'serial', title: 'Serial' },
      ],
      ...pairs(fieldsOf(chosen(filled.family))),
      [{ kind: 'place', key: 'place', title: 'Where it is put', named: place?.name }],
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
            family: filled.family,
            number: filled.number,
            serial: filled.serial,
            place: filled.place,
            assignment: filled.assignment,
            on: dateOf(filled, today),
          }),
          attributes: valuesOf(chosen(filled.family)?.attributes ?? [], filled, 'attributes', today),
        },
      },
    ],
    done: filled => `${filled.number} is received.`,
  };
}

function pairs(fields: readonly FormField[]): FormField[][] {
  return fields.flatMap((_, i) => (i % 2 === 0 ? [fields.slice(i, i + 2)] : []));
}
