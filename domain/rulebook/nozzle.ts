/** Nozzles: NFPA 1962 (its duties now printed in NFPA 1930). Monitors and other master-stream bodies are appliances. */
import { BRIGADE_BINDINGS, BRIGADE_BINDS, BRIGADE_RULE } from './brigade.ts';
import type { Family, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa1962 = (
  section: string,
  edition: string,
  confidence: Source['confidence'],
  note: string,
): Source => ({
  document: 'NFPA 1962',
  section,
  edition: `${edition}; carried into NFPA 1930 (2025)`,
  confidence,
  note,
});

const AFTER_USE = nfpa1962('4-1.2', '1998', 'read', 'After each use and at least annually.');
const PRACTICE = nfpa1962('', '2013', 'common practice', 'Common practice, no source.');
const TESTERS = 'Trained personnel under a competent supervisor, or a test contractor the AHJ accepts.';

export const nozzle: Family = {
  id: 'nozzle',
  title: 'Nozzle',
  plural: 'Nozzles',
  attributes: [
    {
      key: 'kind',
      title: 'Kind',
      type: 'choice',
      choices: [
        { value: 'combination', title: 'Combination' },
        { value: 'smooth bore', title: 'Smooth bore' },
        { value: 'shutoff', title: 'Shutoff' },
        { value: 'piercing', title: 'Piercing' },
        { value: 'cellar', title: 'Cellar' },
        { value: 'foam', title: 'Foam' },
        { value: 'master stream', title: 'Master stream' },
        { value: 'other', title: 'Other' },
      ],
    },
    {
      key: 'use',
      title: 'Use',
      type: 'choice',
      choices: [
        { value: 'handline', title: 'Handline' },
        { value: 'master stream', title: 'Master stream' },
        { value: 'forestry', title: 'Forestry' },
        { value: 'booster', title: 'Booster' },
        { value: 'occupant', title: 'Occupant use' },
      ],
    },
    { key: 'coupling_in', title: 'Coupling', type: 'decimal', unit: 'in' },
    { key: 'tip_in', title: 'Tip', type: 'decimal', unit: 'in' },
    { key: 'flow_gpm', title: 'Rated flow', type: 'whole', unit: 'gpm' },
    { key: 'rated_psi', title: 'Rated nozzle pressure', type: 'whole', unit: 'psi' },
    { key: 'maxOperating_psi', title: 'Maximum operating pressure', type: 'whole', unit: 'psi' },
    {
      key: 'preconnect',
      title: 'Preconnected line',
      type: 'flag',
      note: 'A preconnected line is flow-tested complete with its nozzle.',
    },
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
        { key: 'flow_gpm', title: 'Flow', type: 'whole', unit: 'gpm' },
      ],
    },
    {
      id: 'line flow test',
      title: 'Flow test of the whole line',
      readings: [
        { key: 'flow_gpm', title: 'Flow', type: 'whole', unit: 'gpm' },
        { key: 'pumpPressure_psi', title: 'Pump pressure', type: 'whole', unit: 'psi' },
      ],
    },
  ],
  repairs: [
    {
      kind: 'ball, seat or shutoff',
      title: 'Ball, seat, stem or shutoff',
      owes: ['service test'],
      source: { ...PRACTICE, note: 'A repair that holds pressure is tested: common practice.' },
    },
    {
      kind: 'gasket, bumper or handle',
      title: 'Gasket, bumper, handle or pistol grip',
      owes: ['inspection'],
      source: PRACTICE,
    },
    { kind: 'tip or baffle', title: 'Tip or baffle changed', owes: ['service test'], source: PRACTICE },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: { ...PRACTICE, note: 'Common practice, no source; the reason is kept.' },
    },
  ],
  triggers: [
    { id: 'used', title: 'Used', owes: 'inspection', source: AFTER_USE },
    {
      id: 'dropped or damaged',
      title: 'Dropped, driven over or damaged',
      owes: 'service test',
      source: PRACTICE,
    },
    { id: 'frozen', title: 'Frozen with water in it', owes: 'service test', source: PRACTICE },
    {
      id: 'debris or foam',
      title: 'Debris passed, or foam flowed and not flushed',
      owes: 'inspection',
      source: PRACTICE,
    },
  ],
  requirements: [
    {
      id: 'nozzle.service-test',
      family: 'nozzle',
      title: 'Service test',
      activity: 'service test',
      appliesTo: [{ attribute: 'use', notIn: ['occupant'] }],
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
          'nozzles',
          '2013',
          'read second-hand',
          'Trade column: as often as the hose the nozzle serves, flow and hydrostatic, at 300 to 450 psi. Hose is tested yearly. 300 psi, or 1.5 times the maximum operating pressure if that is higher, is from memory.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'limits',
      who: TESTERS,
      cautions: [
        'Cap and bleed all air before raising pressure; nobody stands in line with the outlet.',
        'Anchor the nozzle for the flow test: the reaction is that of the full flow.',
        'Take the test pressure from the maker where it is lower.',
      ],
    },
    {
      id: 'nozzle.inspection',
      family: 'nozzle',
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
      // The service test begins with the inspection, so one that was run counts whatever came of it.
      satisfiedBy: ['inspection', 'service test'],
      countedOutcomes: ['pass', 'fail'],
      coveredBy: ['nozzle.service-test'],
      sources: [BRIGADE_RULE, AFTER_USE],
      force: 'law',
      bindings: BRIGADE_BINDINGS,
      binds: BRIGADE_BINDS,
      late: 'notes',
      who: 'Trained members: waterway clear, tip undamaged, pattern and shutoff work fully, no part missing, gasket good.',
      cautions: [],
    },
    {
      id: 'nozzle.line-flow-test',
      family: 'nozzle',
      title: 'Flow test of the preconnected line',
      activity: 'line flow test',
      appliesTo: [{ attribute: 'preconnect', is: true }],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['line flow test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1962(
          'system test',
          '2013',
          'read second-hand',
          'Interview with a member of the committee: each preconnect and interior attack line, complete with its nozzle, at least annually.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1962.',
      late: 'notes',
      who: 'Trained members with a calibrated flowmeter or pitot gauge.',
      cautions: ['Full flow gives full nozzle reaction: a full crew on the line, or the nozzle anchored.'],
    },
  ],
};
