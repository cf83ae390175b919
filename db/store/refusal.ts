import type { Problem } from '../api.ts';

/** A file that cannot be opened, with what is wrong and what to do. */
export class CannotOpen extends Error {
  readonly problem: Problem;
  constructor(code: string, message: string, todo: string) {
    super(message);
    this.problem = { code, message, todo, field: null };
  }
}
