/** Kits: their templates, their full counts and seals, and what was seen of a seal. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { lastDay, type When } from '../../domain/calendar/when.ts';
import type { ContentCount } from '../../domain/kits/kit.ts';
import { CONTENTS_EXPIRE, FULL_COUNT } from '../../domain/rulebook/kit.ts';
import { frozen } from './condition.ts';
import { id, longWords, mustBe, notFuture, when, words } from './fields.ts';
import { deedOnItem, familyOfItem, gone } from './items.ts';
import { action, type FactDraft, type Look, type Refusal, refuse } from './types.ts';

const seal = z.string().trim().min(1).max(40);

export const kitTemplate = action({
  name: 'kit.template',
  v: 1,
  title: 'Add a kind of kit: what such a kit holds is put on its list line by line (carry.set)',
  schema: z.strictObject({ what: words, on: when }),
  entitlement: 'plan',
  refs: [],
  check: (look, body) =>
    look.kitTemplate(body.what) === null
      ? notFuture(look, body.on)
      : [
          refuse(
            'name in use',
            `There is a template called ${body.what}.`,
            'Use that one, or give another name.',
            'what',
          ),
        ],
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'kit template' }],
    facts: [{ thing: entry.id, kind: 'identity', effective: body.on, values: { what: body.what } }],
  }),
  example: { what: 'Trauma bag' },
});

const count = z.strictObject({
  line: id,
  amount: z.number().int({ error: 'is no whole number. Count in each.' }).min(0).max(10_000),
  /** The earliest date on what is there. */
  expires: when.nullable().default(null),
});

export const kitSeal = action({
  name: 'kit.seal',
  v: 1,
  title: 'Count a kit in full, line by line of its template, and put a new numbered seal on it',
  schema: z.strictObject({
    item: id,
    seal,
    counts: z.array(count).max(500),
    /** Who counted with whoever signs, where two did. */
    witness: id.optional(),
    note: longWords.optional(),
    /** Filled in by the store: what was found of its seal and is settled by a new one. */
    settles: z.array(id).optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'witness'],
  family: familyOfItem,
  check(look, body, { by }) {
    const kit = look.kit(body.item);
    if (!kit) return noKit(look, body.item, body.on);
    const bearer = look.sealedWith(body.seal);
    return [
      ...kitDeed(look, body.item, body.on, 'sealed'),
      ...mustBe(look, body.witness, 'member', 'witness'),
      ...(body.witness !== undefined && body.witness === by
        ? [
            refuse(
              'same member',
              'Who signs the count and who counted with them are the same member.',
              'Name the other one who counted.',
              'witness',
            ),
          ]
        : []),
      ...(bearer === null
        ? []
        : [
            refuse(
              'seal used',
              `Seal ${body.seal} was put on ${bearer} before.`,
              'A seal is used once: enter the number of the new one.',
              'seal',
            ),
          ]),
      ...countProblems(kit.lines, body.counts),
    ];
  },
  complete(look, body) {
    const settles = look.sealDefects(body.item, body.on);
    return settles.length > 0 ? { ...body, settles: [...settles] } : body;
  },
  apply(entry, body) {
    const { item, counts, on } = body;
    const earliest = earliestOf(counts);
    return {
      facts: [
        {
          thing: item,
          kind: 'sealed',
          effective: on,
          values: {
            seal: body.seal,
            counts,
            by: entry.by,
            ...(body.witness ? { witness: body.witness } : {}),
            ...(body.note ? { note: body.note } : {}),
          },
          refs: body.witness ? [body.witness] : [],
        },
        {
          thing: item,
          kind: 'record',
          effective: on,
          values: { activity: FULL_COUNT, outcome: 'pass', ...(body.note ? { note: body.note } : {}) },
        },
        {
          thing: item,
          kind: 'identity',
          effective: on,
          values: { attributes: { [CONTENTS_EXPIRE]: earliest } },
        },
        ...(body.settles ?? []).map(defect => ({
          thing: defect,
          kind: 'closed',
          effective: on,
          values: { how: 'replaced', note: `Counted in full and sealed with ${body.seal}`, by: entry.by },
        })),
      ],
    };
  },
  example: { item: '&3', seal: '4471', counts: [{ line: '&2.0', amount: 2, expires: '2028-03' }] },
});

export const kitOpen = action({
  name: 'kit.open',
  v: 1,
  title: 'A kit was opened: a full count and a new seal are owed',
  schema: z.strictObject({ item: id, why: longWords, on: when }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => {
    const kit = look.kit(body.item);
    if (!kit) return noKit(look, body.item, body.on);
    return [
      ...kitDeed(look, body.item, body.on, 'opened'),
      ...(kit.known.state === 'opened'
        ? [
            refuse(
              'open already',
              `${kit.number} is open${kit.known.since ? ` since ${showWhen(kit.known.since)}` : ''}.`,
              'Count it and put a new seal on it.',
              'item',
            ),
          ]
        : []),
    ];
  },
  apply: (entry, body) => ({
    facts: [
      { thing: body.item, kind: 'opened', effective: body.on, values: { why: body.why, by: entry.by } },
    ],
  }),
  example: { item: '&3', why: 'Used on a call' },
});

export const kitCheck = action({
  name: 'kit.check',
  v: 1,
  title: 'Look at the seal of a kit: its number, and whether it is whole',
  schema: z.strictObject({ item: id, seal: seal.nullable().default(null), intact: z.boolean(), on: when }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check: (look, body) => {
    if (!look.kit(body.item)) return noKit(look, body.item, body.on);
    return [
      // Looking does nothing to a kit, whatever it is held for.
      ...deedOnItem(look, body.item, body.on),
      ...gone(look, body.item, 'checked'),
      ...(body.intact && body.seal === null
        ? [
            refuse(
              'no number',
              'The number of the seal was not read.',
              'Read it: another number means that somebody has been in the kit.',
              'seal',
            ),
          ]
        : []),
    ];
  },
  apply: (_entry, body) => ({ facts: [sealSeen(body.item, body.seal, body.intact, body.on)] }),
  example: { item: '&3', seal: '4471', intact: true },
});

/** What was seen of a seal. */
export const sealSeen = (item: string, seal: string | null, intact: boolean, on: When): FactDraft => ({
  thing: item,
  kind: 'seal seen',
  effective: on,
  values: { seal, intact },
});

function kitDeed(look: Look, item: string, on: When, verb: string): Refusal[] {
  return [...deedOnItem(look, item, on), ...gone(look, item, verb), ...frozen(look, item, 'kit.seal')];
}

function noKit(look: Look, item: string, on: When): Refusal[] {
  const known = look.item(item);
  return known
    ? [refuse('no kit', `${known.number} is no kit.`, 'Name a thing of the family of kits.', 'item')]
    : deedOnItem(look, item, on);
}

/** A full count tells of every line that is counted; what is tracked in it tells itself by its numbers. */
function countProblems(
  lines: readonly { line: string; what: string; family: string | null }[],
  counts: readonly ContentCount[],
): Refusal[] {
  if (lines.length === 0)
    return [
      refuse(
        'no template',
        'Nothing is on the list of its kind.',
        'Give the kit a kind that has a template, and the template its lines.',
        'item',
      ),
    ];
  const counted = new Set(counts.map(c => c.line));
  const owed = lines.filter(l => l.family === null && !counted.has(l.line));
  const unknown = counts.filter(c => !lines.some(l => l.line === c.line && l.family === null));
  return [
    ...owed
      .slice(0, 20)
      .map(l =>
        refuse('not counted', `${l.what} is not counted.`, 'Enter how many there are; 0 for none.', l.line),
      ),
    ...unknown.map(c =>
      refuse(
        'not on the list',
        `The template counts no line ${c.line}.`,
        'Look at it again: it may have changed.',
        c.line,
      ),
    ),
  ];
}

function earliestOf(counts: readonly ContentCount[]): When | null {
  const dates = counts.flatMap(c => (c.amount > 0 && c.expires !== null ? [c.expires] : []));
  return dates.sort((a, b) => lastDay(a) - lastDay(b))[0] ?? null;
}
