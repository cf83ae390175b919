/** The reading door: a question, answered inside one read transaction. */
import type { z } from 'zod';
import type { Answer } from '../api.ts';
import { QUESTIONS } from '../questions/index.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { type Clock, dayIn } from './clock.ts';
import { type Db, one } from './statements.ts';

/**
 * Answer a question by name.
 * @param db a connection that is only read; the whole answer sees one state of it
 * @returns the answer, or what was wrong with the question and what to do
 */
export async function ask(
  db: Db,
  clock: Clock,
  name: string,
  args: unknown,
  watch?: Asking['watch'],
): Promise<Answer<unknown>> {
  const question = QUESTIONS.get(name);
  if (!question)
    return refused(
      'unknown question',
      `There is no question ${name}.`,
      'See the list of questions in the help.',
      'question',
    );
  const parsed = question.schema.safeParse(args ?? {});
  if (!parsed.success) return { ok: false, ...schemaProblems(parsed.error) };
  const zone = one<{ zone: string }>(db, 'SELECT zone FROM departments')?.zone ?? 'UTC';
  const today = clock.today ?? dayIn(zone, clock.now());
  const asking: Asking = { db, today, now: () => clock.now(), watch };
  db.exec('BEGIN');
  try {
    return { ok: true, value: await question.answer(asking, parsed.data) };
  } catch (error) {
    if (error instanceof CannotAnswer) return { ok: false, error: error.problem };
    if (error instanceof Error && error.message === 'canceled')
      return refused('canceled', 'Canceled.', 'Ask again when you are ready.', null);
    throw error;
  } finally {
    db.exec('COMMIT');
  }
}

function refused(code: string, message: string, todo: string, field: string | null): Answer<never> {
  return { ok: false, error: { code, message, todo, field } };
}

function schemaProblems(error: z.ZodError): {
  error: import('../api.ts').Problem;
  errors: import('../api.ts').Problem[];
} {
  const errors = error.issues.map(issue => {
    const field = issue.code === 'unrecognized_keys' ? (issue.keys[0] ?? null) : issue.path.join('.') || null;
    return {
      code: 'bad question',
      message: `${field ?? 'The question'} ${issue.message}`,
      todo: 'See the shape of the question in the help.',
      field,
    };
  });
  const [first] = errors;
  if (!first) throw error;
  return { error: first, errors };
}
