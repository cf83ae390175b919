/** Every deed that can be done to one thing: its key, when it makes sense, and its form. The store has the last word. */
import type { Condition } from '../../../domain/facts.ts';
import { HOW_KNOWN } from '../../../domain/facts.ts';
import { amendForm } from './amendForm.ts';
import { type DeedForm, type FormField, PHOTOS_FIELD, type ThingRef, type Vocabulary } from './deedForm.ts';
import { permitForm, unconfirmedPermit } from './permitForm.ts';
import { photoForm } from './photoForm.ts';
import { plainForm } from './plainForm.ts';
import { recordForm } from './recordForm.ts';

export interface ThingDeed {
  id: string;
  key: string;
  title: string;
  /** Answers to its key without the menu. */
  usual?: true;
  /** The conditions in which it is offered; absent: in all. */
  in?: readonly Condition[];
  /** Done to a rig as well; what moves, tags or retires a thing is not. */
  rigsToo?: true;
  /** Offered only where this holds. */
  where?: (now: DeedOptions['now'], vocabulary: Vocabulary) => boolean;
  form(thing: ThingRef, vocabulary: Vocabulary, options: DeedOptions): DeedForm;
}

export interface DeedOptions {
  /** The activity that is owed where the thing was opened on a duty. */
  activity?: string | undefined;
  /** What is known of the thing now, for mending it. */
  now?: { number: string; serial: string | null; attributes: Readonly<Record<string, unknown>> } | undefined;
}

const USABLE: readonly Condition[] = ['serviceable', 'limited use', 'retest owed', 'received'];
const OUT: readonly Condition[] = ['tagged out', 'limited use', 'at repair', 'received', 'on order'];
const HERE: readonly Condition[] = [...USABLE, 'tagged out', 'at repair', 'on order'];
const GONE: readonly Condition[] = ['retired', 'disposed'];
const NOT_GONE: readonly Condition[] = [...HERE, 'held for investigation', 'missing'];

const HOW_CHOICES = HOW_KNOWN.filter(h => h !== 'sheet').map(h => ({
  value: h,
  title: h.charAt(0).toUpperCase() + h.slice(1),
}));

const reason: FormField = { kind: 'text', key: 'reason', title: 'Reason', required: true };
const on: FormField = { kind: 'date', key: 'on', title: 'Date' };
const note: FormField = { kind: 'text', key: 'note', title: 'Note' };
const how: FormField = { kind: 'one of', key: 'how', title: 'How it is known', choices: HOW_CHOICES };

const title = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export const THING_DEEDS: readonly ThingDeed[] = [
  {
    id: 'record',
    rigsToo: true,
    usual: true,
    key: 'r',
    title: 'Record a test or inspection',
    in: NOT_GONE.filter(c => c !== 'held for investigation' && c !== 'missing'),
    form: (thing, vocabulary, options) => recordForm(thing, vocabulary, options.activity),
  },
  {
    id: 'move',
    usual: true,
    key: 'm',
    title: 'Move',
    in: HERE,
    form: plainForm(
      'item.move',
      { title: 'Move', verb: 'Move', done: 'moved.' },
      [[{ kind: 'place', key: 'to', title: 'To', required: true }], [how], [on]],
      { how: 'sight' },
    ),
  },
  {
    id: 'tag out',
    usual: true,
    key: 't',
    title: 'Tag out',
    in: USABLE,
    form: plainForm('item.tagOut', { title: 'Tag out', verb: 'Tag out', done: 'tagged out.' }, [
      [reason],
      [{ kind: 'text', key: 'tag', title: 'Tag number' }, on],
      [PHOTOS_FIELD],
    ]),
  },
  {
    id: 'return',
    usual: true,
    key: 'b',
    title: 'Back in service',
    in: OUT,
    form: plainForm(
      'item.return',
      { title: 'Back in service', verb: 'Return to service', done: 'is back in service.' },
      [[on], [note]],
    ),
  },
  {
    id: 'limit',
    key: 'l',
    title: 'Limit its use',
    in: ['serviceable', 'retest owed', 'received'],
    form: plainForm('item.limit', { title: 'Limited use', verb: 'Limit', done: 'is on limited use.' }, [
      [reason],
      [on],
      [PHOTOS_FIELD],
    ]),
  },
  {
    id: 'send to repair',
    key: 's',
    title: 'Send to repair',
    in: [...USABLE, 'tagged out'],
    form: plainForm('item.sendToRepair', { title: 'Send to repair', verb: 'Send', done: 'sent to repair.' }, [
      [{ kind: 'place', key: 'vendor', title: 'Where it goes' }],
      [{ ...reason, required: false }],
      [
        {
          kind: 'text',
          key: 'promised',
          title: 'Promised for',
          note: '2026-12-04, or as far as it is known',
        },
        { kind: 'text', key: 'cost_usd', title: 'Estimate', unit: '$' },
      ],
      [on],
    ]),
  },
  {
    id: 'repaired',
    rigsToo: true,
    key: 'p',
    title: 'Repaired',
    in: ['tagged out', 'at repair', 'limited use', 'retest owed', 'serviceable'],
    form: (thing, vocabulary) => {
      const repairs = vocabulary.families.find(f => f.id === thing.family)?.repairs ?? [];
      return plainForm('item.repaired', { title: 'Repaired', verb: 'Record the repair', done: 'repaired.' }, [
        [
          {
            kind: 'pick',
            key: 'kind',
            title: 'What was repaired',
            required: true,
            note: 'What it owes before it goes back depends on this.',
            choices: repairs.map(r => ({
              value: r.kind,
              title: r.title,
              detail: r.owes.length > 0 ? `owes: ${r.owes.join(', ')}` : 'owes nothing',
            })),
          },
        ],
        [on, note],
      ])(thing);
    },
  },
  {
    id: 'owe retest',
    rigsToo: true,
    key: 'w',
    title: 'Owe a retest',
    in: HERE,
    form: (thing, vocabulary) => {
      const triggers = vocabulary.families.find(f => f.id === thing.family)?.triggers ?? [];
      return plainForm('item.oweRetest', { title: 'Owe a retest', verb: 'Owe it', done: 'owes a retest.' }, [
        [
          {
            kind: 'pick',
            key: 'trigger',
            title: 'What happened',
            required: true,
            choices: triggers.map(t => ({ value: t.id, title: t.title, detail: `owes: ${t.owes}` })),
          },
        ],
        [on, note],
      ])(thing);
    },
  },
  {
    id: 'hold',
    key: 'h',
    title: 'Hold for investigation',
    in: [...HERE, 'missing'],
    form: plainForm(
      'item.hold',
      {
        title: 'Hold for investigation',
        verb: 'Hold',
        done: 'is held: no cleaning, filling, repair or test.',
      },
      [[reason], [on]],
    ),
  },
  {
    id: 'release',
    usual: true,
    key: 'u',
    title: 'Release from investigation',
    in: ['held for investigation'],
    form: plainForm('item.release', { title: 'Release', verb: 'Release', done: 'released.' }, [
      [{ ...note, required: true }],
      [on],
    ]),
  },
  {
    id: 'missing',
    key: 'x',
    title: 'Missing',
    in: [...HERE, 'held for investigation'],
    form: plainForm('item.missing', { title: 'Missing', verb: 'Report it missing', done: 'is missing.' }, [
      [on],
      [note],
      [PHOTOS_FIELD],
    ]),
  },
  {
    id: 'searched',
    key: 'g',
    title: 'Searched for',
    usual: true,
    in: ['missing'],
    form: plainForm(
      'item.searched',
      { title: 'Searched for', verb: 'Write it down', done: 'was searched for.' },
      [[{ kind: 'text', key: 'where', title: 'Where', required: true }], [note], [on]],
    ),
  },
  {
    id: 'hand over',
    key: 'o',
    title: 'Hand it over: who has it now',
    in: ['held for investigation'],
    form: plainForm(
      'item.handOver',
      { title: 'Hand over', verb: 'Write it down', done: 'was handed over.' },
      [[{ kind: 'text', key: 'to', title: 'To whom, and where it is kept', required: true }], [note], [on]],
    ),
  },
  {
    id: 'found',
    usual: true,
    key: 'y',
    title: 'Found',
    in: ['missing'],
    form: plainForm(
      'item.found',
      { title: 'Found', verb: 'Found', done: 'found.' },
      [[{ kind: 'place', key: 'place', title: 'Where', required: true }], [how], [on]],
      { how: 'sight' },
    ),
  },
  {
    id: 'assign',
    key: 'n',
    title: 'Assign',
    in: NOT_GONE,
    form: (thing, vocabulary) =>
      plainForm('item.assign', { title: 'Assign', verb: 'Assign', done: 'assigned.' }, [
        [
          {
            kind: 'one of',
            key: 'assignment',
            title: 'Assigned as',
            choices: vocabulary.assignments.map(a => ({ value: a, title: title(a) })),
          },
        ],
        [on],
      ])(thing),
  },
  {
    id: 'photo',
    rigsToo: true,
    key: 'c',
    title: 'Add a photo',
    form: thing => photoForm(thing.item, thing.number),
  },
  {
    id: 'amend',
    rigsToo: true,
    key: 'e',
    title: 'Mend number, serial or details',
    form: (thing, vocabulary, options) => amendForm(thing, vocabulary, options.now),
  },
  {
    id: 'confirm permit',
    key: 'q',
    title: 'Confirm its permit',
    usual: true,
    where: (now, vocabulary) => unconfirmedPermit(now, vocabulary) !== undefined,
    form: (thing, vocabulary, options) => permitForm(thing, vocabulary, options.now),
  },
  {
    id: 'retire',
    key: 'd',
    title: 'Retire',
    in: NOT_GONE,
    form: plainForm('item.retire', { title: 'Retire', verb: 'Retire', done: 'retired.' }, [[reason], [on]]),
  },
  {
    id: 'dispose',
    key: 'k',
    title: 'Dispose',
    in: [...GONE.filter(c => c === 'retired'), 'tagged out'],
    form: plainForm('item.dispose', { title: 'Dispose', verb: 'Dispose', done: 'disposed of.' }, [
      [
        {
          kind: 'text',
          key: 'how',
          title: 'How it went',
          required: true,
          note: 'Scrapped, sold, drilled, given away.',
        },
      ],
      [on],
    ]),
  },
];

/** The family whose things are the rigs themselves. */
export const RIG_FAMILY = 'apparatus';

/** The deeds offered on a thing in its condition; those that depend on more are left out while it is not known. */
export function deedsIn(
  { condition, family }: Pick<ThingRef, 'condition' | 'family'>,
  now?: DeedOptions['now'],
  vocabulary?: Vocabulary,
): ThingDeed[] {
  return THING_DEEDS.filter(d => d.in === undefined || d.in.includes(condition))
    .filter(d => family !== RIG_FAMILY || d.rigsToo)
    .filter(d => d.where === undefined || (vocabulary !== undefined && d.where(now, vocabulary)));
}
