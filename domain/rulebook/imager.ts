/** Thermal imagers. Trade practice and makers' instructions. */
import {
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

export const imager: Family = {
  id: 'imager',
  title: 'Thermal imager',
  plural: 'Thermal imagers',
  attributes: [{ key: 'edition', title: 'NFPA 1801 edition', type: 'text' }, ...MADE_AND_IN_SERVICE],
  activities: [
    { id: 'operational check', title: 'Operational check', readings: [] },
    { id: 'service', title: 'Service', readings: [] },
  ],
  repairs: [
    repair('housing, window or gasket', 'Housing, window or gasket', ['service']),
    repair('battery or charger', 'Battery or charger', ['operational check']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used', 'operational check'),
    happening('dropped, heated or wet', 'Dropped, overheated or under water', 'service'),
  ],
  requirements: [
    duty({
      id: 'imager.operational-check',
      title: 'Operational check',
      activity: 'operational check',
      clock: every({ days: 7 }),
      satisfiedBy: ['operational check', 'service'],
      sources: [
        practice(
          'Every week: trade journals say daily or weekly. Image, ranges and temperature on a warm and a cold thing, window and housing, both batteries and the charger.',
        ),
      ],
      late: 'notes',
      who: 'The crew that rides with it.',
      cautions: [
        'An imager shows surfaces: it does not see through glass or water, and it never replaces a line.',
      ],
    }),
    duty({
      id: 'imager.service',
      title: 'Service',
      activity: 'service',
      clock: every({ months: 12 }),
      sources: [maker('A yearly inspection is common.')],
      late: 'notes',
      who: 'The maker or a technician trained by the maker; the housing stays sealed.',
    }),
  ],
};
