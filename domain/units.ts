/**
 * Measures as a department reads them. The trade's US customary figure is what was measured or printed, and always
 * stays; a department that reads SI sees the converted figure before it.
 */

import { showWhen } from './calendar/show.ts';
import { parseWhen } from './calendar/when.ts';
import { inchText } from './describe.ts';
import type { Attribute } from './rulebook/types.ts';

export type UnitSystem = 'US' | 'SI';

interface Conversion {
  unit: string;
  factor: number;
  /** Decimals that say no more than was measured. */
  decimals: number;
}

/** NIST SP 811 (2008), Appendix B.8: factors for units listed alphabetically; 1 bar is 100 kPa (its section 5.2). */
const TO_SI: Readonly<Record<string, Conversion>> = {
  psi: { unit: 'bar', factor: 0.068_947_57, decimals: 1 },
  ft: { unit: 'm', factor: 0.3048, decimals: 2 },
  in: { unit: 'mm', factor: 25.4, decimals: 0 },
  lb: { unit: 'kg', factor: 0.453_592_37, decimals: 1 },
  gpm: { unit: 'L/min', factor: 3.785_412, decimals: 0 },
};

/**
 * A figure with its unit, in the system asked for.
 * @param figure a decimal as text (`"2216"`, `"1.75"`), or a number
 * @param unit the US customary unit it was given in; a unit with no SI counterpart here is left as it is
 * @returns `2,216 psi`, or in SI `152.8 bar (2,216 psi)`
 */
export function showMeasure(figure: string | number, unit: string | undefined, system: UnitSystem): string {
  const value = Number(figure);
  const written = unit === 'in' ? inchText(figure) : Number.isFinite(value) ? grouped(value) : figure;
  const given = `${written}${unit ? ` ${unit}` : ''}`;
  const si = unit === undefined || system === 'US' ? undefined : TO_SI[unit];
  if (!si || !Number.isFinite(value)) return given;
  return `${grouped(value * si.factor, si.decimals)} ${si.unit} (${given})`;
}

/** The value of an attribute or reading in words: a choice by its title, a date as precisely as it is known, a measure with its unit. */
export function showValue(attribute: Attribute, value: unknown, system: UnitSystem): string {
  if (value === null || value === undefined) return '–';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'string' && typeof value !== 'number') return String(value);
  if (attribute.type === 'choice')
    return attribute.choices?.find(c => c.value === value)?.title ?? String(value);
  if (attribute.type === 'when') {
    const when = parseWhen(String(value));
    return when === null ? String(value) : showWhen(when);
  }
  return attribute.type === 'text' ? String(value) : showMeasure(value, attribute.unit, system);
}

/** A figure with its thousands apart, and no more decimals than it has. */
export function grouped(value: number, decimals = 6): string {
  const [whole = '', fraction] = String(Number(value.toFixed(decimals))).split('.');
  const apart = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return fraction === undefined ? apart : `${apart}.${fraction}`;
}
