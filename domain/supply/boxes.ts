/** Units of issue: amounts are kept in each, and spoken of in boxes where a stock comes in boxes. */
import { grouped } from '../units.ts';

/** A count within a quarter of what was expected is told apart from one that is off by a whole box size. */
const NEAR = 4;
/** Under so many in a box half of it may well have been used: nothing can be told. */
const LEAST_BOX = 4;

export type Mixed = 'boxes as each' | 'each as boxes';

/**
 * Whether a count looks like boxes entered as each (3 where some 300 lay), or each entered as boxes (30,000).
 * @param counted in each, as entered
 * @param believed what was on hand by the last count and what came and went since
 * @returns null where nothing speaks for it
 */
export function mixedUp(counted: number, believed: number, perBox: number | null): Mixed | null {
  if (perBox === null || perBox < LEAST_BOX || counted <= 0 || believed <= 0) return null;
  if (isNear(counted * perBox, believed)) return 'boxes as each';
  return isNear(counted, believed * perBox) ? 'each as boxes' : null;
}

const isNear = (a: number, b: number) => Math.abs(a - b) * NEAR <= b;

/** In whole boxes and what is over: `3 boxes and 12`, `40`; of a box `box` alone. */
export function amountWords(each: number, perBox: number | null): string {
  const n = (count: number) => grouped(count).replace('-', '−');
  if (perBox === null || Math.abs(each) < perBox) return n(each);
  const boxes = Math.trunc(each / perBox);
  const over = Math.abs(each % perBox);
  return `${n(boxes)} ${Math.abs(boxes) === 1 ? 'box' : 'boxes'}${over === 0 ? '' : ` and ${n(over)}`}`;
}

/**
 * An amount as people write it, in each: `40`, `3 boxes`, `3 bx and 12`, `1,200`.
 * @returns null where it is no whole amount, or speaks of boxes where there are none
 */
export function readAmount(typed: string, perBox: number | null): number | null {
  const m =
    /^(?:(\d[\d,]*)\s*(?:boxes|box|bx)\b)?(?:\s*(?:and|\+|,)?\s*(\d[\d,]*)(?:\s*(?:each|ea))?)?$/i.exec(
      typed.trim(),
    );
  const [, boxes, each] = m ?? [];
  if (boxes === undefined && each === undefined) return null;
  if (boxes !== undefined && perBox === null) return null;
  const whole = (text: string | undefined) => (text === undefined ? 0 : Number(text.replaceAll(',', '')));
  const amount = whole(boxes) * (perBox ?? 0) + whole(each);
  return Number.isSafeInteger(amount) ? amount : null;
}
