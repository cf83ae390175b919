/** What a criterion of the walk-round is: plain data, which can be written to JSON and read back the same. */
import type { Source } from '../rulebook/types.ts';

export const GROUPS = [
  'leaks',
  'brakes',
  'tires',
  'lights',
  'electrical',
  'fluids',
  'steering',
  'pump',
] as const;
export type Group = (typeof GROUPS)[number];

/** The answer where a rig has no such thing: no pump, no air brakes. Nothing is judged from it. */
export const NOT_FITTED = 'not fitted';

export type Answer =
  | { kind: 'choice'; values: readonly { value: string; title: string }[] }
  /** A decimal as text, 0 or more. A unit that begins with a stroke is written right after it: `3/32 in`. */
  | { kind: 'reading'; unit: string };

/** With which answers: those named, or those beyond a limit, which itself is still allowed. Decimals are text. */
export type When =
  /** `limit`: what stands after the verdict, where the answer alone does not tell the limit: `from class 3 on`. */
  { is: readonly string[]; limit?: string } | { under: string } | { over: string };

/** What puts a rig out or limits it. `source` where it is another than the criterion's. */
export type Rule = When & { source?: Source };

export interface Criterion {
  id: string;
  title: string;
  group: Group;
  question: string;
  answer: Answer;
  /** Whether a rig may have no such thing, so that it may be answered `not fitted`. */
  mayLack?: true;
  /** How an answer is told, `#` standing for it: `Tire tread # on the steering axle`. */
  told: string;
  /** What puts the rig out of service, what leaves it in service with limits, and what is merely noted. */
  out: Rule | null;
  limited: Rule | null;
  noted: Rule | null;
  source: Source;
  caution?: string;
  /** On what the department confirmed a criterion whose source is memory; absent: it is not judged by it. */
  confirmed?: string;
}

/** Two values and their words. */
export const either = (good: string, bad: string): Answer => ({
  kind: 'choice',
  values: [good, bad].map(value => ({ value, title: value })),
});
