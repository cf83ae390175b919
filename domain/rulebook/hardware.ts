/** Rope hardware: carabiners, pulleys, descent devices and what else a rope runs through. */
import {
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  practice,
  RETIRE_BY,
  repair,
  retireBy,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const nfpa1858: Source = {
  document: 'NFPA 1858',
  section: 'auxiliary equipment',
  edition: '2018; carried into NFPA 2500 (2022)',
  confidence: 'memory',
  note: 'After each use; the period between is left to the department.',
};

export const hardware: Family = {
  id: 'hardware',
  title: 'Rope hardware',
  plural: 'Rope hardware',
  attributes: [
    kind(
      'carabiner',
      'pulley',
      'descent device',
      'ascender or rope grab',
      'anchor plate',
      'swivel',
      'litter',
    ),
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [{ id: 'inspection', title: 'Inspection', readings: [] }],
  repairs: [repair('maker repair', 'Repaired by the maker', ['inspection']), NO_FAULT_FOUND],
  triggers: [
    happening('used', 'Used', 'inspection', nfpa1858),
    happening('dropped or shock loaded', 'Dropped or shock loaded', 'inspection'),
  ],
  requirements: [
    duty({
      id: 'hardware.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 12 }),
      sources: [
        practice('Once a year beside the look after each use: common practice, no source.'),
        nfpa1858,
      ],
      late: 'limits',
      who: 'A member trained to inspect life safety equipment.',
      cautions: [
        'Gates close and lock by themselves; sheaves turn; no crack, groove, sharp edge or bend.',
        'When in doubt, retire it: a crack may not show.',
      ],
    }),
    retireBy('hardware', 'blocks'),
    monthlyInWisconsin('hardware.inspection', 'inspection'),
  ],
};
