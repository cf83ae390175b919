/** Portable radios. Trade practice. */
import {
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  NO_FAULT_FOUND,
  practice,
  repair,
} from './duty.ts';
import type { Family } from './types.ts';

export const radio: Family = {
  id: 'radio',
  title: 'Portable radio',
  plural: 'Portable radios',
  attributes: [
    kind('portable', 'remote microphone', 'pager'),
    { key: 'radioId', title: 'Radio ID', type: 'text' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'operational check', title: 'Operational check', readings: [] },
    { id: 'performance test', title: 'Performance test', readings: [] },
  ],
  repairs: [
    repair('antenna, knob or microphone', 'Antenna, knob or microphone', ['operational check']),
    repair('radio', 'Radio repaired or programmed', ['performance test']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('wet, heated or dropped', 'Wet, overheated or dropped', 'operational check'),
    happening('failed on scene', 'Failed on scene', 'performance test'),
  ],
  requirements: [
    duty({
      id: 'radio.operational-check',
      title: 'Operational check',
      activity: 'operational check',
      clock: every({ days: 1 }),
      // A daily duty is due today; a warning of it would always stand.
      warnDays: 0,
      satisfiedBy: ['operational check', 'performance test'],
      sources: [practice('Daily where it is staffed: common practice, no source.')],
      late: 'notes',
      where: { kinds: ['career', 'combination', 'private brigade'] },
      who: 'The member who carries it: transmit, receive, emergency button, channel, battery.',
    }),
    duty({
      id: 'radio.weekly-check',
      title: 'Operational check, weekly',
      activity: 'operational check',
      clock: every({ days: 7 }),
      satisfiedBy: ['operational check', 'performance test'],
      sources: [practice('Weekly where nobody is on duty: common practice, no source.')],
      late: 'notes',
      where: { kinds: ['volunteer'] },
      who: 'The member who carries it: transmit, receive, emergency button, channel, battery.',
    }),
    duty({
      id: 'radio.performance-test',
      title: 'Performance test',
      activity: 'performance test',
      appliesTo: [{ attribute: 'kind', notIn: ['remote microphone', 'pager'] }],
      clock: every({ months: 12 }),
      sources: [
        practice('Power, frequency and sensitivity measured once a year: common practice, no source.'),
      ],
      late: 'notes',
      who: 'A radio technician.',
    }),
  ],
};
