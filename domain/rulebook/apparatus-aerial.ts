/** What a rig's aerial device owes: ladder, platform, boom or water tower. */
import { nfpa1911, practice, wac, yearly } from './apparatus-sources.ts';
import type { Condition, RepairKind, Requirement, Source, Trigger } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const AERIAL: readonly Condition[] = [
  { attribute: 'aerial', in: ['ladder', 'platform', 'boom', 'water tower'] },
];
/** A ladder or quint whose aerial is not on file is taken to have one. */
const UNTOLD: readonly Condition[] = [
  { attribute: 'kind', in: ['ladder', 'quint'] },
  { attribute: 'aerial', known: false },
];

const DUE = nfpa1911(
  '19.1.1',
  'read second-hand',
  'Annually; after major repair; after unusual stress or load; where use may have exceeded the maker’s limits.',
  '2007 and later (ch. 23 of NFPA 1910)',
);
const NDT = nfpa1911(
  '19.1.2',
  'read second-hand',
  'At least every 5 years; after a suspicious finding; whenever more certainty is wanted.',
  '2007 and later (ch. 23 of NFPA 1910)',
);
const WAC_YEAR = wac(
  'WAC 296-305-04510',
  '(3)(a)',
  'All devices, and the section of the rig that supports the turntable, at least once every year.',
);
const WAC_NDT = wac(
  'WAC 296-305-04510',
  '(3)(b)',
  'By a certified testing agency every five years, with the section that supports the turntable.',
);
const WAC_ACCIDENT = wac(
  'WAC 296-305-04510',
  '(3)(c)',
  'After any accident that causes structural damage, tested and all defects corrected before it returns.',
);

const TESTERS = 'A certified testing agency, or people the maker and the AHJ accept.';
const NDT_TESTERS =
  'Level II or higher in the method under ASNT CP-189, of a third-party body accredited to ISO/IEC 17020: NFPA 1910 (2024) 23.2.2 and 23.3, read second-hand.';
const NDT_ASKED = 'Nondestructive testing Level II (ASNT CP-189)';
const AERIAL_CAUTIONS = [
  'Outriggers set on firm ground with their pads, wheels chocked, nobody under the device or the load.',
  'At least 10 ft from lines of up to 50 kV, and farther from higher ones.',
  'Within the maker’s limits of load, wind and slope; the rated load, never a stability load, for the yearly test.',
];

const aerialTest = yearly({
  id: 'apparatus.aerial-test',
  title: 'Aerial inspection and test',
  activity: 'aerial test',
  appliesTo: AERIAL,
  sources: [DUE, WAC_YEAR],
  bindings: [{ reach: { states: ['WA'] }, cite: 'WAC 296-305-04510(3)(a)' }],
  binds:
    'Where the department has adopted NFPA 1911 or 1910; the yearly inspection is law in Washington State.',
  late: 'blocks',
  who: TESTERS,
  cautions: AERIAL_CAUTIONS,
});

const aerialNdt = yearly({
  id: 'apparatus.aerial-ndt',
  title: 'Aerial nondestructive testing',
  activity: 'aerial NDT',
  appliesTo: AERIAL,
  clock: {
    kind: 'since last',
    every: { months: 60 },
    first: { counts: 'in service', plus: { months: 60 } },
  },
  warnDays: warnDaysFor({ months: 60 }),
  sources: [NDT, WAC_NDT],
  bindings: [{ reach: { states: ['WA'] }, cite: 'WAC 296-305-04510(3)(b)' }],
  binds: 'Where the department has adopted NFPA 1911 or 1910; law in Washington State.',
  late: 'blocks',
  who: NDT_TESTERS,
  asks: NDT_ASKED,
  cautions: AERIAL_CAUTIONS,
});

export const AERIAL_REQUIREMENTS: readonly Requirement[] = [
  aerialTest,
  {
    ...aerialTest,
    id: 'apparatus.aerial-test-untold',
    title: 'Aerial inspection and test, device not on file',
    appliesTo: UNTOLD,
  },
  aerialNdt,
  {
    ...aerialNdt,
    id: 'apparatus.aerial-ndt-untold',
    title: 'Aerial nondestructive testing, device not on file',
    appliesTo: UNTOLD,
  },
  yearly({
    id: 'apparatus.waterway',
    title: 'Aerial waterway check',
    activity: 'waterway check',
    appliesTo: [{ attribute: 'waterway', is: true }],
    satisfiedBy: ['waterway check', 'aerial test'],
    coveredBy: ['apparatus.aerial-test'],
    sources: [
      nfpa1911(
        'aerial waterway',
        'memory',
        'Tightness, relief valve and flowmeter yearly, with the aerial test.',
      ),
    ],
    late: 'limits',
    who: TESTERS,
    cautions: AERIAL_CAUTIONS,
  }),
];

const happening = (id: string, title: string, owes: string, source: Source): Trigger => ({
  id,
  title,
  owes,
  source,
});

export const AERIAL_TRIGGERS: readonly Trigger[] = [
  happening('aerial unusual stress', 'Aerial: unusual stress or load', 'aerial test', DUE),
  happening(
    'aerial suspected overuse',
    'Aerial: may have been used beyond the maker’s limits',
    'aerial test',
    DUE,
  ),
  happening(
    'aerial suspect finding',
    'Aerial: suspicious finding at an inspection or load test',
    'aerial NDT',
    NDT,
  ),
  happening('aerial heat', 'Aerial: exposed to flame or high heat', 'aerial NDT', practice()),
  happening('aerial electrical contact', 'Aerial: touched an energized line', 'aerial NDT', practice()),
  happening(
    'aerial structural accident',
    'Aerial: accident with structural damage',
    'aerial NDT',
    WAC_ACCIDENT,
  ),
];

export const AERIAL_REPAIRS: readonly RepairKind[] = [
  { kind: 'aerial major repair', title: 'Aerial: major repair', owes: ['aerial test'], source: DUE },
  {
    kind: 'aerial structural repair',
    title: 'Aerial: repair of the structure, a weld or the turntable',
    owes: ['aerial test', 'aerial NDT'],
    source: WAC_ACCIDENT,
  },
  {
    kind: 'aerial minor repair',
    title: 'Aerial: lamp, hose, label or other minor repair',
    owes: ['operational check'],
    source: practice(),
  },
];
