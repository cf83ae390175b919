/** How hosts turn what went wrong into the `Problem` that screens and scripts read. */
import type { Problem } from '../db/api.ts';

/** The problem an error carries, or one that says what the error said. */
export function problemOf(error: unknown): Problem {
  if (error !== null && typeof error === 'object' && 'problem' in error && isProblem(error.problem))
    return error.problem;
  return {
    code: 'unexpected',
    // One line: where in the program it happened is for the log.
    message: (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '',
    todo: 'Try again; if it happens again, keep this message and tell whoever looks after Baybook.',
    field: null,
  };
}

function isProblem(value: unknown): value is Problem {
  return (
    value !== null &&
    typeof value === 'object' &&
    'code' in value &&
    'message' in value &&
    'todo' in value &&
    'field' in value
  );
}
