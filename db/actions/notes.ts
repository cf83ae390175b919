/** Pass-on notes between shifts: signed by who wrote them, carried until somebody closes them. */
import { z } from 'zod';
import { id, longWords, mustBe, notFuture, when } from './fields.ts';
import { action, refuse } from './types.ts';

export const noteWrite = action({
  name: 'note.write',
  v: 1,
  title: 'Write a pass-on note for the next shift, for a unit, a station or the whole department',
  schema: z.strictObject({ text: longWords, unit: id.optional(), station: id.optional(), on: when }),
  entitlement: 'record',
  refs: ['unit', 'station'],
  check: (look, body) => [
    ...notFuture(look, body.on),
    ...mustBe(look, body.unit, 'unit', 'unit'),
    ...mustBe(look, body.station, 'place', 'station'),
  ],
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'note' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: { text: body.text, unit: body.unit ?? null, station: body.station ?? null },
        refs: [body.unit, body.station].filter(r => r !== undefined),
      },
    ],
  }),
  example: { text: 'Generator on Rescue 33 hard to start; fresh fuel tried.', unit: '&0' },
});

export const noteClose = action({
  name: 'note.close',
  v: 1,
  title: 'Close a pass-on note',
  schema: z.strictObject({ note: id, why: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['note'],
  check: (look, body) => [
    ...notFuture(look, body.on),
    ...mustBe(look, body.note, 'note', 'note'),
    ...(look.noteClosed(body.note)
      ? [refuse('closed', 'The note is closed already.', 'Write a new one.', 'note')]
      : []),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.note,
        kind: 'closed',
        effective: body.on,
        values: { ...(body.why ? { why: body.why } : {}) },
      },
    ],
  }),
  example: { note: '&0', why: 'Carburetor cleaned' },
});
