/** The figures of a clock as fields, and the clock that they make: each part of whichever comes first on its own. */

import type { Problem } from '../../../../db/api.ts';
import { MONTH_NAMES } from '../../../../domain/calendar/show.ts';
import type { Clock, Every } from '../../../../domain/rulebook/types.ts';
import type { Filled, FormField, FormRow } from '../../../parts/deeds/deedForm.ts';

const partsOf = (clock: Clock): readonly Clock[] => (clock.kind === 'first of' ? clock.clocks : [clock]);
const inUnits = (every: Every) => ('days' in every ? every.days : every.months);
const unitOf = (every: Every) => ('days' in every ? 'days' : 'months');

/** What the fields show at first. */
export function clockInitial(clock: Clock): Filled {
  const filled: Record<string, string> = {};
  partsOf(clock).forEach((part, i) => {
    if (part.kind === 'since last') {
      filled[`every.${i}`] = String(inUnits(part.every));
      filled[`unit.${i}`] = unitOf(part.every);
    } else if (part.kind === 'meter') filled[`every.${i}`] = String(part.every);
    else if (part.kind === 'life') filled[`every.${i}`] = String(inUnits(part.plus));
    else if (part.kind === 'fixed month') {
      filled[`every.${i}`] = String(part.every_months);
      filled[`unit.${i}`] = 'months';
      filled.month = String(part.month);
      filled.early = String(part.early_months);
      filled.atMost = part.atMost ? String(inUnits(part.atMost)) : '';
    }
  });
  filled.counts = clock.kind === 'fixed month' ? 'month' : 'last';
  return filled;
}

/** Whether a clock may be one of a fixed month: one alone that counts from the last. */
const isSeasonal = (clock: Clock) => clock.kind === 'since last' || clock.kind === 'fixed month';

export function clockRows(clock: Clock, filled: Filled): FormRow[] {
  const rows: FormRow[] = [];
  const isMonth = filled.counts === 'month';
  if (isSeasonal(clock))
    rows.push([
      {
        kind: 'one of',
        key: 'counts',
        title: 'Counts',
        choices: [
          { value: 'last', title: 'From the last one' },
          { value: 'month', title: 'A fixed month' },
        ],
        note: isMonth
          ? 'The month stays: early work is counted for it, late work moves nothing.'
          : 'Early work moves the next date forward.',
      },
    ]);
  partsOf(clock).forEach((part, i) => {
    const row = partRow(part, i, isSeasonal(clock) ? isMonth : part.kind === 'fixed month');
    if (row.length > 0) rows.push(row);
  });
  if (isSeasonal(clock) && isMonth)
    rows.push(
      [
        {
          kind: 'pick',
          key: 'month',
          title: 'Due by the end of',
          required: true,
          choices: MONTH_NAMES.map((title, i) => ({ value: String(i + 1), title })),
        },
        { kind: 'text', key: 'early', title: 'Counts for it up to', unit: 'months early' },
      ],
      [
        {
          kind: 'text',
          key: 'atMost',
          title: 'Never later than',
          unit: 'months after the last',
          note: 'Left empty, an early one may stretch the interval.',
        },
      ],
    );
  return rows;
}

function partRow(part: Clock, i: number, isMonth: boolean): FormField[] {
  const key = `every.${i}`;
  if (part.kind === 'meter') return [{ kind: 'text', key, title: 'Every', unit: part.meter, required: true }];
  if (part.kind === 'life')
    return [{ kind: 'text', key, title: 'Life', unit: unitOf(part.plus), required: true }];
  if (part.kind !== 'since last' && part.kind !== 'fixed month') return [];
  return [
    { kind: 'text', key, title: 'Every', required: true, ...(isMonth ? { unit: 'months' } : {}) },
    ...(isMonth
      ? []
      : [
          {
            kind: 'one of' as const,
            key: `unit.${i}`,
            title: 'Of',
            choices: [
              { value: 'months', title: 'months' },
              { value: 'days', title: 'days' },
            ],
          },
        ]),
  ];
}

/** The clock that was filled in; what is no whole number goes as it is typed, and the store says what is wrong. */
export function clockOf(clock: Clock, filled: Filled): unknown {
  const parts = partsOf(clock).map((part, i) => partOf(part, i, filled, clock.kind !== 'first of'));
  return clock.kind === 'first of' ? { ...clock, clocks: parts } : parts[0];
}

function partOf(part: Clock, i: number, filled: Filled, isAlone: boolean): unknown {
  const every = whole(filled[`every.${i}`]);
  // Of whichever comes first each part stays of its kind.
  if (part.kind === 'fixed month' && !isAlone) return { ...part, every_months: every };
  if (part.kind === 'meter') return { ...part, every };
  if (part.kind === 'life') return { ...part, plus: { [unitOf(part.plus)]: every } };
  if (part.kind !== 'since last' && part.kind !== 'fixed month') return part;
  if (filled.counts !== 'month')
    return { kind: 'since last', every: { [filled[`unit.${i}`] || 'months']: every }, first: part.first };
  const atMost = (filled.atMost ?? '').trim();
  return {
    kind: 'fixed month',
    month: whole(filled.month),
    every_months: every,
    early_months: whole(filled.early || '0'),
    ...(atMost === '' ? {} : { atMost: { months: whole(atMost) } }),
    first: part.first,
  };
}

/** What is wrong with the figures of a clock as they are filled in, beside their fields; nothing where they make one. */
export function clockProblems(clock: Clock, filled: Filled): Problem[] {
  const isMonth = isSeasonal(clock) && filled.counts === 'month';
  const rows = clockRows(clock, filled).flat();
  const figures = rows.flatMap(({ key, title, required }) => {
    const typed = filled[key]?.trim() ?? '';
    if (!FIGURES.test(key) || (typed === '' && !required)) return [];
    const figure = whole(typed);
    const least = key === 'early' ? 0 : 1;
    return typeof figure === 'number' && figure >= least
      ? []
      : [
          wrong(
            key,
            typed === '' ? `${title}: nothing is filled in.` : `${title}: “${typed}” is not such a number.`,
            `Write a whole number, ${least} or more.`,
          ),
        ];
  });
  return isMonth && !filled.month
    ? [...figures, wrong('month', 'No month is chosen.', 'Choose the month by whose end it is due.')]
    : figures;
}

const FIGURES = /^(every\.\d+|early|atMost)$/;

const wrong = (field: string, message: string, todo: string): Problem => ({
  code: 'bad field',
  message,
  todo,
  field,
});

/** A whole number, or what was typed in its place. */
export function whole(typed = ''): number | string {
  const plain = typed.trim().replaceAll(',', '');
  return /^\d+$/.test(plain) ? Number(plain) : typed.trim();
}
