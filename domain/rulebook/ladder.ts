/** Ground ladders: NFPA 1932 (its duties now printed in NFPA 1930). */
import type { Family, Requirement, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa1932 = (section: string, confidence: Source['confidence'], note?: string): Source => ({
  document: 'NFPA 1932',
  section,
  edition: '2010 and later; carried into NFPA 1930 (2025)',
  confidence,
  ...(note ? { note } : {}),
});

const wac06006 = (section: string, note: string): Source => ({
  document: 'WAC 296-305-06006',
  section,
  edition: 'Washington State',
  confidence: 'read',
  note,
});

const TRIGGER_SOURCE = nfpa1932('7.1.6', 'read');
const trigger = (id: string, title: string) => ({ id, title, owes: 'service test', source: TRIGGER_SOURCE });

const TESTERS = 'Trained personnel or a tester the AHJ accepts.';

const LOAD_CAUTIONS = [
  'Keep hands and feet from under a loaded ladder; load by crane, jack or in small steps.',
  'Stop at the first crack, noise or twist.',
  'Metal ladders conduct: stay 10 ft or more from power lines.',
  'Never return a heat-exposed ladder on appearance alone.',
];

/** A load test that the yearly service test includes: it shows by itself only where it is owed by itself. */
function partOfServiceTest(of: {
  id: string;
  title: string;
  activity: string;
  types: readonly string[];
  note: string;
}): Requirement {
  return {
    id: of.id,
    family: 'ladder',
    title: of.title,
    activity: of.activity,
    appliesTo: [{ attribute: 'type', in: of.types }],
    clock: {
      kind: 'since last',
      every: { months: 12 },
      first: { counts: 'in service', plus: { months: 0 } },
    },
    dueAt: 'day',
    warnDays: warnDaysFor({ months: 12 }),
    satisfiedBy: [of.activity, 'service test'],
    countedOutcomes: ['pass'],
    coveredBy: ['ladder.service-test'],
    sources: [nfpa1932('ch. 7', 'read second-hand', of.note)],
    force: 'standard',
    binds: 'Where the department has adopted NFPA 1932.',
    late: 'blocks',
    who: TESTERS,
    cautions: LOAD_CAUTIONS,
  };
}

export const ladder: Family = {
  id: 'ladder',
  title: 'Ground ladder',
  plural: 'Ground ladders',
  attributes: [
    {
      key: 'type',
      title: 'Type',
      type: 'choice',
      choices: [
        { value: 'single', title: 'Single' },
        { value: 'roof', title: 'Roof' },
        { value: 'extension', title: 'Extension' },
        { value: 'folding', title: 'Attic or folding' },
        { value: 'combination', title: 'Combination' },
        { value: 'pompier', title: 'Pompier' },
      ],
    },
    { key: 'length_ft', title: 'Length', type: 'decimal', unit: 'ft' },
    {
      key: 'material',
      title: 'Material',
      type: 'choice',
      choices: [
        { value: 'aluminum', title: 'Aluminum' },
        { value: 'fiberglass', title: 'Fiberglass' },
        { value: 'wood', title: 'Wood' },
      ],
    },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'heatLabelExpires', title: 'Heat label expires', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    {
      id: 'service test',
      title: 'Service test',
      readings: [
        { key: 'load_lb', title: 'Test load', type: 'whole', unit: 'lb' },
        { key: 'permanentSet_in', title: 'Permanent set', type: 'decimal', unit: 'in' },
      ],
    },
    {
      id: 'hook test',
      title: 'Roof-hook load test',
      readings: [{ key: 'load_lb', title: 'Test load', type: 'whole', unit: 'lb' }],
    },
    {
      id: 'hardware test',
      title: 'Extension-hardware test',
      readings: [{ key: 'load_lb', title: 'Test load', type: 'whole', unit: 'lb' }],
    },
  ],
  repairs: [
    {
      kind: 'rung, beam or hardware',
      title: 'Rung, beam, rivet or hardware',
      owes: ['service test'],
      source: TRIGGER_SOURCE,
    },
    {
      kind: 'halyard',
      title: 'Halyard replaced',
      owes: ['inspection'],
      source: nfpa1932(
        '7.1.6',
        'read',
        'A halyard alone needs no service test; the function check is practice.',
      ),
    },
    {
      kind: 'heat label',
      title: 'Expired heat label replaced',
      owes: [],
      source: nfpa1932('', 'read second-hand', 'Label makers: an expired label is replaced.'),
    },
    {
      kind: 'roof hooks',
      title: 'Roof hooks, pawls or guides',
      owes: ['service test'],
      source: TRIGGER_SOURCE,
    },
    {
      kind: 'refinished',
      title: 'Varnish or gloss renewed',
      owes: ['inspection'],
      source: nfpa1932('6.1.3', 'common practice', 'The finish is on the inspection list; common practice.'),
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: nfpa1932('', 'common practice', 'Common practice, no source; the reason is kept.'),
    },
  ],
  triggers: [
    trigger('suspected unsafe', 'Suspected unsafe'),
    trigger('overload', 'Overloaded'),
    trigger('impact or unusual use', 'Impact or unusual use'),
    trigger('flame contact', 'Known or suspected flame contact'),
    trigger('heat label changed', 'A heat label has changed'),
    trigger('repair other than halyard', 'Repair other than the halyard'),
    {
      id: 'dark streaks',
      title: 'Dark streaks in a wood beam',
      owes: 'service test',
      source: wac06006('(4)', 'The ladder is removed from service and tested.'),
    },
    {
      id: 'used',
      title: 'Used',
      owes: 'inspection',
      source: nfpa1932('6.1.2', 'read', 'At least monthly and after each use.'),
    },
    {
      id: 'electrical contact',
      title: 'Touched an energized line',
      owes: 'service test',
      source: nfpa1932('7.1.6', 'common practice', 'An unusual use in the sense of 7.1.6: common practice.'),
    },
  ],
  requirements: [
    {
      id: 'ladder.service-test',
      family: 'ladder',
      title: 'Service test',
      activity: 'service test',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 0 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['service test'],
      countedOutcomes: ['pass'],
      sources: [nfpa1932('7.1.6', 'read', 'Before first service, annually, and after the listed events.')],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 1932; law in some states.',
      late: 'blocks',
      who: TESTERS,
      cautions: LOAD_CAUTIONS,
    },
    partOfServiceTest({
      id: 'ladder.hook-test',
      title: 'Roof-hook load test',
      activity: 'hook test',
      types: ['roof', 'pompier'],
      note: 'One of the three basic service tests. The 1,000 lb was read in a tester’s page; a pompier ladder is not bent: its service test is the load on its hook alone, for which take the maker’s figure.',
    }),
    partOfServiceTest({
      id: 'ladder.hardware-test',
      title: 'Extension-hardware test',
      activity: 'hardware test',
      types: ['extension', 'combination'],
      note: 'One of the three basic service tests: the pawls carry the load. The 1,000 lb is from memory.',
    }),
    {
      id: 'ladder.inspection',
      family: 'ladder',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 1 },
        first: { counts: 'in service', plus: { months: 1 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 1 }),
      satisfiedBy: ['inspection'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa1932('6.1.2', 'read', 'At least monthly and after each use.'),
        wac06006('(3)', 'At least monthly and after each use.'),
      ],
      force: 'standard',
      bindings: [{ reach: { states: ['WA'] }, cite: 'WAC 296-305-06006(3)' }],
      binds: 'Where the department has adopted NFPA 1932; law in Washington State.',
      late: 'limits',
      who: 'Trained members.',
      cautions: ['A heat label that looks good does not prove a ladder is sound.'],
    },
    {
      id: 'ladder.heat-label',
      family: 'ladder',
      title: 'Heat label',
      activity: 'heat label replacement',
      appliesTo: [{ attribute: 'heatLabelExpires', known: true }],
      clock: { kind: 'printed date', attribute: 'heatLabelExpires' },
      dueAt: 'month end',
      warnDays: 60,
      satisfiedBy: [],
      countedOutcomes: [],
      sources: [
        {
          document: 'Heat-sensor label makers',
          section: 'printed expiry',
          edition: '',
          confidence: 'read second-hand',
          note: 'A label past its printed expiry is replaced.',
        },
      ],
      force: 'manufacturer',
      binds: 'By the label maker.',
      late: 'notes',
      who: 'Trained members, with the label maker’s instructions.',
      cautions: ['A label that has tripped is another matter: out of service, load test, then a new label.'],
    },
  ],
};
