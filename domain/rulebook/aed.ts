/** Automated external defibrillators: printed dates, readiness, and one state's law. */
import {
  duty,
  every,
  happening,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  practice,
  printed,
  repair,
  stateLaw,
} from './duty.ts';
import type { Family, Source } from './types.ts';

const california = (section: string, note: string): Source => ({
  document: 'California Health and Safety Code 1797.196',
  section,
  edition: 'as amended for 2016',
  confidence: 'read',
  note,
});
const WHO = 'The crew: status lamp, pads, battery, razor, shears and barrier.';

export const aed: Family = {
  id: 'aed',
  title: 'AED',
  plural: 'AEDs',
  attributes: [
    { key: 'padsExpire', title: 'Adult pads expire', type: 'when' },
    { key: 'childPadsExpire', title: 'Child pads expire', type: 'when' },
    { key: 'batteryExpires', title: 'Battery install or replace by', type: 'when' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'readiness check', title: 'Readiness check', readings: [] },
    { id: 'operational test', title: 'Operational test', readings: [] },
  ],
  repairs: [
    repair('battery or pads', 'Battery or pads replaced', ['readiness check']),
    repair('maker repair', 'Repaired by the maker', ['operational test']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening(
      'used',
      'Used on a patient',
      'operational test',
      california(
        '(b)(1)(D)',
        'Tested after each use. Elsewhere it is practice: new pads, data saved, cleaned, tested.',
      ),
    ),
    happening('dropped or wet', 'Dropped, wet or status lamp bad', 'operational test'),
  ],
  requirements: [
    duty({
      id: 'aed.readiness-check',
      title: 'Readiness check',
      activity: 'readiness check',
      clock: every({ days: 7 }),
      satisfiedBy: ['readiness check', 'operational test'],
      sources: [
        practice('At every vehicle check, and so every week at the latest: common practice, no source.'),
      ],
      late: 'limits',
      who: WHO,
    }),
    duty({
      id: 'aed.inspection-california',
      title: 'Inspection, 90 days',
      activity: 'readiness check',
      clock: every({ days: 90 }),
      satisfiedBy: ['readiness check', 'operational test'],
      besides: 'aed.readiness-check',
      sources: [
        california(
          '(b)(1)(E)',
          'Inspected at least every 90 days for a blinking light or other obvious defect.',
        ),
      ],
      force: 'law',
      bindings: stateLaw('CA', 'Health and Safety Code 1797.196(b)(1)(E)'),
      binds: 'Law in California for whoever acquires an AED.',
      where: { states: ['CA'] },
      late: 'limits',
      who: WHO,
    }),
    duty({
      id: 'aed.operational-test',
      title: 'Operational test',
      activity: 'operational test',
      clock: every({ months: 6 }),
      sources: [
        california('(b)(1)(D)', 'Tested at least twice a year and after each use.'),
        maker('The test is the maker’s; most units test themselves besides.'),
      ],
      bindings: stateLaw('CA', 'Health and Safety Code 1797.196(b)(1)(D)'),
      binds: 'Law in California for whoever acquires an AED; elsewhere where the department has adopted it.',
      late: 'limits',
      who: 'A member trained on it; records are kept.',
    }),
    duty({
      id: 'aed.pads',
      title: 'Adult pads',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'padsExpire', needed: true },
      sources: [printed('Replaced on or before the printed date.')],
      force: 'manufacturer',
      late: 'limits',
      who: WHO,
    }),
    duty({
      id: 'aed.child-pads',
      title: 'Child pads',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'childPadsExpire' },
      sources: [printed('Replaced on or before the printed date.')],
      force: 'manufacturer',
      late: 'limits',
      who: WHO,
    }),
    duty({
      id: 'aed.battery',
      title: 'Battery',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'batteryExpires', needed: true },
      sources: [printed('Replaced on or before the printed date, or when the unit asks for it.')],
      force: 'manufacturer',
      late: 'limits',
      who: WHO,
    }),
  ],
};
