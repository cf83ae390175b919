/** Amending who and where: names, numbers and settings that changed or were wrong. The old ones stay in the ledger. */
import { z } from 'zod';
import type { When } from '../../domain/calendar/when.ts';
import { isZone } from '../store/clock.ts';
import { id, mustBe, mustHold, notFuture, when, words } from './fields.ts';
import { type Action, action, type Look, type Refusal, refuse } from './types.ts';

const rin = z
  .string()
  .regex(/^[A-Z]\d{3}$/, { error: 'is not a RIN: one letter and three digits, as A123.' });

/** An amendment sets the fields it names and leaves the rest. */
function amendment(spec: {
  name: string;
  title: string;
  field: string;
  kind: string;
  fields: Record<string, z.ZodType>;
  entitlement: Action['entitlement'];
  refs?: readonly string[];
  also?: (look: Look, body: Record<string, unknown>) => Refusal[];
  example: Record<string, unknown>;
}): Action {
  return action({
    name: spec.name,
    v: 1,
    title: spec.title,
    schema: z.strictObject({ [spec.field]: id, ...spec.fields, on: when }) as unknown as z.ZodType<
      Record<string, unknown> & { on: string }
    >,
    entitlement: spec.entitlement,
    refs: [spec.field, ...(spec.refs ?? [])],
    check: (look, body) => [
      ...notFuture(look, body.on as When),
      ...mustBe(look, String(body[spec.field]), spec.kind, spec.field),
      ...(Object.keys(body).some(key => key in spec.fields)
        ? []
        : [
            refuse(
              'nothing to amend',
              'Nothing is amended.',
              `Give one of: ${Object.keys(spec.fields).join(', ')}.`,
            ),
          ]),
      ...(spec.also?.(look, body) ?? []),
    ],
    apply: (_entry, body) => {
      const { on, [spec.field]: thing, ...values } = body;
      return {
        facts: [
          {
            thing: String(thing),
            kind: 'identity',
            effective: on,
            values,
            refs: (spec.refs ?? []).map(key => values[key]).filter(r => typeof r === 'string'),
          },
        ],
      };
    },
    example: spec.example,
  });
}

export const departmentAmend = amendment({
  name: 'department.amend',
  title:
    'Amend the department’s name, state, zone, the units it reads in, or under how many seconds a line haste is noted',
  field: 'department',
  kind: 'department',
  fields: {
    name: words.optional(),
    state: z.string().length(2).nullable().optional(),
    zone: z
      .string()
      .refine(isZone, { error: 'is not a time zone. Use an IANA name such as America/Denver.' })
      .optional(),
    units: z.enum(['US', 'SI']).optional(),
    /** Whole seconds a line of a check-off; null: haste is not noted. */
    hasteUnder_s: z.number().int().min(1).max(60).nullable().optional(),
  },
  entitlement: 'administer',
  example: { department: '<id>', units: 'SI' },
});

export const memberAmend = amendment({
  name: 'member.amend',
  title: 'Amend a member’s number, name or qualifications (all of them; an empty list for none)',
  field: 'member',
  kind: 'member',
  fields: {
    number: words.optional(),
    name: words.optional(),
    /** What the member is qualified for, by the words in which a requirement asks for it. */
    qualifications: z
      .array(z.strictObject({ title: words, expires: when.nullable() }))
      .max(20)
      .optional(),
  },
  entitlement: 'administer',
  also: (look, body) =>
    typeof body.number === 'string' &&
    body.number !== look.memberNumber(String(body.member)) &&
    look.memberNumbers().has(body.number)
      ? [refuse('number in use', `Member number ${body.number} is in use.`, 'Give another number.', 'number')]
      : [],
  example: { member: '<id>', name: 'J. Okafor-Lind' },
});

export const agencyAmend = amendment({
  name: 'agency.amend',
  title: 'Amend an agency: its name, its RIN, when that expires',
  field: 'agency',
  kind: 'agency',
  fields: { name: words.optional(), rin: rin.nullable().optional(), rinExpires: when.nullable().optional() },
  entitlement: 'plan',
  example: { agency: '<id>', rinExpires: '2031-04-30' },
});

export const unitAmend = amendment({
  name: 'unit.amend',
  title: 'Amend a unit: its name, kind or station',
  field: 'unit',
  kind: 'unit',
  fields: { name: words.optional(), kind: words.optional(), station: id.nullable().optional() },
  entitlement: 'plan',
  refs: ['station'],
  also: (look, body) =>
    typeof body.station === 'string' ? mustBe(look, body.station, 'place', 'station') : [],
  example: { unit: '<id>', station: '<id>' },
});

/** A place stands under another, never under itself or what lies in it, and its name is one of its neighborhood. */
function amendedPlace(look: Look, body: Record<string, unknown>): Refusal[] {
  const place = String(body.place);
  const problems: Refusal[] = [];
  let under = typeof body.under === 'string' ? body.under : null;
  if (under !== null) problems.push(...mustHold(look, under, 'under'));
  // As many steps as any department is deep: a circle that is there already ends too.
  for (let at = under, step = 0; at !== null && step < 50; at = look.placeUnder(at), step++)
    if (at === place)
      return [
        ...problems,
        refuse('under itself', 'A place cannot stand inside itself.', 'Choose another place.', 'under'),
      ];
  if (typeof body.name !== 'string') return problems;
  if (body.under === undefined) under = look.placeUnder(place);
  const named = look.placeNamed(look.rig(place) ? null : under, body.name);
  if (named !== null && named !== place)
    problems.push(
      refuse(
        'name in use',
        `There is a place named ${body.name} there already.`,
        'Give another name.',
        'name',
      ),
    );
  return problems;
}

export const placeAmend = amendment({
  name: 'place.amend',
  title: 'Amend a station, rig or place: its name, or what it stands under',
  field: 'place',
  kind: 'place',
  fields: { name: words.optional(), under: id.nullable().optional(), chassis: words.optional() },
  entitlement: 'plan',
  refs: ['under'],
  also: amendedPlace,
  example: { place: '<id>', name: 'crosslay 2' },
});
