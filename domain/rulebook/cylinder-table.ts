/** The tables of cylinders: 49 CFR 180.209 Table 1, 180.207, and composites by construction. */
import type { Binding, ConstructionPeriod, Source, SpecPeriod } from './types.ts';

/** Whoever fills, offers or carries a cylinder, everywhere in the United States. */
export const everywhere = (cite: string): readonly Binding[] => [
  { reach: 'everywhere', cite: `49 CFR ${cite}` },
];

export const cfr = (section: string, note?: string): Source => ({
  document: '49 CFR',
  section,
  edition: '2015 annual edition; Table 1 from a recent copy',
  confidence: 'read',
  ...(note ? { note } : {}),
});

/** Paragraph (b): 3A and 3AA cylinders with a star mark go ten years, with a hammer test before each refill. */
const STAR = { attribute: 'star', is: true, months: 120, clause: '49 CFR 180.209(b), star mark' };
/** Paragraphs (e) and (j): twelve years for the 4B series, where the requalifier's mark or paper says so. */
const VOLUMETRIC_12 = {
  attribute: 'longerPeriod',
  is: 'volumetric',
  months: 144,
  clause: '49 CFR 180.209(e) or (j), volumetric test',
};
const years = (spec: string, construction: string, n: number | null): SpecPeriod => ({
  spec,
  construction,
  months: n === null ? null : n * 12,
  lifeMonths: null,
});

/** 49 CFR 180.209(a) Table 1: where the table allows several periods, the shortest, unless a mark says otherwise. */
export const SPEC_PERIODS: readonly SpecPeriod[] = [
  years('3', 'steel', 5),
  { ...years('3A', 'steel', 5), unless: STAR },
  { ...years('3AA', 'steel', 5), unless: STAR },
  years('3AL', 'aluminum', 5),
  years('3AX', 'steel', 5),
  years('3AAX', 'steel', 5),
  years('3B', 'steel', 5),
  years('3BN', 'steel', 5),
  years('3E', 'steel', null),
  // 3HT is condemned when older than 24 years (180.205(i)(1)(v)(C)); its fills are counted on a meter.
  { ...years('3HT', 'steel', 3), lifeMonths: 288 },
  years('3T', 'steel', 5),
  years('4AA480', 'steel', 5),
  { ...years('4B', 'steel', 5), unless: VOLUMETRIC_12 },
  { ...years('4BA', 'steel', 5), unless: VOLUMETRIC_12 },
  { ...years('4BW', 'steel', 5), unless: VOLUMETRIC_12 },
  { ...years('4B240ET', 'steel', 5), unless: VOLUMETRIC_12 },
  years('4D', 'steel', 5),
  years('4DA', 'steel', 5),
  years('4DS', 'steel', 5),
  years('4E', 'aluminum', 5),
  years('4L', 'steel', null),
  years('8', 'steel', 10),
  years('8AL', 'steel', 10),
  {
    ...years('UN seamless', 'seamless', 10),
    unless: { attribute: 'gas', is: 'CO2', months: 60, clause: '49 CFR 180.207(c), carbon dioxide (UN1013)' },
  },
  { ...years('UN composite', 'UN composite', 5), lifeMonths: 180 },
  years('foreign', 'foreign', 5),
];

/** Composite SCBA cylinders by construction, as their permits usually print it (read second-hand). */
export const CONSTRUCTION_PERIODS: readonly ConstructionPeriod[] = [
  { construction: 'hoop', months: 36, lifeMonths: 180 },
  { construction: 'fiberglass', months: 36, lifeMonths: 180 },
  { construction: 'aramid', months: 36, lifeMonths: 180 },
  { construction: 'carbon', months: 60, lifeMonths: 180 },
  { construction: 'steel', months: 60, lifeMonths: null },
  { construction: 'aluminum', months: 60, lifeMonths: null },
];

export const CAUTIONS = [
  'Never hydrostatic-test with gas. Requalification is for a holder of a current RIN only.',
  'Nobody near a cylinder being filled who need not be; fill within the label pressure and slowly.',
  'Solvent, acid, heat or impact on a composite cylinder: out of service until examined.',
];
export const RIN_HOLDER =
  'A requalifier with a current RIN: 49 CFR 180.205(b). A department without one cannot certify its own.';
