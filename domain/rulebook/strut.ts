/** Rescue struts, their bases and straps, and jacks. Jacks: 29 CFR 1910.244(a). */
import { BRIGADE_BINDINGS, BRIGADE_BINDS } from './brigade.ts';
import {
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  osha,
  practice,
  repair,
  YEARLY_BY_LAW,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const jack = (note: string): Source => ({
  document: '29 CFR 1910.244',
  section: '(a)(2)(vi)',
  edition: '1 July 2011 annual edition',
  confidence: 'read',
  note,
});
const CAUTIONS = [
  'A strut or a jack that slips drops the load: crib as the load moves, nobody under it.',
  'Rated load legible; pins, collars and threads whole; no strap that is frayed or smells of fuel.',
];

export const strut: Family = {
  id: 'strut',
  title: 'Strut or jack',
  plural: 'Struts and jacks',
  attributes: [
    kind('strut', 'strut with jack', 'jack', 'base plate', 'ratchet strap', 'extension'),
    { key: 'ratedLoad_lb', title: 'Rated load', type: 'whole', unit: 'lb' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [{ id: 'thorough inspection', title: 'Thorough inspection', readings: [] }],
  repairs: [
    repair('part replaced', 'Pin, strap, seal or thread replaced', ['thorough inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used under load', 'thorough inspection'),
    happening(
      'abnormal load or shock',
      'Abnormal load or shock',
      'thorough inspection',
      jack('Jacks: immediately before and immediately thereafter.'),
    ),
    happening(
      'back from special work',
      'Back from special work',
      'thorough inspection',
      jack('Jacks sent out for special work: when sent out and when returned.'),
    ),
  ],
  requirements: [
    duty({
      id: 'strut.jack-inspection',
      title: 'Jack inspection',
      activity: 'thorough inspection',
      appliesTo: [{ attribute: 'kind', in: ['jack', 'strut with jack'] }],
      clock: every({ months: 6 }),
      sources: [
        jack(
          'Each jack is thoroughly inspected: in constant or intermittent use at one place, once every six months.',
        ),
      ],
      force: 'law',
      bindings: osha('29 CFR 1910.244(a)(2)(vi)'),
      late: 'limits',
      who: 'A trained member; a jack out of order is tagged and not used until repaired.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'strut.inspection',
      title: 'Inspection',
      activity: 'thorough inspection',
      appliesTo: [{ attribute: 'kind', notIn: ['jack', 'strut with jack'] }],
      clock: every({ months: 12 }),
      sources: [
        ...YEARLY_BY_LAW,
        practice('Struts and straps after each use besides: common practice, no source.'),
      ],
      force: 'law',
      bindings: BRIGADE_BINDINGS,
      binds: BRIGADE_BINDS,
      late: 'notes',
      who: 'Trained members.',
      cautions: CAUTIONS,
    }),
    monthlyInWisconsin('strut.inspection', 'thorough inspection'),
  ],
};
