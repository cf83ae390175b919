/** Suction units. Trade practice and makers' instructions. */
import {
  choices,
  duty,
  every,
  happening,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  practice,
  repair,
} from './duty.ts';
import type { Family } from './types.ts';

export const suctionUnit: Family = {
  id: 'suction-unit',
  title: 'Suction unit',
  plural: 'Suction units',
  attributes: [
    { key: 'kind', title: 'Kind', type: 'choice', choices: choices('battery', 'manual', 'mounted') },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'readiness check', title: 'Readiness check', readings: [] },
    {
      id: 'vacuum test',
      title: 'Vacuum test',
      readings: [{ key: 'vacuum_mmHg', title: 'Vacuum reached', type: 'whole', unit: 'mmHg' }],
    },
  ],
  repairs: [
    repair('canister, tubing or battery', 'Canister, tubing or battery', ['readiness check']),
    repair('pump or gauge', 'Pump or gauge', ['vacuum test']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used on a patient', 'readiness check'),
    happening('dropped or flooded', 'Dropped, or fluid drawn into the pump', 'vacuum test'),
  ],
  requirements: [
    duty({
      id: 'suction-unit.readiness-check',
      title: 'Readiness check',
      activity: 'readiness check',
      clock: every({ days: 7 }),
      satisfiedBy: ['readiness check', 'vacuum test'],
      sources: [
        practice('At every vehicle check, and so every week at the latest: common practice, no source.'),
      ],
      late: 'notes',
      who: 'The crew: it pulls against a kinked tube, battery charged, canister and tips there.',
      cautions: ['Treat it as contaminated: gloves and eye protection.'],
    }),
    duty({
      id: 'suction-unit.vacuum-test',
      title: 'Vacuum test',
      activity: 'vacuum test',
      clock: every({ months: 12 }),
      sources: [maker('A yearly check of vacuum and flow is common.')],
      late: 'limits',
      who: 'A biomedical technician, or a trained member by the maker’s instructions.',
    }),
  ],
};
