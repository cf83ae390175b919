/** The forms of a check-off: begun, signed, countersigned, set aside; a defect settled. */
import type { CarryHolder, CheckoffPage, DefectLine, OwedLine, SwapLine } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { CLOSED_HOW } from '../../../domain/checkoffs/defect.ts';
import { hasteWords } from '../../../domain/checkoffs/haste.ts';
import type { Exception } from '../../../domain/checkoffs/marks.ts';
import { body, type DeedForm, dateOf, type FormField } from '../../parts/deeds/deedForm.ts';
import { clockNow, clockOf, clockProblems } from '../../parts/form/clock.ts';
import { dateText } from '../../parts/words/dates.tsx';

const on: FormField = { kind: 'date', key: 'on', title: 'Date' };

/** Begins a check-off, for the time of a schedule that is owed where one is. */
export function beginForm(
  holder: Pick<CarryHolder, 'of' | 'name' | 'rig' | 'lines'>,
  today: string,
  owed: OwedLine | null,
): DeedForm {
  return {
    title: owed ? `${owed.title} of ${holder.name}` : `Check off ${holder.name}`,
    verb: 'Begin',
    initial: { started: clockNow(today).slice(11) },
    says: () => [
      ...(owed ? [`It was due ${dueWords(owed)}${owed.by ? `, by a ${owed.by}` : ''}.`] : []),
      `${holder.lines} lines${holder.rig && holder.rig.name !== holder.name ? `, on ${holder.rig.name}` : ''}. Only what is wrong is written down; one key says that the rest of a place is there.`,
    ],
    rows: () => [
      [
        {
          kind: 'text',
          key: 'started',
          title: 'Begun at',
          required: true,
          note: 'From the sheet, where it was done on paper.',
        },
      ],
    ],
    check: filled => clockProblems(filled, 'started'),
    deeds: filled => [
      {
        action: 'checkoff.start',
        body: {
          of: holder.of,
          started: clockOf(filled.started ?? '', today),
          ...(owed
            ? {
                schedule: owed.schedule,
                for: { on: owed.on, shift: owed.shift },
                scope: owed.scope,
                ...(owed.places ? { places: owed.places } : {}),
              }
            : {}),
        },
      },
    ],
    done: () => '',
  };
}

/** `Sat 21 Nov 2026 12:00`, with the shift where it goes by shift. */
export function dueWords({ dueAt, shift }: Pick<OwedLine, 'dueAt' | 'shift'>): string {
  return `${dateText(dueAt)}${shift > 0 ? `, shift ${shift}` : ''}`;
}

/** Why a check-off was late or missed: a fact with a reason, not a gap. */
export function missedForm(owed: OwedLine): DeedForm {
  return {
    title: `${owed.title} of ${owed.name}, due ${dueWords(owed)}: ${owed.state}`,
    verb: 'Write it down',
    initial: { reason: owed.reason ?? '', on: '' },
    rows: () => [[{ kind: 'text', key: 'reason', title: 'Why', required: true }, on]],
    deeds: (filled, today) => [
      {
        action: 'checkoff.missed',
        body: {
          of: owed.of,
          schedule: owed.schedule,
          for: { on: owed.on, shift: owed.shift },
          reason: filled.reason,
          on: dateOf(filled, today),
        },
      },
    ],
    done: () => 'The reason is kept.',
  };
}

export function signForm(
  page: Pick<CheckoffPage, 'id' | 'name'>,
  found: readonly Exception[],
  today: string,
): DeedForm {
  const out = found.filter(e => e.next === 'tag out' || e.next === 'swap').length;
  const missing = found.filter(e => e.next === 'report missing').length;
  return {
    title: `Sign the check-off of ${page.name}`,
    verb: 'Sign',
    initial: { finished: clockNow(today).slice(11) },
    says: () => [
      found.length === 0
        ? 'Nothing was found wrong.'
        : `${found.length} ${found.length === 1 ? 'exception' : 'exceptions'} ${found.length === 1 ? 'takes' : 'take'} effect now${out > 0 ? `; tagged out: ${out}` : ''}${missing > 0 ? `; reported missing: ${missing}` : ''}.`,
    ],
    rows: () => [[{ kind: 'text', key: 'finished', title: 'Finished at', required: true }]],
    check: filled => clockProblems(filled, 'finished'),
    deeds: filled => [
      {
        action: 'checkoff.sign',
        body: { checkoff: page.id, finished: clockOf(filled.finished ?? '', today) },
      },
    ],
    done: () => `The check-off of ${page.name} is signed.`,
  };
}

export function countersignForm(page: Pick<CheckoffPage, 'id' | 'name' | 'signedBy' | 'haste'>): DeedForm {
  return {
    title: `Countersign the check-off of ${page.name}`,
    verb: 'Countersign',
    initial: { note: '' },
    says: () => [
      `${page.signedBy ?? 'Somebody'} has signed it. Another officer countersigns.`,
      ...(page.haste ? [hasteWords(page.haste)] : []),
    ],
    rows: () => [[{ kind: 'text', key: 'note', title: 'Note' }]],
    deeds: filled => [
      { action: 'checkoff.countersign', body: body({ checkoff: page.id, note: filled.note }) },
    ],
    done: () => 'Countersigned.',
  };
}

export function setAsideForm(page: Pick<CheckoffPage, 'id' | 'name'>): DeedForm {
  return {
    title: `Set the check-off of ${page.name} aside`,
    verb: 'Set aside',
    initial: { why: '' },
    says: () => ['What was marked is kept and takes no effect.'],
    rows: () => [[{ kind: 'text', key: 'why', title: 'Why', required: true }]],
    deeds: filled => [{ action: 'checkoff.setAside', body: { checkoff: page.id, why: filled.why } }],
    done: () => 'Set aside.',
  };
}

export function settleForm(defect: Pick<DefectLine, 'id' | 'what' | 'name' | 'kind'>): DeedForm {
  return {
    title: `Settle: ${defect.what}, ${defect.kind}, ${defect.name}`,
    verb: 'Settle',
    initial: { how: '', note: '', on: '' },
    rows: () => [
      [
        {
          kind: 'pick',
          key: 'how',
          title: 'How',
          required: true,
          choices: CLOSED_HOW.map(how => ({ value: how, title: capital(how) })),
        },
      ],
      [{ kind: 'text', key: 'note', title: 'Note' }, on],
    ],
    deeds: (filled, today) => [
      {
        action: 'defect.close',
        body: body({ defect: defect.id, how: filled.how, note: filled.note, on: dateOf(filled, today) }),
      },
    ],
    done: () => 'Settled.',
  };
}

/** Twelve down, twelve up, numbers owed: entered in the night, settled at shift change. */
export function swapManyForm(holder: Pick<CarryHolder, 'of' | 'name'>, today: string): DeedForm {
  return {
    title: `Many swapped at once on ${holder.name}`,
    verb: 'Numbers owed',
    initial: { family: 'cylinder', down: '', up: '', at: clockNow(today).slice(11), place: '', note: '' },
    says: () => [
      'So many down to the rack, so many up to the rig. The numbers are read at shift change; until then they are owed.',
    ],
    rows: () => [
      [
        {
          kind: 'one of',
          key: 'family',
          title: 'Of',
          choices: [
            { value: 'cylinder', title: 'Cylinders' },
            { value: 'hose', title: 'Hose' },
            { value: 'battery', title: 'Batteries' },
          ],
        },
      ],
      [
        { kind: 'text', key: 'down', title: 'Down', required: true },
        { kind: 'text', key: 'up', title: 'Up', required: true },
        { kind: 'text', key: 'at', title: 'At', note: 'By the clock, today' },
      ],
      [{ kind: 'place', key: 'place', title: 'The rack', required: true }],
      [{ kind: 'text', key: 'note', title: 'Note' }],
    ],
    check: filled => clockProblems(filled, 'at'),
    deeds: filled => [
      {
        action: 'swap.many',
        body: {
          ...body({ of: holder.of, family: filled.family, place: filled.place, note: filled.note }),
          down: wholeOf(filled.down),
          up: wholeOf(filled.up),
          on: clockOf(filled.at ?? '', today),
        },
      },
    ],
    done: filled => `${filled.down} down, ${filled.up} up: numbers owed.`,
  };
}

/** What was typed as a whole number; what is none goes as it is, and the store says so. */
const wholeOf = (typed: string | undefined): number | string =>
  /^\d+$/.test((typed ?? '').trim()) ? Number(typed) : (typed ?? '');

/** The numbers of a swap, read at shift change. */
export function swapSettleForm(swap: SwapLine): DeedForm {
  const numbers = (typed: string | undefined) =>
    (typed ?? '')
      .split(/[\s,;]+/)
      .map(n => n.trim())
      .filter(n => n !== '');
  return {
    title: `${swap.name}, ${dateText(swap.on)}: ${swap.down} down, ${swap.up} up`,
    verb: 'These are the numbers',
    initial: { down: '', up: '', to: '', giveUp: '', on: '' },
    says: () => [
      `Owed: ${swap.owed.down} that came down to ${swap.rack}, ${swap.owed.up} that went up. Some may be read now and the rest later.`,
    ],
    rows: () => [
      ...(swap.owed.down > 0
        ? [
            [
              {
                kind: 'text',
                key: 'down',
                title: 'Down, numbers',
                note: 'Scanned or typed, spaces between',
              } as const,
            ],
          ]
        : []),
      ...(swap.owed.up > 0
        ? [
            [{ kind: 'text', key: 'up', title: 'Up, numbers' } as const],
            [{ kind: 'place', key: 'to', title: 'Where those that went up lie' } as const],
          ]
        : []),
      [
        {
          kind: 'text',
          key: 'giveUp',
          title: 'Why the rest will never be known',
          note: 'Empty: it stays owed',
        },
        on,
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'swap.settle',
        body: {
          ...body({ swap: swap.id, to: filled.to, giveUp: filled.giveUp, on: dateOf(filled, today) }),
          down: numbers(filled.down),
          up: numbers(filled.up),
        },
      },
    ],
    done: () => 'The numbers are kept.',
  };
}
