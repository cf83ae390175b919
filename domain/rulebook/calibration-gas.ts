/** Calibration gas by its lot: what proves a gas meter is good only to the date printed on it. */
import { duty, happening, MADE_AND_IN_SERVICE, NO_FAULT_FOUND, printed } from './duty.ts';
import type { Family } from './types.ts';

export const calibrationGas: Family = {
  id: 'calibration-gas',
  title: 'Calibration gas',
  plural: 'Calibration gas',
  attributes: [
    { key: 'lot', title: 'Lot', type: 'text' },
    { key: 'gases', title: 'Gases and amounts', type: 'text' },
    { key: 'expires', title: 'Expires', type: 'when' },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    {
      id: 'inspection',
      title: 'Inspection',
      readings: [{ key: 'pressure_psi', title: 'Pressure', type: 'whole', unit: 'psi' }],
    },
  ],
  repairs: [NO_FAULT_FOUND],
  triggers: [happening('damaged', 'Dropped or dented', 'inspection')],
  requirements: [
    duty({
      id: 'calibration-gas.expiry',
      title: 'Printed date',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: 'expires', needed: true },
      sources: [
        printed('The date printed on the cylinder with its lot is the last day on which it proves anything.'),
      ],
      force: 'manufacturer',
      late: 'limits',
      who: 'The officer in charge has it replaced; a meter calibrated with dead gas is calibrated again.',
      cautions: ['A cylinder under pressure: ventilate, secure it, and empty it before it is thrown away.'],
    }),
  ],
};
