/** The forms of a carry list: a line put on it, changed, ended. */

import type { Problem } from '../../../db/api.ts';
import type { CarryPage } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { TEMPLATES } from '../../../domain/carry/templates.ts';
import { type CarryLine, type LineBody, VERIFY } from '../../../domain/carry/types.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';

const PLAIN = 'counted, not tracked';

/** What each way of making sure is called at the seat. */
const HOW: Readonly<Record<(typeof VERIFY)[number], string>> = {
  sight: 'By sight',
  count: 'Counted',
  'number read': 'Number read',
  operated: 'Operated',
  'seal intact': 'Seal intact',
};

/** A new line, or one that is changed; the list of the days before stays as it was. */
export function lineForm(
  page: Pick<CarryPage, 'of' | 'name' | 'places'>,
  families: readonly Family[],
  line: (CarryLine & { code?: string }) | null,
  place?: string,
  placeNote = 'The names below the rig, the outermost first: L3, tray 2',
): DeedForm {
  const rows: readonly (readonly FormField[])[] = [
    [{ kind: 'text', key: 'what', title: 'What', required: true }],
    [
      { kind: 'text', key: 'qty', title: 'How many', required: true },
      { kind: 'text', key: 'min', title: 'The least', note: 'The line still serves with so many.' },
      {
        kind: 'text',
        key: 'place',
        title: 'Where it rides',
        required: true,
        note: placeNote,
      },
    ],
    [
      {
        kind: 'pick',
        key: 'family',
        title: 'Filled by',
        choices: [
          { value: PLAIN, title: capital(PLAIN) },
          ...families.map(f => ({ value: f.id, title: f.title, detail: 'tracked one by one' })),
        ],
      },
    ],
    [
      {
        kind: 'one of',
        key: 'verify',
        title: 'How it is made sure of',
        choices: VERIFY.map(v => ({ value: v, title: HOW[v] })),
      },
    ],
    [
      {
        kind: 'text',
        key: 'reading',
        title: 'What is read',
        note: 'Level, pressure, charge; empty: nothing',
      },
      { kind: 'text', key: 'unit', title: 'In' },
      { kind: 'text', key: 'atLeast', title: 'At least' },
    ],
    [
      {
        kind: 'tick',
        key: 'critical',
        title: 'Critical',
        note: 'Without the least of it the unit is not ready. The department decides.',
      },
      { kind: 'date', key: 'on', title: 'From' },
    ],
  ];
  return {
    title: line
      ? `${line.code ? `${line.code} ` : ''}${line.what}, ${page.name}`
      : `A line more for ${page.name}`,
    verb: line ? 'Change it' : 'Put it on the list',
    initial: line
      ? filledOf(line)
      : { qty: '1', min: '', verify: 'sight', family: PLAIN, on: '', place: place ?? '' },
    rows: () => rows,
    check: problemsOf,
    deeds: (filled, today) => [
      {
        action: 'carry.set',
        body: { of: page.of, lines: [bodyOf(filled, line)], on: dateOf(filled, today) },
      },
    ],
    done: filled => `${filled.what} is ${line ? 'changed' : 'on the list'}.`,
  };
}

function filledOf(line: LineBody): Filled {
  return {
    what: line.what,
    qty: String(line.qty),
    min: String(line.min),
    place: line.place,
    family: line.family ?? PLAIN,
    verify: line.verify,
    reading: line.reading?.title ?? '',
    unit: line.reading?.unit ?? '',
    atLeast: line.reading?.atLeast ?? '',
    critical: line.critical ? 'yes' : '',
    on: '',
  };
}

function bodyOf(filled: Filled, line: CarryLine | null): Record<string, unknown> {
  const family = filled.family === PLAIN ? null : filled.family;
  const said = (key: string) => (filled[key] ?? '').trim();
  return {
    ...(line ? { line: line.line } : {}),
    what: filled.what,
    family,
    // What its things must be like was said of the family it had.
    like: line && line.family === family ? line.like : {},
    qty: Number(filled.qty),
    min: said('min') === '' ? Number(filled.qty) : Number(filled.min),
    place: filled.place,
    critical: filled.critical === 'yes',
    verify: filled.verify,
    reading:
      said('reading') === ''
        ? null
        : { title: said('reading'), unit: said('unit') || null, atLeast: said('atLeast') || null },
    source: line?.source ?? null,
  };
}

function problemsOf(filled: Filled): Problem[] {
  return (['qty', 'min'] as const).flatMap(key => {
    const typed = (filled[key] ?? '').trim();
    return typed === '' || /^\d+$/.test(typed)
      ? []
      : [
          {
            code: 'bad value',
            message: `“${typed}” is no whole number.`,
            todo: 'Enter it in figures.',
            field: key,
          },
        ];
  });
}

export function endForm(
  page: Pick<CarryPage, 'of' | 'name'>,
  line: Pick<CarryLine, 'line' | 'what'>,
): DeedForm {
  return {
    title: `Take ${line.what} off the list of ${page.name}`,
    verb: 'Take it off',
    initial: { why: '', on: '' },
    says: () => ['The list of the days before stays as it was.'],
    rows: () => [
      [
        { kind: 'text', key: 'why', title: 'Why' },
        { kind: 'date', key: 'on', title: 'From' },
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'carry.set',
        body: body({ of: page.of, end: [line.line], why: filled.why, on: dateOf(filled, today) }),
      },
    ],
    done: () => `${line.what} is off the list.`,
  };
}

/** A list to begin from: every line of it is put on, and edited after. */
export function templateForm(page: Pick<CarryPage, 'of' | 'name' | 'kind' | 'lines'>): DeedForm {
  const offered = TEMPLATES.find(t => page.kind?.includes(t.kind)) ?? TEMPLATES[0];
  const chosen = (filled: Filled) => TEMPLATES.find(t => t.kind === filled.kind) ?? offered;
  return {
    title: `A list to begin from, for ${page.name}`,
    verb: 'Put them on the list',
    initial: { kind: offered?.kind ?? '', on: '' },
    says: filled => [
      `${chosen(filled)?.lines.length ?? 0} lines, each with where its number is from: published lists as far as they were seen, and common practice. Name your own places and quantities afterwards.`,
      ...(page.lines.length > 0 ? [`The ${page.lines.length} lines that are on the list stay.`] : []),
    ],
    rows: () => [
      [
        {
          kind: 'pick',
          key: 'kind',
          title: 'For',
          required: true,
          choices: TEMPLATES.map(t => ({ value: t.kind, title: t.title, detail: `${t.lines.length} lines` })),
        },
      ],
      [{ kind: 'date', key: 'on', title: 'From' }],
    ],
    deeds: (filled, today) => [
      {
        action: 'carry.set',
        body: { of: page.of, lines: chosen(filled)?.lines ?? [], on: dateOf(filled, today) },
      },
    ],
    done: filled => `${chosen(filled)?.lines.length ?? 0} lines are on the list of ${page.name}.`,
  };
}
