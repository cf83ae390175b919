/** Power tools: saws, fans, generators and lights. Makers' instructions; cords: 29 CFR 1910.334. */
import {
  choices,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  osha,
  practice,
  repair,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const CORD: Source = {
  document: '29 CFR 1910.334',
  section: '(a)(2)(i)',
  edition: 'as printed in a 2022 federal citation',
  confidence: 'read',
  note: 'Portable cord and plug connected equipment and extension cords are visually inspected before use on any shift. What stays connected and is not exposed to damage waits until it is moved.',
};
const ENGINE = { attribute: 'power', in: ['gasoline', 'two-stroke mix'] } as const;

export const powerTool: Family = {
  id: 'power-tool',
  title: 'Power tool',
  plural: 'Power tools',
  attributes: [
    kind(
      'chain saw',
      'rotary saw',
      'reciprocating saw',
      'fan',
      'generator',
      'light',
      'extension cord',
      'drill',
      'blower',
      'other',
    ),
    {
      key: 'power',
      title: 'Power',
      type: 'choice',
      choices: choices('gasoline', 'two-stroke mix', 'battery', 'cord', 'water', 'air'),
    },
    ...MADE_AND_IN_SERVICE,
  ],
  meters: ['hours', 'uses'],
  activities: [
    { id: 'run check', title: 'Run check', readings: [] },
    { id: 'cord inspection', title: 'Cord inspection', readings: [] },
    { id: 'service', title: 'Service', readings: [] },
  ],
  repairs: [
    repair('engine or motor', 'Engine or motor', ['run check']),
    repair('guard, brake, chain or blade', 'Guard, brake, chain or blade', ['run check']),
    repair('cord or plug', 'Cord, plug or switch', ['cord inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used', 'run check'),
    happening('damaged', 'Dropped or damaged', 'service'),
    happening('cord taken into use', 'Cord taken into use this shift', 'cord inspection', CORD),
  ],
  requirements: [
    duty({
      id: 'power-tool.run-check',
      title: 'Run check',
      activity: 'run check',
      appliesTo: [ENGINE],
      clock: every({ days: 7 }),
      satisfiedBy: ['run check', 'service'],
      sources: [
        practice(
          'Fuel, belt, chain, guard and spark arrester looked at and the engine run: weekly or monthly by department; the stricter is taken.',
        ),
      ],
      late: 'notes',
      who: 'The crew that rides with it.',
      cautions: [
        'Outside, away from sleeping quarters and air intakes: engines make carbon monoxide.',
        'Let it cool before fueling; no flame, no running engine beside it.',
        'Chain brake, guard and stop switch are tried before the saw is put back.',
      ],
    }),
    duty({
      id: 'power-tool.monthly-run-check',
      title: 'Run check, no engine',
      activity: 'run check',
      appliesTo: [
        { attribute: 'power', notIn: ['gasoline', 'two-stroke mix'] },
        { attribute: 'kind', notIn: ['extension cord'] },
      ],
      clock: every({ months: 1 }),
      satisfiedBy: ['run check', 'service'],
      sources: [practice()],
      late: 'notes',
      who: 'The crew that rides with it.',
    }),
    duty({
      id: 'power-tool.cord-inspection',
      title: 'Cord inspection before use',
      activity: 'cord inspection',
      appliesTo: [{ attribute: 'power', in: ['cord'] }],
      clock: { kind: 'after happenings' },
      sources: [
        CORD,
        {
          document: 'WAC 296-24-985',
          section: '(1)(b)',
          edition: 'Washington State',
          confidence: 'read',
          note: 'The same duty.',
        },
      ],
      force: 'law',
      bindings: [
        ...osha('29 CFR 1910.334(a)(2)(i)'),
        { reach: { states: ['WA'] }, cite: 'WAC 296-24-985(1)(b)' },
      ],
      late: 'limits',
      who: 'Whoever plugs it in, before use on the shift.',
      cautions: ['A damaged cord is taken out of service, not taped.'],
    }),
    duty({
      id: 'power-tool.service',
      title: 'Service',
      activity: 'service',
      appliesTo: [ENGINE],
      clock: {
        kind: 'first of',
        clocks: [every({ months: 12 }), { kind: 'meter', meter: 'hours', every: 100 }],
      },
      sources: [
        maker('Every year or every 100 hours, whichever comes first, is a common figure for small engines.'),
      ],
      late: 'notes',
      who: 'A small engine mechanic or a trained member, by the maker’s instructions.',
    }),
  ],
};
