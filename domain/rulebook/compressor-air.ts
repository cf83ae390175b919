/** What breathing air may hold: a subject of the compressors. Grade D as OSHA asks for it, and NFPA 1989. */
import { duty, osha } from './duty.ts';
import type { Attribute, ReadingLimit, Requirement, Source } from './types.ts';

export const osha134 = (section: string, note?: string): Source => ({
  document: '29 CFR 1910.134',
  section,
  edition: '2015 annual edition',
  confidence: 'read',
  ...(note ? { note } : {}),
});

export const nfpa1989 = (note: string): Source => ({
  document: 'NFPA 1989',
  section: '',
  edition: '2008, as printed by laboratories',
  confidence: 'read second-hand',
  note,
});

export const AIR_CAUTIONS: readonly string[] = [
  'A failed sample: stop filling at once, quarantine the bank and every cylinder filled since the last good sample, and resample.',
  'Tell whoever wore that air. Keep the sample sheet and who held it.',
];

export const AIR_READINGS: readonly Attribute[] = [
  { key: 'oxygen_percent', title: 'Oxygen', type: 'decimal', unit: '%' },
  { key: 'carbonMonoxide_ppm', title: 'Carbon monoxide', type: 'decimal', unit: 'ppm' },
  { key: 'carbonDioxide_ppm', title: 'Carbon dioxide', type: 'decimal', unit: 'ppm' },
  { key: 'oil_mgm3', title: 'Condensed oil', type: 'decimal', unit: 'mg/m³' },
  {
    key: 'dewPointBelowZero_F',
    title: 'Dew point, degrees below zero',
    type: 'decimal',
    unit: '°F',
    note: 'At 1 atm. Write 65 for -65 °F, and 0 for zero or above.',
  },
  { key: 'water_ppm', title: 'Water', type: 'decimal', unit: 'ppm' },
  { key: 'hydrocarbons_ppm', title: 'Non-methane hydrocarbons', type: 'decimal', unit: 'ppm' },
  { key: 'nitrogen_percent', title: 'Nitrogen', type: 'decimal', unit: '%' },
  { key: 'odor', title: 'Noticeable odor', type: 'flag' },
];

type Limit = Pick<ReadingLimit, 'reading' | 'owedWhen' | 'value'>;

/** Each limit is itself still good air: 10 ppm of carbon monoxide passes Grade D. */
const gradeD = (id: string, title: string, limit: Limit): Requirement =>
  duty({
    id: `compressor.${id}`,
    title,
    activity: 'air sample',
    clock: { kind: 'reading limit', ...limit },
    satisfiedBy: ['air sample'],
    countedOutcomes: ['pass'],
    sources: [osha134('(i)(1)(ii) and (i)(4)(iii)', 'Grade D breathing air.')],
    force: 'law',
    bindings: osha('29 CFR 1910.134(i)'),
    late: 'blocks',
    who: 'An accredited laboratory, from a new sample.',
    cautions: AIR_CAUTIONS,
  });

const stricter = (id: string, title: string, limit: Limit, note: string, besides?: string): Requirement =>
  duty({
    id: `compressor.${id}`,
    title,
    activity: 'air sample',
    clock: { kind: 'reading limit', ...limit },
    satisfiedBy: ['air sample'],
    countedOutcomes: ['pass'],
    sources: [nfpa1989(note)],
    force: 'standard',
    binds: 'Where the department has adopted NFPA 1989.',
    late: 'blocks',
    who: 'An accredited laboratory, from a new sample.',
    cautions: AIR_CAUTIONS,
    ...(besides ? { besides: `compressor.${besides}` } : {}),
  });

export const AIR_LIMITS: readonly Requirement[] = [
  gradeD('oxygen-low', 'Too little oxygen', { reading: 'oxygen_percent', owedWhen: 'under', value: '19.5' }),
  gradeD('oxygen-high', 'Too much oxygen', { reading: 'oxygen_percent', owedWhen: 'over', value: '23.5' }),
  gradeD('carbon-monoxide', 'Carbon monoxide over Grade D', {
    reading: 'carbonMonoxide_ppm',
    owedWhen: 'over',
    value: '10',
  }),
  gradeD('carbon-dioxide', 'Carbon dioxide too high', {
    reading: 'carbonDioxide_ppm',
    owedWhen: 'over',
    value: '1000',
  }),
  gradeD('oil', 'Oil over Grade D', { reading: 'oil_mgm3', owedWhen: 'over', value: '5' }),
  gradeD('dew-point', 'Dew point over -50 °F', {
    reading: 'dewPointBelowZero_F',
    owedWhen: 'under',
    value: '50',
  }),
  stricter(
    'carbon-monoxide-1989',
    'Carbon monoxide over NFPA 1989',
    { reading: 'carbonMonoxide_ppm', owedWhen: 'over', value: '5' },
    'At most 5 ppm.',
    'carbon-monoxide',
  ),
  stricter(
    'oil-1989',
    'Oil over NFPA 1989',
    { reading: 'oil_mgm3', owedWhen: 'over', value: '2' },
    'At most 2 mg/m³.',
    'oil',
  ),
  stricter(
    'water-1989',
    'Too much water',
    { reading: 'water_ppm', owedWhen: 'over', value: '24' },
    'At most 24 ppm.',
  ),
  stricter(
    'dew-point-1989',
    'Dew point over -65 °F',
    { reading: 'dewPointBelowZero_F', owedWhen: 'under', value: '65' },
    '24 ppm of water is a dew point of about -65 °F.',
    'dew-point',
  ),
  stricter(
    'hydrocarbons-1989',
    'Hydrocarbons too high',
    { reading: 'hydrocarbons_ppm', owedWhen: 'over', value: '25' },
    'At most 25 ppm of non-methane volatile organic compounds.',
  ),
  stricter(
    'nitrogen-low-1989',
    'Too little nitrogen',
    { reading: 'nitrogen_percent', owedWhen: 'under', value: '75' },
    '75 to 81 %.',
  ),
  stricter(
    'nitrogen-high-1989',
    'Too much nitrogen',
    { reading: 'nitrogen_percent', owedWhen: 'over', value: '81' },
    '75 to 81 %.',
  ),
];
