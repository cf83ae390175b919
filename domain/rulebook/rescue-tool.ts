/** Powered rescue tools: spreaders, cutters, rams and what drives them. NFPA 1937 (its duties now in NFPA 1930). */
import {
  choices,
  duty,
  every,
  happening,
  kind,
  lifeFromMade,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  practice,
  repair,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const nfpa1937: Source = {
  document: 'NFPA 1937',
  section: 'program of care',
  edition: '2020; carried into NFPA 1930 (2025)',
  confidence: 'read second-hand',
  note: 'A written program of care, inspection, testing, records and training; the intervals are the maker’s.',
};
const CAUTIONS = [
  'Stored energy: wear eye, face and hand protection; keep hands off what moves and out of line with it.',
  'A pinhole leak injects oil through gloves and skin. Never search for a leak by hand; treat any injection as an emergency.',
  'Relieve the pressure before a hose is coupled or uncoupled.',
];

export const rescueTool: Family = {
  id: 'rescue-tool',
  title: 'Rescue tool',
  plural: 'Rescue tools',
  attributes: [
    kind(
      'spreader',
      'cutter',
      'combination tool',
      'ram',
      'door opener',
      'power unit',
      'hand pump',
      'hydraulic hose',
    ),
    { key: 'drive', title: 'Drive', type: 'choice', choices: choices('hose', 'battery', 'hand', 'engine') },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'operational check', title: 'Operational check', readings: [] },
    {
      id: 'service',
      title: 'Service',
      readings: [{ key: 'pressure_psi', title: 'Pressure reached', type: 'whole', unit: 'psi' }],
    },
  ],
  repairs: [
    repair('hydraulic', 'Seal, valve, hose or coupling', ['service']),
    repair('blade, tip or handle', 'Blade, tip or handle', ['operational check']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used', 'operational check', nfpa1937),
    happening('dropped or overloaded', 'Dropped, overloaded or blade damaged', 'service'),
    happening('leak', 'Leaks', 'service'),
  ],
  requirements: [
    duty({
      id: 'rescue-tool.operational-check',
      title: 'Operational check',
      activity: 'operational check',
      clock: every({ days: 7 }),
      satisfiedBy: ['operational check', 'service'],
      sources: [practice('Started and run through its full stroke every week: common practice, no source.')],
      late: 'notes',
      who: 'The crew that rides with it.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'rescue-tool.service',
      title: 'Service',
      activity: 'service',
      clock: every({ months: 12 }),
      sources: [
        nfpa1937,
        maker('Pressures, valves, seals, opening and closing times are checked every year.'),
      ],
      late: 'limits',
      who: 'A technician trained by the maker.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'rescue-tool.hose-end-of-life',
      title: 'End of life of the hydraulic hose',
      activity: 'retirement',
      appliesTo: [{ attribute: 'kind', in: ['hydraulic hose'] }],
      clock: lifeFromMade(10),
      sources: [
        {
          document: 'Maker’s instructions',
          section: 'hydraulic hose',
          edition: '',
          confidence: 'memory',
          note: 'Makers commonly name ten years; take the figure from the maker’s own instructions.',
        },
      ],
      force: 'manufacturer',
      late: 'blocks',
      who: 'The officer in charge has it replaced.',
    }),
  ],
};
