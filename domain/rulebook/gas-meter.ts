/** Portable gas meters: bump test, calibration, sensors and the datalog. */
import {
  BEFORE_USE,
  duty,
  every,
  happening,
  kind,
  MADE_AND_IN_SERVICE,
  maker,
  NO_FAULT_FOUND,
  practice,
  printed,
  repair,
} from './duty.ts';
import type { Attribute, Family, Source } from './types.ts';

const OSHA_BULLETIN: Source = {
  document: 'OSHA SHIB 11-26-2024',
  section: 'calibrating and testing direct-reading monitors',
  edition: '2024',
  confidence: 'read',
  note: 'Advice, not law: follow the maker, have procedures, and keep records that prove calibration.',
};
const MAKERS_ASSOCIATION: Source = {
  document: 'ISEA statement on portable gas monitors',
  section: '',
  edition: '2010, as quoted on public pages',
  confidence: 'read second-hand',
  note: 'A bump test or calibration check before each day’s use; a monitor that fails it gets a full calibration before use.',
};
const CAUTIONS = [
  'Never zero or calibrate in air that may be contaminated.',
  'Use gas within its printed date, at the flow the maker names, in a ventilated place.',
];
const GAS_LOT: Attribute = { key: 'gasLot', title: 'Lot of the gas', type: 'text' };

export const gasMeter: Family = {
  id: 'gas-meter',
  title: 'Gas meter',
  plural: 'Gas meters',
  attributes: [
    kind('single gas', 'multiple gas', 'photoionization', 'infrared', 'carbon monoxide', 'other'),
    { key: 'sensors', title: 'Sensors', type: 'text' },
    {
      key: 'sensorsExpire',
      title: 'Sensors replaced by',
      type: 'when',
      note: 'The earliest date of its sensors.',
    },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'bump test', title: 'Bump test or calibration check', readings: [GAS_LOT] },
    { id: 'full calibration', title: 'Full calibration', readings: [GAS_LOT] },
    { id: 'datalog saved', title: 'Datalog saved', readings: [] },
  ],
  repairs: [
    repair('sensor', 'Sensor replaced', ['full calibration']),
    repair('pump, filter or housing', 'Pump, filter or housing', ['bump test']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('failed bump test', 'Failed a bump test', 'full calibration', MAKERS_ASSOCIATION),
    happening(
      'overexposed, dropped or wet',
      'Overexposed, poisoned, dropped or wet',
      'full calibration',
      practice(
        'Common practice, no source. The makers’ association, as quoted, asks for a check whenever something may have harmed a sensor.',
      ),
    ),
    happening('alarm', 'Alarmed on scene', 'datalog saved'),
  ],
  requirements: [
    duty({
      id: 'gas-meter.bump-test',
      title: 'Bump test',
      activity: 'bump test',
      clock: every({ days: 1 }, BEFORE_USE),
      // Yesterday's counts for nothing today: it is due today, and no warning would say more.
      warnDays: 0,
      satisfiedBy: ['bump test', 'full calibration'],
      sources: [MAKERS_ASSOCIATION, OSHA_BULLETIN],
      late: 'limits',
      who: 'Whoever carries it, before each day of use.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'gas-meter.full-calibration',
      title: 'Full calibration',
      activity: 'full calibration',
      clock: every({ months: 1 }, BEFORE_USE),
      sources: [
        maker('Most makers are said to ask for every month, some for every three or six months.'),
        OSHA_BULLETIN,
      ],
      late: 'blocks',
      who: 'A member trained on it, by the maker’s procedure, with the lot of the gas written down.',
      cautions: CAUTIONS,
    }),
    duty({
      id: 'gas-meter.sensors',
      title: 'Sensor replacement',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'sensorsExpire' },
      sources: [printed('Sensors wear out in use and on the shelf.')],
      force: 'manufacturer',
      late: 'limits',
      who: 'A technician trained on it; a full calibration follows.',
    }),
    duty({
      id: 'gas-meter.datalog',
      title: 'Datalog',
      activity: 'datalog saved',
      clock: { kind: 'after happenings' },
      sources: [practice('Saved after an alarm, before it is overwritten: common practice, no source.')],
      late: 'notes',
      who: 'The officer in charge.',
    }),
  ],
};
