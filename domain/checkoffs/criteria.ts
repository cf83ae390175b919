/**
 * The walk-round of a rig as data: what is looked at, how it is answered, and what an answer does to the rig; it is
 * judged in `walk-round.ts`. The age of tires is no question here: it falls due by its date code
 * (domain/rulebook/apparatus-chassis).
 */
import { BRAKES } from './criteria-brakes.ts';
import { LEAKS } from './criteria-leaks.ts';
import { dailyCheck, memory, practice, procedure, tread } from './criteria-sources.ts';
import { type Criterion, either } from './criterion.ts';

const TIRE_CAUTION =
  'A tire that is low or damaged may burst: stand to the side of it, and let a tire shop inflate it.';

const PUMP_CAUTION =
  'Chock the wheels and set the brake first; stand clear of outlets and couplings under pressure.';

const TIRES: readonly Criterion[] = [
  {
    id: 'tires.steering-tread',
    title: 'Steering tires: tread',
    group: 'tires',
    question: 'How deep is the least tread on the steering axle?',
    answer: { kind: 'reading', unit: '/32 in' },
    told: 'Tire tread # on the steering axle',
    out: { under: '4' },
    limited: null,
    noted: null,
    source: tread('(b)'),
  },
  {
    id: 'tires.other-tread',
    title: 'Other tires: tread',
    group: 'tires',
    question: 'How deep is the least tread on any other axle?',
    answer: { kind: 'reading', unit: '/32 in' },
    told: 'Tire tread # on another axle',
    out: { under: '2' },
    limited: null,
    noted: null,
    source: tread('(c)'),
  },
  {
    id: 'tires.condition',
    title: 'Tires: condition',
    group: 'tires',
    question: 'Is any tire flat, bulging, or cut to the cord?',
    answer: either('sound', 'flat, bulging or cut'),
    told: 'A tire is #',
    out: { is: ['flat, bulging or cut'] },
    limited: null,
    noted: null,
    source: memory('49 CFR 393.75', '(a)', 'no flat tire, none with a bulge, none with its cord exposed.'),
    caution: TIRE_CAUTION,
  },
];

const LIGHTS: readonly Criterion[] = [
  {
    id: 'lights.headlights',
    title: 'Headlights',
    group: 'lights',
    question: 'Do both headlights work, low beam and high?',
    answer: {
      kind: 'choice',
      values: ['both work', 'one out', 'both out'].map(value => ({ value, title: value })),
    },
    told: 'Headlights: #',
    out: { is: ['both out'] },
    limited: null,
    noted: {
      is: ['one out'],
      source: practice('The procedures say “headlights out”; of one alone the department decides.'),
    },
    source: procedure('Headlights out: out of service.'),
  },
  {
    id: 'lights.warning',
    title: 'Warning lights',
    group: 'lights',
    question: 'How many warning lights are out?',
    answer: { kind: 'reading', unit: '' },
    told: 'Warning lights out: #',
    out: { over: '3' },
    limited: null,
    noted: { over: '0', source: practice('Written up for repair: common practice, no source.') },
    source: procedure('More than three warning lights out: out of service.'),
  },
  {
    id: 'lights.other',
    title: 'Turn, stop, marker and backup lights',
    group: 'lights',
    question: 'Do the turn signals, stop, marker and backup lights work?',
    answer: either('all work', 'some out'),
    told: 'Turn, stop, marker and backup lights: #',
    out: null,
    limited: null,
    noted: { is: ['some out'] },
    source: practice('Lights are on the daily walk-round (read); what some out do to a rig was not seen.'),
  },
  {
    id: 'lights.siren',
    title: 'Siren and horn',
    group: 'lights',
    question: 'Do the siren and the horn sound?',
    answer: either('both sound', 'one or both silent'),
    told: 'Siren and horn: #',
    out: null,
    limited: { is: ['one or both silent'] },
    noted: null,
    source: practice(
      'Warning devices are on the daily walk-round (read); that a silent one limits is common practice.',
    ),
    caution: 'Warn whoever stands near, and wear hearing protection.',
  },
];

const REST: readonly Criterion[] = [
  {
    id: 'electrical.charging',
    title: 'Charging',
    group: 'electrical',
    question: 'Does the system charge with the engine running?',
    answer: either('charges', 'does not charge'),
    told: 'The electrical system #',
    out: { is: ['does not charge'] },
    limited: null,
    noted: null,
    source: procedure('Charging failure: out of service.'),
  },
  {
    id: 'fluids.fuel',
    title: 'Fuel',
    group: 'fluids',
    question: 'Is the tank at three quarters or more?',
    answer: either('three quarters or more', 'under three quarters'),
    told: 'Fuel #',
    out: null,
    limited: null,
    noted: { is: ['under three quarters'] },
    source: dailyCheck('One department’s policy: never under three quarters.'),
  },
  {
    id: 'fluids.oil',
    title: 'Engine oil level',
    group: 'fluids',
    question: 'Where does the oil stand on the dipstick?',
    answer: {
      kind: 'choice',
      values: ['between the marks', 'under the low mark', 'over the full mark'].map(v => ({
        value: v,
        title: v,
      })),
    },
    told: 'Engine oil #',
    out: null,
    limited: null,
    noted: { is: ['under the low mark', 'over the full mark'] },
    source: practice('Oil is on the daily walk-round (read); what a level does to a rig was not seen.'),
    caution: 'Engine off and level, and as long after running as its maker says.',
  },
  {
    id: 'fluids.water',
    title: 'Water tank',
    group: 'fluids',
    question: 'Can you see that the water tank is full?',
    answer: either('visibly full', 'not full'),
    mayLack: true,
    told: 'Water tank #',
    out: null,
    limited: null,
    noted: { is: ['not full'] },
    source: dailyCheck('The water tank is visibly full.'),
  },
  {
    id: 'steering.play',
    title: 'Steering',
    group: 'steering',
    question: 'Does the wheel turn freely, without more play than usual?',
    answer: either('as usual', 'loose or binding'),
    told: 'Steering #',
    out: { is: ['loose or binding'] },
    limited: null,
    noted: null,
    source: memory('NFPA 1911', 'ch. 6', 'steering defects are among the out-of-service criteria.'),
  },
  {
    id: 'pump.engages',
    title: 'Pump engages',
    group: 'pump',
    question: 'Does the pump engage, and make pressure?',
    answer: either('engages and makes pressure', 'does not'),
    mayLack: true,
    told: 'Pump: #',
    out: null,
    limited: { is: ['does not'] },
    noted: null,
    source: practice(
      'Engaged and pressurized on the daily check (read); that a rig whose pump fails is limited, and not out, is common practice.',
    ),
    caution: PUMP_CAUTION,
  },
  {
    id: 'pump.pressure',
    title: 'Pump pressure',
    group: 'pump',
    question: 'What pressure does the pump hold for 30 seconds?',
    answer: { kind: 'reading', unit: 'psi' },
    mayLack: true,
    told: 'Pump holds # for 30 s',
    out: null,
    limited: { under: '150' },
    noted: null,
    source: {
      ...dailyCheck(
        'One department’s guideline: 150 psi held for 30 s (read). That falling short of it limits the rig is common practice.',
      ),
      confidence: 'common practice',
    },
    caution: PUMP_CAUTION,
  },
];

/** The walk-round as it ships, in the order it is walked. A department may judge by a list of its own. */
export const CRITERIA: readonly Criterion[] = [...LEAKS, ...BRAKES, ...TIRES, ...LIGHTS, ...REST];
