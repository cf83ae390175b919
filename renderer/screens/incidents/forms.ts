/** The forms of an incident: opened, amended, settled. */
import type { DepartmentSummary } from '../../../db/api.ts';
import type { IncidentPage } from '../../../db/api-incidents.ts';
import { effectsOf } from '../../../domain/incident/settlement.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import {
  body,
  type DeedForm,
  dateOf,
  type Filled,
  type FormField,
  type FormRow,
} from '../../parts/deeds/deedForm.ts';
import { clockNow, clockOf, clockProblems } from '../../parts/form/clock.ts';
import { effectWords } from './effects.ts';
import { type Chosen, choicesOf } from './rows.ts';

/** What is picked up together and goes home on the wrong rig; common practice, no source. */
const PICKED_UP = [
  'hose',
  'cylinder',
  'nozzle',
  'appliance',
  'ladder',
  'hand-tool',
  'power-tool',
  'pack',
  'rope',
];

type Units = DepartmentSummary['units'];

/** Three beside each other. */
const inThrees = (fields: readonly FormField[]): FormRow[] =>
  Array.from({ length: Math.ceil(fields.length / 3) }, (_, i) => fields.slice(3 * i, 3 * i + 3));

function thereRows(units: Units, families: readonly Family[]): FormRow[] {
  return [
    ...inThrees(units.map(u => ({ kind: 'tick', key: `unit.${u.id}`, title: u.name }))),
    [
      {
        kind: 'text',
        key: 'agencies',
        title: 'Other departments that were there',
        note: 'By name, with commas between them.',
      },
    ],
    ...inThrees(
      families
        .filter(f => PICKED_UP.includes(f.id))
        .map(f => ({ kind: 'tick', key: `family.${f.id}`, title: f.title })),
    ),
  ];
}

const ticked = (filled: Filled, prefix: string): string[] =>
  Object.entries(filled)
    .filter(([key, value]) => key.startsWith(prefix) && value === 'yes')
    .map(([key]) => key.slice(prefix.length));

function thereOf(filled: Filled) {
  return {
    units: ticked(filled, 'unit.'),
    agencies: (filled.agencies ?? '')
      .split(',')
      .map(a => a.trim())
      .filter(Boolean),
    families: ticked(filled, 'family.'),
  };
}

const nobodyThere = (filled: Filled) => {
  const { units, families } = thereOf(filled);
  return [
    ...(units.length === 0 ? [problem('No unit of ours was there.', 'Tick the units that picked up.')] : []),
    ...(families.length === 0
      ? [problem('It is not said what was picked up.', 'Tick hose, bottles or whatever lay in the heap.')]
      : []),
  ];
};
const problem = (message: string, todo: string) => ({ code: 'nothing', message, todo, field: null });

export function openForm(units: Units, families: readonly Family[], today: string): DeedForm {
  return {
    title: 'Open an incident with a mixed pick-up',
    verb: 'Open it',
    initial: { name: '', at: clockNow(today).slice(11), on: '', agencies: '', 'family.hose': 'yes' },
    says: () => [
      'Who was there and what was picked up. Nothing takes effect before the numbers are read and settled.',
    ],
    rows: () => [
      [{ kind: 'text', key: 'name', title: 'What and where, or its number', required: true }],
      [
        {
          kind: 'text',
          key: 'at',
          title: 'Clock time',
          required: true,
          note: 'Who rode which rig then: 0210.',
        },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
      ...thereRows(units, families),
    ],
    check: filled => [...clockProblems(filled, 'at'), ...nobodyThere(filled)],
    deeds: (filled, day) => [
      {
        action: 'incident.open',
        body: {
          name: filled.name,
          ...thereOf(filled),
          on: clockOf(filled.at ?? '', dateOf(filled, day)),
        },
      },
    ],
    done: () => '',
  };
}

export function amendForm(page: IncidentPage, units: Units, families: readonly Family[]): DeedForm {
  return {
    title: `Amend: ${page.name}`,
    verb: 'Amend',
    initial: {
      name: page.name,
      agencies: page.agencies.join(', '),
      ...Object.fromEntries(page.unitIds.map(id => [`unit.${id}`, 'yes'])),
      ...Object.fromEntries(page.familyIds.map(id => [`family.${id}`, 'yes'])),
    },
    rows: () => [
      [{ kind: 'text', key: 'name', title: 'What and where, or its number', required: true }],
      ...thereRows(units, families),
    ],
    check: nobodyThere,
    deeds: filled => [
      { action: 'incident.amend', body: { incident: page.id, name: filled.name, ...thereOf(filled) } },
    ],
    done: () => 'Amended.',
  };
}

export function settleForm(page: IncidentPage, chosen: Chosen): DeedForm {
  const choices = choicesOf(page, chosen);
  const does = effectsOf(page.pickup, page.readings, choices, t => page.owes[t.item] ?? null);
  const waiting = page.rigs.filter(r => r.list === null).map(r => r.name);
  return {
    title: `Settle: ${page.name}`,
    verb: 'Settle',
    initial: { note: '', on: '' },
    says: () => [
      ...effectWords(does, namerOf(page)),
      ...(waiting.length > 0 ? [`Not read yet, and settled later: ${waiting.join(', ')}.`] : []),
      'Nothing else is changed.',
    ],
    rows: () => [
      [
        { kind: 'text', key: 'note', title: 'Note' },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'incident.settle',
        body: {
          ...body({ note: filled.note }),
          incident: page.id,
          ...choices,
          saw: Object.fromEntries(page.rigs.map(r => [r.rig, r.list?.fact ?? null])),
          on: dateOf(filled, today),
        },
      },
    ],
    done: () => `${page.name} is settled.`,
  };
}

/** Rigs that were there and their places, by id; a place of another rig by no more than that. */
export function namerOf(page: Pick<IncidentPage, 'rigs'>): (id: string) => string {
  const names = new Map(
    page.rigs.flatMap(r => [
      [r.rig, r.name] as const,
      ...r.places.map(p => [p.id, `${r.name}, ${p.name}`] as const),
    ]),
  );
  return id => names.get(id) ?? 'another rig';
}
