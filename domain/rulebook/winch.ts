/** Portable winches, come-alongs, chains, slings and shackles. Slings: 29 CFR 1910.184. */
import {
  BEFORE_USE,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  osha,
  practice,
  repair,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const sling = (section: string, note: string): Source => ({
  document: '29 CFR 1910.184',
  section,
  edition: 'as quoted on a public page',
  confidence: 'read second-hand',
  note,
});
const EACH_DAY = sling(
  '(d)',
  'Each day before being used, a sling and its fastenings are inspected by a competent person; a damaged one is removed at once.',
);
const SLINGS = {
  attribute: 'kind',
  in: ['chain sling', 'wire rope sling', 'web sling', 'round sling'],
} as const;
const CHAIN_SLING = { attribute: 'kind', in: ['chain sling'] } as const;
const CAUTIONS = [
  'Nobody in the line of pull or in the bight of a loaded line; a blanket lies over the line.',
  'Never above the rated load; never a knot, a bolt or a homemade link.',
];

export const winch: Family = {
  id: 'winch',
  title: 'Winch, chain or sling',
  plural: 'Winches, chains and slings',
  attributes: [
    kind(
      'portable winch',
      'come-along',
      'lever hoist',
      'chain',
      'chain sling',
      'wire rope sling',
      'web sling',
      'round sling',
      'shackle',
    ),
    { key: 'ratedLoad_lb', title: 'Rated load', type: 'whole', unit: 'lb' },
    { key: 'length_ft', title: 'Length', type: 'decimal', unit: 'ft' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'inspection before use', title: 'Inspection before use', readings: [] },
    { id: 'thorough inspection', title: 'Thorough inspection', readings: [] },
    {
      id: 'proof test',
      title: 'Proof test',
      readings: [{ key: 'load_lb', title: 'Test load', type: 'whole', unit: 'lb' }],
    },
  ],
  repairs: [
    repair('chain sling repair', 'Chain sling repaired or reconditioned', ['proof test'], {
      document: 'WAC 296-24-29423',
      section: '(4)',
      edition: 'Washington State, counterpart of 29 CFR 1910.184(e)(4)',
      confidence: 'read',
      note: 'New, repaired or reconditioned: proof tested by the maker or an equivalent entity before use; the certificate is kept.',
    }),
    repair('hook, pawl or cable', 'Hook, pawl, brake or cable', ['thorough inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('day of use', 'Taken for use today', 'inspection before use', EACH_DAY),
    happening('overload or shock', 'Overloaded, shock loaded or heated', 'thorough inspection'),
  ],
  requirements: [
    duty({
      id: 'winch.inspection-before-use',
      title: 'Inspection before use',
      activity: 'inspection before use',
      appliesTo: [SLINGS],
      clock: { kind: 'after happenings' },
      sources: [EACH_DAY],
      force: 'law',
      bindings: osha('29 CFR 1910.184(d)'),
      late: 'blocks',
      who: 'A competent person the employer has named.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'winch.chain-sling-inspection',
      title: 'Thorough inspection of a chain sling',
      activity: 'thorough inspection',
      appliesTo: [CHAIN_SLING],
      clock: every({ months: 12 }, BEFORE_USE),
      sources: [
        sling(
          '(e)(3)(i)',
          'Alloy steel chain slings: at intervals never greater than 12 months, by use and service.',
        ),
        {
          document: 'WAC 296-24-29423',
          section: '(3)',
          edition: 'Washington State',
          confidence: 'read',
          note: 'The same interval; a record of the most recent month is kept and shown. A competent person looks for wear, bad welds, deformation and stretch.',
        },
      ],
      force: 'law',
      bindings: [
        ...osha('29 CFR 1910.184(e)(3)(i)'),
        { reach: { states: ['WA'] }, cite: 'WAC 296-24-29423(3)' },
      ],
      late: 'blocks',
      who: 'A competent person the employer has named.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'winch.inspection',
      title: 'Thorough inspection',
      activity: 'thorough inspection',
      appliesTo: [{ attribute: 'kind', notIn: ['chain sling'] }],
      clock: every({ months: 12 }),
      sources: [
        practice(),
        {
          document: 'ASME B30.21',
          section: 'periodic inspection',
          edition: '',
          confidence: 'memory',
          note: 'Manually lever operated hoists: every year in normal service, more often in heavy or severe.',
        },
      ],
      late: 'limits',
      who: 'A trained member or a rigging technician.',
      cautions: CAUTIONS,
    }),
    monthlyInWisconsin('winch.inspection', 'thorough inspection', ['inspection before use']),
  ],
};
