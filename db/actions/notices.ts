/**
 * Recalls and stop-use notices: issued, settled thing by thing, closed when nothing is open. Taking things out of use
 * is done by the things' own deeds. Whoever opens the letter may enter it and settle what is in hand: taking it in must
 * not wait for somebody entitled, and it puts nothing back in service. To close it is to say for the department that
 * nothing is left to be looked for, and that is for whoever plans.
 */
import { z } from 'zod';
import { firstDay, lastDay } from '../../domain/calendar/when.ts';
import { NOTICE_KINDS, namesSomething } from '../../domain/chains/notice.ts';
import { rangeProblem } from '../../domain/chains/serial.ts';
import { id, longWords, mustHaveFamily, notFuture, when, words } from './fields.ts';
import { action, type Look, type NoticeSeen, type Refusal, refuse } from './types.ts';

const named = words.nullable().default(null);
const date = when.nullable().default(null);

export const noticeIssue = action({
  name: 'notice.issue',
  v: 1,
  title: 'Enter a recall or stop-use notice: what it names, who issued it and what is to be done',
  schema: z.strictObject({
    title: words,
    kind: z.enum(NOTICE_KINDS),
    family: z.string(),
    maker: named,
    model: named,
    serialFrom: named,
    serialTo: named,
    madeFrom: date,
    madeTo: date,
    issuedBy: words,
    toDo: longWords,
    /** When it was issued. */
    on: when,
  }),
  entitlement: 'record',
  refs: [],
  family: (_look, body) => body.family,
  check(look, body) {
    const family = mustHaveFamily(body.family);
    return [
      ...notFuture(look, body.on, 'on', 'The date of issue'),
      ...('problems' in family ? family.problems : []),
      ...(namesSomething(body)
        ? []
        : [
            refuse(
              'names nothing',
              'It names no maker, model, serials or dates: it would concern every thing of the family.',
              'Write down what the notice names.',
              'maker',
            ),
          ]),
      ...rangeRefusals(body),
      ...(body.madeFrom !== null && body.madeTo !== null && firstDay(body.madeFrom) > lastDay(body.madeTo)
        ? [
            refuse(
              'reversed',
              'The first date of manufacture is after the last.',
              'Give the earlier one first.',
              'madeFrom',
            ),
          ]
        : []),
    ];
  },
  apply: (entry, { on, ...values }) => ({
    things: [{ id: entry.id, kind: 'notice' }],
    facts: [{ thing: entry.id, kind: 'identity', effective: on, values }],
  }),
  example: {
    title: 'Lens retainer may let go',
    kind: 'stop use',
    family: 'facepiece',
    model: 'Vista 3',
    serialFrom: 'VB-40410',
    serialTo: 'VB-40420',
    issuedBy: 'Maker B',
    toDo: 'Take out of use at once and send to the maker.',
  },
});

export const noticeClose = action({
  name: 'notice.close',
  v: 1,
  title: 'Close a notice under which nothing is open any more, and say how it ended',
  schema: z.strictObject({ notice: id, note: longWords, on: when }),
  entitlement: 'plan',
  refs: ['notice'],
  family: familyOfNotice,
  check(look, body) {
    const known = look.notice(body.notice);
    if (!known) return noNotice(body.notice);
    const open = [
      ...known.things.filter(t => t.standing.open).map(t => t.number),
      ...known.expected.filter(e => e.open).map(e => `serial ${e.serial}`),
    ];
    return [
      ...notFuture(look, body.on),
      ...(known.closed
        ? [refuse('closed', 'The notice is closed already.', 'Look at how it ended on its page.', 'notice')]
        : []),
      ...(open.length > 0
        ? [
            refuse(
              'open',
              `${open.length === 1 ? 'One is' : `${open.length} are`} open: ${listed(open)}.`,
              'Settle each of them, or retire what is gone for good.',
              'notice',
            ),
          ]
        : []),
    ];
  },
  apply: (_entry, { notice, on, note }) => ({
    facts: [{ thing: notice, kind: 'closed', effective: on, values: { note } }],
  }),
  example: { notice: '&0', note: 'All eleven are with the maker' },
});

/** The family that a notice is about: entitlements for some families cover its deeds too. */
export function familyOfNotice(look: Look, body: { notice: string }): string | null {
  return look.notice(body.notice)?.family ?? null;
}

/** There is no such notice. */
export const noNotice = (notice: string): Refusal[] => [
  refuse('not found', `No notice has the id ${notice}.`, 'Find it in the list of notices.', 'notice'),
];

/** The first dozen by name, and how many more. */
function listed(open: readonly string[]): string {
  const more = open.length - 12;
  return open.slice(0, 12).join(', ') + (more > 0 ? ` and ${more} more` : '');
}

function rangeRefusals({ serialFrom, serialTo }: Pick<NoticeSeen, 'serialFrom' | 'serialTo'>): Refusal[] {
  switch (rangeProblem(serialFrom, serialTo)) {
    case 'no figures':
      return [
        refuse('no figures', 'A serial without figures bounds nothing.', 'Copy it as printed.', 'serialFrom'),
      ];
    case 'two prefixes':
      return [
        refuse(
          'two prefixes',
          `${serialFrom} and ${serialTo} do not begin alike.`,
          'Enter each range with a prefix of its own as a notice of its own.',
          'serialTo',
        ),
      ];
    case 'reversed':
      return [
        refuse('reversed', `${serialFrom} is after ${serialTo}.`, 'Give the lower one first.', 'serialFrom'),
      ];
    default:
      return [];
  }
}
