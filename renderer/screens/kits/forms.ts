/** The forms of kits: a template, a kit received, its seal read, its opening, its full count signed with a new seal. */
import type { KitContent, KitLine, KitTemplateLine } from '../../../db/api-kits.ts';
import { isSameSeal } from '../../../domain/kits/kit.ts';
import { KIT_TEMPLATES } from '../../../domain/kits/templates.ts';
import { CONTENTS_EXPIRE, kit } from '../../../domain/rulebook/kit.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';
import { receiveForm } from '../../parts/deeds/receiveForm.ts';
import { readDate } from '../../parts/form/readDate.ts';
import { dateText } from '../../parts/words/dates.tsx';

const on: FormField = { kind: 'date', key: 'on', title: 'On' };
const OWN = 'an empty list';

/** A kind of kit, from a list to begin from or from none. */
export function templateForm(known: readonly KitTemplateLine[]): DeedForm {
  const free = KIT_TEMPLATES.filter(t => !known.some(k => k.what.toLowerCase() === t.what.toLowerCase()));
  const chosen = (filled: Filled) => free.find(t => t.what === filled.begin);
  const name = (filled: Filled) => (filled.what ?? '').trim() || chosen(filled)?.what || '';
  return {
    title: 'A kind of kit',
    verb: 'Draw up its list',
    initial: { begin: free[0]?.what ?? OWN, what: '' },
    says: filled => [
      chosen(filled)
        ? 'A list to begin from: common practice, no source. Say afterwards what your kit really packs; medical contents are for your medical direction to say.'
        : 'Its list is empty: put the lines on it one by one.',
    ],
    rows: () => [
      [
        {
          kind: 'pick',
          key: 'begin',
          title: 'Begin from',
          choices: [
            ...free.map(t => ({ value: t.what, title: t.what, detail: `${t.lines.length} lines` })),
            { value: OWN, title: 'An empty list' },
          ],
        },
      ],
      [{ kind: 'text', key: 'what', title: 'It is called', note: 'Empty: as the list it begins from' }],
    ],
    check: filled =>
      name(filled) === ''
        ? [
            {
              code: 'missing',
              message: 'It has no name.',
              todo: 'Say what such a kit is called.',
              field: 'what',
            },
          ]
        : [],
    deeds: filled => [
      { action: 'kit.template', body: { what: name(filled) } },
      ...(chosen(filled) ? [{ action: 'carry.set', body: { of: '&0', lines: chosen(filled)?.lines } }] : []),
    ],
    done: filled => `${name(filled)} is a kind of kit.`,
  };
}

/** A kit is received as the things of its kind are: of a kind that has a template. */
export function kitForm(templates: readonly KitTemplateLine[]): DeedForm {
  return receiveForm([{ ...kit, attributes: kit.attributes.filter(a => a.key !== CONTENTS_EXPIRE) }], {
    instead: {
      kind: {
        kind: 'pick',
        required: true,
        note: undefined,
        choices: templates.map(t => ({ value: t.what, title: t.what, detail: `${t.lines} lines` })),
      },
    },
  });
}

/** The seal of a kit as it is looked at. */
export function checkForm(kit: KitLine): DeedForm {
  const differs = (filled: Filled) =>
    filled.intact === 'yes' &&
    (filled.seal ?? '').trim() !== '' &&
    kit.seal !== null &&
    !isSameSeal(filled.seal ?? '', kit.seal);
  return {
    title: `The seal of ${kit.number}`,
    verb: 'So it is',
    initial: { seal: '', intact: 'yes', on: '' },
    says: filled => [
      `${kit.seal ?? 'No seal'} was put on${kit.countedOn ? ` ${dateText(kit.countedOn)}` : ''}.${kit.expires ? ` The earliest date inside is ${dateText(kit.expires)}.` : ''}`,
      ...kit.reasons.slice(0, kit.state === 'sealed' ? 0 : 1).map(r => `It is known: ${r}.`),
      ...(differs(filled)
        ? [`${filled.seal} is another number: somebody has been in it, and a full count will be owed.`]
        : []),
    ],
    rows: filled => [
      [{ kind: 'text', key: 'seal', title: 'The number on it', required: filled.intact === 'yes' }],
      [
        {
          kind: 'one of',
          key: 'intact',
          title: 'It is',
          choices: [
            { value: 'yes', title: 'Whole' },
            { value: 'no', title: 'Broken or gone' },
          ],
        },
        on,
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'kit.check',
        body: {
          ...body({ item: kit.item, seal: (filled.seal ?? '').trim(), on: dateOf(filled, today) }),
          intact: filled.intact === 'yes',
        },
      },
    ],
    done: filled =>
      filled.intact === 'yes' && !differs(filled) && kit.state === 'sealed'
        ? `${kit.number}: the seal is whole.`
        : `${kit.number}: a full count and a new seal are owed.`,
  };
}

export function openForm(kit: KitLine): DeedForm {
  return {
    title: `${kit.number} was opened`,
    verb: 'It was opened',
    initial: { why: '', on: '' },
    says: () => ['A full count and a new seal are owed. Until then it does not count as there.'],
    rows: () => [[{ kind: 'text', key: 'why', title: 'Why', required: true }], [on]],
    deeds: (filled, today) => [
      {
        action: 'kit.open',
        body: body({ item: kit.item, why: filled.why, on: dateOf(filled, today) }),
      },
    ],
    done: () => `${kit.number} is open: count it and put a new seal on.`,
  };
}

/** What was counted of a line, as typed. */
export interface Counted {
  amount: string;
  expires: string;
}

/** The full count, with the number of the new seal. */
export function sealForm(
  kit: KitLine,
  contents: readonly KitContent[],
  counted: ReadonlyMap<string, Counted>,
  members: readonly { id: string; name: string; number: string }[],
): DeedForm {
  const lines = contents.filter(c => c.family === null);
  const short = lines.filter(c => Number(counted.get(c.line)?.amount ?? 0) < c.qty);
  return {
    title: `Seal ${kit.number}`,
    verb: 'Sign and seal',
    initial: { seal: '', witness: '', note: '', on: '' },
    says: () => [
      `${lines.length} ${lines.length === 1 ? 'line' : 'lines'} counted.${short.length > 0 ? ` Under par: ${short.map(c => c.what).join(', ')}.` : ' Everything is at its par.'}`,
    ],
    rows: () => [
      [
        {
          kind: 'text',
          key: 'seal',
          title: 'Number of the new seal',
          required: true,
          note: kit.seal === null ? undefined : `${kit.seal} was the last one`,
        },
      ],
      [
        {
          kind: 'pick',
          key: 'witness',
          title: 'Counted with',
          note: 'Where two count. This is no controlled-substance register.',
          choices: members.map(m => ({ value: m.id, title: m.name, detail: m.number })),
        },
      ],
      [{ kind: 'text', key: 'note', title: 'Note' }, on],
    ],
    deeds: (filled, today) => [
      {
        action: 'kit.seal',
        body: {
          ...body({
            item: kit.item,
            seal: (filled.seal ?? '').trim(),
            witness: filled.witness,
            note: filled.note,
            on: dateOf(filled, today),
          }),
          counts: lines.map(c => countOf(c, counted.get(c.line), today)),
        },
      },
    ],
    done: filled => `${kit.number} is counted in full and sealed with ${filled.seal}.`,
  };
}

function countOf(content: KitContent, counted: Counted | undefined, today: string) {
  const expires = (counted?.expires ?? '').trim();
  return {
    line: content.line,
    amount: Number(counted?.amount ?? 0),
    expires: expires === '' ? null : readDate(expires, today).text,
  };
}
