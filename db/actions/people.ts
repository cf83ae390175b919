/** Who: the department, its members and what each may do. */
import { z } from 'zod';
import { ENTITLEMENTS, type Grant, POSITIONS } from '../../domain/people/entitlements.ts';
import { isZone } from '../store/clock.ts';
import { id, mustBe, when, words } from './fields.ts';
import { ALWAYS, action, type FactDraft, type NewThing, refuse } from './types.ts';

const grants = z.array(
  z.strictObject({
    entitlement: z.enum(ENTITLEMENTS),
    families: z.union([z.literal('all'), z.array(z.string())]),
  }),
);
const position = z.string().refine(p => p in POSITIONS, {
  error: `is not a position. Use one of: ${Object.keys(POSITIONS).join(', ')}.`,
});

/** The member through whom scripts act where none is named. */
const TERMINAL = { number: 'T', name: 'Terminal' };

export const departmentOpen = action({
  name: 'department.open',
  v: 1,
  title: 'Open a department, with its time zone and its first member as administrator',
  schema: z.strictObject({
    name: words,
    zone: z
      .string()
      .refine(isZone, { error: 'is not a time zone. Use an IANA name such as America/Denver.' }),
    state: z.string().length(2).optional(),
    member: z.strictObject({ number: words, name: words }),
    /** `shipped`: adopt the shipped rule book from the opening on; `empty`: start with no rules. */
    book: z.enum(['shipped', 'empty']).default('shipped'),
    demo: z.boolean().default(false),
    on: when,
  }),
  entitlement: 'administer',
  refs: [],
  check: look =>
    look.department
      ? [
          refuse(
            'already open',
            `This file already holds ${look.department.name}.`,
            'Open another file for another department.',
            'name',
          ),
        ]
      : [],
  apply(entry, body) {
    const things: NewThing[] = [
      { id: entry.id, kind: 'department' },
      { id: `${entry.id}.m`, kind: 'member' },
    ];
    const facts: FactDraft[] = [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: { name: body.name, zone: body.zone, state: body.state ?? null, demo: body.demo },
      },
      {
        thing: `${entry.id}.m`,
        kind: 'identity',
        effective: body.on,
        values: { ...body.member, position: 'administrator', grants: POSITIONS.administrator },
      },
    ];
    if (body.member.name !== TERMINAL.name) {
      // Scripts act under entitlements like anyone: they may record and plan, not return to service or adopt.
      things.push({ id: `${entry.id}.t`, kind: 'member' });
      facts.push({
        thing: `${entry.id}.t`,
        kind: 'identity',
        effective: body.on,
        values: {
          ...TERMINAL,
          position: null,
          grants: body.demo ? POSITIONS.administrator : scriptGrants(),
        },
      });
    }
    if (body.state !== undefined) {
      // What an opening says of its state is the first of the profile; career or volunteer is asked afterwards.
      things.push({ id: 'rulebook', kind: 'rulebook' });
      facts.push({
        thing: 'rulebook',
        kind: 'profile',
        effective: ALWAYS,
        values: { profile: { country: 'US', state: body.state, kind: null, oshaBinds: null }, from: null },
      });
    }
    return { things, facts };
  },
  example: {
    name: 'Larkspur Valley Fire District',
    zone: 'America/Denver',
    member: { number: '100', name: 'R. Alder' },
  },
});

function scriptGrants(): Grant[] {
  return (['read', 'record', 'plan'] as const).map(entitlement => ({
    entitlement,
    families: 'all' as const,
  }));
}

export const memberAdd = action({
  name: 'member.add',
  v: 1,
  title: 'Add a member, with a position or entitlements of their own',
  schema: z.strictObject({
    number: words,
    name: words,
    position: position.optional(),
    grants: grants.optional(),
    on: when,
  }),
  entitlement: 'administer',
  refs: [],
  check(look, body) {
    const problems = [];
    if (look.memberNumbers().has(body.number))
      problems.push(
        refuse('number in use', `Member number ${body.number} is in use.`, 'Give another number.', 'number'),
      );
    if (!body.position && !body.grants)
      problems.push(
        refuse(
          'no entitlement',
          'Nothing says what the member may do.',
          'Give a position or grants.',
          'position',
        ),
      );
    return problems;
  },
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'member' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: {
          number: body.number,
          name: body.name,
          position: body.position ?? null,
          // In full, so that a later change of the templates cannot change what somebody was entitled to.
          grants: body.grants ?? POSITIONS[body.position ?? ''] ?? [],
        },
      },
    ],
  }),
  example: { number: '214', name: 'J. Okafor', position: 'company officer' },
});

export const memberEntitle = action({
  name: 'member.entitle',
  v: 1,
  title: 'Change what a member may do',
  schema: z.strictObject({ member: id, position: position.optional(), grants: grants.optional(), on: when }),
  entitlement: 'administer',
  refs: ['member'],
  check: (look, body) => [
    ...mustBe(look, body.member, 'member', 'member'),
    ...(body.position || body.grants
      ? []
      : [
          refuse(
            'no entitlement',
            'Nothing says what the member may do.',
            'Give a position or grants.',
            'position',
          ),
        ]),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.member,
        kind: 'identity',
        effective: body.on,
        values: {
          position: body.position ?? null,
          grants: body.grants ?? POSITIONS[body.position ?? ''] ?? [],
        },
      },
    ],
  }),
  example: { member: '&0', position: 'logistics' },
});

export const memberPin = action({
  name: 'member.pin',
  v: 1,
  title: 'Set a member’s PIN; the PIN itself is the deed’s secret and never enters the ledger',
  schema: z.strictObject({ member: id, on: when }),
  entitlement: 'administer',
  refs: ['member'],
  check: (look, body) => mustBe(look, body.member, 'member', 'member'),
  apply: (_entry, body) => ({
    facts: [{ thing: body.member, kind: 'pin', effective: body.on, values: {} }],
  }),
  example: { member: '&0' },
});
