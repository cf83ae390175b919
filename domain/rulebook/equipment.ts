/** Everything else that is tracked one by one until its own family has a file: known and placed, nothing owed. */
import type { Family } from './types.ts';

export const equipment: Family = {
  id: 'equipment',
  title: 'Other equipment',
  plural: 'Other equipment',
  attributes: [
    { key: 'kind', title: 'Kind', type: 'text' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [{ id: 'inspection', title: 'Inspection', readings: [] }],
  repairs: [
    {
      kind: 'repair',
      title: 'Repaired',
      owes: ['inspection'],
      source: {
        document: '',
        section: '',
        edition: '',
        confidence: 'common practice',
        note: 'Common practice, no source.',
      },
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: {
        document: '',
        section: '',
        edition: '',
        confidence: 'common practice',
        note: 'Common practice, no source; the reason is kept.',
      },
    },
  ],
  triggers: [],
  requirements: [],
};
