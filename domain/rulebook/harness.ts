/** Life safety harnesses, ladder and escape belts, rescue webbing: NFPA 1858 (its duties now in NFPA 2500). */
import {
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

const nfpa1858 = (note: string): Source => ({
  document: 'NFPA 1858',
  section: 'harnesses, belts and webbing',
  edition: '2018; carried into NFPA 2500 (2022)',
  confidence: 'memory',
  note,
});

export const harness: Family = {
  id: 'harness',
  title: 'Harness, belt or webbing',
  plural: 'Harnesses, belts and webbing',
  attributes: [
    kind('life safety harness', 'ladder belt', 'escape belt', 'rescue webbing'),
    { key: 'size', title: 'Size', type: 'text' },
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [{ id: 'inspection', title: 'Inspection', readings: [] }],
  repairs: [
    repair(
      'maker repair',
      'Repaired by the maker',
      ['inspection'],
      practice('Common practice, no source. Nobody else sews a harness.'),
    ),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used', 'inspection', nfpa1858('After each use.')),
    happening('fall or shock load', 'Fall arrested or shock load', 'inspection'),
    happening('heat, chemicals or cut', 'Heat, chemicals or a cut', 'inspection'),
  ],
  requirements: [
    duty({
      id: 'harness.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 12 }),
      sources: [
        practice('Once a year beside the look after each use: common practice, no source.'),
        nfpa1858('After each use; the period between is left to the department.'),
      ],
      late: 'blocks',
      who: 'A member trained to inspect life safety equipment.',
      cautions: [
        'When in doubt, retire it: damage to webbing can be invisible.',
        'Look at every stitch pattern, the load indicators, buckles and labels.',
      ],
    }),
    duty({
      id: 'harness.end-of-life',
      title: 'End of life',
      activity: 'retirement',
      clock: lifeFromMade(10),
      sources: [nfpa1858('Retired by the maker’s word, commonly at ten years.')],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1858 or 2500.',
      late: 'blocks',
      who: 'The officer in charge retires it and cuts it so that nobody can wear it.',
    }),
    retireBy('harness', 'blocks'),
    monthlyInWisconsin('harness.inspection', 'inspection'),
  ],
};
