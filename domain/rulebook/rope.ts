/** Rope: life safety, escape and utility. NFPA 1858 (its duties now in NFPA 2500). */
import {
  choices,
  DESTRUCTION,
  duty,
  every,
  happening,
  kind,
  lifeFromMade,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  practice,
  RETIRE_BY,
  repair,
  retireBy,
  stateLaw,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const nfpa1858 = (section: string, confidence: Source['confidence'], note?: string): Source => ({
  document: 'NFPA 1858',
  section,
  edition: '2018; carried into NFPA 2500 (2022)',
  confidence,
  ...(note ? { note } : {}),
});

const LIFE_SAFETY = { attribute: 'kind', notIn: ['utility'] } as const;
/** Washington State's rule on life safety rope, as a fire department's policy restates it. */
const WASHINGTON: Source = {
  document: 'WAC 296-305-02019',
  section: '',
  edition: 'Washington State, as a department’s policy of 2009 restates it',
  confidence: 'read second-hand',
  note: 'Inspected before and after each use; after impact load, or damage by heat, flame, chemicals or abrasion, it is destroyed. A history of each rope is kept.',
};

const WHO = 'A member trained to inspect rope; every use and finding is written down.';
const ADOPTED = 'Where the department has adopted NFPA 1858 or 2500.';
const CAUTIONS = [
  'When in doubt, retire it: damage to rope can be invisible.',
  'Feel every foot by hand under light tension; look for glazing, soft spots, stiff spots, cuts and stains.',
  'Never lower a retired life safety rope to utility use without marking it so.',
];

export const rope: Family = {
  id: 'rope',
  title: 'Rope',
  plural: 'Rope',
  attributes: [
    kind('life safety', 'escape', 'utility'),
    {
      key: 'useRate',
      title: 'Use',
      type: 'choice',
      choices: [
        { value: 'weekly', title: 'Weekly' },
        { value: 'monthly', title: 'A few times a month' },
        { value: 'seldom', title: 'Seldom' },
      ],
      note: 'The interval of its inspection follows from this. Not known: a few times a month.',
    },
    { key: 'fiber', title: 'Fiber', type: 'choice', choices: choices('synthetic', 'natural') },
    { key: 'diameter_in', title: 'Diameter', type: 'decimal', unit: 'in' },
    { key: 'length_ft', title: 'Length', type: 'decimal', unit: 'ft' },
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    { id: 'internal inspection', title: 'Internal inspection', readings: [] },
    { id: 'cleaning', title: 'Cleaning', readings: [] },
  ],
  repairs: [
    repair(
      'shortened',
      'Cut back and shortened',
      ['inspection'],
      practice('Common practice, no source. The new length and a new number for a second piece are entered.'),
    ),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used', 'inspection', nfpa1858('A.6.2.1.3(1)', 'read second-hand', 'After each use.')),
    happening('impact, flame or chemicals', 'Impact load, flame or chemicals', DESTRUCTION, WASHINGTON),
    happening(
      'doubt',
      'Sharp edge, heat or a doubt',
      'inspection',
      nfpa1858('A.6.1.8.1', 'read second-hand', 'Its history may end its life early.'),
    ),
    happening('soiled', 'Soiled or wet', 'cleaning'),
    happening('escape', 'Escape rope used in an escape', DESTRUCTION, {
      document: '12 NYCRR 800.7',
      section: '(d)(2)',
      edition: 'New York, since 2 December 2009',
      confidence: 'read',
      note: 'An escape rope is a single purpose, single use rope. NFPA 1983 says so too, from memory.',
    }),
  ],
  requirements: [
    duty({
      id: 'rope.inspection-weekly-use',
      title: 'Inspection, rope in weekly use',
      activity: 'inspection',
      appliesTo: [LIFE_SAFETY, { attribute: 'useRate', in: ['weekly'] }],
      clock: every({ days: 7 }),
      sources: [nfpa1858('A.6.2.1.3(1)', 'read second-hand', 'Weekly use, weekly inspection.')],
      force: 'standard',
      binds: ADOPTED,
      late: 'blocks',
      who: WHO,
      cautions: CAUTIONS,
    }),
    duty({
      id: 'rope.inspection',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [LIFE_SAFETY, { attribute: 'useRate', notIn: ['weekly', 'seldom'] }],
      clock: every({ months: 1 }),
      sources: [
        nfpa1858('A.6.2.1.3(1)', 'read second-hand', 'Used a few times a month, monthly inspection.'),
      ],
      force: 'standard',
      binds: ADOPTED,
      late: 'blocks',
      who: WHO,
      cautions: CAUTIONS,
    }),
    duty({
      id: 'rope.inspection-seldom-used',
      title: 'Inspection, rope seldom used',
      activity: 'inspection',
      appliesTo: [LIFE_SAFETY, { attribute: 'useRate', in: ['seldom'] }],
      clock: every({ months: 12 }),
      sources: [
        nfpa1858(
          'A.6.2.1.3(1)',
          'read second-hand',
          'The period follows the use; no figure for seldom used rope.',
        ),
        practice('A department’s printed cycle inspects rope once a year.'),
      ],
      force: 'standard',
      binds: ADOPTED,
      late: 'blocks',
      who: WHO,
      cautions: CAUTIONS,
    }),
    duty({
      id: 'rope.end-of-life',
      title: 'End of life',
      activity: 'retirement',
      appliesTo: [LIFE_SAFETY],
      clock: lifeFromMade(10),
      sources: [
        nfpa1858(
          'A.10.1.2; A.6.1.8.1',
          'read second-hand',
          'Ten years is named as the typical age of retirement, not as a limit; history and inspection end it earlier.',
        ),
      ],
      force: 'standard',
      binds: ADOPTED,
      late: 'limits',
      who: 'The officer in charge retires it and marks or cuts it so that nobody can trust a life to it.',
      cautions: ['When in doubt, retire it: damage to rope can be invisible.'],
    }),
    retireBy('rope', 'blocks'),
    duty({
      id: 'rope.utility-inspection',
      title: 'Utility rope inspection',
      activity: 'inspection',
      appliesTo: [{ attribute: 'kind', in: ['utility'] }],
      clock: every({ months: 12 }),
      sources: [practice()],
      late: 'notes',
      who: 'Trained members.',
      cautions: ['Utility rope never carries a person.'],
    }),
    duty({
      id: 'rope.internal-inspection',
      title: 'Internal inspection, natural fiber',
      activity: 'internal inspection',
      appliesTo: [{ attribute: 'fiber', in: ['natural'] }],
      clock: every({ months: 12 }),
      sources: [
        {
          document: 'Mich. Admin. Code R 408.17463',
          section: '(2)(a)(ii)',
          edition: 'Michigan, effective 21 June 2022',
          confidence: 'read',
          note: 'Utility rope of natural fiber is opened every 3 ft each year: broken fibers, grit, mildew, color, powder. Every utility rope is inspected outside after each use.',
        },
      ],
      bindings: stateLaw('MI', 'R 408.17463(2)(a)(ii)'),
      binds: 'Law in Michigan for municipal fire departments; elsewhere where the department has adopted it.',
      late: 'limits',
      who: 'A member trained to inspect rope.',
      cautions: ['Natural fiber never carries a person: it rots from the inside.'],
    }),
    {
      ...monthlyInWisconsin('rope.utility-inspection', 'inspection'),
      appliesTo: [{ attribute: 'kind', in: ['utility'] }],
    },
    {
      ...monthlyInWisconsin('rope.inspection-seldom-used', 'inspection'),
      id: 'rope.monthly-inspection-seldom-used',
      title: 'Monthly inspection, rope seldom used',
      appliesTo: [LIFE_SAFETY, { attribute: 'useRate', in: ['seldom'] }],
    },
  ],
};
