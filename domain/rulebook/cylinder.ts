/**
 * Compressed-gas and SCBA cylinders: 49 CFR 180.205, 180.207 and 180.209 Table 1; composite cylinders by their
 * special permit, else by construction.
 */
import type { ConstructionPeriod, Family, PermitOffer, Source, SpecPeriod } from './types.ts';
import { WARN_LIFE_DAYS, warnDaysFor } from './warnings.ts';

const cfr = (section: string, note?: string): Source => ({
  document: '49 CFR',
  section,
  edition: '2015 annual edition; Table 1 from a recent copy',
  confidence: 'read',
  ...(note ? { note } : {}),
});

/** Paragraph (b): 3A and 3AA cylinders with a star mark go ten years, with a hammer test before each refill. */
const STAR = { attribute: 'star', is: true, months: 120, clause: '49 CFR 180.209(b), star mark' };
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
  // 3HT is condemned when older than 24 years (180.205(i)(1)(v)(C)); the count of pressurizations is kept by hand.
  { ...years('3HT', 'steel', 3), lifeMonths: 288 },
  years('3T', 'steel', 5),
  years('4AA480', 'steel', 5),
  years('4B', 'steel', 5),
  years('4BA', 'steel', 5),
  years('4BW', 'steel', 5),
  years('4B240ET', 'steel', 5),
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

/**
 * What the book can say of permits it has heard of. An offer, never a default: each is confirmed by the
 * department from the permit or the label in hand before anything is judged by it.
 */
export const PERMIT_OFFERS: readonly PermitOffer[] = [
  {
    permit: 'DOT-SP 10915',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'read',
    note: 'Fully wrapped carbon, aluminum lined; 15-year life. Early revisions of carbon permits were three years: read yours.',
  },
  {
    permit: 'DOT-SP 10945',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Expected of this family of permits; not seen.',
  },
  {
    permit: 'DOT-SP 13583',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Expected of this family of permits; not seen.',
  },
  {
    permit: 'DOT-E 11005',
    construction: 'carbon',
    months: 60,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Uncertain; not seen.',
  },
  {
    permit: 'DOT-SP 14232',
    construction: 'carbon',
    months: 60,
    lifeMonths: 'label',
    confidence: 'read',
    note: 'A longer-life carbon design: its life is what the label says.',
  },
  {
    permit: 'DOT-E 7235',
    construction: 'hoop',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Hoop wrapped, 2216 psi, 6351-T6 liner: also needs the crack examination.',
  },
  {
    permit: 'DOT-E 7277',
    construction: 'hoop',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Hoop wrapped, from memory; not seen.',
  },
  {
    permit: 'DOT-E 8162',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-SP 8718',
    construction: 'aramid',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 9634',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 9894',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
  {
    permit: 'DOT-E 10019',
    construction: 'fiberglass',
    months: 36,
    lifeMonths: 180,
    confidence: 'memory',
    note: 'Glass or aramid composite expected; not seen.',
  },
];

/** What the table offers for a permit, under its newer or its older letters. */
export function permitOffered(permit: string): PermitOffer | undefined {
  const [letters, number] = permit.split(' ');
  const twin = `${letters === 'DOT-E' ? 'DOT-SP' : 'DOT-E'} ${number}`;
  const offer = PERMIT_OFFERS.find(o => o.permit === permit) ?? PERMIT_OFFERS.find(o => o.permit === twin);
  return offer && { ...offer, permit };
}

const CAUTIONS = [
  'Never hydrostatic-test with gas. Requalification is for a holder of a current RIN only.',
  'Nobody near a cylinder being filled who need not be; fill within the label pressure and slowly.',
  'Solvent, acid, heat or impact on a composite cylinder: out of service until examined.',
];
/** Owed by a cylinder that no test can bring back; only retirement ends it. */
export const CONDEMNATION = 'condemnation';
const RIN_HOLDER =
  'A requalifier with a current RIN: 49 CFR 180.205(b). A department without one cannot certify its own.';

export const cylinder: Family = {
  id: 'cylinder',
  title: 'Cylinder',
  plural: 'Cylinders',
  attributes: [
    {
      key: 'spec',
      title: 'Specification or permit',
      type: 'text',
      note: 'As marked: 3AA, 3AL, DOT-SP 10915, DOT-E 7277.',
    },
    {
      key: 'construction',
      title: 'Construction',
      type: 'choice',
      choices: [
        { value: 'steel', title: 'Steel' },
        { value: 'aluminum', title: 'Aluminum' },
        { value: 'hoop', title: 'Hoop-wrapped' },
        { value: 'fiberglass', title: 'Full-wrap fiberglass' },
        { value: 'aramid', title: 'Full-wrap aramid' },
        { value: 'carbon', title: 'Full-wrap carbon' },
        { value: 'UN composite', title: 'UN composite' },
        { value: 'seamless', title: 'UN seamless' },
        { value: 'foreign', title: 'Foreign' },
      ],
    },
    { key: 'servicePressure_psi', title: 'Service pressure', type: 'whole', unit: 'psi' },
    { key: 'ratedDuration_min', title: 'Rated duration', type: 'whole', unit: 'min' },
    { key: 'gas', title: 'Gas', type: 'text' },
    { key: 'alloy', title: 'Liner or shell alloy', type: 'text' },
    { key: 'star', title: 'Star mark', type: 'flag', note: 'Five-point star after the last test date.' },
    { key: 'lifeLabel_months', title: 'Life printed on the label', type: 'whole', unit: 'months' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    {
      id: 'requalification',
      title: 'Requalification',
      outside: true,
      readings: [
        { key: 'testPressure_psi', title: 'Test pressure', type: 'whole', unit: 'psi' },
        { key: 'totalExpansion_cc', title: 'Total expansion', type: 'decimal', unit: 'cc' },
        { key: 'permanentExpansion_cc', title: 'Permanent expansion', type: 'decimal', unit: 'cc' },
      ],
    },
    { id: 'crack examination', title: 'Crack examination', outside: true, readings: [] },
    { id: 'inspection', title: 'Inspection', readings: [] },
  ],
  repairs: [
    {
      kind: 'valve or gauge',
      title: 'Valve, gauge or O-ring',
      owes: ['inspection'],
      source: { ...cfr(''), confidence: 'common practice', note: 'Common practice, no source.' },
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: { ...cfr(''), confidence: 'common practice', note: 'Common practice, no source.' },
    },
  ],
  triggers: [
    {
      id: 'damage or accident',
      title: 'Damage, gouge, corrosion or accident',
      owes: 'requalification',
      source: cfr('180.205(d)'),
    },
    {
      id: 'overheated steel',
      title: 'Over-heated, steel or nickel: 650 F or more',
      owes: 'requalification',
      source: cfr('180.203, 180.205(d)'),
    },
    {
      // Nothing that can be recorded settles this: it is condemned, not tested.
      id: 'overheated aluminum',
      title: 'Over-heated, aluminum or aluminum-lined: 350 F or more; condemned, not tested',
      owes: CONDEMNATION,
      source: cfr(
        '180.203, 180.205(i)(1)(viii)',
        'The 2015 sentence can be read as covering special-permit cylinders only: ask the requalifier.',
      ),
    },
  ],
  meters: ['fills'],
  requirements: [
    {
      id: 'cylinder.requalification',
      family: 'cylinder',
      title: 'Requalification',
      activity: 'requalification',
      appliesTo: [],
      clock: { kind: 'cylinder period', specs: SPEC_PERIODS, constructions: CONSTRUCTION_PERIODS },
      dueAt: 'month end',
      warnDays: warnDaysFor({ months: 60 }),
      satisfiedBy: ['requalification'],
      countedOutcomes: ['pass'],
      sources: [
        cfr('180.205(c), 180.207, 180.209(a) Table 1'),
        {
          document: 'Special permits by construction',
          section: 'usual intervals',
          edition: '',
          confidence: 'read second-hand',
          note: 'Service firms and a 2012 Navy report; the permit or the label in hand decides.',
        },
      ],
      force: 'law',
      binds: 'Every DOT or special-permit cylinder that is filled, everywhere in the United States.',
      late: 'blocks',
      who: RIN_HOLDER,
      cautions: CAUTIONS,
    },
    {
      id: 'cylinder.crack-examination',
      family: 'cylinder',
      title: 'Crack check, 6351-T6',
      activity: 'crack examination',
      appliesTo: [{ attribute: 'alloy', in: ['6351-T6', '6351'] }],
      clock: {
        kind: 'since last',
        every: { months: 60 },
        first: { counts: 'made', plus: { months: 60 } },
      },
      dueAt: 'month end',
      warnDays: warnDaysFor({ months: 60 }),
      satisfiedBy: ['crack examination'],
      countedOutcomes: ['pass'],
      sources: [
        cfr(
          '180.205(f)(4), 180.209(m)',
          'Sustained-load cracking, with each five-year requalification since 2007; marked VE.',
        ),
      ],
      force: 'law',
      binds: '6351-T6 aluminum in SCBA, SCUBA or oxygen service.',
      late: 'blocks',
      who: RIN_HOLDER,
      cautions: [...CAUTIONS, '6351-T6 cylinders have ruptured while being filled.'],
    },
    {
      id: 'cylinder.end-of-life',
      family: 'cylinder',
      title: 'End of life',
      activity: 'retirement',
      appliesTo: [],
      clock: { kind: 'cylinder life', specs: SPEC_PERIODS, constructions: CONSTRUCTION_PERIODS },
      dueAt: 'month end',
      warnDays: WARN_LIFE_DAYS,
      satisfiedBy: [],
      countedOutcomes: [],
      sources: [
        cfr('180.205(c)', 'A cylinder past its authorized life is never refilled, whatever its test mark.'),
        {
          document: 'Special permits by construction',
          section: 'fifteen years from manufacture',
          edition: '',
          confidence: 'read second-hand',
          note: 'Whether life ends with the start or the end of its month is a setting: choose with the AHJ.',
        },
      ],
      force: 'law',
      binds: 'Composite cylinders under a special permit, everywhere in the United States.',
      late: 'blocks',
      who: 'Company officer pulls it; a RIN holder condemns and marks it.',
      cautions: CAUTIONS,
    },
  ],
};
