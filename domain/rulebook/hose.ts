/** Fire hose: NFPA 1962 (its duties now printed in NFPA 1930). */
import type { Family, Source } from './types.ts';
import { WARN_LIFE_DAYS, warnDaysFor } from './warnings.ts';

const nfpa1962 = (section: string, confidence: Source['confidence'], note?: string): Source => ({
  document: 'NFPA 1962',
  section,
  edition: '2018; carried into NFPA 1930 (2025)',
  confidence,
  ...(note ? { note } : {}),
});

const TEST_CAUTIONS = [
  'Bleed all air before raising pressure; compressed air in a burst hose is what injures.',
  'Use a test machine or a restricted test valve, never an open pumper discharge.',
  'Strap the source end. Nobody in line with the free end, astride the hose or nearer than 15 ft.',
  'Never use the proof pressure of the mark as a test pressure.',
];

export const hose: Family = {
  id: 'hose',
  title: 'Hose',
  plural: 'Hose',
  attributes: [
    { key: 'diameter_in', title: 'Inside diameter', type: 'decimal', unit: 'in' },
    { key: 'length_ft', title: 'Length', type: 'decimal', unit: 'ft' },
    {
      key: 'use',
      title: 'Use',
      type: 'choice',
      choices: [
        { value: 'attack', title: 'Attack' },
        { value: 'supply', title: 'Supply' },
        { value: 'forestry', title: 'Forestry' },
        { value: 'booster', title: 'Booster' },
        { value: 'suction', title: 'Suction' },
        { value: 'occupant', title: 'Occupant use' },
      ],
    },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'construction', title: 'Construction', type: 'text' },
    { key: 'coupling', title: 'Coupling', type: 'text' },
    { key: 'markedTest_psi', title: 'Marked service-test pressure', type: 'whole', unit: 'psi' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    {
      id: 'service test',
      title: 'Service test',
      readings: [
        { key: 'testPressure_psi', title: 'Test pressure', type: 'whole', unit: 'psi' },
        { key: 'held_s', title: 'Held', type: 'whole', unit: 's' },
      ],
    },
    { id: 'inspection', title: 'Inspection', readings: [] },
  ],
  repairs: [
    {
      kind: 'recoupled',
      title: 'Couplings attached or re-attached',
      owes: ['service test'],
      source: nfpa1962('7.1.11', 'read'),
    },
    {
      kind: 'jacket or liner repair',
      title: 'Jacket or liner repaired, or shortened',
      owes: ['service test'],
      source: nfpa1962('7.1.11', 'read'),
    },
    {
      kind: 'gasket',
      title: 'Gasket replaced',
      owes: ['inspection'],
      source: nfpa1962('', 'common practice', 'Common practice, no source.'),
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: nfpa1962('', 'common practice', 'Common practice, no source; the reason is kept.'),
    },
  ],
  triggers: [
    {
      id: 'suspected damage',
      title: 'Suspected damage',
      owes: 'service test',
      source: {
        document: 'WAC 296-305-06003',
        section: '(1)',
        edition: 'Washington State',
        confidence: 'read',
      },
    },
    {
      id: 'recoupled',
      title: 'Couplings re-attached',
      owes: 'service test',
      source: nfpa1962('7.1.11', 'read'),
    },
  ],
  requirements: [
    {
      id: 'hose.service-test',
      family: 'hose',
      title: 'Service test',
      activity: 'service test',
      appliesTo: [{ attribute: 'use', notIn: ['occupant'] }],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'later of made and in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['service test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1962('4.8; first test 4.1.3', 'read'),
        {
          document: 'WAC 296-305-06003',
          section: '(1)',
          edition: 'Washington State',
          confidence: 'read',
          note: 'Annual test is law in Washington.',
        },
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962; law in Washington State.',
      late: 'blocks',
      who: 'Trained personnel under a competent supervisor, or a test contractor the AHJ accepts.',
      cautions: TEST_CAUTIONS,
    },
    {
      id: 'hose.occupant-service-test',
      family: 'hose',
      title: 'Service test',
      activity: 'service test',
      appliesTo: [{ attribute: 'use', in: ['occupant'] }],
      clock: {
        kind: 'since last',
        every: { months: 36 },
        first: { counts: 'made', plus: { months: 60 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 36 }),
      satisfiedBy: ['service test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1962(
          'occupant-use hose',
          'read second-hand',
          'Sources differ on whether the first five years count from manufacture or from installation; the earlier, manufacture, is taken.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'limits',
      who: 'Trained personnel under a competent supervisor, or a test contractor the AHJ accepts.',
      cautions: TEST_CAUTIONS,
    },
    {
      id: 'hose.inspection',
      family: 'hose',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'later of made and in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      // A service test begins with the physical inspection, so a test that was run, passed or failed, counts.
      satisfiedBy: ['inspection', 'service test'],
      countedOutcomes: ['pass', 'fail'],
      coveredBy: ['hose.service-test', 'hose.occupant-service-test'],
      sources: [
        {
          document: '29 CFR 1910.156',
          section: '(d)',
          edition: 'as printed in Michigan R 408.17312(1)',
          confidence: 'read second-hand',
          note: 'Fire fighting equipment is maintained and inspected at least annually.',
        },
        nfpa1962('4.5', 'read', 'What to look for: jacket, couplings, liner at each end.'),
      ],
      force: 'law',
      binds:
        'Private and contract brigades; public departments in State-Plan states. Elsewhere an adopted benchmark.',
      late: 'notes',
      who: 'Trained members.',
      cautions: [],
    },
    {
      id: 'hose.end-of-life',
      family: 'hose',
      title: 'End of life',
      activity: 'retirement',
      appliesTo: [],
      clock: { kind: 'made before', day: '1987-07-01' },
      dueAt: 'day',
      warnDays: WARN_LIFE_DAYS,
      satisfiedBy: [],
      countedOutcomes: [],
      sources: [nfpa1962('4.8.1', 'read', 'Hose made before July 1987 is removed; no test restores it.')],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'blocks',
      who: 'Company officer takes it out of service.',
      cautions: [],
    },
  ],
};
