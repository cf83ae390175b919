/**
 * Portable fire extinguishers: 29 CFR 1910.157 and NFPA 10. What a type owes stands in `extinguisher-types.ts`, when
 * an extinguisher is tested, examined inside and thrown away in `extinguisher-shell.ts`.
 */
import {
  DESTRUCTION,
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
import { CAUTIONS, nfpa10, osha157, SHELL, TECHNICIAN } from './extinguisher-shell.ts';
import { CO2, TYPES } from './extinguisher-types.ts';
import type { Family } from './types.ts';

const NEVER_TESTED = osha157('(f)(2)', 'Never tested: removed from service and from the workplace.');

export const extinguisher: Family = {
  id: 'extinguisher',
  title: 'Extinguisher',
  plural: 'Extinguishers',
  attributes: [
    {
      key: 'type',
      title: 'Type',
      type: 'choice',
      choices: TYPES.map(({ value, title }) => ({ value, title })),
    },
    { key: 'rating', title: 'Rating', type: 'text', note: 'As on the label: 2-A:10-B:C.' },
    { key: 'charge_lb', title: 'Agent when full', type: 'decimal', unit: 'lb' },
    {
      key: 'fullWeight_lb',
      title: 'Weight when full',
      type: 'decimal',
      unit: 'lb',
      note: 'The whole extinguisher as marked on it; what is lost is a share of the agent, not of this.',
    },
    {
      key: 'hose',
      title: 'Hose',
      type: 'choice',
      choices: [
        { value: 'none', title: 'No hose' },
        { value: 'open', title: 'Hose with open end or horn' },
        { value: 'shut-off', title: 'Hose with shut-off nozzle' },
      ],
      note: 'A hose with a shut-off nozzle at its end is tested with its extinguisher.',
    },
    {
      key: 'testDue',
      title: 'Hydrostatic test due by its label',
      type: 'when',
      note: 'Only where the type is not known.',
    },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    { id: 'maintenance', title: 'Annual maintenance', readings: [] },
    {
      id: 'weighing',
      title: 'Weighing',
      readings: [{ key: 'weight_lb', title: 'Weight', type: 'decimal', unit: 'lb' }],
    },
    { id: 'internal examination', title: 'Internal examination', readings: [] },
    { id: 'recharge', title: 'Recharge', readings: [] },
    {
      id: 'hydrostatic test',
      title: 'Hydrostatic test',
      readings: [{ key: 'testPressure_psi', title: 'Test pressure', type: 'whole', unit: 'psi' }],
    },
    {
      id: 'hose test',
      title: 'Hose test',
      readings: [
        {
          key: 'hosePressure_psi',
          title: 'Test pressure',
          type: 'whole',
          unit: 'psi',
          note: 'Carbon dioxide 1,250 psi in a cage; dry chemical and dry powder 300 psi.',
        },
      ],
    },
    { id: 'conductivity test', title: 'Hose conductivity test', readings: [] },
  ],
  repairs: [
    repair('pin, seal or tag', 'Pin, seal, tag or bracket', ['inspection']),
    repair('valve or gauge', 'Valve, gauge or siphon tube', ['maintenance']),
    repair('hose or nozzle', 'Hose, horn or nozzle', ['maintenance']),
    NO_FAULT_FOUND,
  ],
  triggers: [
    happening('used', 'Used, even for a moment', 'recharge', practice()),
    happening('pressure lost', 'Gauge out of range, seal broken or leaking', 'maintenance', practice()),
    happening(
      'corrosion or mechanical injury',
      'New corrosion or mechanical injury',
      'hydrostatic test',
      osha157('(f)(4)', 'Tested early, whatever the date.'),
    ),
    happening(
      'heat',
      'Aluminum shell suspected of more than 350 °F',
      'hydrostatic test',
      nfpa10(
        '8.1.5',
        'Out of service and tested. A DOT cylinder of aluminum that was over-heated is condemned: take the stricter.',
      ),
    ),
    happening('burned', 'Burned in a fire', DESTRUCTION, NEVER_TESTED),
    happening('shell repaired', 'Shell soldered, welded, brazed or patched', DESTRUCTION, NEVER_TESTED),
    happening('threads damaged', 'Cylinder or shell threads damaged', DESTRUCTION, NEVER_TESTED),
    happening('pitting', 'Corrosion that has caused pitting', DESTRUCTION, NEVER_TESTED),
    happening(
      'calcium chloride in stainless',
      'Calcium chloride agent used in a stainless shell',
      DESTRUCTION,
      NEVER_TESTED,
    ),
    happening(
      'failed hydrostatic test',
      'Failed its hydrostatic test, or not fit for one',
      DESTRUCTION,
      osha157('(f)(14)', 'Removed from service and from the workplace.'),
    ),
  ],
  requirements: [
    duty({
      id: 'extinguisher.inspection',
      title: 'Inspection',
      activity: 'inspection',
      clock: every({ months: 1 }),
      // An annual maintenance looks at more than the monthly inspection does, and an internal examination includes both.
      satisfiedBy: ['inspection', 'maintenance', 'internal examination'],
      sources: [
        osha157('(e)(2)', 'Visually inspected monthly.'),
        {
          document: '29 CFR 1910.156',
          section: '(d)',
          edition: 'as printed in Michigan R 408.17312(2)',
          confidence: 'read second-hand',
          note: 'Fire brigades: portable extinguishers are inspected at least monthly.',
        },
        nfpa10('monthly inspection', 'The last twelve months are kept: month, year and person.'),
      ],
      force: 'law',
      bindings: [...osha('29 CFR 1910.157(e)(2)'), { reach: { states: ['MI'] }, cite: 'R 408.17312(2)' }],
      late: 'limits',
      who: 'Any member who was shown how: in place, seen, pin and seal, gauge, hose, no damage.',
      cautions: ['Carbon dioxide has no gauge: weigh it.'],
    }),
    monthlyInWisconsin('extinguisher.inspection', 'inspection', ['maintenance', 'internal examination']),
    duty({
      id: 'extinguisher.annual-maintenance',
      title: 'Annual maintenance',
      activity: 'maintenance',
      clock: every({ months: 12 }),
      satisfiedBy: ['maintenance', 'internal examination'],
      sources: [
        osha157(
          '(e)(3)',
          'Recorded; the record is kept one year after the last entry or the life of the shell, whichever is less.',
        ),
        nfpa10('annual maintenance'),
      ],
      force: 'law',
      bindings: osha('29 CFR 1910.157(e)(3)'),
      late: 'limits',
      who: TECHNICIAN,
      cautions: CAUTIONS,
    }),
    ...SHELL,
    duty({
      id: 'extinguisher.agent-lost',
      title: 'Agent lost',
      activity: 'recharge',
      appliesTo: [{ attribute: 'type', in: [CO2] }],
      clock: {
        kind: 'reading limit',
        reading: 'weight_lb',
        owedWhen: 'over',
        value: '10',
        percentOf: 'charge_lb',
        lostFrom: 'fullWeight_lb',
      },
      satisfiedBy: ['recharge'],
      countedOutcomes: ['pass'],
      sources: [
        {
          document: '46 CFR 107.235',
          section: '',
          edition: 'and the wording of a city fire code',
          confidence: 'read second-hand',
          note: 'Recharged when more than 10 % of the charge is lost. That the share is of the agent and not of the whole weight is partly from memory.',
        },
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 10; law on vessels.',
      late: 'blocks',
      who: TECHNICIAN,
      cautions: CAUTIONS,
    }),
    duty({
      id: 'extinguisher.hose-conductivity',
      title: 'Hose conductivity test',
      activity: 'conductivity test',
      appliesTo: [
        { attribute: 'type', in: [CO2] },
        { attribute: 'hose', notIn: ['none'] },
      ],
      clock: every({ months: 12 }),
      sources: [
        nfpa10('7.4', 'Tested each year: the bond in the hose keeps static from whoever holds the horn.'),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 10.',
      late: 'limits',
      who: TECHNICIAN,
      cautions: ['Never hold a carbon dioxide horn with a bare hand while it discharges.'],
    }),
  ],
};
