/** Medical oxygen regulators and flowmeters. One state's rule; elsewhere practice. */
import {
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  practice,
  repair,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const NEW_JERSEY: Source = {
  document: 'N.J.A.C. 8:41-3.6',
  section: '(a)',
  edition: 'New Jersey, through November 2024',
  confidence: 'read',
  note: 'Advanced life support services: respiratory equipment is pneumatically tested at least once a year, and more often where the maker asks for it.',
};
const CAUTIONS = [
  'No oil or grease near oxygen; clean hands, open slowly, stand to the side.',
  'One new sealing washer at each change of cylinder, never two and never none.',
];

export const oxygenRegulator: Family = {
  id: 'oxygen-regulator',
  title: 'Oxygen regulator',
  plural: 'Oxygen regulators',
  attributes: [kind('regulator', 'flowmeter', 'resuscitator valve'), ...MADE_AND_IN_SERVICE],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    {
      id: 'flow test',
      title: 'Flow test',
      readings: [{ key: 'flow_lpm', title: 'Flow at 15 L/min', type: 'decimal', unit: 'L/min' }],
    },
  ],
  repairs: [
    repair('regulator', 'Regulator repaired by the maker or its technician', ['flow test']),
    repair('washer or knob', 'Washer, knob or gauge lens', ['inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('dropped', 'Dropped or leaking', 'flow test'),
    happening('oil or grease', 'Oil, grease or smoke inside', 'flow test'),
  ],
  requirements: [
    duty({
      id: 'oxygen-regulator.flow-test',
      title: 'Flow test',
      activity: 'flow test',
      clock: every({ months: 12 }),
      sources: [NEW_JERSEY, maker('A yearly flow and leak test is common.')],
      binds:
        'Law in New Jersey for advanced life support services; elsewhere where the department has adopted it.',
      late: 'limits',
      who: 'A technician trained on it, clean for oxygen.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'oxygen-regulator.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 1 }),
      satisfiedBy: ['inspection', 'flow test'],
      sources: [practice()],
      late: 'notes',
      who: 'The crew.',
      cautions: CAUTIONS,
    }),
  ],
};
