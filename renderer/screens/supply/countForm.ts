/** The form of a count: a field for each lot that is believed to lie there, and one more for a lot nobody knew of. */
import type { MemberLine, Problem } from '../../../db/api.ts';
import type { SupplyLine, SupplyLot } from '../../../db/api-supply.ts';
import { capital } from '../../../domain/capital.ts';
import { amountWords, mixedUp } from '../../../domain/supply/boxes.ts';
import { body, type DeedForm, dateOf, type Filled, type FormRow } from '../../parts/deeds/deedForm.ts';
import { readDate } from '../../parts/form/readDate.ts';
import { amountIn, amountNote, amountProblems, lotWords } from './amounts.ts';

const keyOf = (i: number) => `lot ${i}`;

export function countForm(line: SupplyLine, members: readonly MemberLine[]): DeedForm {
  // Where nothing is known to lie there, what has no lot is asked for.
  const lots: readonly Pick<SupplyLot, 'lot' | 'expires' | 'onHand'>[] =
    line.lots.length > 0 ? line.lots : [{ lot: null, expires: null, onHand: 0 }];
  const keys = [...lots.map((_, i) => keyOf(i)), 'other'];
  const mixed = (filled: Filled) =>
    lots.flatMap((l, i) => {
      const counted = amountIn(filled, keyOf(i), line.perBox);
      return mixedUp(counted, l.onHand, line.perBox) === null ? [] : [{ ...l, counted }];
    });
  const rows = (filled: Filled): readonly FormRow[] => [
    ...lots.map(
      (l, i): FormRow => [
        {
          kind: 'text',
          key: keyOf(i),
          title: capital(lotWords(l)),
          note: `Believed: ${amountWords(l.onHand, line.perBox)}. Empty: not counted.`,
        },
      ],
    ),
    [
      { kind: 'text', key: 'other', title: 'Another lot', note: 'How many' },
      { kind: 'text', key: 'otherLot', title: 'Its number' },
      { kind: 'text', key: 'otherExpires', title: 'It expires' },
    ],
    ...(mixed(filled).length > 0 ? [[COUNTED_SO]] : []),
    [
      ...(line.twoCount
        ? [
            {
              kind: 'pick' as const,
              key: 'witness',
              title: 'Counted with',
              required: true,
              note: 'Another member than who signs. This is no controlled-substance register.',
              choices: members.map(m => ({ value: m.id, title: m.name, detail: m.number })),
            },
          ]
        : []),
      { kind: 'date', key: 'on', title: 'On' },
    ],
  ];
  return {
    title: `Count ${line.what} at ${line.placeName}`,
    verb: 'Counted',
    initial: { on: '' },
    rows,
    says: filled => [
      `What is there, in date or not. ${amountNote(line.perBox)}`,
      ...mixed(filled).map(
        m =>
          `${m.counted.toLocaleString('en-US')} looks like boxes and each mixed up: ${m.onHand.toLocaleString('en-US')} were believed to be there.`,
      ),
    ],
    check: filled => [...amountProblems(filled, keys, line.perBox, 0), ...nothing(filled, keys)],
    deeds: (filled, today) => [
      {
        action: 'stock.count',
        body: {
          ...body({
            stock: line.stock,
            place: line.place,
            witness: filled.witness,
            on: dateOf(filled, today),
          }),
          counts: [
            ...lots.flatMap((l, i) =>
              isFilled(filled, keyOf(i))
                ? [
                    {
                      ...(l.lot === null ? {} : { lot: l.lot }),
                      amount: amountIn(filled, keyOf(i), line.perBox),
                    },
                  ]
                : [],
            ),
            ...(isFilled(filled, 'other') ? [otherLot(filled, line, today)] : []),
          ],
          asCounted: filled.asCounted === 'yes',
        },
      },
    ],
    done: () => `${line.what}: counted.`,
  };
}

const COUNTED_SO = {
  kind: 'tick',
  key: 'asCounted',
  title: 'It was counted so',
  note: 'In each, and not in boxes.',
} as const;

const isFilled = (filled: Filled, key: string) => (filled[key] ?? '').trim() !== '';

const otherLot = (filled: Filled, line: SupplyLine, today: string) => ({
  ...body({ lot: (filled.otherLot ?? '').trim() }),
  ...(isFilled(filled, 'otherExpires') ? { expires: readDate(filled.otherExpires ?? '', today).text } : {}),
  amount: amountIn(filled, 'other', line.perBox),
});

const nothing = (filled: Filled, keys: readonly string[]): Problem[] =>
  keys.some(key => isFilled(filled, key))
    ? []
    : [
        {
          code: 'nothing counted',
          message: 'Nothing is counted.',
          todo: 'Enter how many there are; 0 where there is none left.',
          field: keys[0] ?? null,
        },
      ];
