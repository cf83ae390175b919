/** Brakes of the walk-round. What concerns air is for a straight chassis; a tractor with a trailer has other figures. */
import { memory, outOfService2007, procedure } from './criteria-sources.ts';
import { type Criterion, either } from './criterion.ts';

const CHOCKS = 'Chock the wheels: a rig with its brakes released rolls.';
/** The policy’s quiz gives these beside the loss that it names out of service. */
const A_MUST = 'given as a must among the out-of-service criteria.';

export const BRAKES: readonly Criterion[] = [
  {
    id: 'brakes.audible-leak',
    title: 'Air leak heard',
    group: 'brakes',
    question: 'With the engine off, do you hear air leaking from the brakes?',
    answer: either('none heard', 'heard'),
    mayLack: true,
    told: 'Air leak of the brakes #',
    out: { is: ['heard'] },
    limited: null,
    noted: null,
    source: procedure('A brake air leak that can be heard: out of service.'),
  },
  {
    id: 'brakes.air-loss-released',
    title: 'Air loss, brakes released',
    group: 'brakes',
    question: 'Engine off, brakes released, straight chassis: how much air is lost in one minute?',
    answer: { kind: 'reading', unit: 'psi' },
    mayLack: true,
    told: 'Air loss with the brakes released # in 1 minute',
    out: { over: '2' },
    limited: null,
    noted: null,
    source: outOfService2007(
      'A local policy citing the 2007 edition: over 2 psi lost in a minute on a straight chassis with the engine off and the brakes released.',
    ),
    caution: CHOCKS,
  },
  {
    id: 'brakes.air-loss-applied',
    title: 'Air loss, brakes applied',
    group: 'brakes',
    question: 'Engine off, brakes applied, single vehicle: how much air is lost in one minute?',
    answer: { kind: 'reading', unit: 'psi' },
    mayLack: true,
    told: 'Air loss with the brakes applied # in 1 minute',
    out: { over: '3' },
    limited: null,
    noted: null,
    source: memory(
      'Commercial license test practice',
      '',
      '3 psi in a minute for a single vehicle. That more puts a rig out of service was not seen.',
    ),
    caution: CHOCKS,
  },
  {
    id: 'brakes.buildup',
    title: 'Air buildup',
    group: 'brakes',
    question: 'How long does the compressor take from 85 to 100 psi?',
    answer: { kind: 'reading', unit: 's' },
    mayLack: true,
    told: 'Air buildup from 85 to 100 psi in #',
    out: { over: '45' },
    limited: null,
    noted: null,
    source: outOfService2007(`A local policy citing the 2007 edition: 85 to 100 psi in 45 s, ${A_MUST}`),
    caution: CHOCKS,
  },
  {
    id: 'brakes.idle-pressure',
    title: 'Air at idle',
    group: 'brakes',
    question: 'At idle with the brakes applied, at what pressure does the air hold?',
    answer: { kind: 'reading', unit: 'psi' },
    mayLack: true,
    told: 'Air at idle with the brakes applied #',
    out: { under: '80' },
    limited: null,
    noted: null,
    source: outOfService2007(
      `A local policy citing the 2007 edition: 80 to 90 psi held at idle with the brakes applied, ${A_MUST} More than 90 psi is taken as held.`,
    ),
  },
  {
    id: 'brakes.parking',
    title: 'Parking brake',
    group: 'brakes',
    question: 'Does the parking brake hold?',
    answer: either('holds', 'does not hold'),
    told: 'Parking brake #',
    out: { is: ['does not hold'] },
    limited: null,
    noted: null,
    source: procedure('A parking brake that does not hold: out of service.'),
    caution: 'Nobody in front of the rig or behind it.',
  },
];
