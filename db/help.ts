/** The doors in words: every action and question with its shape, and the vocabulary. For `--help` and for people. */
import { z } from 'zod';
import { ASSIGNMENTS, CONDITIONS, HOW_KNOWN, OUTCOMES } from '../domain/facts.ts';
import { POSITIONS } from '../domain/people/entitlements.ts';
import { FAMILIES } from '../domain/rulebook/index.ts';
import { ACTIONS } from './actions/index.ts';
import { commitSchema } from './files/import/commit.ts';
import { QUESTIONS } from './questions/index.ts';

export interface Help {
  name: string;
  title: string;
  /** TypeScript-like: `{item: text, on?: date}`. */
  shape: string;
  example: Record<string, unknown>;
  entitlement?: string;
}

export const ACTIONS_HELP: readonly Help[] = [
  ...[...ACTIONS.values()].map(a => ({
    name: a.name,
    title: a.title,
    // A date that is left out is today.
    shape: shapeOf(a.schema).replace(/\bon: /, 'on?: '),
    example: a.example,
    entitlement: a.entitlement,
  })),
  {
    name: 'import.commit',
    title: 'Bring in a sheet: one deed that stands for all that its good rows come to',
    shape: shapeOf(commitSchema),
    example: {
      name: 'hose.csv',
      bytes: '<base64>',
      family: 'hose',
      accept: { places: 'all', permits: [] },
    },
    entitlement: 'record, plan; adopt where permits are accepted',
  },
];

export const QUESTIONS_HELP: readonly Help[] = [...QUESTIONS.values()].map(q => ({
  name: q.name,
  title: q.title,
  shape: shapeOf(q.schema),
  example: q.example,
}));

/** Families with attributes and units, activities, outcomes and requirement ids. */
export const VOCABULARY_HELP = {
  families: FAMILIES.map(f => ({
    family: f.id,
    title: f.title,
    attributes: f.attributes.map(a => ({
      key: a.key,
      title: a.title,
      type: a.type,
      ...(a.unit ? { unit: a.unit } : {}),
      ...(a.choices ? { choices: a.choices.map(c => c.value) } : {}),
      ...(a.note ? { note: a.note } : {}),
    })),
    activities: f.activities.map(a => ({
      activity: a.id,
      readings: a.readings.map(r => `${r.key}${r.unit ? ` (${r.unit})` : ''}`),
    })),
    repairs: f.repairs.map(r => r.kind),
    happenings: f.triggers.map(t => t.id),
    requirements: f.requirements.map(r => ({ requirement: r.id, title: r.title, activity: r.activity })),
  })),
  outcomes: OUTCOMES,
  assignments: ASSIGNMENTS,
  conditions: CONDITIONS,
  howKnown: HOW_KNOWN,
  positions: Object.keys(POSITIONS),
  dates:
    'YYYY, YYYY-MM, YYYY-MM-DD or YYYY-MM-DDTHH:MM for what happened; YYYY-MM-DD where a day is compared with',
};

interface JsonSchema {
  type?: string | string[];
  enum?: unknown[];
  const?: unknown;
  anyOf?: JsonSchema[];
  oneOf?: JsonSchema[];
  items?: JsonSchema;
  properties?: Record<string, JsonSchema>;
  required?: string[];
  additionalProperties?: JsonSchema | boolean;
}

/** A schema as a line of TypeScript-like text. */
function shapeOf(schema: z.ZodType): string {
  return lineOf(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as JsonSchema, 0);
}

function lineOf(s: JsonSchema, depth: number): string {
  if (s.const !== undefined) return JSON.stringify(s.const);
  if (s.enum) return s.enum.map(v => JSON.stringify(v)).join(' | ');
  const either = s.anyOf ?? s.oneOf;
  if (either) return [...new Set(either.map(e => lineOf(e, depth)))].join(' | ');
  if (s.type === 'array') return `[${lineOf(s.items ?? {}, depth + 1)}, …]`;
  if (s.properties) {
    if (depth > 2) return '{…}';
    const fields = Object.entries(s.properties).map(
      ([key, field]) => `${key}${s.required?.includes(key) ? '' : '?'}: ${lineOf(field, depth + 1)}`,
    );
    return `{${fields.join(', ')}}`;
  }
  if (s.type === 'object')
    return typeof s.additionalProperties === 'object'
      ? `{[key]: ${lineOf(s.additionalProperties, depth + 1)}}`
      : '{…}';
  const names: Record<string, string> = { string: 'text', integer: 'whole number', boolean: 'true | false' };
  const types = Array.isArray(s.type) ? s.type : [s.type ?? 'any'];
  return types.map(t => names[t] ?? t).join(' | ');
}
