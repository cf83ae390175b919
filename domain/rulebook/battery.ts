/** Battery packs of tools, radios, imagers and monitors, and their chargers. Trade practice. */
import {
  choices,
  DESTRUCTION,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  NO_FAULT_FOUND,
  practice,
  RETIRE_BY,
  repair,
  retireBy,
} from './duty.ts';
import type { Family } from './types.ts';

const PACKS = { attribute: 'kind', notIn: ['charger'] } as const;
const CAUTIONS = [
  'A swollen, dented, wet or hot lithium pack goes outside, away from anything that burns, and is never charged again.',
  'Only the charger meant for the pack; never unattended in sleeping quarters.',
];

export const battery: Family = {
  id: 'battery',
  title: 'Battery or charger',
  plural: 'Batteries and chargers',
  attributes: [
    kind('radio battery', 'tool battery', 'imager battery', 'monitor battery', 'light battery', 'charger'),
    {
      key: 'chemistry',
      title: 'Chemistry',
      type: 'choice',
      choices: choices('lithium', 'nickel metal hydride', 'nickel cadmium', 'lead'),
    },
    { key: 'capacity_mAh', title: 'Rated capacity', type: 'whole', unit: 'mAh' },
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    {
      id: 'capacity test',
      title: 'Capacity test',
      readings: [{ key: 'capacity_percent', title: 'Capacity', type: 'whole', unit: '%' }],
    },
    { id: 'inspection', title: 'Inspection', readings: [] },
  ],
  repairs: [
    repair('contacts', 'Contacts cleaned or replaced', ['inspection']),
    repair('charger', 'Charger repaired', ['inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening(
      'dropped',
      'Dropped',
      'inspection',
      practice('Common practice, no source: watch it in the open before it is charged again.'),
    ),
    happening(
      'swollen, crushed or hot',
      'Swollen, crushed, soaked or hot',
      DESTRUCTION,
      practice(
        'Common practice, no source: outside at once, then disposed of by the local rules for such packs.',
      ),
    ),
  ],
  requirements: [
    duty({
      id: 'battery.capacity-test',
      title: 'Capacity test',
      activity: 'capacity test',
      appliesTo: [PACKS],
      clock: every({ months: 12 }),
      sources: [practice('At least once a year: common practice, no source.')],
      late: 'notes',
      who: 'A trained member with a battery analyzer.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'battery.capacity',
      title: 'Capacity left',
      activity: 'retirement',
      appliesTo: [PACKS],
      clock: { kind: 'reading limit', reading: 'capacity_percent', owedWhen: 'under', value: '80' },
      sources: [
        practice('Retired under 80 % of its rating: common practice, no source. Some makers name less.'),
      ],
      late: 'limits',
      who: 'The officer in charge has it replaced.',
      cautions: CAUTIONS,
    }),
    retireBy('battery', 'notes'),
    duty({
      id: 'battery.charger-inspection',
      title: 'Charger inspection',
      activity: 'inspection',
      appliesTo: [{ attribute: 'kind', in: ['charger'] }],
      clock: every({ months: 12 }),
      sources: [practice()],
      late: 'notes',
      who: 'A trained member.',
      cautions: CAUTIONS,
    }),
  ],
};
