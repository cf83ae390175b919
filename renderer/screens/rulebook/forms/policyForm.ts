/** Where the sources differ, the department chooses. */
import type { RulebookList } from '../../../../db/api-rules.ts';
import { cited, midSentence } from '../../../../domain/rulebook/words.ts';
import { body, type DeedForm, dateOf } from '../../../parts/deeds/deedForm.ts';

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
