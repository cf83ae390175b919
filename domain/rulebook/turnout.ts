/** Turnout gear by element: NFPA 1851 (its duties now in NFPA 1850). */
import {
  choices,
  duty,
  every,
  happening,
  lifeFromMade,
  MADE_AND_IN_SERVICE,
  NO_FAULT_FOUND,
  repair,
  stateLaw,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const nfpa1851 = (section: string, confidence: Source['confidence'], note?: string): Source => ({
  document: 'NFPA 1851',
  section,
  edition: '2020; carried into NFPA 1850 (2025)',
  confidence,
  ...(note ? { note } : {}),
});

const LINED = { attribute: 'element', in: ['coat', 'trousers', 'one-piece'] } as const;
/** Texas regulates the procedure and so makes the standard law: 37 TAC 435.1(a)(3), read. */
const BY_TEXAS = stateLaw('TX', '37 TAC 435.1(a)(3)');
const ADOPTED =
  'Where the department has adopted NFPA 1851 or 1850; in Texas a regulated department complies with a procedure that complies with it.';
const CAUTIONS = [
  'Never wash gear at home, and never carry soiled gear in a cab or a living space.',
  'Isolate contaminated gear until it has been cleaned; some contaminants cannot be cleaned out.',
];

export const turnout: Family = {
  id: 'turnout',
  title: 'Turnout gear',
  plural: 'Turnout gear',
  attributes: [
    {
      key: 'element',
      title: 'Element',
      type: 'choice',
      choices: choices('coat', 'trousers', 'one-piece', 'helmet', 'hood', 'gloves', 'boots'),
    },
    {
      key: 'ensemble',
      title: 'Ensemble',
      type: 'choice',
      choices: choices('structural', 'proximity'),
    },
    { key: 'size', title: 'Size', type: 'text' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'routine inspection', title: 'Routine inspection', readings: [] },
    { id: 'advanced inspection', title: 'Advanced inspection', readings: [] },
    { id: 'advanced cleaning', title: 'Advanced cleaning', readings: [] },
    { id: 'specialized cleaning', title: 'Specialized cleaning', readings: [] },
    { id: 'complete liner inspection', title: 'Complete liner inspection', readings: [] },
  ],
  repairs: [
    repair('minor repair', 'Minor repair by a trained member', ['routine inspection']),
    repair('advanced repair', 'Advanced repair by a verified provider or the maker', ['advanced inspection']),
    repair('moisture barrier', 'Moisture barrier or liner repaired', ['complete liner inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening(
      'used',
      'Worn at an incident',
      'routine inspection',
      nfpa1851('routine inspection', 'read second-hand', 'By the wearer after each use.'),
    ),
    happening(
      'contaminated',
      'Contaminated by smoke or soot',
      'advanced cleaning',
      nfpa1851('cleaning', 'memory', 'Cleaned after exposure to products of combustion.'),
    ),
    happening(
      'hazardous contamination',
      'Blood, chemicals, asbestos or drugs',
      'specialized cleaning',
      nfpa1851('specialized cleaning', 'memory', 'By the substance; isolate it until then.'),
    ),
    happening(
      'doubt',
      'A routine inspection raised a doubt',
      'advanced inspection',
      nfpa1851(
        'advanced inspection',
        'read second-hand',
        'Whenever a routine inspection indicates a problem.',
      ),
    ),
  ],
  requirements: [
    duty({
      id: 'turnout.routine-inspection',
      title: 'Routine inspection',
      activity: 'routine inspection',
      clock: { kind: 'after happenings' },
      sources: [nfpa1851('routine inspection', 'read second-hand', 'By the wearer after each use.')],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'limits',
      who: 'The wearer.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'turnout.advanced-inspection',
      title: 'Advanced inspection',
      activity: 'advanced inspection',
      clock: every({ months: 12 }),
      inStorage: 'waits',
      sources: [
        nfpa1851(
          'advanced inspection',
          'read second-hand',
          'Every 12 months at least. Reserve elements stored well and not issued since the last one are exempt until issued.',
        ),
      ],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'limits',
      who: 'A member trained by the maker or a verified provider, or such a provider.',
      cautions: ['Soil hides damage: clean it first.'],
    }),
    duty({
      id: 'turnout.semiannual-inspection',
      title: 'Semiannual inspection',
      activity: 'advanced inspection',
      clock: every({ months: 6 }),
      sources: [
        {
          document: 'WAC 296-305-02002',
          section: '(5)',
          edition: 'Washington State, effective 7 December 2018',
          confidence: 'read',
          note: 'Structural clothing is inspected semiannually by a qualified individual; intervals do not exceed six months.',
        },
      ],
      force: 'law',
      bindings: stateLaw('WA', 'WAC 296-305-02002(5)'),
      binds: 'Law in Washington State.',
      where: { states: ['WA'] },
      besides: 'turnout.advanced-inspection',
      late: 'limits',
      who: 'An individual qualified by the employer.',
    }),
    duty({
      id: 'turnout.yearly-inspection',
      title: 'Yearly inspection',
      activity: 'advanced inspection',
      clock: every({ months: 12 }),
      sources: [
        {
          document: 'N.J.A.C. 12:100-10.16',
          section: '(a)',
          edition: 'New Jersey, through November 2024',
          confidence: 'read',
          note: 'Equipment that the subchapter requires, protective clothing among it, is maintained and inspected at least annually; what is unserviceable is removed and replaced. No word of reserve gear.',
        },
      ],
      force: 'law',
      bindings: stateLaw('NJ', 'N.J.A.C. 12:100-10.16(a)'),
      binds: 'Law in New Jersey for public fire departments.',
      where: { states: ['NJ'] },
      besides: 'turnout.advanced-inspection',
      late: 'limits',
      who: 'A trained member.',
    }),
    duty({
      id: 'turnout.advanced-cleaning',
      title: 'Advanced cleaning',
      activity: 'advanced cleaning',
      clock: every({ months: 6 }),
      inStorage: 'waits',
      satisfiedBy: ['advanced cleaning', 'specialized cleaning'],
      sources: [
        nfpa1851(
          'advanced cleaning',
          'read second-hand',
          'Every six months at least where issued and used; one of the two falls with the yearly advanced inspection.',
        ),
      ],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'limits',
      who: 'A verified provider, or trained members with an extractor by the maker’s instructions.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'turnout.liner-inspection',
      title: 'Complete liner inspection',
      activity: 'complete liner inspection',
      appliesTo: [LINED],
      clock: every({ months: 12 }, { counts: 'in service', plus: { months: 36 } }),
      inStorage: 'waits',
      sources: [
        nfpa1851(
          'complete liner inspection',
          'memory',
          'At three years in service, then every year. Check the edition adopted.',
        ),
      ],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'limits',
      who: 'A verified provider or the maker; the liner is opened and its barrier tested for leaks.',
    }),
    duty({
      id: 'turnout.end-of-life',
      title: 'End of life',
      activity: 'retirement',
      clock: lifeFromMade(10),
      sources: [
        nfpa1851(
          'retirement',
          'read second-hand',
          'Every element is out of service once it reaches ten years from manufacture, since the 2008 edition. Storage does not lengthen it.',
        ),
      ],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'blocks',
      who: 'The officer in charge retires it; it may be kept for training without live fire if it is marked so.',
      cautions: ['Retired gear never goes back to a fire.'],
    }),
    duty({
      id: 'turnout.shell-end-of-life',
      title: 'End of life of the proximity shell',
      activity: 'retirement',
      appliesTo: [LINED, { attribute: 'ensemble', in: ['proximity'] }],
      clock: { kind: 'life', counts: 'in service', plus: { months: 60 } },
      sources: [
        nfpa1851('retirement', 'memory', 'A radiant reflective outer shell serves five years at most.'),
      ],
      force: 'standard',
      bindings: BY_TEXAS,
      binds: ADOPTED,
      late: 'blocks',
      who: 'The officer in charge; the outer shell is replaced or the element retired.',
    }),
  ],
};
