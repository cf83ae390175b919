/** Hose appliances: NFPA 1962 (its duties now printed in NFPA 1930). Nozzles have a file of their own. */
import { BRIGADE_BINDINGS, BRIGADE_BINDS, BRIGADE_RULE } from './brigade.ts';
import type { Family, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa1962 = (confidence: Source['confidence'], note: string): Source => ({
  document: 'NFPA 1962',
  section: 'fire hose appliances',
  edition: '2013; carried into NFPA 1930 (2025)',
  confidence,
  note,
});

const PRACTICE = nfpa1962('common practice', 'Common practice, no source.');
const TESTERS = 'Trained personnel under a competent supervisor, or a test contractor the AHJ accepts.';
const PRESSURE_CAUTIONS = [
  'Cap the outlets with rated caps, bleed all air and shield the piece before raising pressure.',
  'Never above the maker’s test pressure; nobody in line with a cap.',
];

export const appliance: Family = {
  id: 'appliance',
  title: 'Hose appliance',
  plural: 'Hose appliances',
  attributes: [
    {
      key: 'kind',
      title: 'Kind',
      type: 'choice',
      choices: [
        { value: 'wye', title: 'Wye' },
        { value: 'gated wye', title: 'Gated wye' },
        { value: 'siamese', title: 'Siamese' },
        { value: 'manifold', title: 'Manifold' },
        { value: 'monitor', title: 'Monitor' },
        { value: 'ball valve', title: 'Ball or gate valve' },
        { value: 'intake valve', title: 'Intake valve' },
        { value: 'hydrant valve', title: 'Hydrant valve' },
        { value: 'eductor', title: 'Foam eductor' },
        { value: 'adapter', title: 'Adapter or reducer' },
        { value: 'strainer', title: 'Strainer' },
        { value: 'hose clamp', title: 'Hose clamp' },
        { value: 'other', title: 'Other' },
      ],
    },
    { key: 'size_in', title: 'Size', type: 'decimal', unit: 'in' },
    { key: 'maxOperating_psi', title: 'Maximum operating pressure', type: 'whole', unit: 'psi' },
    {
      key: 'relief',
      title: 'Pressure relief valve',
      type: 'choice',
      choices: [
        { value: 'fitted', title: 'Fitted' },
        { value: 'none', title: 'None' },
      ],
    },
    { key: 'reliefSet_psi', title: 'Relief valve set at', type: 'whole', unit: 'psi' },
    { key: 'eductor_gpm', title: 'Eductor flow', type: 'whole', unit: 'gpm' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    {
      id: 'service test',
      title: 'Service test',
      readings: [
        { key: 'testPressure_psi', title: 'Hydrostatic pressure', type: 'whole', unit: 'psi' },
        { key: 'held_s', title: 'Held', type: 'whole', unit: 's' },
      ],
    },
    {
      id: 'relief valve test',
      title: 'Relief valve test',
      readings: [{ key: 'opened_psi', title: 'Opened at', type: 'whole', unit: 'psi' }],
    },
    {
      id: 'eductor test',
      title: 'Eductor test',
      readings: [{ key: 'proportion_percent', title: 'Proportion', type: 'decimal', unit: '%' }],
    },
  ],
  repairs: [
    {
      kind: 'body, valve or seal',
      title: 'Body, valve, swivel or seal',
      owes: ['service test'],
      source: { ...PRACTICE, note: 'A repair that holds pressure is tested: common practice.' },
    },
    { kind: 'relief valve', title: 'Relief valve', owes: ['relief valve test'], source: PRACTICE },
    {
      kind: 'eductor metering',
      title: 'Eductor metering or check valve',
      owes: ['eductor test'],
      source: PRACTICE,
    },
    { kind: 'gasket or handle', title: 'Gasket, cap or handle', owes: ['inspection'], source: PRACTICE },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: { ...PRACTICE, note: 'Common practice, no source; the reason is kept.' },
    },
  ],
  triggers: [
    { id: 'used', title: 'Used', owes: 'inspection', source: PRACTICE },
    {
      id: 'dropped or damaged',
      title: 'Dropped, driven over or damaged',
      owes: 'service test',
      source: PRACTICE,
    },
    { id: 'frozen', title: 'Frozen with water in it', owes: 'service test', source: PRACTICE },
    {
      id: 'pressure surge',
      title: 'Pressure surge above its rating',
      owes: 'service test',
      source: PRACTICE,
    },
    {
      id: 'foam not flushed',
      title: 'Eductor: foam flowed and not flushed',
      owes: 'eductor test',
      source: PRACTICE,
    },
  ],
  requirements: [
    {
      id: 'appliance.service-test',
      family: 'appliance',
      title: 'Service test',
      activity: 'service test',
      // What holds back pressure; an appliance whose kind is not known is taken to.
      appliesTo: [{ attribute: 'kind', notIn: ['adapter', 'strainer', 'hose clamp'] }],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['service test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1962(
          'read second-hand',
          'Trade column: wyes, manifolds, monitors, ball and intake valves are hydrostatically tested annually; intake valves off the apparatus. 300 psi, or 1.5 times the maximum operating pressure if that is higher, is from memory.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'limits',
      who: TESTERS,
      cautions: PRESSURE_CAUTIONS,
    },
    {
      id: 'appliance.relief-valve-test',
      family: 'appliance',
      title: 'Relief valve test',
      activity: 'relief valve test',
      appliesTo: [
        { attribute: 'kind', in: ['intake valve', 'manifold'] },
        { attribute: 'relief', notIn: ['none'] },
      ],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['relief valve test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1962(
          'read second-hand',
          'Trade column: the relief valve of an intake valve is removed and tested on its own.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'limits',
      who: TESTERS,
      cautions: ['Its discharge is aimed away from everybody, at the ground.', ...PRESSURE_CAUTIONS],
    },
    {
      id: 'appliance.eductor-test',
      family: 'appliance',
      title: 'Eductor test',
      activity: 'eductor test',
      appliesTo: [{ attribute: 'kind', in: ['eductor'] }],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['eductor test'],
      countedOutcomes: ['pass'],
      sources: [
        {
          document: 'NFPA 1901',
          section: 'foam proportioning',
          edition: '2016; carried into NFPA 1900 (2024)',
          confidence: 'memory',
          note: 'Accuracy yearly, as for a proportioner on a rig; a new one runs from the set rate to 30 % over it.',
        },
      ],
      force: 'standard',
      binds: 'Where the department has adopted it.',
      late: 'notes',
      who: 'Trained members, with a refractometer or conductivity meter, or with a training or surrogate liquid.',
      cautions: ['Collect what is flowed; local rules may forbid foam in drains and on soil.'],
    },
    {
      id: 'appliance.inspection',
      family: 'appliance',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['inspection', 'service test'],
      countedOutcomes: ['pass', 'fail'],
      coveredBy: ['appliance.service-test'],
      sources: [BRIGADE_RULE],
      force: 'law',
      bindings: BRIGADE_BINDINGS,
      binds: BRIGADE_BINDS,
      late: 'notes',
      who: 'Trained members: valves and swivels turn, gaskets good, threads undamaged, waterway clear, locks of couplings without threads hold.',
      cautions: [],
    },
  ],
};
