/**
 * Portable extinguishers by type: OSHA Table L-1 (29 CFR 1910.157(f)) and the tables of NFPA 10. What each type owes
 * is grouped here, so that the family can name a group where the tables name a row.
 */
import type { Choice } from './types.ts';

interface Type extends Choice {
  /** Years between hydrostatic tests by Table L-1; null: the table has no row for it, or asks for none. */
  tableL1: 5 | 12 | null;
  /** The same by NFPA 10 alone. */
  nfpa10?: 5 | 12;
  /** Years between internal examinations by NFPA 10, where its table was seen. */
  internal?: 1 | 3 | 5 | 6;
}

export const SOLDERED = 'soldered brass';
export const CO2 = 'CO2';
export const DRY_CHEMICAL_STORED = 'dry chemical stored pressure';
export const NONRECHARGEABLE = 'nonrechargeable';

export const TYPES: readonly Type[] = [
  { value: 'water stored pressure', title: 'Water, stored pressure', tableL1: 5, internal: 5 },
  { value: 'water cartridge', title: 'Water or antifreeze, cartridge', tableL1: 5 },
  { value: 'antifreeze', title: 'Antifreeze, stored pressure', tableL1: 5, internal: 1 },
  { value: 'loaded stream', title: 'Loaded stream', tableL1: 5, internal: 1 },
  { value: 'wetting agent', title: 'Wetting agent', tableL1: 5, internal: 1 },
  { value: 'pump tank', title: 'Pump tank', tableL1: null, internal: 1 },
  { value: 'AFFF', title: 'AFFF', tableL1: 5, internal: 3 },
  { value: 'FFFP', title: 'FFFP', tableL1: null, nfpa10: 5, internal: 3 },
  { value: 'wet chemical', title: 'Wet chemical', tableL1: null, nfpa10: 5, internal: 5 },
  { value: CO2, title: 'Carbon dioxide', tableL1: 5, internal: 5 },
  {
    value: DRY_CHEMICAL_STORED,
    title: 'Dry chemical, stored pressure (mild steel, brazed brass, aluminum)',
    tableL1: 12,
    internal: 6,
  },
  {
    value: 'dry chemical cartridge',
    title: 'Dry chemical, cartridge or cylinder, mild steel',
    tableL1: 12,
    internal: 1,
  },
  { value: 'dry chemical stainless', title: 'Dry chemical, stainless steel', tableL1: 5, internal: 5 },
  { value: NONRECHARGEABLE, title: 'Dry chemical, nonrechargeable', tableL1: null },
  {
    value: 'dry powder stored pressure',
    title: 'Dry powder, stored pressure, mild steel',
    tableL1: null,
    nfpa10: 12,
    internal: 6,
  },
  {
    value: 'dry powder cartridge',
    title: 'Dry powder, cartridge or cylinder, mild steel',
    tableL1: 12,
    internal: 1,
  },
  { value: 'halon 1211', title: 'Halon 1211', tableL1: 12, internal: 6 },
  { value: 'halon 1301', title: 'Halon 1301', tableL1: 12, internal: 6 },
  { value: 'halogenated', title: 'Other halogenated agent', tableL1: null, nfpa10: 12, internal: 6 },
  { value: 'soda acid stainless', title: 'Soda acid, stainless steel', tableL1: 5 },
  { value: 'foam stainless', title: 'Foam, stainless steel', tableL1: 5 },
  { value: SOLDERED, title: 'Soda acid or foam, soldered or riveted brass or copper', tableL1: null },
];

const where = (fits: (type: Type) => boolean): readonly string[] => TYPES.filter(fits).map(t => t.value);

/** Types that Table L-1 has tested every so many years. */
export const byTableL1 = (years: 5 | 12) => where(t => t.tableL1 === years);
/** Types that NFPA 10 alone has tested every so many years. */
export const byNfpa10 = (years: 5 | 12) => where(t => t.nfpa10 === years);
/** Types that are opened and examined inside every so many years. */
export const examinedEvery = (years: 1 | 3 | 5 | 6) => where(t => t.internal === years);
/** Types with a hose that may end in a shut-off nozzle, tested with the extinguisher. */
export const hoseTestedEvery = (years: 5 | 12) =>
  where(
    t => (t.value === CO2 || /^dry (chemical|powder)/.test(t.value)) && (t.tableL1 ?? t.nfpa10) === years,
  );
