import { body, type DeedForm } from './deedForm.ts';

/** The form that takes a record, a move or a whole import back, in the open. */
export function voidForm(target: string, what: string): DeedForm {
  return {
    title: 'Void',
    verb: 'Void it',
    initial: {},
    rows: () => [[{ kind: 'text', key: 'why', title: `Why “${what}” is void`, required: true }]],
    deeds: filled => [{ action: 'void', body: body({ target, why: filled.why }) }],
    done: () => `Voided: ${what}. Both stay in the ledger.`,
  };
}
