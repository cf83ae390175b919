/** What cylinders owe by their use, their size or a paragraph of the rule that concerns few of them. */

import {
  CAUTIONS,
  CONSTRUCTION_PERIODS,
  cfr,
  everywhere,
  RIN_HOLDER,
  SPEC_PERIODS,
} from './cylinder-table.ts';
import { duty, every, osha } from './duty.ts';
import type { Clock, Condition, Requirement, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

/** The specifications to which paragraph (j) gives a longer period. */
const SERIES_4B = ['4B', '4BA', '4BW', '4B240ET'] as const;
const PROOF: Condition = { attribute: 'longerPeriod', in: ['proof'] };
const SMALL = ['small'] as const;
const BY_TABLE: Clock = { kind: 'cylinder period', specs: SPEC_PERIODS, constructions: CONSTRUCTION_PERIODS };
const NOT_SCBA = ['cascade', 'medical oxygen', 'air bag', 'extinguisher', 'fixed system', 'other'] as const;
const FIXED: Condition = { attribute: 'use', in: ['fixed system'] };
const CITY_CODE: Source = {
  document: 'Fire code of one city',
  section: '904.6',
  edition: 'New York City',
  confidence: 'read',
  note: 'High-pressure carbon dioxide cylinders are weighed every six months, and refilled or replaced when more than 10 % of the contents is lost.',
};

/** UN receptacles of some gases go five years where the others go ten. */
const unFiveYears = (id: string, title: string, gas: Condition, what: string): Requirement =>
  duty({
    id,
    title,
    activity: 'requalification',
    appliesTo: [{ attribute: 'spec', in: ['UN seamless'] }, gas],
    clock: every({ months: 60 }, { counts: 'made', plus: { months: 60 } }),
    dueAt: 'month end',
    besides: 'cylinder.requalification',
    sources: [
      cfr(
        '180.207(c)',
        `${what}: every five years. Metal hydride and adsorbed gas are the same and are not told apart here.`,
      ),
    ],
    force: 'law',
    bindings: everywhere('180.207(c)'),
    binds: 'Every such UN receptacle that is filled, everywhere in the United States.',
    late: 'blocks',
    who: RIN_HOLDER,
    cautions: CAUTIONS,
  });

export const BY_USE: readonly Requirement[] = [
  unFiveYears(
    'cylinder.requalification-un-carbon-dioxide',
    'Requalification, carbon dioxide',
    { attribute: 'gas', matches: ['CO2', 'carbon dioxide', 'UN1013', 'UN 1013'] },
    'Carbon dioxide (UN1013)',
  ),
  unFiveYears(
    'cylinder.requalification-un-toxic',
    'Requalification, toxic gas',
    { attribute: 'toxic', is: true },
    'All gases of division 2.3',
  ),
  duty({
    id: 'cylinder.requalification-proof',
    title: 'Requalification, proof test',
    activity: 'requalification',
    appliesTo: [PROOF, { attribute: 'spec', in: SERIES_4B }, { attribute: 'dimensions', notIn: SMALL }],
    clock: every({ months: 84 }, { counts: 'made', plus: { months: 144 } }),
    dueAt: 'month end',
    sources: [
      cfr(
        '180.209(j)',
        '4B-series extinguisher cylinder by proof pressure test: by twelve years, then every seven. For a water capacity of 12 lb or less twelve are quoted from memory alone: the seven are kept.',
      ),
    ],
    force: 'law',
    bindings: everywhere('180.209(j)'),
    binds: 'Every such cylinder that is filled, everywhere in the United States.',
    late: 'blocks',
    who: RIN_HOLDER,
    cautions: CAUTIONS,
  }),
  duty({
    // Paragraph (j) helps no other specification: it stays under the table.
    id: 'cylinder.requalification-no-proof',
    title: 'Requalification, no proof test',
    activity: 'requalification',
    appliesTo: [PROOF, { attribute: 'spec', notIn: SERIES_4B }, { attribute: 'dimensions', notIn: SMALL }],
    clock: BY_TABLE,
    dueAt: 'month end',
    warnDays: warnDaysFor({ months: 60 }),
    sources: [
      cfr('180.205(c), 180.209(a) Table 1', 'Paragraph (j) by proof test is for the 4B series alone.'),
    ],
    force: 'law',
    bindings: everywhere('180.205(c)'),
    binds: 'Every DOT or special-permit cylinder that is filled, everywhere in the United States.',
    late: 'blocks',
    who: RIN_HOLDER,
    cautions: CAUTIONS,
  }),
  duty({
    id: 'cylinder.small-inspection',
    title: 'Visual inspection, small cylinder',
    activity: 'inspection',
    appliesTo: [{ attribute: 'dimensions', in: SMALL }],
    clock: BY_TABLE,
    dueAt: 'month end',
    warnDays: warnDaysFor({ months: 60 }),
    satisfiedBy: ['inspection', 'requalification'],
    sources: [
      cfr(
        '180.209(a)',
        'At most 2 in outside diameter and under 2 ft long: no volumetric expansion test. Whether the visual inspection of the period stays was not seen: it is kept.',
      ),
    ],
    force: 'law',
    bindings: everywhere('180.209(a)'),
    binds: 'Every DOT cylinder that is filled, everywhere in the United States.',
    late: 'limits',
    who: 'Ask a requalifier with a current RIN.',
    cautions: CAUTIONS,
  }),
  duty({
    id: 'cylinder.pressurizations',
    title: 'End of life, 4380 fills',
    activity: 'retirement',
    appliesTo: [{ attribute: 'spec', in: ['3HT'] }],
    clock: { kind: 'meter', meter: 'fills', every: 4380 },
    satisfiedBy: [],
    countedOutcomes: [],
    sources: [
      cfr(
        '180.205(i)(1)(v)(C)',
        'A 3HT cylinder is condemned when older than 24 years or after 4380 pressurizations.',
      ),
    ],
    force: 'law',
    bindings: everywhere('180.205(i)(1)(v)(C)'),
    binds: '3HT cylinders, everywhere in the United States.',
    late: 'blocks',
    who: 'Company officer pulls it; a RIN holder condemns and marks it.',
    cautions: CAUTIONS,
  }),
  duty({
    id: 'cylinder.recharge',
    title: 'Recharge',
    activity: 'recharge',
    // A cylinder whose use is not on file is taken for one of an SCBA.
    appliesTo: [{ attribute: 'use', notIn: NOT_SCBA }],
    clock: {
      kind: 'reading limit',
      reading: 'gauge_psi',
      owedWhen: 'at or under',
      value: '90',
      percentOf: 'servicePressure_psi',
    },
    satisfiedBy: ['recharge'],
    countedOutcomes: ['pass'],
    sources: [
      {
        document: '29 CFR 1910.134',
        section: '(h)(3)(iii)',
        edition: '2015 annual edition',
        confidence: 'read',
        note: 'Recharged when the pressure falls to 90 % of the manufacturer’s recommended pressure.',
      },
    ],
    force: 'law',
    bindings: osha('29 CFR 1910.134(h)(3)(iii)'),
    late: 'blocks',
    who: 'Trained fillers, at a shielded station.',
    cautions: [
      ...CAUTIONS,
      'Past its requalification date it is not filled, and so it is pulled.',
      '6351-T6 aluminum: only who must be there is near while it is filled.',
    ],
  }),
  duty({
    id: 'cylinder.weighing',
    title: 'Weighing',
    activity: 'weighing',
    appliesTo: [FIXED],
    clock: every({ months: 6 }),
    sources: [CITY_CODE],
    force: 'standard',
    binds: 'Law in the city it was read of; elsewhere where the fire code in force asks for it.',
    late: 'limits',
    who: 'Whoever services the system.',
    cautions: ['Lock the discharge out before a cylinder of a fixed system is touched: the gas suffocates.'],
  }),
  duty({
    id: 'cylinder.charge-lost',
    title: 'Charge lost',
    activity: 'recharge',
    appliesTo: [FIXED],
    clock: {
      kind: 'reading limit',
      reading: 'weight_lb',
      owedWhen: 'over',
      value: '10',
      percentOf: 'charge_lb',
      lostFrom: 'fullWeight_lb',
    },
    satisfiedBy: ['recharge'],
    countedOutcomes: ['pass'],
    sources: [CITY_CODE],
    force: 'standard',
    binds: 'Law in the city it was read of; elsewhere where the fire code in force asks for it.',
    late: 'limits',
    who: 'Whoever services the system.',
  }),
];
