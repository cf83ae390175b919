/** Breathing-air compressors and fill stations: the air (NFPA 1989, OSHA Grade D), the filters, the alarm, the shield. */

import { AIR_CAUTIONS, AIR_LIMITS, AIR_READINGS, nfpa1989, osha134 } from './compressor-air.ts';
import {
  BEFORE_USE,
  duty,
  every,
  happening,
  MADE_AND_IN_SERVICE,
  maker,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  practice,
  repair,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const AFTER_REPAIR: Source = {
  document: 'Breathing-air booklet of a state university',
  section: '',
  edition: 'Washington State',
  confidence: 'read second-hand',
  note: 'Also sampled after alteration, maintenance, repair or relocation of the compressor or its system.',
};
const PRINTED_CYCLE: Source = {
  document: 'Maintenance cycle of one department',
  section: 'fill station: quarterly, and in full yearly',
  edition: '',
  confidence: 'read second-hand',
  note: 'One department’s printed cycle; the maker’s instructions decide.',
};
const NEW_JERSEY_ALERT: Source = {
  document: 'New Jersey public-employee safety alert',
  section: 'SCBA filling',
  edition: '1996',
  confidence: 'read second-hand',
  note: 'Two cylinders ruptured while being filled without a shield or a regulator: trained fillers, a protected charging station, a regulator, Grade D air.',
};
export const FILLING_CAUTIONS: readonly string[] = [
  'Trained fillers only, at a shielded or containment fill station, through a regulator.',
  'Check the requalification date and the life of each cylinder before it is filled.',
  'Bleed all pressure before a fitting is opened.',
];
/** A fill station or a bank makes no air of its own. */
const MAKES_AIR = { attribute: 'kind', notIn: ['fill station', 'storage bank'] } as const;
const FILLS = { attribute: 'kind', notIn: ['storage bank'] } as const;

export const compressor: Family = {
  id: 'compressor',
  title: 'Air compressor',
  plural: 'Air compressors and fill stations',
  attributes: [
    {
      key: 'kind',
      title: 'Kind',
      type: 'choice',
      choices: [
        { value: 'compressor', title: 'Compressor' },
        { value: 'compressor and fill station', title: 'Compressor with fill station' },
        { value: 'fill station', title: 'Fill station' },
        { value: 'storage bank', title: 'Storage bank' },
        { value: 'mobile', title: 'Mobile air unit' },
      ],
    },
    {
      key: 'lubrication',
      title: 'Lubrication',
      type: 'choice',
      choices: [
        { value: 'oil', title: 'Oil-lubricated' },
        { value: 'oil-free', title: 'Not oil-lubricated' },
      ],
    },
    { key: 'pressure_psi', title: 'Working pressure', type: 'whole', unit: 'psi' },
    {
      key: 'filterDue',
      title: 'Filter due',
      type: 'when',
      note: 'As the tag at the compressor says; the tag bears the date of the change and a signature.',
    },
    ...MADE_AND_IN_SERVICE,
  ],
  meters: ['hours'],
  activities: [
    { id: 'air sample', title: 'Air sample', readings: AIR_READINGS },
    {
      id: 'filter change',
      title: 'Filter change',
      readings: [
        {
          key: 'tagged',
          title: 'Tag dated and signed',
          type: 'flag',
          note: 'The tag stays at the compressor.',
        },
      ],
    },
    { id: 'alarm test', title: 'Alarm test', readings: [] },
    { id: 'inspection', title: 'Inspection', readings: [] },
    { id: 'service', title: 'Service', readings: [] },
  ],
  repairs: [
    repair('compressor', 'Compressor, cooler or separator', ['air sample'], AFTER_REPAIR),
    repair('piping or storage', 'Piping, valve or storage altered or repaired', ['air sample'], AFTER_REPAIR),
    repair('alarm', 'Carbon monoxide or heat alarm', ['alarm test']),
    repair('fill enclosure', 'Fill enclosure, whip or gauge', ['inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('relocated', 'Relocated', 'air sample', AFTER_REPAIR),
    happening('altered', 'Altered or repaired', 'air sample', AFTER_REPAIR),
    happening('bad air', 'Odor, taste or a member sick from the air', 'air sample', practice()),
    happening('alarm sounded', 'Carbon monoxide or heat alarm sounded', 'air sample', practice()),
    happening('struck', 'Enclosure struck, or a cylinder failed in it', 'inspection', practice()),
  ],
  requirements: [
    duty({
      id: 'compressor.air-sample',
      title: 'Air sample',
      activity: 'air sample',
      clock: every({ months: 3 }, BEFORE_USE),
      sources: [nfpa1989('Sampled at least every three months by an accredited laboratory.'), AFTER_REPAIR],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1989. The quality itself is 29 CFR 1910.134(i).',
      late: 'blocks',
      who: 'An accredited laboratory, from a sample taken by its instructions.',
      cautions: AIR_CAUTIONS,
    }),
    ...AIR_LIMITS,
    duty({
      id: 'compressor.filter',
      title: 'Filter change',
      activity: 'filter change',
      appliesTo: [MAKES_AIR],
      clock: {
        kind: 'first of',
        clocks: [
          { kind: 'printed date', attribute: 'filterDue' },
          { kind: 'meter', meter: 'hours', every: 50 },
        ],
      },
      sources: [
        practice(
          'No figure was seen: 50 hours is a cautious figure of practice, to be replaced by the one printed on the cartridge, corrected for heat.',
        ),
        osha134(
          '(i)(5)(iii) and (iv)',
          'Sorbent beds and filters are maintained and replaced by the maker’s instructions; a tag with the last change date and an authorized signature stays at the compressor.',
        ),
      ],
      late: 'blocks',
      who: 'A person the department has authorized, who dates and signs the tag.',
      cautions: ['Bleed all pressure before the housing is opened.'],
    }),
    duty({
      id: 'compressor.alarm-test',
      title: 'Alarm test',
      activity: 'alarm test',
      appliesTo: [MAKES_AIR, { attribute: 'lubrication', notIn: ['oil-free'] }],
      clock: every({ months: 3 }),
      satisfiedBy: ['alarm test', 'service'],
      sources: [
        maker('The carbon monoxide or heat alarm is tested with the quarterly sample: common practice.'),
        osha134(
          '(i)(7)',
          'An oil-lubricated compressor has a carbon monoxide or a high-temperature alarm, or both; with the heat alarm alone the air is watched so that it stays at 10 ppm or under.',
        ),
      ],
      late: 'blocks',
      who: 'Trained members, with test gas in its date.',
    }),
    duty({
      id: 'compressor.inspection',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [FILLS],
      clock: every({ months: 3 }),
      satisfiedBy: ['inspection', 'service'],
      sources: [PRINTED_CYCLE, NEW_JERSEY_ALERT],
      late: 'limits',
      who: 'Trained members: enclosure and its interlock, whips, valves, gauges, regulator, relief.',
      cautions: FILLING_CAUTIONS,
    }),
    monthlyInWisconsin('compressor.inspection', 'inspection', ['service']),
    duty({
      id: 'compressor.service',
      title: 'Yearly service',
      activity: 'service',
      clock: every({ months: 12 }),
      sources: [PRINTED_CYCLE],
      late: 'limits',
      who: 'The maker, or a technician trained by the maker.',
      cautions: FILLING_CAUTIONS,
    }),
  ],
};
