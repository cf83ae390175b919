/** What the department is: its state, its kind, and whether the workplace-safety rules bind it. It decides what is law. */

import { capital } from '../../../domain/capital.ts';
import { forceIn, type Profile } from '../../../domain/rulebook/force.ts';
import { planCoversPublic, STATE_PLAN_SOURCE, STATES } from '../../../domain/rulebook/states.ts';
import { DEPARTMENT_KINDS, type DepartmentKind } from '../../../domain/rulebook/types.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';

/** Where it is not in the United States: the book’s laws and standards are not its own. */
const OUTSIDE = 'outside';
const OSHA = { force: 'law', bindings: [{ reach: 'osha', cite: '29 CFR 1910' }] } as const;

export const PLACES = [
  ...Object.entries(STATES).map(([value, title]) => ({ value, title })),
  { value: OUTSIDE, title: 'Not in the United States' },
];

export const KINDS = DEPARTMENT_KINDS.map(value => ({ value, title: capital(value) }));

/** The profile that was filled in; what was left empty is not known. */
export function profileOf(filled: Filled): Profile {
  const isOutside = filled.state === OUTSIDE;
  return {
    country: isOutside ? 'other' : 'US',
    state: isOutside || !filled.state ? null : filled.state,
    kind: (filled.kind || null) as DepartmentKind | null,
    oshaBinds: filled.oshaBinds === 'yes' ? true : filled.oshaBinds === 'no' ? false : null,
  };
}

/** `Colorado, combination`. */
export function profileText({ country, state, kind }: Profile): string {
  const where =
    country === 'other' ? 'Not in the United States' : state ? (STATES[state] ?? state) : 'State not said';
  return `${where}, ${kind ?? 'kind not said'}`;
}

/** What a profile decides of the workplace-safety rules, in a sentence. */
export function decides(profile: Profile): string {
  const osha = forceIn(OSHA, profile);
  if (osha.force !== 'law')
    return `The workplace-safety rules (29 CFR 1910) are not law here but a benchmark. ${profile.country === 'other' ? 'What was adopted stays in force until it is ended in the rule book.' : ''}`.trim();
  return osha.certain
    ? 'The workplace-safety rules (29 CFR 1910) are law here: they cannot be loosened.'
    : `Whether the workplace-safety rules (29 CFR 1910) bind here is not certain. ${osha.says}`;
}

const FIELDS: readonly (readonly FormField[])[] = [
  [
    {
      kind: 'pick',
      key: 'state',
      title: 'State',
      choices: PLACES,
      note: 'Elsewhere: choose “Not in the United States”.',
      required: true,
    },
  ],
  [{ kind: 'one of', key: 'kind', title: 'It is', choices: KINDS, required: true }],
  [
    {
      kind: 'one of',
      key: 'oshaBinds',
      title: 'Do the workplace-safety rules bind it?',
      choices: [
        { value: 'by state', title: 'By its state and kind' },
        { value: 'yes', title: 'Yes' },
        { value: 'no', title: 'No' },
      ],
      note: 'Say yes or no once you have asked the state’s plan or your counsel.',
    },
  ],
  [{ kind: 'date', key: 'from', title: 'From which day on' }],
  [{ kind: 'long', key: 'reason', title: 'How it is known' }],
];

export function profileForm(now: Profile): DeedForm {
  const filledProfile = (filled: Filled): Profile => profileOf(filled);
  return {
    title: 'What is the department?',
    verb: 'Write it down',
    initial: {
      state: now.country === 'other' ? OUTSIDE : (now.state ?? ''),
      kind: now.kind ?? '',
      oshaBinds: now.oshaBinds === null ? 'by state' : now.oshaBinds ? 'yes' : 'no',
      from: '',
      reason: '',
    },
    says: filled => {
      const profile = filledProfile(filled);
      return [
        decides(profile),
        `Which states run a plan of their own: ${STATE_PLAN_SOURCE.document} (${STATE_PLAN_SOURCE.edition}). ${STATE_PLAN_SOURCE.note}`,
        ...(profile.state && !planCoversPublic(profile.state) && profile.kind !== 'private brigade'
          ? [
              'Rules that only some states make law, and intervals for career or volunteer departments, follow it too.',
            ]
          : []),
      ];
    },
    rows: () => FIELDS,
    previews: (filled, today) => ({
      profile: filledProfile(filled),
      from: dateOf(filled, today, 'from'),
    }),
    deeds: (filled, today) => [
      {
        action: 'profile.set',
        body: {
          ...filledProfile(filled),
          ...body({ from: dateOf(filled, today, 'from'), reason: filled.reason }),
        },
      },
    ],
    done: filled => `Written down: ${profileText(filledProfile(filled))}.`,
  };
}
