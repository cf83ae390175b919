/** Defects: what was found wrong on a unit outside a check-off, and how each one was settled. */
import { z } from 'zod';
import { CLOSED_HOW } from '../../domain/checkoffs/defect.ts';
import { EXCEPTIONS } from '../../domain/checkoffs/marks.ts';
import { mustCarry } from './carry.ts';
import { id, longWords, mustBe, notFuture, photos, when, words } from './fields.ts';
import { action, refuse } from './types.ts';

export const defectReport = action({
  name: 'defect.report',
  v: 1,
  title: 'Report something wrong on a unit that takes nothing out by itself: short, low, expired, damaged',
  schema: z.strictObject({
    of: id,
    line: id.optional(),
    /** Filled in: what the line was called when it was found wrong. */
    what: words.optional(),
    item: id.optional(),
    place: words.optional(),
    kind: z.enum(EXCEPTIONS),
    short: z.number().int().min(1).optional(),
    note: longWords,
    photos: photos.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['of', 'item', 'line'],
  check: (look, body) => [
    ...mustCarry(look, body.of),
    ...notFuture(look, body.on),
    ...mustBe(look, body.item, 'item', 'item'),
    ...(body.line === undefined || look.carryList(body.of).some(l => l.line === body.line)
      ? []
      : [refuse('not found', `The list has no line ${body.line}.`, 'Look at the list again.', 'line')]),
  ],
  complete(look, body) {
    const line = look.carryList(body.of).find(l => l.line === body.line);
    return line ? { ...body, what: line.what } : body;
  },
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'defect' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: {
          of: body.of,
          rig: null,
          checkoff: null,
          line: body.line ?? null,
          what: body.what ?? '',
          item: body.item ?? null,
          kind: body.kind,
          short: body.short ?? null,
          reading: null,
          note: body.note,
          next: 'defect',
          place: body.place ?? null,
          by: entry.by,
          ...(body.photos ? { photos: body.photos } : {}),
        },
        refs: [body.of, ...(body.item ? [body.item] : [])],
      },
    ],
  }),
  example: { of: '&0', kind: 'low', place: 'L3', note: 'Foam down to 3 gal' },
});

export const defectClose = action({
  name: 'defect.close',
  v: 1,
  title:
    'Settle a defect: replaced, restocked, found, repaired, put back, no fault found, written off, not ours',
  schema: z.strictObject({
    defect: id,
    how: z.enum(CLOSED_HOW),
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['defect'],
  check(look, body) {
    const known = look.defect(body.defect);
    if (!known)
      return [refuse('not found', `No defect has the id ${body.defect}.`, 'Find it in the list.', 'defect')];
    return [
      ...notFuture(look, body.on),
      ...(known.closed
        ? [refuse('settled', 'It is settled already.', 'Report it anew if it is wrong again.', 'defect')]
        : []),
      ...(known.out === null
        ? []
        : [
            refuse(
              'thing is out',
              `${known.out.number} is ${known.out.condition}.`,
              'Return it to service, report it found or retire it: that settles this.',
              'defect',
            ),
          ]),
      ...((body.how === 'no fault found' || body.how === 'written off') && body.note === undefined
        ? [
            refuse(
              'no reason',
              `That it is settled by "${body.how}" needs a reason.`,
              'Say what was looked at, or who decided.',
              'note',
            ),
          ]
        : []),
    ];
  },
  apply: (entry, body) => ({
    facts: [
      {
        thing: body.defect,
        kind: 'closed',
        effective: body.on,
        values: { how: body.how, by: entry.by, ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { defect: '&0', how: 'restocked' },
});
