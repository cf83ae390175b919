/** The forms that make the book the department's own: a requirement adopted or changed, a setting chosen. */
import type { RulebookList } from '../../../db/api-rules.ts';
import { leastLate } from '../../../domain/rulebook/loosen.ts';
import type { Family, Requirement } from '../../../domain/rulebook/types.ts';
import { cited, midSentence } from '../../../domain/rulebook/words.ts';
import { body, type DeedForm, dateOf } from '../../parts/deeds/deedForm.ts';
import type { Entry } from './entries.ts';

/** What a member decides about lateness, in the words of the panel. */
export const LATE_CHOICES = [
  { value: 'blocks', title: 'Blocks' },
  { value: 'limits', title: 'Limits' },
  { value: 'notes', title: 'Notes' },
] as const;

const LATE = 'requirements.0.late';
const WARN = 'requirements.0.warnDays';

/** What a change would meet, as far as it is known when the form is opened. */
export interface Concerned {
  /** How many things it concerns and how they stand, as a sentence. */
  says: string;
  /** How many show as due soon today. */
  dueSoon: number;
  /** Days left of what is on time, the nearest first; `isAll` false where there are more than these. */
  daysLeft: readonly number[];
  isAll: boolean;
}

/**
 * Adopt a requirement in full: as it stands with another effect of being late or another warning, from a day on.
 * @param concerned undefined while it is not known
 */
export function adoptForm(
  entry: Entry,
  family: Family | undefined,
  concerned: Concerned | undefined,
): DeedForm {
  const { requirement, adopted } = entry;
  const least = leastLate(requirement.id);
  const what = `${midSentence(family?.title ?? requirement.family)}: ${midSentence(requirement.title)}`;
  return {
    title: adopted ? `Change ${what}` : `Adopt ${what}`,
    verb: adopted ? 'Change it' : 'Adopt it',
    initial: { [LATE]: requirement.late, [WARN]: String(requirement.warnDays), from: '' },
    says: (filled, today) => {
      const from = dateOf(filled, today, 'from');
      const later = entry.versions.filter(v => v.from !== null && v.from >= from);
      return [
        [
          concerned?.says ?? 'How many things it concerns is being counted.',
          ...(concerned ? warningEffect(concerned, requirement, filled[WARN]) : []),
        ].join(' '),
        'Days before the first day are judged as they were.',
        ...(later.length > 0 ? ['What was decided for that day or a later one is replaced by this.'] : []),
        ...(least
          ? [`${least.clause} is law: being late does at least what the book ships, ${least.late}.`]
          : []),
      ];
    },
    rows: () => [
      [{ kind: 'one of', key: LATE, title: 'Being late', choices: LATE_CHOICES, required: true }],
      [
        { kind: 'text', key: WARN, title: 'Due soon from', unit: 'days before', required: true },
        { kind: 'date', key: 'from', title: 'From which day on' },
      ],
      [{ kind: 'long', key: 'reason', title: 'Reason', required: true }],
    ],
    deeds: (filled, today) => [
      {
        action: 'rulebook.adopt',
        body: body({
          requirements: [changed(requirement, filled[LATE], filled[WARN])],
          from: dateOf(filled, today, 'from'),
          reason: filled.reason,
        }),
      },
    ],
    done: () => `${adopted ? 'Changed' : 'Adopted'}, ${what}.`,
  };
}

/** What another warning would show today; nothing where the typed is none, or the answer is not known. */
function warningEffect(concerned: Concerned, requirement: Requirement, typed = ''): string[] {
  const days = /^\d+$/.test(typed.trim()) ? Number(typed) : requirement.warnDays;
  if (days === requirement.warnDays) return [];
  const { daysLeft, isAll, dueSoon } = concerned;
  if (!isAll && (daysLeft.at(-1) ?? 0) <= days) return [];
  const n = daysLeft.filter(left => left <= days).length;
  return [`From ${days} days before, ${n} of them would show as due soon today, in place of ${dueSoon}.`];
}

/** What is no whole number goes as it is typed, and the store says what is wrong with it. */
function changed(requirement: Requirement, late = '', warnDays = ''): Record<string, unknown> {
  const typed = warnDays.trim();
  return { ...requirement, late, warnDays: /^\d+$/.test(typed) ? Number(typed) : typed };
}

type PolicyLine = RulebookList['policies'][number];

/** Choose where the sources differ, signed and with the reason. */
export function policyForm(policy: PolicyLine): DeedForm {
  return {
    title: policy.title,
    verb: 'Choose it',
    initial: { choice: policy.choice, from: '' },
    says: () => [`The law: ${policy.law} (${cited(policy.source)})`],
    rows: () => [
      [{ kind: 'one of', key: 'choice', title: 'The department’s choice', choices: policy.choices }],
      [{ kind: 'date', key: 'from', title: 'From which day on' }],
      [{ kind: 'long', key: 'reason', title: 'Reason', required: true }],
    ],
    deeds: (filled, today) => [
      {
        action: 'policy.choose',
        body: body({
          policy: policy.id,
          choice: filled.choice,
          from: dateOf(filled, today, 'from'),
          reason: filled.reason,
        }),
      },
    ],
    done: filled =>
      `Chosen: ${midSentence(policy.choices.find(c => c.value === filled.choice)?.title ?? '')}.`,
  };
}
