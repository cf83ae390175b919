/** SCBA facepieces issued to a member: fit test, inspection and cleaning, 29 CFR 1910.134. */
import {
  BEFORE_USE,
  duty,
  every,
  happening,
  MADE_AND_IN_SERVICE,
  monthlyInWisconsin,
  NO_FAULT_FOUND,
  osha,
  practice,
  repair,
} from './duty.ts';
import type { Binding, Condition, Family, Requirement, Source } from './types.ts';

const osha134 = (section: string, note?: string): Source => ({
  document: '29 CFR 1910.134',
  section,
  edition: '2015 annual edition',
  confidence: 'read',
  ...(note ? { note } : {}),
});
const MAINE_CLEANING: Source = {
  document: '26 M.R.S. 2105',
  section: '(2)',
  edition: 'Maine, as amended 2017',
  confidence: 'read',
  note: 'The facepiece is cleansed and sanitized after each use.',
};
const CLEANING_BINDS: readonly Binding[] = [
  ...osha('29 CFR 1910.134(h)(1)'),
  { reach: { states: ['ME'] }, cite: '26 M.R.S. 2105(2)' },
];

const SEAL = 'No beard, stubble, hair or spectacle temple under the sealing edge.';
/** What is not known to be a half facepiece is held to the figure of a full one, the higher of the two. */
const FULL: Condition = { attribute: 'kind', notIn: ['half'] };
const HALF: Condition = { attribute: 'kind', in: ['half'] };

/** A quantitative test under its figure is no pass, whatever the sheet says. */
const fitFactor = (id: string, title: string, kind: Condition, figure: string): Requirement =>
  duty({
    id,
    title,
    activity: 'fit test',
    appliesTo: [kind],
    clock: { kind: 'reading limit', reading: 'fitFactor', owedWhen: 'under', value: figure },
    satisfiedBy: ['fit test'],
    countedOutcomes: ['pass'],
    sources: [osha134('(f)(7)', `A quantitative test is passed at ${figure} or more.`)],
    force: 'law',
    bindings: osha('29 CFR 1910.134(f)(7)'),
    late: 'blocks',
    who: 'Whoever runs the fit test; another make, model or size is tried.',
    cautions: [SEAL],
  });

export const facepiece: Family = {
  id: 'facepiece',
  title: 'Facepiece',
  plural: 'Facepieces',
  attributes: [
    { key: 'wearer', title: 'Wearer', type: 'text', note: 'The member to whom it is issued.' },
    {
      key: 'kind',
      title: 'Kind',
      type: 'choice',
      choices: [
        { value: 'full', title: 'Full facepiece' },
        { value: 'half', title: 'Half facepiece' },
      ],
    },
    { key: 'size', title: 'Size', type: 'text' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    {
      id: 'fit test',
      title: 'Fit test',
      readings: [
        {
          key: 'method',
          title: 'Method',
          type: 'choice',
          choices: [
            { value: 'quantitative', title: 'Quantitative' },
            { value: 'qualitative', title: 'Qualitative' },
          ],
          note: 'The facepiece of an SCBA is tested in negative-pressure mode.',
        },
        {
          key: 'fitFactor',
          title: 'Fit factor',
          type: 'decimal',
          note: 'Of a quantitative test. Passed at 500 or more with a full facepiece, at 100 or more with a half one.',
        },
      ],
    },
    { id: 'inspection', title: 'Inspection', readings: [] },
    { id: 'cleaning', title: 'Cleaning, disinfection and inspection', readings: [] },
  ],
  repairs: [
    repair('lens, strap or voice part', 'Lens, head strap, voice diaphragm or nose cup', ['inspection']),
    repair('valve or regulator mount', 'Exhalation valve or regulator mount', ['inspection']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening(
      'used',
      'Used at an emergency or in training',
      'cleaning',
      osha134('(h)(1)', 'Emergency-use units are cleaned and disinfected after each use.'),
    ),
    happening(
      'another wearer',
      'Shared: before another wearer',
      'cleaning',
      osha134('(h)(1)', 'Shared units are cleaned and disinfected before each new wearer.'),
    ),
    happening(
      'facepiece changed',
      'The member changes to another make, model, style or size',
      'fit test',
      osha134('(f)(2)', 'A fit test before use, and whenever a different facepiece is used.'),
    ),
    happening('face changed', 'Dental work, scar, surgery or an obvious change of weight', 'fit test', {
      document: '29 CFR 1910.134',
      section: '(f)(3)',
      edition: '',
      confidence: 'memory',
      note: 'An additional fit test after a change of the face; from memory.',
    }),
    happening('suspected damage', 'Suspected leak or damage', 'inspection', practice()),
  ],
  requirements: [
    duty({
      id: 'facepiece.fit-test',
      title: 'Fit test',
      activity: 'fit test',
      clock: every({ months: 12 }, BEFORE_USE),
      sources: [
        osha134(
          '(f)(2); (f)(8) for the mode; (m)(2) for the record',
          'Before first use, whenever another facepiece is used, and at least annually; in negative-pressure mode. The record is kept until the next test.',
        ),
      ],
      force: 'law',
      bindings: osha('29 CFR 1910.134(f)(2)'),
      late: 'blocks',
      who: 'A person trained to run fit tests by the protocols of the rule.',
      cautions: [SEAL, 'Nobody goes on air in a facepiece that was not fitted on that member.'],
    }),
    fitFactor('facepiece.fit-factor-full', 'Fit factor under 500', FULL, '500'),
    fitFactor('facepiece.fit-factor-half', 'Fit factor under 100', HALF, '100'),
    duty({
      id: 'facepiece.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 1 }),
      satisfiedBy: ['inspection', 'cleaning'],
      sources: [osha134('(h)(3)(i)', 'At least monthly, and before and after each use.')],
      force: 'law',
      bindings: osha('29 CFR 1910.134(h)(3)(i)'),
      late: 'limits',
      who: 'The wearer.',
      cautions: ['Straps, lens, seal, exhalation valve and regulator mount; a doubt is a failure.'],
    }),
    monthlyInWisconsin('facepiece.inspection', 'inspection', ['cleaning']),
    duty({
      id: 'facepiece.cleaning',
      title: 'Cleaning',
      activity: 'cleaning',
      clock: { kind: 'after happenings' },
      sources: [
        osha134('(h)(1)', 'After each emergency use, and before another wearer uses it.'),
        MAINE_CLEANING,
      ],
      force: 'law',
      bindings: CLEANING_BINDS,
      late: 'blocks',
      who: 'The wearer, or whoever runs the wash.',
      cautions: ['Gloves and eye protection: soot and blood. Dry it out of the sun before it is stored.'],
    }),
  ],
};
