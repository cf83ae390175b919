/**
 * Compressed-gas and SCBA cylinders: 49 CFR 180.205, 180.207 and 180.209 Table 1; composite cylinders by their
 * special permit, else by construction. The tables stand in `cylinder-table.ts`, what the book has heard of permits in
 * `cylinder-permits.ts`, and what a use, a size or a single paragraph asks for in `cylinder-uses.ts`.
 */
import {
  CAUTIONS,
  CONSTRUCTION_PERIODS,
  cfr,
  everywhere,
  RIN_HOLDER,
  SPEC_PERIODS,
} from './cylinder-table.ts';
import { BY_USE } from './cylinder-uses.ts';
import { happening } from './duty.ts';
import type { Family } from './types.ts';
import { WARN_LIFE_DAYS, warnDaysFor } from './warnings.ts';

export { PERMIT_OFFERS, permitOffered } from './cylinder-permits.ts';
export { CONSTRUCTION_PERIODS, SPEC_PERIODS } from './cylinder-table.ts';

/** Owed by a cylinder that no test can bring back; only retirement ends it. */
export const CONDEMNATION = 'condemnation';

export const cylinder: Family = {
  id: 'cylinder',
  title: 'Cylinder',
  plural: 'Cylinders',
  attributes: [
    {
      key: 'spec',
      title: 'Specification or permit',
      type: 'text',
      note: 'As marked: 3AA, 3AL, DOT-SP 10915, DOT-E 7277.',
    },
    {
      key: 'construction',
      title: 'Construction',
      type: 'choice',
      choices: [
        { value: 'steel', title: 'Steel' },
        { value: 'aluminum', title: 'Aluminum' },
        { value: 'hoop', title: 'Hoop-wrapped' },
        { value: 'fiberglass', title: 'Full-wrap fiberglass' },
        { value: 'aramid', title: 'Full-wrap aramid' },
        { value: 'carbon', title: 'Full-wrap carbon' },
        { value: 'UN composite', title: 'UN composite' },
        { value: 'seamless', title: 'UN seamless' },
        { value: 'foreign', title: 'Foreign' },
      ],
    },
    { key: 'servicePressure_psi', title: 'Service pressure', type: 'whole', unit: 'psi' },
    { key: 'ratedDuration_min', title: 'Rated duration', type: 'whole', unit: 'min' },
    { key: 'gas', title: 'Gas', type: 'text' },
    { key: 'toxic', title: 'Toxic gas, division 2.3', type: 'flag' },
    {
      key: 'use',
      title: 'Use',
      type: 'choice',
      choices: [
        { value: 'SCBA', title: 'SCBA' },
        { value: 'cascade', title: 'Cascade or storage bank' },
        { value: 'medical oxygen', title: 'Medical oxygen' },
        { value: 'air bag', title: 'Lifting bag or air tool' },
        { value: 'extinguisher', title: 'Extinguisher' },
        { value: 'fixed system', title: 'Fixed carbon dioxide system' },
        { value: 'other', title: 'Other' },
      ],
    },
    {
      key: 'longerPeriod',
      title: 'Longer period',
      type: 'choice',
      choices: [
        { value: 'volumetric', title: 'Volumetric test, extinguisher or non-corrosive gas: (j) or (e)' },
        { value: 'proof', title: 'Extinguisher, proof test, mark S: (j)' },
      ],
      note: '4B, 4BA, 4B240ET and 4BW alone, where the requalifier’s mark or paper says so. Never carbon dioxide. Not set: five years.',
    },
    {
      key: 'dimensions',
      title: 'Dimensions',
      type: 'choice',
      choices: [
        { value: 'small', title: 'At most 2 in outside and under 2 ft long' },
        { value: 'ordinary', title: 'Larger' },
      ],
    },
    { key: 'charge_lb', title: 'Gas when full', type: 'decimal', unit: 'lb' },
    { key: 'fullWeight_lb', title: 'Weight when full', type: 'decimal', unit: 'lb' },
    { key: 'alloy', title: 'Liner or shell alloy', type: 'text' },
    { key: 'star', title: 'Star mark', type: 'flag', note: 'Five-point star after the last test date.' },
    { key: 'lifeLabel_months', title: 'Life printed on the label', type: 'whole', unit: 'months' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    {
      id: 'requalification',
      title: 'Requalification',
      outside: true,
      readings: [
        { key: 'testPressure_psi', title: 'Test pressure', type: 'whole', unit: 'psi' },
        { key: 'totalExpansion_cc', title: 'Total expansion', type: 'decimal', unit: 'cc' },
        { key: 'permanentExpansion_cc', title: 'Permanent expansion', type: 'decimal', unit: 'cc' },
      ],
    },
    { id: 'crack examination', title: 'Crack examination', outside: true, readings: [] },
    {
      id: 'inspection',
      title: 'Inspection',
      readings: [{ key: 'gauge_psi', title: 'Gauge', type: 'whole', unit: 'psi' }],
    },
    {
      id: 'recharge',
      title: 'Fill',
      readings: [
        { key: 'gauge_psi', title: 'Filled to', type: 'whole', unit: 'psi' },
        { key: 'from_psi', title: 'Filled from', type: 'whole', unit: 'psi' },
      ],
    },
    {
      id: 'weighing',
      title: 'Weighing',
      readings: [{ key: 'weight_lb', title: 'Weight', type: 'decimal', unit: 'lb' }],
    },
  ],
  repairs: [
    {
      kind: 'valve or gauge',
      title: 'Valve, gauge or O-ring',
      owes: ['inspection'],
      source: { ...cfr(''), confidence: 'common practice', note: 'Common practice, no source.' },
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: { ...cfr(''), confidence: 'common practice', note: 'Common practice, no source.' },
    },
  ],
  triggers: [
    {
      id: 'damage or accident',
      title: 'Damage, gouge, corrosion or accident',
      owes: 'requalification',
      source: cfr('180.205(d)'),
    },
    {
      id: 'overheated steel',
      title: 'Over-heated, steel or nickel: 650 F or more',
      owes: 'requalification',
      source: cfr('180.203, 180.205(d)'),
    },
    {
      // Nothing that can be recorded settles this: it is condemned, not tested.
      id: 'overheated aluminum',
      title: 'Over-heated, aluminum or aluminum-lined: 350 F or more; condemned, not tested',
      owes: CONDEMNATION,
      source: cfr(
        '180.203, 180.205(i)(1)(viii)',
        'The 2015 sentence can be read as covering special-permit cylinders only: ask the requalifier.',
      ),
    },
    happening(
      'tare lost',
      '4-series: leaking, bulged, or 5 % or more of its tare weight lost',
      'requalification',
      {
        ...cfr('180.209(c)', 'Requalified before it is filled again; from memory.'),
        confidence: 'memory',
      },
    ),
  ],
  meters: ['fills'],
  requirements: [
    {
      id: 'cylinder.requalification',
      family: 'cylinder',
      title: 'Requalification',
      activity: 'requalification',
      appliesTo: [
        // Both have requirements of their own in `cylinder-uses.ts`.
        { attribute: 'longerPeriod', notIn: ['proof'] },
        { attribute: 'dimensions', notIn: ['small'] },
      ],
      clock: { kind: 'cylinder period', specs: SPEC_PERIODS, constructions: CONSTRUCTION_PERIODS },
      dueAt: 'month end',
      warnDays: warnDaysFor({ months: 60 }),
      satisfiedBy: ['requalification'],
      countedOutcomes: ['pass'],
      sources: [
        cfr('180.205(c), 180.207, 180.209(a) Table 1'),
        {
          document: 'Special permits by construction',
          section: 'usual intervals',
          edition: '',
          confidence: 'read second-hand',
          note: 'Service firms and a 2012 Navy report; the permit or the label in hand decides.',
        },
      ],
      force: 'law',
      bindings: everywhere('180.205(c)'),
      binds: 'Every DOT or special-permit cylinder that is filled, everywhere in the United States.',
      late: 'blocks',
      who: RIN_HOLDER,
      cautions: CAUTIONS,
    },
    {
      id: 'cylinder.crack-examination',
      family: 'cylinder',
      title: 'Crack check, 6351-T6',
      activity: 'crack examination',
      appliesTo: [{ attribute: 'alloy', in: ['6351-T6', '6351'] }],
      clock: {
        kind: 'since last',
        every: { months: 60 },
        first: { counts: 'made', plus: { months: 60 } },
      },
      dueAt: 'month end',
      warnDays: warnDaysFor({ months: 60 }),
      satisfiedBy: ['crack examination'],
      countedOutcomes: ['pass'],
      sources: [
        cfr(
          '180.205(f)(4), 180.209(m)',
          'Sustained-load cracking, with each five-year requalification since 2007; marked VE.',
        ),
      ],
      force: 'law',
      bindings: everywhere('180.205(f)(4)'),
      binds: '6351-T6 aluminum in SCBA, SCUBA or oxygen service.',
      late: 'blocks',
      who: RIN_HOLDER,
      cautions: [...CAUTIONS, '6351-T6 cylinders have ruptured while being filled.'],
    },
    {
      id: 'cylinder.end-of-life',
      family: 'cylinder',
      title: 'End of life',
      activity: 'retirement',
      appliesTo: [],
      clock: { kind: 'cylinder life', specs: SPEC_PERIODS, constructions: CONSTRUCTION_PERIODS },
      dueAt: 'month end',
      warnDays: WARN_LIFE_DAYS,
      satisfiedBy: [],
      countedOutcomes: [],
      sources: [
        cfr('180.205(c)', 'A cylinder past its authorized life is never refilled, whatever its test mark.'),
        {
          document: 'Special permits by construction',
          section: 'fifteen years from manufacture',
          edition: '',
          confidence: 'read second-hand',
          note: 'Whether life ends with the start or the end of its month is a setting: choose with the AHJ.',
        },
      ],
      force: 'law',
      bindings: everywhere('180.205(c)'),
      binds: 'Composite cylinders under a special permit, everywhere in the United States.',
      late: 'blocks',
      who: 'Company officer pulls it; a RIN holder condemns and marks it.',
      cautions: CAUTIONS,
    },
    ...BY_USE,
  ],
};
