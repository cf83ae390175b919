/** Comparing readings as they were written: exact, so that a reading at a limit is at the limit. */
import type { Value } from '../facts.ts';

/** A decimal as a whole number of units of ten to the minus `places`. */
export interface Decimal {
  units: bigint;
  places: number;
}

/** A value as an exact decimal; null where it is no number. */
export function decimalOf(value: Value | undefined): Decimal | null {
  const text = typeof value === 'number' ? String(value) : value;
  const found = typeof text === 'string' ? /^(-?)(\d+)(?:\.(\d+))?$/.exec(text) : null;
  if (!found) return null;
  const [, sign = '', whole = '0', part = ''] = found;
  return { units: BigInt(`${sign}${whole}${part}`), places: part.length };
}

export function minus(a: Decimal, b: Decimal): Decimal {
  const places = Math.max(a.places, b.places);
  return { units: scaled(a, places) - scaled(b, places), places };
}

export function times(a: Decimal, b: Decimal): Decimal {
  return { units: a.units * b.units, places: a.places + b.places };
}

/** Negative where `a` is less, zero where they are the same. */
export function compare(a: Decimal, b: Decimal): number {
  const places = Math.max(a.places, b.places);
  const [x, y] = [scaled(a, places), scaled(b, places)];
  return x < y ? -1 : x > y ? 1 : 0;
}

/** As it is written: `2700`, `4.05`; what a percentage leaves of trailing zeros is dropped. */
export function decimalText({ units, places }: Decimal): string {
  const digits = (units < 0n ? -units : units).toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  const part = places === 0 ? '' : digits.slice(-places).replace(/0+$/, '');
  return `${units < 0n ? '-' : ''}${whole}${part === '' ? '' : `.${part}`}`;
}

function scaled({ units, places }: Decimal, to: number): bigint {
  return units * 10n ** BigInt(to - places);
}
