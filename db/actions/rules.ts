/** The book as the department makes it its own: requirements, policies and permits. */
import { z } from 'zod';
import { parseDay } from '../../domain/calendar/day.ts';
import { forceIn } from '../../domain/rulebook/force.ts';
import { SHIPPED_REQUIREMENTS, shippedRequirement } from '../../domain/rulebook/index.ts';
import { POLICIES } from '../../domain/rulebook/policies.ts';
import { STATES } from '../../domain/rulebook/states.ts';
import { DEPARTMENT_KINDS } from '../../domain/rulebook/types.ts';
import {
  adoptedRequirement,
  adoptionProblems,
  asOwn,
  looserThanLaw,
  profileFor,
  refusedAsLaw,
} from './adoption.ts';
import { longWords, when, words } from './fields.ts';
import { requirementSchema } from './requirement.ts';
import { ALWAYS, action, refuse } from './types.ts';

/** The book is one thing in every file of a department. */
const BOOK = { id: 'rulebook', kind: 'rulebook' };

const effectiveFrom = z
  .union([
    z.literal('opening'),
    z.string().refine(t => parseDay(t) !== null, { error: 'is not a day. Write 2026-06-14, or opening.' }),
  ])
  .default('opening');

export const rulebookAdopt = action({
  name: 'rulebook.adopt',
  v: 1,
  title: 'Adopt requirements in full, from the department’s opening or from a day on',
  schema: z.strictObject({
    requirements: z.array(requirementSchema).min(1),
    from: effectiveFrom,
    reason: longWords.optional(),
    /** Who has decided it: the chief, a policy, the manufacturer’s manual. */
    authority: words.optional(),
    on: when,
  }),
  entitlement: 'adopt',
  refs: [],
  family(_look, body) {
    const [first, ...others] = new Set(body.requirements.map(r => r.family));
    return others.length === 0 ? (first ?? null) : null;
  },
  check(look, body) {
    const repeated = body.requirements.map(r => r.id).find((r, i, all) => all.indexOf(r) !== i);
    if (repeated)
      return [
        refuse('twice', `${repeated} is in the list twice.`, 'Adopt each requirement once.', 'requirements'),
      ];
    const problems = body.requirements.flatMap((r, i) =>
      adoptionProblems(look, r, body, `requirements.${i}`),
    );
    if (problems.length > 0) return problems;
    return look.department
      ? []
      : [refuse('no department', 'No department is open.', 'Open a department first.')];
  },
  complete: (_look, body) => ({
    ...body,
    requirements: body.requirements.map(r => asOwn(r, body.reason ?? '', body.authority ?? '')),
  }),
  apply: (_entry, body) => ({
    things: [BOOK],
    facts: body.requirements.map(requirement => ({
      thing: BOOK.id,
      kind: 'rule',
      effective: body.from === 'opening' ? ALWAYS : body.from,
      values: {
        requirement,
        from: body.from === 'opening' ? null : body.from,
        ...(body.reason ? { reason: body.reason } : {}),
        ...(body.authority ? { authority: body.authority } : {}),
      },
    })),
  }),
  example: {
    requirements: SHIPPED_REQUIREMENTS.slice(0, 1) as unknown as Record<string, unknown>[],
    from: 'opening',
  },
});

export const rulebookEnd = action({
  name: 'rulebook.end',
  v: 1,
  title: 'No longer judge by a requirement, from a day on; what is law here stays',
  schema: z.strictObject({
    requirement: z.string().min(1),
    from: effectiveFrom,
    reason: longWords,
    authority: words,
    on: when,
  }),
  entitlement: 'adopt',
  refs: [],
  family: (look, body) => adoptedRequirement(look, body.requirement)?.family ?? null,
  check(look, body) {
    const adopted = adoptedRequirement(look, body.requirement);
    if (!adopted)
      return [
        refuse(
          'not adopted',
          `${body.requirement} is not adopted.`,
          'Name a requirement of the department’s book.',
          'requirement',
        ),
      ];
    const shipped = shippedRequirement(adopted.id);
    const force = forceIn(shipped ?? adopted, profileFor(look, body.from));
    return shipped && force.force === 'law'
      ? [refusedAsLaw(adopted, force, 'It may not be set aside.', 'requirement')]
      : [];
  },
  apply: (_entry, body) => ({
    things: [BOOK],
    facts: [
      {
        thing: BOOK.id,
        kind: 'rule end',
        effective: body.from === 'opening' ? ALWAYS : body.from,
        values: {
          requirement: body.requirement,
          from: body.from === 'opening' ? null : body.from,
          reason: body.reason,
          authority: body.authority,
        },
      },
    ],
  }),
  example: {
    requirement: 'hose.occupant-service-test',
    reason: 'The district has no building hose.',
    authority: 'Fire chief',
  },
});

export const profileSet = action({
  name: 'profile.set',
  v: 1,
  title:
    'Say what the department is: its state, career or volunteer, and whether workplace-safety law binds it',
  schema: z.strictObject({
    country: z.enum(['US', 'other']).default('US'),
    state: z
      .string()
      .refine(s => STATES[s] !== undefined, { error: 'is not a state. Write its two letters: CO.' })
      .nullable(),
    kind: z.enum(DEPARTMENT_KINDS).nullable(),
    oshaBinds: z.boolean().nullable().default(null),
    from: effectiveFrom,
    reason: longWords.optional(),
    on: when,
  }),
  entitlement: 'adopt',
  refs: [],
  check: (look, { country, state, kind, oshaBinds }) =>
    look.department
      ? looserThanLaw(look, { country, state, kind, oshaBinds })
      : [refuse('no department', 'No department is open.', 'Open a department first.')],
  apply: (_entry, { country, state, kind, oshaBinds, from, reason }) => ({
    things: [BOOK],
    facts: [
      {
        thing: BOOK.id,
        kind: 'profile',
        effective: from === 'opening' ? ALWAYS : from,
        values: {
          profile: { country, state, kind, oshaBinds },
          from: from === 'opening' ? null : from,
          ...(reason ? { reason } : {}),
        },
      },
    ],
  }),
  example: { state: 'CO', kind: 'combination' },
});

export const policyChoose = action({
  name: 'policy.choose',
  v: 1,
  title: 'Choose a policy where the sources differ',
  schema: z.strictObject({
    policy: z.string(),
    choice: z.string(),
    from: effectiveFrom,
    reason: longWords.optional(),
    on: when,
  }),
  entitlement: 'adopt',
  refs: [],
  check(_look, body) {
    const policy = POLICIES.find(p => p.id === body.policy);
    if (!policy)
      return [
        refuse(
          'unknown policy',
          `There is no policy ${body.policy}.`,
          `Use one of: ${POLICIES.map(p => p.id).join(', ')}.`,
          'policy',
        ),
      ];
    const choices = policy.choices.map(c => c.value);
    return choices.includes(body.choice)
      ? []
      : [
          refuse(
            'unknown choice',
            `${body.choice} is not a choice.`,
            `Use one of: ${choices.join(', ')}.`,
            'choice',
          ),
        ];
  },
  apply: (_entry, body) => ({
    things: [BOOK],
    facts: [
      {
        thing: BOOK.id,
        kind: 'policy',
        effective: body.from === 'opening' ? ALWAYS : body.from,
        values: {
          policy: body.policy,
          choice: body.choice,
          from: body.from === 'opening' ? null : body.from,
        },
      },
    ],
  }),
  example: { policy: 'charged past due', choice: 'pull' },
});

export const permitConfirm = action({
  name: 'permit.confirm',
  v: 1,
  title: 'Confirm a special permit or exemption from the paper or the label in hand',
  schema: z.strictObject({
    permit: z
      .string()
      .regex(/^DOT-(SP|E) \d{4,5}$/, { error: 'is not a permit: write DOT-SP 10915 or DOT-E 7277.' }),
    construction: words,
    months: z.number().int().min(1).max(600),
    lifeMonths: z.union([z.number().int().min(1).max(1200), z.null(), z.literal('label')]),
    basis: words,
    on: when,
  }),
  entitlement: 'adopt',
  refs: [],
  family: () => 'cylinder',
  check: look =>
    look.department ? [] : [refuse('no department', 'No department is open.', 'Open a department first.')],
  apply: (_entry, body) => ({
    things: [BOOK],
    facts: [
      {
        thing: BOOK.id,
        kind: 'permit',
        effective: ALWAYS,
        values: {
          permit: body.permit,
          construction: body.construction,
          months: body.months,
          lifeMonths: body.lifeMonths,
          basis: body.basis,
        },
      },
    ],
  }),
  example: {
    permit: 'DOT-SP 10915',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    basis: 'the permit in hand, 22nd revision',
  },
});

export const importNote = action({
  name: 'import.note',
  v: 1,
  title: 'Note which sheet a batch came from',
  schema: z.strictObject({
    file: words,
    sha256: z.string().length(64),
    family: z.string(),
    rows: z.number().int(),
    accepted: z.number().int(),
    refused: z.number().int(),
    on: when,
  }),
  entitlement: 'record',
  refs: [],
  check: () => [],
  apply: () => ({}),
  example: { file: 'hose.csv', sha256: '0'.repeat(64), family: 'hose', rows: 120, accepted: 113, refused: 7 },
});
