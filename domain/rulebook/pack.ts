/** SCBA packs (harness, regulator, alarm and PASS; the cylinder is a thing of its own). */
import { duty, every, happening, monthlyInWisconsin, osha } from './duty.ts';
import type { Family, Requirement, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa1852: Source = {
  document: 'NFPA 1852',
  section: 'inspection and performance test',
  edition: '2019; carried into NFPA 1850 (2025)',
  confidence: 'read second-hand',
  note: 'Seen in public summaries; enter the edition your department has adopted.',
};
const osha134 = (section: string, note?: string): Source => ({
  document: '29 CFR 1910.134',
  section,
  edition: '2015 annual edition',
  confidence: 'read',
  ...(note ? { note } : {}),
});
const MAINE: Source = {
  document: '26 M.R.S. 2105',
  section: '(1)',
  edition: 'Maine, as amended 2017',
  confidence: 'read',
  note: 'A complete inspection of all components, air supply, PASS and warning devices after each use, and every week in full-time departments, every month in volunteer and on-call ones; date and findings are kept for each unit.',
};

/** Maine's own interval for one kind of department, beside the federal month. */
const inMaine = (
  id: string,
  title: string,
  span: Parameters<typeof every>[0],
  kinds: NonNullable<Requirement['where']>['kinds'],
): Requirement =>
  duty({
    id,
    title,
    activity: 'inspection',
    clock: every(span),
    sources: [MAINE],
    force: 'law',
    bindings: [{ reach: { states: ['ME'] }, cite: '26 M.R.S. 2105(1)' }],
    binds: 'Law in Maine.',
    where: { states: ['ME'], ...(kinds ? { kinds } : {}) },
    besides: 'pack.inspection',
    late: 'blocks',
    who: 'Trained members; PASS and warning devices are part of it. Date and findings are recorded for each unit.',
  });

/** Two editions before 2018 are 2013 and 2007; what is older is out. */
const OLD_EDITIONS = ['1981', '1987', '1992', '1997', '2002'] as const;

const REPAIRERS = 'The maker, or a technician trained by the maker: 29 CFR 1910.134(h)(4)(iii).';

export const pack: Family = {
  id: 'pack',
  title: 'SCBA pack',
  plural: 'SCBA packs',
  attributes: [
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'edition', title: 'NFPA 1981 edition', type: 'text', note: 'The year alone: 2013, 2018.' },
    { key: 'servicePressure_psi', title: 'Service pressure', type: 'whole', unit: 'psi' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    {
      id: 'inspection',
      title: 'Inspection',
      readings: [{ key: 'cylinder_psi', title: 'Cylinder pressure', type: 'whole', unit: 'psi' }],
    },
    { id: 'operational check', title: 'Operational check', readings: [] },
    { id: 'recharge', title: 'Cylinder recharged or exchanged', readings: [] },
    { id: 'cleaning', title: 'Cleaning and disinfection', readings: [] },
    {
      id: 'flow test',
      title: 'Flow test',
      readings: [{ key: 'alarm_percent', title: 'Low-air alarm at', type: 'whole', unit: '%' }],
    },
  ],
  repairs: [
    {
      kind: 'regulator, alarm or valve',
      title: 'Regulator, reducer, alarm or valve',
      owes: ['flow test'],
      source: { ...nfpa1852, note: `Flow test after repair: common practice. ${REPAIRERS}` },
    },
    {
      kind: 'harness or strap',
      title: 'Harness, strap or backframe',
      owes: ['inspection'],
      source: { ...nfpa1852, confidence: 'common practice', note: 'Common practice, no source.' },
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: { ...nfpa1852, confidence: 'common practice', note: 'Common practice, no source.' },
    },
  ],
  triggers: [
    happening(
      'used',
      'Used on air',
      'inspection',
      osha134(
        '(h)(3)(i)',
        'Emergency-use units are checked before and after each use; in Maine inspected in full.',
      ),
    ),
    happening(
      'soiled',
      'Soiled, or to be worn by another member',
      'cleaning',
      osha134(
        '(h)(1)',
        'Emergency-use units are cleaned and disinfected after each use, shared ones before another wearer.',
      ),
    ),
    {
      id: 'suspected damage',
      title: 'Suspected damage or failed alarm',
      owes: 'flow test',
      source: { ...nfpa1852, confidence: 'common practice', note: 'Common practice, no source.' },
    },
  ],
  requirements: [
    {
      id: 'pack.inspection',
      family: 'pack',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 1 },
        first: { counts: 'in service', plus: { months: 1 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 1 }),
      satisfiedBy: ['inspection'],
      countedOutcomes: ['pass'],
      sources: [
        osha134(
          '(h)(3)(i)(B) and (iii)',
          'At least monthly, and before and after each use: regulator and warning devices with it. The record is kept until the next one replaces it: (h)(3)(iv).',
        ),
      ],
      force: 'law',
      bindings: osha('29 CFR 1910.134(h)(3)'),
      binds:
        'Private and contract brigades; public departments in State-Plan states. Elsewhere an adopted benchmark.',
      late: 'blocks',
      who: 'Trained members; date, inspector, findings and action are recorded.',
      cautions: ['Recharge when the cylinder has fallen to 90 % of its rated pressure.'],
    },
    {
      id: 'pack.operational-check',
      family: 'pack',
      title: 'Operational check',
      activity: 'operational check',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { days: 7 },
        first: { counts: 'in service', plus: { days: 7 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ days: 7 }),
      satisfiedBy: ['operational check', 'inspection'],
      countedOutcomes: ['pass'],
      sources: [{ ...nfpa1852, section: 'user check: start of duty, else at most a week' }],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1852 or 1850.',
      late: 'limits',
      who: 'The wearer.',
      cautions: [],
    },
    {
      id: 'pack.flow-test',
      family: 'pack',
      title: 'Flow test',
      activity: 'flow test',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 0 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['flow test'],
      countedOutcomes: ['pass'],
      sources: [{ ...nfpa1852, section: 'flow test: before service, then every year' }],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1852 or 1850.',
      late: 'blocks',
      who: REPAIRERS,
      cautions: ['Only on a calibrated breathing machine, by a trained technician.'],
    },
    // A combination department is held to the shorter of the two.
    inMaine('pack.inspection-maine-full-time', 'Weekly complete inspection', { days: 7 }, [
      'career',
      'combination',
    ]),
    inMaine('pack.inspection-maine-volunteer', 'Monthly complete inspection', { months: 1 }, ['volunteer']),
    monthlyInWisconsin('pack.inspection', 'inspection'),
    duty({
      id: 'pack.recharge',
      title: 'Recharge',
      activity: 'recharge',
      clock: {
        kind: 'reading limit',
        reading: 'cylinder_psi',
        owedWhen: 'at or under',
        value: '90',
        percentOf: 'servicePressure_psi',
      },
      satisfiedBy: ['recharge'],
      countedOutcomes: ['pass'],
      sources: [
        osha134(
          '(h)(3)(iii)',
          'Recharged when the pressure falls to 90 % of the manufacturer’s recommended pressure.',
        ),
      ],
      force: 'law',
      bindings: osha('29 CFR 1910.134(h)(3)(iii)'),
      late: 'blocks',
      who: 'The wearer exchanges the cylinder.',
      cautions: [
        'Only cylinders approved for this pack, of the same capacity and pressure. Never oxygen where there was air.',
        'A cylinder past its requalification date is pulled, not filled.',
      ],
    }),
    duty({
      id: 'pack.cleaning',
      title: 'Cleaning',
      activity: 'cleaning',
      clock: { kind: 'after happenings' },
      sources: [osha134('(h)(1)')],
      force: 'law',
      bindings: osha('29 CFR 1910.134(h)(1)'),
      late: 'limits',
      who: 'The wearer.',
    }),
    duty({
      id: 'pack.retirement',
      title: 'Retirement by edition',
      activity: 'retirement',
      appliesTo: [{ attribute: 'edition', matches: OLD_EDITIONS }],
      clock: { kind: 'life', counts: 'made', plus: { months: 0 } },
      sources: [
        {
          document: 'NFPA 1852',
          section: 'retirement',
          edition: '2019; carried into NFPA 1850 (2025)',
          confidence: 'memory',
          note: 'A pack older than two editions of NFPA 1981 before the current one is usually retired; an older summary names the 1997 edition as the floor. Counted from the 2018 edition: confirm it against the edition adopted.',
        },
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1852 or 1850.',
      late: 'blocks',
      who: 'The officer in charge of breathing apparatus.',
    }),
  ],
};
