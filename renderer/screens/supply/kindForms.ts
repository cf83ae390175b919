/** Forms of what is kept: a new kind of stock, one amended, and what a place should hold of it. */
import type { SupplyLine } from '../../../db/api-supply.ts';
import {
  body,
  type DeedForm,
  dateOf,
  type Filled,
  type FormField,
  type FormRow,
} from '../../parts/deeds/deedForm.ts';
import { amountIn, amountNote, amountProblems } from './amounts.ts';

const WHAT: FormField = {
  kind: 'text',
  key: 'what',
  title: 'What',
  required: true,
  note: 'What it is and its size, so that two are told apart: Exam gloves, nitrile, large',
};

const kindRows = (filled: Filled): readonly FormRow[] => [
  [WHAT],
  [
    {
      kind: 'one of',
      key: 'unit',
      title: 'It comes',
      choices: [
        { value: 'each', title: 'Each by each' },
        { value: 'box', title: 'In boxes' },
      ],
    },
  ],
  ...(filled.unit === 'box'
    ? [[{ kind: 'text', key: 'perBox', title: 'How many in a box', required: true } as const]]
    : []),
  [
    {
      kind: 'tick',
      key: 'twoCount',
      title: 'Counted by two',
      note: 'A count names a second member. This is no controlled-substance register: those drugs are kept in their own book.',
    },
  ],
];

const said = (filled: Filled) => ({
  what: filled.what,
  unit: filled.unit,
  perBox: filled.unit === 'box' ? Number((filled.perBox ?? '').replaceAll(',', '')) : null,
  twoCount: filled.twoCount === 'yes',
});

const boxProblems = (filled: Filled) =>
  filled.unit === 'box' ? amountProblems(filled, ['perBox'], null, 1) : [];

export function addForm(): DeedForm {
  return {
    title: 'A new kind of stock',
    verb: 'Keep it',
    initial: { unit: 'each', on: '' },
    rows: kindRows,
    check: boxProblems,
    deeds: (filled, today) => [{ action: 'stock.add', body: { ...said(filled), on: dateOf(filled, today) } }],
    done: filled => `${filled.what} is kept. Receive or count some, and set its par.`,
  };
}

export function amendForm(line: SupplyLine): DeedForm {
  return {
    title: `Amend: ${line.what}`,
    verb: 'Amend',
    initial: {
      what: line.what,
      unit: line.perBox === null ? 'each' : 'box',
      perBox: line.perBox === null ? '' : String(line.perBox),
      twoCount: line.twoCount ? 'yes' : '',
      on: '',
    },
    rows: filled => [
      ...kindRows(filled),
      [
        {
          kind: 'tick',
          key: 'gone',
          title: 'Kept no longer',
          note: 'It leaves the list once nothing is on hand, and is not ordered again. Its history stays.',
        },
      ],
    ],
    check: boxProblems,
    deeds: (filled, today) => [
      {
        action: 'stock.amend',
        body: {
          stock: line.stock,
          ...said(filled),
          ...(filled.gone === 'yes' ? { kept: false } : {}),
          on: dateOf(filled, today),
        },
      },
    ],
    done: filled => `${filled.what}: amended.`,
  };
}

/** What a place should hold: the place of the row, or another. */
export function parForm(line: SupplyLine): DeedForm {
  const note = amountNote(line.perBox);
  return {
    title: `How much ${line.what} should be there?`,
    verb: 'Set it',
    initial: {
      place: line.place ?? '',
      par: line.par === null ? '' : String(line.par),
      min: line.min === null ? '' : String(line.min),
      on: '',
    },
    rows: () => [
      [{ kind: 'place', key: 'place', title: 'Where', required: true, named: line.placeName ?? undefined }],
      [
        { kind: 'text', key: 'par', title: 'Par', required: true, note: `What it is filled up to. ${note}` },
        { kind: 'text', key: 'min', title: 'Minimum', required: true, note: 'Under it the place is short.' },
      ],
    ],
    check: filled => amountProblems(filled, ['par', 'min'], line.perBox, 0),
    deeds: (filled, today) => [
      {
        action: 'stock.par',
        body: {
          ...body({ stock: line.stock, place: filled.place, on: dateOf(filled, today) }),
          par: amountIn(filled, 'par', line.perBox),
          min: amountIn(filled, 'min', line.perBox),
        },
      },
    ],
    done: () => `${line.what}: par set.`,
  };
}
