/** What a question is: a schema for what it takes and a function that reads. It never writes. */
import type { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import type { Problem, QuestionName, Questions } from '../api.ts';
import type { Db } from '../store/statements.ts';

export interface Asking {
  db: Db;
  /** The day in the department's zone, or the one a script compares with. */
  today: Day;
  /** UTC milliseconds now: when a paper is printed. */
  now(): number;
  /** For long answers: told how far it has come; `'stop'` where the asker has canceled. */
  watch?: ((done: number, total: number) => 'go on' | 'stop') | undefined;
}

export interface Question<K extends QuestionName = QuestionName> {
  name: K;
  title: string;
  schema: z.ZodType<Questions[K]['takes']>;
  answer(asking: Asking, args: Questions[K]['takes']): Questions[K]['gives'] | Promise<Questions[K]['gives']>;
  example: Record<string, unknown>;
}

/** Keep a question's types inside its definition. */
export function question<K extends QuestionName>(definition: Question<K>): Question<K> {
  return definition;
}

/** A question that cannot be answered: what was wrong with it and what to do. */
export class CannotAnswer extends Error {
  readonly problem: Problem;
  constructor(code: string, message: string, todo: string, field: string | null = null) {
    super(message);
    this.problem = { code, message, todo, field };
  }
}
