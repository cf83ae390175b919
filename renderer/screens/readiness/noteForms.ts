/** The forms that write a pass-on note and close one. */
import type { DepartmentSummary } from '../../../db/api.ts';
import type { NoteLine } from '../../../db/api-desk.ts';
import { body, type DeedForm, dateOf } from '../../parts/deeds/deedForm.ts';

const ALL = 'all';

/** @param about the unit it is offered for first; null: the whole department */
export function writeNoteForm(summary: DepartmentSummary, about: string | null): DeedForm {
  const choices = [
    { value: ALL, title: 'The whole department' },
    ...summary.units.map(u => ({ value: `unit ${u.id}`, title: u.name, detail: u.station ?? 'unit' })),
    ...summary.stations.map(s => ({ value: `station ${s.id}`, title: s.name, detail: 'station' })),
  ];
  return {
    title: 'Pass on to the next shift',
    verb: 'Pass it on',
    initial: { text: '', for: about === null ? ALL : `unit ${about}`, on: '' },
    rows: () => [
      [{ kind: 'long', key: 'text', title: 'What they must know', required: true }],
      [
        { kind: 'pick', key: 'for', title: 'For', required: true, choices },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
    ],
    deeds: (filled, today) => {
      const [kind, id] = (filled.for ?? ALL).split(' ');
      return [
        {
          action: 'note.write',
          body: body({
            text: filled.text?.trim(),
            unit: kind === 'unit' ? id : undefined,
            station: kind === 'station' ? id : undefined,
            on: dateOf(filled, today),
          }),
        },
      ];
    },
    done: () => 'Passed on. It is carried until somebody closes it.',
  };
}

export function closeNoteForm(note: NoteLine): DeedForm {
  return {
    title: `Close: ${shortened(note.text)}`,
    verb: 'Close it',
    initial: { why: '', on: '' },
    rows: () => [
      [{ kind: 'text', key: 'why', title: 'Why, or what was done', note: 'May stay empty.' }],
      [{ kind: 'date', key: 'on', title: 'Date' }],
    ],
    deeds: (filled, today) => [
      {
        action: 'note.close',
        body: body({ note: note.id, why: filled.why?.trim(), on: dateOf(filled, today) }),
      },
    ],
    done: () => 'Closed. It stays among the closed ones.',
  };
}

/** Whom a note is for. */
export const noteFor = (note: NoteLine): string => note.unit ?? note.station ?? 'Everybody';

const TITLE_CHARACTERS = 70;
const shortened = (text: string) =>
  text.length <= TITLE_CHARACTERS ? text : `${text.slice(0, TITLE_CHARACTERS).trimEnd()}…`;
