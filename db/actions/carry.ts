/** The carry list of a unit, or of a reserve rig that stands by without one: adopted, changed and ended line by line. */
import { z } from 'zod';
import { VERIFY } from '../../domain/carry/types.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { attributeProblems, id, longWords, notFuture, values, when, words } from './fields.ts';
import { sourceForm } from './requirement.ts';
import { action, type Look, type Refusal, refuse } from './types.ts';

const line = z.strictObject({
  /** The line that is changed; left out, it is a new one. */
  line: id.optional(),
  what: words,
  family: z.string().nullable().default(null),
  like: values.default({}),
  qty: z.number().int().min(0).max(10_000),
  min: z.number().int().min(0).max(10_000),
  place: words,
  critical: z.boolean().default(false),
  verify: z.enum(VERIFY).default('sight'),
  reading: z
    .strictObject({
      title: words,
      unit: words.nullable().default(null),
      atLeast: z
        .string()
        .regex(/^\d+(\.\d+)?$/, { error: 'is not a number. Write it with a decimal point, as text: "90".' })
        .nullable()
        .default(null),
    })
    .nullable()
    .default(null),
  source: sourceForm.nullable().default(null),
});

export const carrySet = action({
  name: 'carry.set',
  v: 1,
  title:
    'Put lines on the list of a unit or of a kind of kit, change them or end them; the list of an old day stays as it was',
  schema: z.strictObject({
    /** A unit, a rig that stands by without one, or the template of a kind of kit. */
    of: id,
    lines: z.array(line).max(2000).default([]),
    end: z.array(id).max(2000).default([]),
    why: longWords.optional(),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['of'],
  check(look, body) {
    const known = new Map(look.carryList(body.of).map(l => [l.line, l]));
    const unknown = [...body.lines.flatMap(l => l.line ?? []), ...body.end].filter(l => !known.has(l));
    return [
      ...(look.kindOf(body.of) === 'kit template' ? [] : mustCarry(look, body.of)),
      ...notFuture(look, body.on),
      ...(body.lines.length + body.end.length === 0
        ? [refuse('nothing', 'No line is set or ended.', 'Give at least one line.', 'lines')]
        : []),
      ...unknown.map(l =>
        refuse(
          'not found',
          `The list has no line ${l}.`,
          'Look at the list again: it may have ended.',
          'lines',
        ),
      ),
      ...body.lines.flatMap((l, i) => lineProblems(look, l, `lines.${i}`)),
    ];
  },
  apply: (entry, body) => ({
    facts: [
      ...body.lines.map(({ line: known, ...values }, i) => ({
        thing: body.of,
        kind: 'carry line',
        effective: body.on,
        values: { line: known ?? `${entry.id}.${i.toString(36)}`, ...values },
      })),
      ...body.end.map(ended => ({
        thing: body.of,
        kind: 'carry line',
        effective: body.on,
        values: { line: ended, ended: true, ...(body.why ? { why: body.why } : {}) },
      })),
    ],
  }),
  example: {
    of: '&0',
    lines: [{ what: 'Spanner wrench', qty: 4, min: 4, place: 'L1', verify: 'count' }],
  },
});

/** Whether it is a unit, or a rig: who goes through a list and is gone through. */
export function mustCarry(look: Look, of: string, field = 'of'): Refusal[] {
  if (look.kindOf(of) === 'unit' || look.rig(of)) return [];
  return [
    refuse(
      'not found',
      `No unit or rig has the id ${of}.`,
      'Name a unit, or a reserve rig that stands by without one.',
      field,
    ),
  ];
}

function lineProblems(
  look: Look,
  l: { what: string; family: string | null; like: Record<string, unknown>; qty: number; min: number },
  field: string,
): Refusal[] {
  const family = l.family === null ? null : familyOf(l.family);
  return [
    ...(l.min > l.qty
      ? [
          refuse(
            'minimum above',
            `${l.what}: the minimum ${l.min} is more than the ${l.qty} carried.`,
            'Raise the quantity or lower the minimum.',
            `${field}.min`,
          ),
        ]
      : []),
    ...(family === undefined
      ? [
          refuse(
            'unknown family',
            `${l.what}: there is no family ${l.family}.`,
            'Use a family of the rule book, or none where it is only counted.',
            `${field}.family`,
          ),
        ]
      : []),
    ...(family ? attributeProblems(family, l.like, look.today) : []),
    ...(l.family === null && Object.keys(l.like).length > 0
      ? [
          refuse(
            'not tracked',
            `${l.what} is counted and not tracked, so nothing can be asked of its things.`,
            'Name the family, or leave out what it must be like.',
            `${field}.like`,
          ),
        ]
      : []),
  ];
}
