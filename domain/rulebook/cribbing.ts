/** Cribbing, wedges and step chocks: trade practice. */
import {
  choices,
  DESTRUCTION,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  practice,
} from './duty.ts';
import type { Family } from './types.ts';

export const cribbing: Family = {
  id: 'cribbing',
  title: 'Cribbing',
  plural: 'Cribbing',
  attributes: [
    kind('block', 'wedge', 'step chock', 'set'),
    { key: 'material', title: 'Material', type: 'choice', choices: choices('wood', 'plastic', 'composite') },
    { key: 'pieces', title: 'Pieces', type: 'whole' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [{ id: 'inspection', title: 'Inspection', readings: [] }],
  repairs: [NO_FAULT_FOUND],
  triggers: [
    happening('loaded', 'Loaded on scene', 'inspection'),
    happening(
      'split, crushed or soaked',
      'Split, crushed or soaked with fuel',
      DESTRUCTION,
      practice('Common practice, no source: it goes to the scrap heap, not back on the rig.'),
    ),
  ],
  requirements: [
    duty({
      id: 'cribbing.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 12 }),
      sources: [
        practice('Counted, dry, no splits, no paint that hides the grain: common practice, no source.'),
      ],
      late: 'notes',
      who: 'The crew that rides with it.',
      cautions: ['Wood gives warning before it fails; plastic may not.'],
    }),
    monthlyInWisconsin('cribbing.inspection', 'inspection'),
  ],
};
