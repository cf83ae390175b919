/** Going through a rig against its carry list: begun, marked place by place, countersigned, set aside. */
import { z } from 'zod';
import { exceptionProblems, markOf, type PlaceMark, placesOf } from '../../domain/checkoffs/marks.ts';
import { mustCarry } from './carry.ts';
import { clockTime, linesOf, noCheckoff, placeMark, stillDraft } from './checkoff-forms.ts';
import { id, longWords, mustBe, mustHold, notFuture, when, words } from './fields.ts';
import { mustBeRig } from './rigs.ts';
import { type Action, action, type CheckoffKnown, type Look, type Refusal, refuse } from './types.ts';

export const checkoffStart = action({
  name: 'checkoff.start',
  v: 1,
  title: 'Begin to go through a unit’s rig against its carry list',
  schema: z.strictObject({
    of: id,
    /** The rig it is gone through on; the one its crew rides now where it is left out. */
    rig: id.optional(),
    /** Which places; all of them where it is left out. */
    places: z.array(words).min(1).optional(),
    scope: z.enum(['whole', 'operated only']).optional(),
    schedule: id.optional(),
    /** The day of the schedule that it is for, and which shift of it. */
    for: z.strictObject({ on: when, shift: z.number().int().min(0).max(23).default(0) }).optional(),
    started: clockTime,
    on: when,
  }),
  entitlement: 'record',
  refs: ['of', 'rig'],
  check: (look, body) => [
    ...mustCarry(look, body.of),
    ...notFuture(look, body.on),
    ...notFuture(look, body.started, 'started', 'The start,'),
    ...(body.rig === undefined ? [] : mustBeRig(look, body.rig)),
    ...(look.carryList(body.of).length === 0
      ? [
          refuse(
            'no carry list',
            'Nothing is on its carry list.',
            'Say first what it must carry, from a template or a sheet.',
            'of',
          ),
        ]
      : []),
  ],
  complete: (look, body) => {
    const rig = body.rig ?? (look.rig(body.of) ? body.of : look.riddenBy(body.of));
    return rig ? { ...body, rig } : body;
  },
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'check-off' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: {
          of: body.of,
          rig: body.rig ?? null,
          places: body.places ?? null,
          scope: body.scope ?? 'whole',
          schedule: body.schedule ?? null,
          for: body.for ?? null,
          started: body.started,
        },
        refs: [body.of, ...(body.rig && body.rig !== body.of ? [body.rig] : [])],
      },
    ],
  }),
  isDraft: true,
  example: { of: '&0', started: '2026-11-25T07:10' },
});

export const checkoffMark = action({
  name: 'checkoff.mark',
  v: 1,
  title: 'Say what was found at a place; the latest word on a place stands until the check-off is signed',
  schema: z.strictObject({
    checkoff: id,
    marks: z.array(placeMark).min(1).max(300),
    /** The marks that were seen before: of a place that someone else marked since, nothing is overwritten. */
    saw: z.record(z.string(), id.nullable()).optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['checkoff'],
  check(look, body) {
    const known = look.checkoff(body.checkoff);
    if (!known) return noCheckoff(body.checkoff);
    const lines = linesOf(look, known);
    return [
      ...notFuture(look, body.on),
      ...stillDraft(known),
      ...body.marks.flatMap((mark, i) => [
        ...markProblems(look, mark, lines, `marks.${i}`),
        ...overwritten(known, body.saw, mark.place),
      ]),
    ];
  },
  apply: (_entry, body) => ({
    facts: body.marks.map(mark => ({
      thing: body.checkoff,
      kind: 'mark',
      effective: body.on,
      values: { ...mark },
    })),
  }),
  isDraft: true,
  example: { checkoff: '&4', marks: [{ place: 'L1', present: true }] },
});

export const checkoffCountersign = action({
  name: 'checkoff.countersign',
  v: 1,
  title: 'Countersign a check-off that somebody else has signed',
  schema: z.strictObject({ checkoff: id, note: longWords.optional(), on: when }),
  entitlement: 'countersign',
  refs: ['checkoff'],
  check(look, body, { by }) {
    const known = look.checkoff(body.checkoff);
    if (!known) return noCheckoff(body.checkoff);
    if (known.signedBy === by && known.signed !== null)
      return [
        refuse(
          'own signature',
          'Whoever signed a check-off does not countersign it.',
          'Let another officer look at it and sign.',
          'checkoff',
        ),
      ];
    if (known.signed === null)
      return [refuse('not signed', 'It is not signed yet.', 'Let whoever did it sign first.', 'checkoff')];
    if (known.countersigned)
      return [refuse('countersigned', 'It is countersigned already.', 'Nothing more is needed.', 'checkoff')];
    return notFuture(look, body.on);
  },
  apply: (entry, body) => ({
    facts: [
      {
        thing: body.checkoff,
        kind: 'countersigned',
        effective: body.on,
        values: { by: entry.by, ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { checkoff: '&4' },
});

export const checkoffSetAside: Action = action({
  name: 'checkoff.setAside',
  v: 1,
  title: 'Set a draft aside that will not be finished, and say why',
  schema: z.strictObject({ checkoff: id, why: longWords, on: when }),
  entitlement: 'record',
  refs: ['checkoff'],
  check(look, body) {
    const known = look.checkoff(body.checkoff);
    return known ? [...notFuture(look, body.on), ...stillDraft(known)] : noCheckoff(body.checkoff);
  },
  apply: (_entry, body) => ({
    facts: [{ thing: body.checkoff, kind: 'set aside', effective: body.on, values: { why: body.why } }],
  }),
  example: { checkoff: '&4', why: 'Begun on the wrong rig' },
});

function markProblems(
  look: Look,
  mark: PlaceMark,
  lines: ReturnType<typeof linesOf>,
  field: string,
): Refusal[] {
  const inPlace = placesOf(lines).some(p => p.toLowerCase() === mark.place.toLowerCase());
  const problems: Refusal[] = inPlace
    ? []
    : [
        refuse(
          'not on the list',
          `Nothing on the carry list rides in ${mark.place}.`,
          'Look at the list again: it may have changed.',
          `${field}.place`,
        ),
      ];
  problems.push(...mustHold(look, mark.at ?? undefined, `${field}.at`));
  mark.exceptions.forEach((e, i) => {
    const line = lines.find(l => l.line === e.line) ?? null;
    for (const wrong of exceptionProblems(e, line))
      problems.push(
        refuse(
          'exception',
          `${mark.place}: ${wrong}`,
          'Complete it, or take it away.',
          `${field}.exceptions.${i}`,
        ),
      );
    for (const thing of [e.item, e.with].filter(t => t !== null))
      if (!look.item(thing))
        problems.push(
          refuse(
            'not found',
            `No thing has the id ${thing}.`,
            'Find it by its number.',
            `${field}.exceptions.${i}`,
          ),
        );
    problems.push(...mustHold(look, e.to ?? undefined, `${field}.exceptions.${i}.to`));
    problems.push(...mustBe(look, e.defect ?? undefined, 'defect', `${field}.exceptions.${i}.defect`));
    const held = e.item === null ? null : look.item(e.item);
    if (held?.condition === 'held for investigation' && e.next !== 'note' && e.next !== 'defect')
      problems.push(
        refuse(
          'held',
          `${held.number} is held for investigation: nothing is done with it until it is released.`,
          'Write a note of what you saw.',
          `${field}.exceptions.${i}`,
        ),
      );
  });
  return problems;
}

/** Of a place that somebody marked after it was last looked at, nothing is overwritten. */
function overwritten(
  known: CheckoffKnown,
  saw: Record<string, string | null> | undefined,
  place: string,
): Refusal[] {
  const seen = saw?.[place];
  if (seen === undefined) return [];
  const stands = markOf(known.marks, place);
  return (stands?.fact ?? null) === seen
    ? []
    : [
        refuse(
          'marked since',
          `${place} was marked by ${stands?.byName ?? 'somebody else'} since you looked.`,
          'Look at what stands there now; then mark it again if it is otherwise.',
          place,
        ),
      ];
}
