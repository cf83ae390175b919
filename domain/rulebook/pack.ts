/** SCBA packs (harness, regulator, alarm and PASS; the cylinder is a thing of its own). */
import type { Family, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa1852: Source = {
  document: 'NFPA 1852',
  section: 'inspection and performance test',
  edition: '2019; carried into NFPA 1850 (2025)',
  confidence: 'read second-hand',
  note: 'Seen in public summaries; enter the edition your department has adopted.',
};
const osha134 = (section: string): Source => ({
  document: '29 CFR 1910.134',
  section,
  edition: '2015 annual edition',
  confidence: 'read',
});

const REPAIRERS = 'The maker, or a technician trained by the maker: 29 CFR 1910.134(h)(4)(iii).';

export const pack: Family = {
  id: 'pack',
  title: 'SCBA pack',
  plural: 'SCBA packs',
  attributes: [
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'edition', title: 'NFPA 1981 edition', type: 'text' },
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
      sources: [osha134('(h)(3)(i)(B) and (iii)')],
      force: 'law',
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
      sources: [
        { ...nfpa1852, section: 'user check: start of duty, else at most a week' },
        {
          document: '26 M.R.S. 2105',
          section: '',
          edition: 'Maine',
          confidence: 'read',
          note: 'Weekly for full-time departments, monthly for volunteer, and after each use; includes PASS.',
        },
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1852 or 1850; law in Maine.',
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
  ],
};
