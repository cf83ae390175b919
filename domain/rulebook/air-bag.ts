/** Lifting bags and what fills them: controllers, hoses, regulators. NFPA 1937 (its duties now in NFPA 1930). */
import {
  choices,
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
} from './duty.ts';
import type { Family, Source } from './types.ts';

const nfpa1937 = (note: string): Source => ({
  document: 'NFPA 1937',
  section: 'lifting bags',
  edition: '2020, with NFPA 1936; carried into NFPA 1930 (2025)',
  confidence: 'read second-hand',
  note,
});
const CAUTIONS = [
  'A bag under pressure stores energy: shield it, stand clear, and never look over it while it fills.',
  'Test with water where the maker asks for it; air in a failing bag bursts it.',
  'Never above the working pressure marked on the bag, and never a lift without cribbing that follows it.',
];

export const airBag: Family = {
  id: 'air-bag',
  title: 'Lifting bag',
  plural: 'Lifting bags',
  attributes: [
    kind('bag', 'controller', 'hose', 'regulator'),
    { key: 'pressureClass', title: 'Class', type: 'choice', choices: choices('high', 'medium', 'low') },
    { key: 'lift_tons', title: 'Lift', type: 'decimal', unit: 'tons' },
    { key: 'workingPressure_psi', title: 'Working pressure', type: 'whole', unit: 'psi' },
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    {
      id: 'pressure test',
      title: 'Pressure test',
      readings: [
        { key: 'testPressure_psi', title: 'Test pressure', type: 'whole', unit: 'psi' },
        { key: 'held_s', title: 'Held', type: 'whole', unit: 's' },
      ],
    },
  ],
  repairs: [
    repair(
      'nipple, coupling or valve',
      'Nipple, coupling or valve replaced',
      ['pressure test'],
      practice('Common practice, no source. The body of a bag is never patched.'),
    ),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening(
      'used',
      'Used',
      'inspection',
      nfpa1937('A program of care, inspection and cleaning covers lifting bags.'),
    ),
    happening('cut, burn or chemicals', 'Cut, burned, overloaded or exposed to chemicals', 'pressure test'),
  ],
  requirements: [
    duty({
      id: 'air-bag.pressure-test',
      title: 'Pressure test',
      activity: 'pressure test',
      clock: every({ months: 12 }),
      sources: [
        practice(
          'Every year: the stricter of what is said. A tester says after three to five years and yearly from ten; one maker’s test years are five, seven, nine and then every year.',
        ),
      ],
      late: 'blocks',
      who: 'A technician trained by the maker, by the maker’s procedure and pressure.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'air-bag.inspection',
      title: 'Inspection after use',
      activity: 'inspection',
      clock: { kind: 'after happenings' },
      sources: [nfpa1937('A program of care and inspection covers lifting bags.')],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1937 or 1930.',
      late: 'limits',
      who: 'The crew that used it.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'air-bag.end-of-life',
      title: 'End of life',
      activity: 'retirement',
      appliesTo: [{ attribute: 'kind', notIn: ['controller', 'hose', 'regulator'] }],
      clock: lifeFromMade(15),
      sources: [nfpa1937('Fifteen years or older: taken out of service and destroyed.')],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1937 or 1930.',
      late: 'blocks',
      who: 'The officer in charge has it destroyed, so that nobody can inflate it again.',
      cautions: ['Rubber fails with age however good it looks.'],
    }),
    retireBy('air-bag', 'blocks'),
    monthlyInWisconsin('air-bag.pressure-test', 'inspection', ['pressure test']),
  ],
};
