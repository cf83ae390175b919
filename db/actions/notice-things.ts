/** What becomes of the things that a notice concerns, one by one, and of serials it names that nobody can find. */
import { z } from 'zod';
import { isSameSerial, rangeOf } from '../../domain/chains/serial.ts';
import { contradiction, SETTLED_HOW } from '../../domain/chains/settled.ts';
import { id, longWords, notFuture, when, words } from './fields.ts';
import { familyOfNotice, noNotice } from './notices.ts';
import { action, type Look, type NoticeSeen, type Refusal, refuse } from './types.ts';

export const noticeSettle = action({
  name: 'notice.settle',
  v: 1,
  title:
    'Settle one thing that a notice concerns, or a serial it names that is not here: how, and since when',
  schema: z.strictObject({
    notice: id,
    item: id.optional(),
    serial: words.optional(),
    how: z.enum(SETTLED_HOW),
    note: longWords.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['notice', 'item'],
  family: familyOfNotice,
  check(look, body) {
    const known = look.notice(body.notice);
    if (!known) return noNotice(body.notice);
    if ((body.item === undefined) === (body.serial === undefined))
      return [
        refuse('which', 'It is not said what is settled.', 'Name one thing or one expected serial.', 'item'),
      ];
    return [
      ...notFuture(look, body.on),
      ...(body.item === undefined
        ? serialRefusals(known, body)
        : thingRefusals(look, known, body.item, body.how)),
      ...((body.how === 'not concerned' || body.how === 'cannot be found') && body.note === undefined
        ? [
            refuse(
              'no reason',
              `That it is settled by “${body.how}” needs a reason.`,
              body.how === 'not concerned'
                ? 'Say what was looked at: the serial as it was read, the model on the label.'
                : 'Say where it was looked for and who was asked.',
              'note',
            ),
          ]
        : []),
    ];
  },
  apply: (_entry, { notice, on, ...values }) => ({
    facts: [
      {
        thing: notice,
        kind: 'settled',
        effective: on,
        values,
        ...(values.item === undefined ? {} : { refs: [values.item] }),
      },
    ],
  }),
  example: { notice: '&0', item: '&1', how: 'returned to the maker', note: 'Sent with return form 118' },
});

export const noticeExpect = action({
  name: 'notice.expect',
  v: 1,
  title: 'Keep a serial that a notice names and that is not among the department’s things; it stays open',
  schema: z.strictObject({ notice: id, serial: words, note: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['notice'],
  family: familyOfNotice,
  check(look, body) {
    const known = look.notice(body.notice);
    if (!known) return noNotice(body.notice);
    const here = known.things.find(t => t.serial !== null && isSameSerial(t.serial, body.serial));
    return [
      ...notFuture(look, body.on),
      ...(known.closed
        ? [
            refuse(
              'closed',
              'The notice is closed.',
              'Enter what the maker names now as a new notice.',
              'notice',
            ),
          ]
        : []),
      ...(rangeOf(known.serialFrom, known.serialTo, body.serial) === 'no'
        ? [
            refuse(
              'not named',
              `${body.serial} is not within ${rangeWords(known)}, which the notice names.`,
              'Read the figures again; what the maker names besides is a notice of its own.',
              'serial',
            ),
          ]
        : []),
      ...(here
        ? [
            refuse(
              'it is here',
              `${body.serial} is ${here.number}.`,
              'It stands in the list already: settle it there.',
              'serial',
            ),
          ]
        : []),
      ...(known.expected.some(e => isSameSerial(e.serial, body.serial))
        ? [refuse('expected', `${body.serial} is expected already.`, 'Settle it in the list.', 'serial')]
        : []),
    ];
  },
  apply: (_entry, { notice, on, ...values }) => ({
    facts: [{ thing: notice, kind: 'expected', effective: on, values }],
  }),
  example: { notice: '&0', serial: 'VB-40421', note: 'On the maker’s list of what was shipped to us' },
});

function rangeWords({ serialFrom: from, serialTo: to }: Pick<NoticeSeen, 'serialFrom' | 'serialTo'>): string {
  if (from === null) return `serials up to ${to}`;
  return to === null ? `serials from ${from} on` : `serials ${from} to ${to}`;
}

function thingRefusals(
  look: Look,
  known: NoticeSeen,
  item: string,
  how: (typeof SETTLED_HOW)[number],
): Refusal[] {
  const thing = known.things.find(t => t.item === item);
  if (!thing) {
    const other = look.item(item);
    return [
      other
        ? refuse(
            'not of it',
            `The notice does not concern ${other.number}.`,
            'There is nothing to settle.',
            'item',
          )
        : refuse('not found', `No item has the id ${item}.`, 'Choose a thing of the list.', 'item'),
    ];
  }
  if (!thing.standing.open)
    return [
      refuse(
        'settled',
        `${thing.number} is settled: ${thing.standing.how}.`,
        'If that was wrong, void that entry and say why.',
        'item',
      ),
    ];
  const against = contradiction(how, thing.condition);
  return against ? [refuse(against.wrong, `${thing.number} is ${against.wrong}.`, against.first, 'how')] : [];
}

/** What was never here was neither inspected nor repaired. */
function serialRefusals(
  known: NoticeSeen,
  { serial = '', how }: { serial?: string | undefined; how: (typeof SETTLED_HOW)[number] },
): Refusal[] {
  const expected = known.expected.find(e => isSameSerial(e.serial, serial));
  if (!expected)
    return [
      refuse(
        'not found',
        `Serial ${serial} is not expected under this notice.`,
        'Choose one of the list.',
        'serial',
      ),
    ];
  if (expected.found)
    return [
      refuse(
        'it is here',
        `${serial} has turned up: it is ${expected.found.number}.`,
        'Settle that thing.',
        'serial',
      ),
    ];
  if (!expected.open)
    return [
      refuse(
        'settled',
        `${serial} is settled already.`,
        'If that was wrong, void that entry and say why.',
        'serial',
      ),
    ];
  return how === 'inspected and kept' || how === 'repaired'
    ? [
        refuse(
          'not here',
          `${serial} is not among the department’s things.`,
          'Receive it first; then settle that thing.',
          'how',
        ),
      ]
    : [];
}
