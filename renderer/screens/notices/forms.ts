/** The forms of a notice: entered, its things tagged out, one settled, a serial expected, closed. */
import type { Deed } from '../../../db/api.ts';
import type { NoticeLine, NoticePage, NoticeSerial, NoticeThing } from '../../../db/api-notices.ts';
import { capital } from '../../../domain/capital.ts';
import { contradiction, IN_USE, SETTLED_HOW, type SettledHow } from '../../../domain/chains/settled.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';
import { readDate } from '../../parts/form/readDate.ts';

const on: FormField = { kind: 'date', key: 'on', title: 'Date' };

/** What kind of notice it is, as it stands before its title. */
export const kindWord = (notice: Pick<NoticeLine, 'kind'>): string =>
  notice.kind === 'recall' ? 'Recall' : 'Stop use';

const count = (n: number, one: string, many = `${one}s`): string =>
  `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;

/** A date of manufacture as the store takes it; nothing where none was typed. */
const madeOf = (typed: string | undefined, today: string): string | undefined =>
  typed?.trim() ? readDate(typed, today).text : undefined;

export function issueForm(families: readonly Family[]): DeedForm {
  const text = (key: string, title: string, more: object = {}): FormField => ({
    kind: 'text',
    key,
    title,
    ...more,
  });
  return {
    title: 'Enter a recall or stop-use notice',
    verb: 'Enter it',
    initial: { kind: 'stop use', title: '', family: '', issuedBy: '', toDo: '', on: '' },
    says: () => ['Leave out what it does not name. Entering it takes nothing out of service yet.'],
    rows: () => [
      [text('title', 'What is wrong, in a few words', { required: true })],
      [
        {
          kind: 'one of',
          key: 'kind',
          title: 'It is a',
          choices: [
            { value: 'stop use', title: 'Stop-use notice' },
            { value: 'recall', title: 'Recall' },
          ],
        },
        {
          kind: 'pick',
          key: 'family',
          title: 'Family',
          required: true,
          choices: families.map(f => ({ value: f.id, title: f.title })),
        },
      ],
      [text('maker', 'Maker'), text('model', 'Model')],
      [text('serialFrom', 'Serial from'), text('serialTo', 'Serial to')],
      [
        text('madeFrom', 'Made from', { note: 'As far as it is known: 2022, Mar 2022, 3/14/2022.' }),
        text('madeTo', 'Made to'),
      ],
      [text('issuedBy', 'Issued by', { required: true }), { ...on, title: 'Issued on' }],
      [{ kind: 'long', key: 'toDo', title: 'What is to be done', required: true }],
    ],
    deeds: (filled, today) => [
      {
        action: 'notice.issue',
        body: body({
          title: filled.title,
          kind: filled.kind,
          family: filled.family,
          maker: filled.maker,
          model: filled.model,
          serialFrom: filled.serialFrom,
          serialTo: filled.serialTo,
          madeFrom: madeOf(filled.madeFrom, today),
          madeTo: madeOf(filled.madeTo, today),
          issuedBy: filled.issuedBy,
          toDo: filled.toDo,
          on: dateOf(filled, today),
        }),
      },
    ],
    done: () => 'Entered. What it concerns is listed.',
  };
}

/** Things that it surely concerns, that nobody settled, and that may be put to use. */
export const stillInUse = (page: NoticePage): NoticeThing[] =>
  page.things.filter(t => t.concerns === 'yes' && t.open && IN_USE.has(t.condition));

const NAMED_AT_MOST = 14;

export function tagOutForm(page: NoticePage): DeedForm {
  const things = stillInUse(page);
  const doubtful = page.things.filter(t => t.concerns === 'perhaps' && t.open).length;
  const more = things.length - NAMED_AT_MOST;
  const numbers = things.slice(0, NAMED_AT_MOST).map(t => t.number);
  const rigs = things.filter(t => t.isRig).length;
  return {
    title: `Tag out what it concerns: ${count(things.length, 'thing')}`,
    verb: `Tag out ${count(things.length, 'thing')}`,
    initial: { reason: `${kindWord(page)}: ${page.title}`, on: '' },
    says: () => [
      `${numbers.join(', ')}${more > 0 ? ` and ${count(more, 'more', 'more')}` : ''}.${rigs > 0 ? ' Rigs are taken out of service.' : ''} All of it is one act.`,
      ...(doubtful > 0
        ? [
            `${count(doubtful, 'thing is', 'things are')} perhaps concerned and ${doubtful === 1 ? 'stays' : 'stay'} as ${doubtful === 1 ? 'it is' : 'they are'} until somebody has looked.`,
          ]
        : []),
    ],
    rows: () => [[{ kind: 'text', key: 'reason', title: 'Reason', required: true }], [on]],
    deeds: (filled, today) =>
      things.map(({ item, isRig }): Deed => {
        const said = { reason: filled.reason, on: dateOf(filled, today) };
        return isRig
          ? { action: 'rig.takeOut', body: { rig: item, condition: 'out of service', ...said } }
          : { action: 'item.tagOut', body: { item, ...said } };
      }),
    done: () => `${count(things.length, 'thing')} tagged out.`,
  };
}

const NOTE: FormField = { kind: 'text', key: 'note', title: 'Note' };
const REASONED: ReadonlySet<string | undefined> = new Set(['not concerned', 'cannot be found']);

/** The note of what somebody has to be believed for is not left out. */
const noteFor = ({ how }: Filled): FormField =>
  REASONED.has(how)
    ? {
        ...NOTE,
        required: true,
        note: how === 'not concerned' ? 'What was read on it.' : 'Where it was looked for, who was asked.',
      }
    : NOTE;

const howField = (hows: readonly SettledHow[]): FormField => ({
  kind: 'pick',
  key: 'how',
  title: 'How it is settled',
  required: true,
  choices: hows.map(how => ({ value: how, title: capital(how) })),
});

/** What can be said of a thing as it is now. Not to be found is said with the report that it is missing. */
export function settleForm(page: Pick<NoticePage, 'id'>, thing: NoticeThing): DeedForm {
  const isReported = thing.condition === 'missing';
  const hows = SETTLED_HOW.filter(
    how => contradiction(how, thing.condition) === null || (how === 'cannot be found' && !thing.isRig),
  );
  const isInUse = IN_USE.has(thing.condition);
  return {
    title: `Settle ${thing.number}`,
    verb: 'Settle',
    initial: { how: '', note: '', on: '' },
    says: filled => [
      `${thing.what}, ${thing.serial === null ? 'serial not known' : `serial ${thing.serial}`}; ${thing.condition}${thing.place ? `, ${thing.place}` : ''}.`,
      ...(thing.look.length > 0 ? [`Perhaps concerned: ${thing.look.join(', ')}.`] : []),
      ...(isInUse ? ['Tag it out first to say that it was replaced or returned to the maker.'] : []),
      ...(thing.condition === 'held for investigation'
        ? ['Nothing is done to it until it has been released.']
        : []),
      ...(filled.how === 'cannot be found' && !isReported ? ['It is reported missing with it.'] : []),
    ],
    rows: filled => [[howField(hows)], [noteFor(filled), on]],
    deeds: (filled, today) => {
      const day = dateOf(filled, today);
      const settle: Deed = {
        action: 'notice.settle',
        body: body({ notice: page.id, item: thing.item, how: filled.how, note: filled.note, on: day }),
      };
      return filled.how === 'cannot be found' && !isReported
        ? [{ action: 'item.missing', body: body({ item: thing.item, note: filled.note, on: day }) }, settle]
        : [settle];
    },
    done: filled => `${thing.number} is settled: ${filled.how}.`,
  };
}

export function settleSerialForm(page: Pick<NoticePage, 'id'>, { serial, note }: NoticeSerial): DeedForm {
  return {
    title: `Settle serial ${serial}, which is not here`,
    verb: 'Settle',
    initial: { how: '', note: '', on: '' },
    says: () => [
      ...(note ? [note] : []),
      'If it has turned up, receive it with this serial instead: it then stands in the list.',
    ],
    rows: filled => [
      [howField(['cannot be found', 'not concerned', 'replaced', 'returned to the maker'])],
      [noteFor(filled), on],
    ],
    deeds: (filled, today) => [
      {
        action: 'notice.settle',
        body: body({
          notice: page.id,
          serial,
          how: filled.how,
          note: filled.note,
          on: dateOf(filled, today),
        }),
      },
    ],
    done: filled => `${serial} is settled: ${filled.how}.`,
  };
}

export function expectForm(page: Pick<NoticePage, 'id'>): DeedForm {
  return {
    title: 'A serial that it names and that is not here',
    verb: 'Keep it open',
    initial: { serial: '', note: '', on: '' },
    says: () => [
      'The maker says that it was shipped to the department. It stays open until somebody settles it.',
    ],
    rows: () => [[{ kind: 'text', key: 'serial', title: 'Serial', required: true }], [NOTE, on]],
    deeds: (filled, today) => [
      {
        action: 'notice.expect',
        body: body({ notice: page.id, serial: filled.serial, note: filled.note, on: dateOf(filled, today) }),
      },
    ],
    done: filled => `${filled.serial} stays open.`,
  };
}

export function closeForm(page: Pick<NoticePage, 'id' | 'title' | 'settled' | 'notFound'>): DeedForm {
  return {
    title: `Close: ${page.title}`,
    verb: 'Close it',
    initial: { note: '', on: '' },
    says: () => [
      `${count(page.settled, 'thing is', 'things are')} settled${page.notFound > 0 ? `, of which ${page.notFound.toLocaleString('en-US')} cannot be found` : ''}. What turns up later that it concerns opens it again.`,
    ],
    rows: () => [[{ kind: 'text', key: 'note', title: 'How it ended', required: true }], [on]],
    deeds: (filled, today) => [
      {
        action: 'notice.close',
        body: body({ notice: page.id, note: filled.note, on: dateOf(filled, today) }),
      },
    ],
    done: () => 'Closed. It stays in the list.',
  };
}
