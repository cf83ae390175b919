/** What the terminal refuses, and how it says so. */
import type { Answer, Problem } from '../../db/api.ts';

export class TerminalRefusal extends Error {
  readonly problem: Problem;
  /** Every problem, where there are several. */
  readonly problems: readonly Problem[];
  constructor(code: string, message: string, todo: string, field: string | null = null) {
    super(message);
    this.problem = { code, message, todo, field };
    this.problems = [this.problem];
  }
}

/** The value of an answer; a refusal is thrown with its problems. */
export function valueIn<T>(answer: Answer<T>): T {
  if (answer.ok) return answer.value;
  const { error, errors = [error] } = answer;
  throw Object.assign(new Error(error.message), { problem: error, problems: errors });
}
