/** A requirement made the department's own: its clock, its grace, its effect; adopted in full from a day on. */
import type { Family, Requirement } from '../../../../domain/rulebook/types.ts';
import { midSentence } from '../../../../domain/rulebook/words.ts';
import { body, type DeedForm, dateOf, type Filled, type FormRow } from '../../../parts/deeds/deedForm.ts';
import type { Entry } from '../entries.ts';
import { clockInitial, clockOf, clockProblems, clockRows, whole } from './clockFields.ts';

/** What a member decides about lateness, in the words of the panel. */
export const LATE_CHOICES = [
  { value: 'blocks', title: 'Blocks' },
  { value: 'limits', title: 'Limits' },
  { value: 'notes', title: 'Notes' },
] as const;

// As the store names them, so that what it refuses stands beside its field.
const LATE = 'requirements.0.late';
const WARN = 'requirements.0.warnDays';
const GRACE = 'requirements.0.graceDays';

/** Why, by whose word, and from when: what every decision on the book says. */
export const DECIDED: readonly FormRow[] = [
  [
    { kind: 'date', key: 'from', title: 'From which day on' },
    {
      kind: 'text',
      key: 'authority',
      title: 'Decided by',
      note: 'The chief, an order by its number, the maker’s manual.',
    },
  ],
  [{ kind: 'long', key: 'reason', title: 'Reason', required: true }],
];

/** What a decision says of itself, as the store takes it. */
export const decided = (filled: Filled, today: string) => ({
  from: dateOf(filled, today, 'from'),
  reason: filled.reason,
  authority: filled.authority,
});

/** `hose: service test`. */
export const whatOf = (requirement: Requirement, family: Family | undefined): string =>
  `${midSentence(family?.title ?? requirement.family)}: ${midSentence(requirement.title)}`;

export function changeForm(entry: Entry, family: Family | undefined): DeedForm {
  const { requirement, line } = entry;
  const isLaw = line.force.force === 'law';
  const what = whatOf(requirement, family);
  const changed = (filled: Filled): Requirement =>
    body({
      ...requirement,
      own: undefined,
      clock: clockOf(requirement.clock, filled),
      warnDays: whole(filled[WARN]),
      late: filled[LATE],
      graceDays: filled[GRACE]?.trim() ? whole(filled[GRACE]) : undefined,
      inStorage: filled.inStorage === 'yes' ? 'waits' : undefined,
    }) as unknown as Requirement;
  return {
    title: `Change ${what}`,
    verb: 'Change it',
    initial: {
      ...clockInitial(requirement.clock),
      [WARN]: String(requirement.warnDays),
      [LATE]: requirement.late,
      [GRACE]: requirement.graceDays ? String(requirement.graceDays) : '',
      inStorage: requirement.inStorage === 'waits' ? 'yes' : '',
      from: '',
    },
    says: (filled, today) => {
      const from = dateOf(filled, today, 'from');
      const later = entry.versions.filter(v => v.from !== null && v.from >= from);
      return [
        'Days before the first day are judged as they were.',
        ...(later.length > 0 ? ['What was decided for that day or a later one is replaced by this.'] : []),
        ...(isLaw
          ? [
              `It is law${line.force.clause ? `, ${line.force.clause}` : ''}: it may be made stricter, not looser.`,
            ]
          : []),
      ];
    },
    rows: filled => [
      ...clockRows(requirement.clock, filled),
      [
        { kind: 'text', key: WARN, title: 'Due soon from', unit: 'days before', required: true },
        ...(isLaw ? [] : [{ kind: 'text' as const, key: GRACE, title: 'Days of grace', unit: 'days after' }]),
      ],
      [{ kind: 'one of', key: LATE, title: 'Being late', choices: LATE_CHOICES, required: true }],
      ...(requirement.inStorage === 'waits' || !isLaw
        ? [
            [
              {
                kind: 'tick' as const,
                key: 'inStorage',
                title: 'In storage it waits, and is owed before it comes back',
              },
            ],
          ]
        : []),
      ...DECIDED,
    ],
    // A clock that is not whole yet would tell of a change that nobody meant.
    previews: (filled, today) =>
      clockProblems(requirement.clock, filled).length > 0
        ? null
        : { adopt: [changed(filled)], ...previewed(filled, today) },
    check: filled => clockProblems(requirement.clock, filled),
    deeds: (filled, today) => [
      {
        action: 'rulebook.adopt',
        body: body({ requirements: [changed(filled)], ...decided(filled, today) }),
      },
    ],
    done: () => `Changed, ${what}.`,
  };
}

/** What a preview is told of a decision: nothing that is not filled in yet is held against it but by the store. */
export function previewed(
  filled: Filled,
  today: string,
): { from: string; reason: string; authority: string } {
  const { from } = decided(filled, today);
  return { from, reason: filled.reason || 'to be written', authority: filled.authority || 'to be named' };
}
