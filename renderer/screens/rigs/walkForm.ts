/** The signature under a walk-round, which says what it does to the rig before it is given. */
import type { RigPage } from '../../../db/api-desk.ts';
import type { RigJudgement } from '../../../domain/checkoffs/walk-round.ts';
import { type DeedForm, dateOf } from '../../parts/deeds/deedForm.ts';

/** By criterion: a value of its choice, a figure as typed, or `not fitted`. */
export type Answers = Readonly<Record<string, string>>;

export function walkForm(page: RigPage, answers: Answers, judged: RigJudgement): DeedForm {
  return {
    title: `Sign the walk-round of ${page.name}`,
    verb: 'Sign',
    initial: { note: '', on: '' },
    says: () => [
      judged.out.length > 0
        ? `${page.name} is taken out of service with this signature: ${judged.out.map(f => f.text).join('; ')}. Only somebody entitled returns it.`
        : judged.limited.length > 0
          ? `${page.name} goes on with limits: ${judged.limited.map(f => f.text).join('; ')}.`
          : 'Nothing puts it out or limits it.',
      ...(judged.unanswered.length > 0
        ? [
            `${judged.unanswered.length} were not looked at: the day’s operational check is not completed by it.`,
          ]
        : []),
    ],
    rows: () => [
      [
        { kind: 'text', key: 'note', title: 'Note' },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'rig.walkRound',
        body: {
          rig: page.id,
          answers,
          ...(filled.note ? { note: filled.note } : {}),
          on: dateOf(filled, today),
        },
      },
    ],
    done: () => (judged.out.length > 0 ? `${page.name} is out of service.` : 'The walk-round is kept.'),
  };
}
