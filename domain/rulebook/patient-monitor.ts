/** Patient monitors and manual defibrillators. Makers' instructions. */
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
} from './duty.ts';
import type { Family } from './types.ts';

export const patientMonitor: Family = {
  id: 'patient-monitor',
  title: 'Patient monitor',
  plural: 'Patient monitors',
  attributes: [{ key: 'padsExpire', title: 'Pads expire', type: 'when' }, ...MADE_AND_IN_SERVICE],
  activities: [
    { id: 'readiness check', title: 'Readiness check', readings: [] },
    { id: 'service', title: 'Service', readings: [] },
  ],
  repairs: [
    repair('cable, battery or sensor', 'Cable, battery or sensor replaced', ['readiness check']),
    repair('electronics', 'Electronics repaired', ['service']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used on a patient', 'readiness check'),
    happening('dropped or wet', 'Dropped, wet or failed its self-test', 'service'),
  ],
  requirements: [
    duty({
      id: 'patient-monitor.readiness-check',
      title: 'Readiness check',
      activity: 'readiness check',
      clock: every({ days: 1 }),
      // A daily duty is due today; a warning of it would always stand.
      warnDays: 0,
      satisfiedBy: ['readiness check', 'service'],
      sources: [maker('A self-test with a test load every day or shift is common.')],
      late: 'notes',
      who: 'The medic, at the start of duty: self-test, pads, cables, paper, both batteries.',
      cautions: ['A defibrillator under test gives a shock: only into the test load, nobody touching.'],
    }),
    duty({
      id: 'patient-monitor.service',
      title: 'Service',
      activity: 'service',
      clock: every({ months: 12 }),
      sources: [
        maker('A yearly preventive service is common.'),
        practice(
          'New York’s ambulance bureau asks agencies for a preventive maintenance policy with records; no interval.',
        ),
      ],
      late: 'limits',
      who: 'A biomedical technician trained by the maker.',
    }),
    duty({
      id: 'patient-monitor.pads',
      title: 'Pads',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'padsExpire' },
      sources: [printed('Replaced on or before the printed date.')],
      force: 'manufacturer',
      late: 'limits',
      who: 'The medic.',
    }),
  ],
};
