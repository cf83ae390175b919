/** What a rig's fire pump owes. */
import { limit, nfpa1911, TECHNICIAN, TECHNICIAN_ASKED, yearly } from './apparatus-sources.ts';
import type { Condition, Requirement } from './types.ts';

const TESTED = nfpa1911(
  'ch. 18, performance tests of fire pumps',
  'read second-hand',
  'At least annually: a service company’s and a training text’s lists. After major repair of pump or engine is from memory.',
);
const TANK_FLOW = nfpa1911(
  'tank-to-pump flow',
  'memory',
  'At least 250 gpm from a tank under 500 gal, 500 gpm from a larger one, over 80 % of the tank; in service also against the rate when new.',
);
const PRIMING = nfpa1911(
  'priming',
  'read second-hand',
  'A service company’s list: 30 s for a pump of 1,250 gpm or less, 45 s for 1,500 gpm or more. 15 s more with a large auxiliary intake is from memory.',
);
const TESTERS = 'Trained personnel, or a testing agency the AHJ accepts; gauges calibrated within the year.';
const TEST_CAUTIONS = [
  'Measure carbon monoxide where people stand; keep the exhaust away from the operator.',
  'Chock the wheels, secure every line and nozzle, and keep clear of couplings under pressure.',
  'At draft: life jackets, and nobody between the rig and the water.',
];

const FIRE_PUMP: readonly Condition[] = [{ attribute: 'pump_gpm', atLeast: '250' }];
const ANY_PUMP: readonly Condition[] = [{ attribute: 'pump_gpm', atLeast: '1' }];

const pumpTest = yearly({
  id: 'apparatus.pump-test',
  title: 'Pump service test',
  activity: 'pump test',
  appliesTo: FIRE_PUMP,
  sources: [
    TESTED,
    {
      document: '11 NCAC 05A .0508',
      section: '',
      edition: 'North Carolina',
      confidence: 'read',
      note: 'A rated department’s pumper: a service test within 12 months.',
    },
  ],
  late: 'blocks',
  who: TESTERS,
  cautions: TEST_CAUTIONS,
});

export const PUMP_REQUIREMENTS: readonly Requirement[] = [
  pumpTest,
  {
    // An engine without its rating on file owes its test all the same.
    ...pumpTest,
    id: 'apparatus.pump-test-unrated',
    title: 'Pump service test, rating not on file',
    appliesTo: [
      { attribute: 'kind', in: ['engine', 'quint'] },
      { attribute: 'pump_gpm', known: false },
    ],
  },
  yearly({
    id: 'apparatus.small-pump-test',
    title: 'Small pump test',
    activity: 'pump test',
    appliesTo: [
      { attribute: 'pump_gpm', atLeast: '1' },
      { attribute: 'pump_gpm', below: '250' },
    ],
    sources: [
      nfpa1911(
        'auxiliary pumps',
        'memory',
        'A pump under 250 gpm is tested yearly against its maker’s own figures.',
      ),
    ],
    late: 'limits',
    who: TESTERS,
    cautions: TEST_CAUTIONS,
  }),
  yearly({
    id: 'apparatus.tank-to-pump',
    title: 'Tank-to-pump flow test',
    activity: 'tank-to-pump flow test',
    appliesTo: [{ attribute: 'tank_gal', atLeast: '1' }, ...ANY_PUMP],
    satisfiedBy: ['tank-to-pump flow test', 'pump test'],
    coveredBy: ['apparatus.pump-test', 'apparatus.small-pump-test'],
    sources: [
      nfpa1911(
        'tank-to-pump flow',
        'read second-hand',
        'A training text’s list of the pump’s performance tests has it; it is part of the yearly pump test.',
      ),
    ],
    late: 'limits',
    who: TESTERS,
    cautions: [],
  }),
  ...(
    [
      ['small', '250', { attribute: 'tank_gal', below: '500' }],
      ['large', '500', { attribute: 'tank_gal', atLeast: '500' }],
    ] as const
  ).map(([size, least_gpm, tank]) =>
    limit({
      id: `apparatus.tank-to-pump-${size}`,
      title: `Tank-to-pump flow under ${least_gpm} gpm`,
      activity: 'tank-to-pump flow test',
      besides: 'apparatus.tank-to-pump',
      appliesTo: [...FIRE_PUMP, tank],
      clock: { kind: 'reading limit', reading: 'tankToPump_gpm', owedWhen: 'under', value: least_gpm },
      sources: [TANK_FLOW],
      late: 'limits',
      who: TECHNICIAN,
      asks: TECHNICIAN_ASKED,
    }),
  ),
  yearly({
    id: 'apparatus.pump-controls',
    title: 'Pump controls check',
    activity: 'pump controls check',
    appliesTo: ANY_PUMP,
    satisfiedBy: ['pump controls check', 'pump test'],
    coveredBy: ['apparatus.pump-test', 'apparatus.small-pump-test'],
    sources: [
      nfpa1911(
        'pump engine control interlock, shift indicators, intake relief, gauges',
        'read second-hand',
        'Training texts’ lists of the pump’s performance tests: intake relief, transfer valve, interlocks and shift indicators are operated and recorded. Part of the yearly pump test.',
      ),
    ],
    late: 'limits',
    who: TESTERS,
    cautions: ['An intake relief valve dumps at its set pressure: keep clear of its outlet.'],
  }),
  ...(
    [
      ['30', '30', [...FIRE_PUMP, { attribute: 'pump_gpm', below: '1500' }]],
      ['45', '45', [{ attribute: 'pump_gpm', atLeast: '1500' }]],
    ] as const
  ).map(([id, longest_s, pump]) =>
    limit({
      id: `apparatus.priming-${id}`,
      title: `Priming takes over ${longest_s} s`,
      activity: 'pump test',
      besides: 'apparatus.pump-test',
      appliesTo: pump,
      clock: { kind: 'reading limit', reading: 'prime_s', owedWhen: 'over', value: longest_s },
      sources: [PRIMING],
      late: 'limits',
      who: TECHNICIAN,
      asks: TECHNICIAN_ASKED,
    }),
  ),
];
