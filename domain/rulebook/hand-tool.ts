/** Hand tools and forcible entry tools: 29 CFR 1910.156(d), and Washington State's word on portable equipment. */
import { BRIGADE_BINDINGS, BRIGADE_BINDS } from './brigade.ts';
import {
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  practice,
  repair,
  YEARLY_BY_LAW,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const WASHINGTON: Source = {
  document: 'WAC 296-305-06001',
  section: '(1) and (2)',
  edition: 'Washington State',
  confidence: 'read',
  note: 'All portable equipment is inspected routinely so that it is ready for use, and defective equipment is removed; no interval.',
};

export const handTool: Family = {
  id: 'hand-tool',
  title: 'Hand tool',
  plural: 'Hand tools',
  attributes: [
    kind(
      'axe',
      'forcible entry bar',
      'pike pole or hook',
      'sledgehammer',
      'maul',
      'bolt cutter',
      'pry bar',
      'shovel',
      'wildland tool',
      'wrench',
      'other',
    ),
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [{ id: 'inspection', title: 'Inspection', readings: [] }],
  repairs: [
    repair('handle', 'Handle replaced or set', ['inspection']),
    repair('edge or head', 'Edge or head dressed', ['inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used hard', 'Used hard or bent', 'inspection'),
    happening('energized', 'Touched an energized line', 'inspection'),
  ],
  requirements: [
    duty({
      id: 'hand-tool.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 12 }),
      sources: [
        ...YEARLY_BY_LAW,
        WASHINGTON,
        practice(
          'Handle tight and free of cracks and splinters, heads not mushroomed, edges dressed and covered.',
        ),
      ],
      force: 'law',
      bindings: BRIGADE_BINDINGS,
      binds: BRIGADE_BINDS,
      late: 'notes',
      who: 'Trained members.',
      cautions: ['A loose head or a cracked handle comes off the rig at once.'],
    }),
    monthlyInWisconsin('hand-tool.inspection', 'inspection'),
  ],
};
