/** How amounts, lots and needs of counted stock are said, and how a typed amount is read. */
import type { Problem } from '../../../db/api.ts';
import type { SupplyLine, SupplyLot } from '../../../db/api-supply.ts';
import { amountWords, readAmount } from '../../../domain/supply/boxes.ts';
import type { Filled } from '../../parts/deeds/deedForm.ts';
import { dateText } from '../../parts/words/dates.tsx';

/** What is wrong with a place’s stock, the gravest first; nothing where all is well. */
export function needsOf(line: SupplyLine): string[] {
  return [
    ...(line.short > 0 ? [`short ${amountWords(line.short, line.perBox)}`] : []),
    ...(line.countOwed ? ['count owed'] : []),
    ...(line.expired > 0 ? [`${amountWords(line.expired, line.perBox)} expired`] : []),
    ...(line.lots.some(l => l.onHand > 0 && l.state === 'expires soon') ? ['expires soon'] : []),
  ];
}

/** The name of a lot; one without a number of its own goes by its date. */
export function lotWords({ lot, expires }: Pick<SupplyLot, 'lot' | 'expires'>): string {
  if (lot === null) return 'without a lot';
  if (lot === expires) return `no lot number, expires ${dateText(lot)}`;
  return expires === null ? `lot ${lot}` : `lot ${lot}, expires ${dateText(expires)}`;
}

/** How an amount may be typed. */
export const amountNote = (perBox: number | null): string =>
  perBox === null ? 'Each by each.' : `In each, or in boxes of ${perBox}: 3 boxes and 12.`;

/** An amount as it was typed, in each; what cannot be read goes as it is, and the form has said so. */
export const amountIn = (filled: Filled, key: string, perBox: number | null): number =>
  readAmount(filled[key] ?? '', perBox) ?? 0;

/** What is wrong with typed amounts, field by field. An empty field is none. */
export function amountProblems(
  filled: Filled,
  keys: readonly string[],
  perBox: number | null,
  least: 0 | 1,
): Problem[] {
  return keys.flatMap(key => {
    const typed = (filled[key] ?? '').trim();
    if (typed === '') return [];
    const read = readAmount(typed, perBox);
    return read !== null && read >= least
      ? []
      : [
          {
            code: 'bad value',
            message: `“${typed}” is no amount${least === 1 ? ' over zero' : ''}.`,
            todo:
              perBox === null
                ? 'Enter how many, in figures.'
                : 'Enter how many in figures, or so many boxes.',
            field: key,
          },
        ];
  });
}
