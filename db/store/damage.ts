import type { Problem, Verification } from '../api.ts';

/** What everyone is told once an entry is not what it was: reading goes on, writing stops. */
export function damageProblem(bad: NonNullable<Verification['firstBad']>): Problem {
  return {
    code: 'ledger damaged',
    message: `Entry ${bad.seq} of device ${bad.device} is not what was written: ${bad.what}`,
    todo: 'Nothing more is written in this file. Keep it as it is for evidence and restore the last good backup.',
    field: null,
  };
}
