/** The forms that add a member, amend one, change what one may do, and set a PIN. */
import type { MemberLine, Problem, Qualification } from '../../../db/api.ts';
import { POSITIONS } from '../../../domain/people/entitlements.ts';
import { PIN_GUARD, PIN_RULE } from '../../../domain/people/pins.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import {
  body,
  type DeedForm,
  type Filled,
  type FormField,
  type FormRow,
} from '../../parts/deeds/deedForm.ts';
import { readDate } from '../../parts/form/readDate.ts';
import { areOwn, filledFrom, grantRows, grantsOf, NO_POSITION, positionChoices } from './grants.ts';
import { changed } from './placeForms.ts';

const NUMBER: FormField = { kind: 'text', key: 'number', title: 'Member number', required: true };
const NAME: FormField = { kind: 'text', key: 'name', title: 'Name', required: true };
const POSITION: FormField = {
  kind: 'pick',
  key: 'position',
  title: 'Position',
  required: true,
  choices: positionChoices,
  note: 'A position is a set of entitlements to start from; they are kept with the member in full.',
};

const pinRow = (required: boolean): FormRow => [
  {
    kind: 'text',
    key: 'secret',
    title: required ? 'New PIN' : 'PIN',
    secret: true,
    required,
    note: `${PIN_RULE}${required ? '' : ' Empty: none yet.'}`,
  },
  { kind: 'text', key: 'again', title: 'The same again', secret: true, required, note: PIN_GUARD },
];

function pinCheck(filled: Filled): Problem[] {
  if ((filled.secret ?? '') === (filled.again ?? '')) return [];
  return [
    {
      code: 'PINs differ',
      message: 'The two PINs are not the same.',
      todo: 'Type the same one twice.',
      field: 'again',
    },
  ];
}

const OWN: FormField = {
  kind: 'tick',
  key: 'own',
  title: 'Entitlements of their own instead of the position’s, chosen one by one',
};

const entitled = (filled: Filled, families: readonly Family[]) => ({
  ...(filled.position && filled.position !== NO_POSITION ? { position: filled.position } : {}),
  ...(filled.own === 'yes' ? { grants: grantsOf(filled, families) } : {}),
});

const rowsOf = (filled: Filled, families: readonly Family[]): FormRow[] => [
  [POSITION],
  [OWN],
  ...(filled.own === 'yes' ? grantRows(filled, families) : []),
];

export const addMemberForm = (families: readonly Family[]): DeedForm => ({
  title: 'Add a member',
  verb: 'Add',
  initial: filledFrom(POSITIONS.firefighter ?? []),
  rows: filled => [[NUMBER, NAME], ...rowsOf(filled, families), pinRow(false)],
  check: pinCheck,
  deeds: filled => [
    {
      action: 'member.add',
      body: body({ number: filled.number, name: filled.name, ...entitled(filled, families) }),
    },
    ...(filled.secret ? [{ action: 'member.pin', body: { member: '&0' }, secret: filled.secret }] : []),
  ],
  done: filled => `${filled.name} is a member${filled.secret ? ', with a PIN' : ''}.`,
});

/** How many qualifications a form takes; a member may have more, told through the terminal. */
const QUALIFIED = [0, 1, 2] as const;

const qualified = (known: readonly Qualification[]): Filled =>
  Object.fromEntries(
    QUALIFIED.flatMap(i => [
      [`title.${i}`, known[i]?.title ?? ''],
      [`expires.${i}`, known[i]?.expires ?? ''],
    ]),
  );

const QUALIFIED_ROWS: readonly FormRow[] = QUALIFIED.map(i => [
  {
    kind: 'text',
    key: `title.${i}`,
    title: i === 0 ? 'Qualified as' : 'And as',
    ...(i === 0 ? { note: 'In the words in which a requirement asks for it.' } : {}),
  },
  { kind: 'text', key: `expires.${i}`, title: 'Until', note: 'Empty: without an end.' },
]);

/** What was filled in, where it differs from what is known; what a form does not show stays. */
function qualificationsIn(
  filled: Filled,
  known: readonly Qualification[],
  today: string,
): Qualification[] | undefined {
  const shown = QUALIFIED.flatMap(i => {
    const title = filled[`title.${i}`]?.trim() ?? '';
    const expires = filled[`expires.${i}`]?.trim() ?? '';
    return title === '' ? [] : [{ title, expires: expires === '' ? null : readDate(expires, today).text }];
  });
  const all = [...shown, ...known.slice(QUALIFIED.length)];
  return JSON.stringify(all) === JSON.stringify(known.map(({ title, expires }) => ({ title, expires })))
    ? undefined
    : all;
}

export const amendMemberForm = (member: MemberLine): DeedForm => ({
  title: `Amend ${member.name}`,
  verb: 'Amend',
  initial: { number: member.number, name: member.name, ...qualified(member.qualifications) },
  rows: () => [[NUMBER, NAME], ...QUALIFIED_ROWS],
  deeds: (filled, today) => [
    {
      action: 'member.amend',
      body: body({
        member: member.id,
        number: changed(filled.number, member.number),
        name: changed(filled.name, member.name),
        qualifications: qualificationsIn(filled, member.qualifications, today),
      }),
    },
  ],
  done: filled => `${filled.name} is amended.`,
});

export const entitleForm = (member: MemberLine, families: readonly Family[]): DeedForm => ({
  title: `What ${member.name} may do`,
  verb: 'Change it',
  initial: {
    position: member.position ?? NO_POSITION,
    own: areOwn(member.position, member.grants) ? 'yes' : '',
    ...filledFrom(member.grants),
  },
  rows: filled => rowsOf(filled, families),
  deeds: filled => [{ action: 'member.entitle', body: { member: member.id, ...entitled(filled, families) } }],
  done: () => `What ${member.name} may do is changed.`,
});

export const pinForm = (member: MemberLine): DeedForm => ({
  title: `${member.hasPin ? 'Change the PIN' : 'Set a PIN'}: ${member.name}`,
  verb: member.hasPin ? 'Change it' : 'Set it',
  initial: {},
  rows: () => [pinRow(true)],
  check: pinCheck,
  deeds: filled => [
    {
      action: 'member.pin',
      body: { member: member.id },
      ...(filled.secret ? { secret: filled.secret } : {}),
    },
  ],
  done: () => `${member.name} signs with the new PIN from now on; a lock on the old one is gone.`,
});
