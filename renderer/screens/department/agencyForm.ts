/** The form that adds or amends an outside agency. */
import type { AgencyLine } from '../../../db/api-desk.ts';
import { body, type DeedForm, dateOf, type Filled, type FormRow } from '../../parts/deeds/deedForm.ts';
import { changed } from './placeForms.ts';

const ROWS: readonly FormRow[] = [
  [{ kind: 'text', key: 'name', title: 'Name', required: true }],
  [
    {
      kind: 'text',
      key: 'rin',
      title: 'RIN',
      note: 'A requalifier’s identification number, as on its approval: A123. Empty: it has none.',
    },
    {
      kind: 'text',
      key: 'rinExpires',
      title: 'RIN expires',
      note: 'As the approval says: 30 Apr 2029, Apr 2029. You are warned 90 days before.',
    },
  ],
];

/** The RIN and its expiry as typed; capital letters are what is meant. */
const rinOf = (filled: Filled) => filled.rin?.trim().toUpperCase() ?? '';
const expiryOf = (filled: Filled, today: string) =>
  filled.rinExpires?.trim() ? dateOf(filled, today, 'rinExpires') : '';

export const addAgencyForm = (): DeedForm => ({
  title: 'Add an agency',
  verb: 'Add it',
  initial: {},
  rows: () => ROWS,
  deeds: (filled, today) => [
    {
      action: 'agency.add',
      body: body({ name: filled.name, rin: rinOf(filled), rinExpires: expiryOf(filled, today) }),
    },
  ],
  done: filled => `${filled.name} is in the book.`,
});

export function amendAgencyForm(agency: AgencyLine): DeedForm {
  return {
    title: `Amend ${agency.name}`,
    verb: 'Amend',
    initial: { name: agency.name, rin: agency.rin ?? '', rinExpires: agency.rinExpires ?? '' },
    rows: () => ROWS,
    deeds: (filled, today) => [
      {
        action: 'agency.amend',
        body: {
          ...body({ agency: agency.id, name: changed(filled.name, agency.name) }),
          ...orNull('rin', rinOf(filled), agency.rin),
          ...orNull('rinExpires', expiryOf(filled, today), agency.rinExpires),
        },
      },
    ],
    done: filled => `${filled.name} is amended.`,
  };
}

/** What was emptied is taken back; what was not changed is not sent. */
function orNull(key: string, typed: string, before: string | null): Record<string, string | null> {
  return typed === (before ?? '') ? {} : { [key]: typed === '' ? null : typed };
}
