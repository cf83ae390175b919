/** Personal fall protection for work at height: 29 CFR 1910.140. */
import {
  BEFORE_USE,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  osha,
  practice,
  RETIRE_BY,
  repair,
  retireBy,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const BEFORE_EACH_SHIFT: Source = {
  document: '29 CFR 1910.140',
  section: '(c)(18)',
  edition: 'as quoted on a public page',
  confidence: 'read second-hand',
  note: 'Inspected before initial use during each work shift for mildew, wear, damage and other deterioration; defective parts are removed from service.',
};
const AFTER_IMPACT: Source = {
  document: '29 CFR 1910.140',
  section: '(c)(17)',
  edition: 'restated on a public page; the paragraph number is from memory',
  confidence: 'read second-hand',
  note: 'After impact loading: out of service at once, until a competent person finds it undamaged and safe.',
};

export const fallProtection: Family = {
  id: 'fall-protection',
  title: 'Fall protection',
  plural: 'Fall protection',
  attributes: [
    kind('body harness', 'lanyard', 'self-retracting lifeline', 'lifeline', 'anchor'),
    RETIRE_BY,
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'inspection before use', title: 'Inspection before use', readings: [] },
    { id: 'competent inspection', title: 'Competent person’s inspection', readings: [] },
  ],
  repairs: [repair('maker repair', 'Repaired by the maker', ['competent inspection']), NO_FAULT_FOUND],
  triggers: [
    happening('shift of use', 'Taken for use this shift', 'inspection before use', BEFORE_EACH_SHIFT),
    happening('fall or impact load', 'Fall arrested or impact load', 'competent inspection', AFTER_IMPACT),
  ],
  requirements: [
    duty({
      id: 'fall-protection.inspection-before-use',
      title: 'Inspection before use',
      activity: 'inspection before use',
      clock: { kind: 'after happenings' },
      sources: [
        BEFORE_EACH_SHIFT,
        {
          document: 'WAC 296-880-10005',
          section: '(2)(a)',
          edition: 'Washington State, effective 1 October 2020',
          confidence: 'read',
          note: 'Prior to each use, by the maker’s specifications; defective components are removed.',
        },
      ],
      force: 'law',
      bindings: [
        ...osha('29 CFR 1910.140(c)(18)'),
        { reach: { states: ['WA'] }, cite: 'WAC 296-880-10005(2)(a)' },
      ],
      late: 'blocks',
      who: 'The wearer, before the first use of each shift.',
      cautions: ['Remove a defective part from service at once; nobody works at height with a doubt.'],
    }),
    duty({
      id: 'fall-protection.competent-inspection',
      title: 'Competent person’s inspection',
      activity: 'competent inspection',
      clock: every({ months: 12 }, BEFORE_USE),
      sources: [
        maker('Makers commonly ask for a competent person’s inspection every year.'),
        practice(
          'California’s construction orders are quoted as asking for it twice a year, with the date written down; adopt six months where they reach.',
        ),
      ],
      late: 'blocks',
      who: 'A competent person, who is not the wearer.',
    }),
    retireBy('fall-protection', 'blocks'),
  ],
};
