/** A problem on its way through libraries that only carry errors. */
import type { Answer, Problem } from '../../db/api.ts';

export class ProblemError extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.message);
    this.problem = problem;
  }
}

/** The value of an answer; a refusal is thrown with its problem. */
export function answered<T>(answer: Answer<T>): T {
  if (answer.ok) return answer.value;
  throw new ProblemError(answer.error);
}

/** The problem in whatever was thrown. */
export function problemOf(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  return {
    code: 'unexpected',
    message: error instanceof Error ? error.message : String(error),
    todo: 'Try again. If it happens again, write down these words for whoever looks after Baybook.',
    field: null,
  };
}

/** All problems of a refused answer, the first one first. */
export function problemsOf(answer: { ok: false; error: Problem; errors?: Problem[] }): Problem[] {
  return answer.errors && answer.errors.length > 0 ? answer.errors : [answer.error];
}
