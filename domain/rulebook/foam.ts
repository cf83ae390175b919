/** Foam concentrate by the container and lot. Proportioners on a rig are in `apparatus`, eductors among the appliances. */
import type { Family, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

const nfpa11 = (confidence: Source['confidence'], note: string): Source => ({
  document: 'NFPA 11',
  section: 'inspection, testing and maintenance',
  edition: '2016 and later',
  confidence,
  note,
});

const makers = (confidence: Source['confidence'], note: string): Source => ({
  document: 'Foam makers',
  section: 'storage and shelf life',
  edition: '',
  confidence,
  note,
});

const STORAGE = makers(
  'read second-hand',
  'Makers’ pages: heat, frost, mixing and open containers spoil it.',
);

export const foam: Family = {
  id: 'foam',
  title: 'Foam concentrate',
  plural: 'Foam concentrate',
  attributes: [
    {
      key: 'type',
      title: 'Type',
      type: 'choice',
      choices: [
        { value: 'class A', title: 'Class A' },
        { value: 'AFFF', title: 'AFFF' },
        { value: 'AR-AFFF', title: 'AR-AFFF' },
        { value: 'fluorine-free', title: 'Fluorine-free' },
        { value: 'fluorine-free AR', title: 'Fluorine-free, alcohol-resistant' },
        { value: 'protein', title: 'Protein' },
        { value: 'high expansion', title: 'High expansion' },
        { value: 'wetting agent', title: 'Wetting agent' },
        { value: 'training', title: 'Training foam' },
      ],
    },
    { key: 'proportion', title: 'Proportion', type: 'text', note: 'As printed: 0.5 %, 3 %, 3 x 6 %.' },
    {
      key: 'container',
      title: 'Container',
      type: 'choice',
      choices: [
        { value: 'pail', title: 'Pail' },
        { value: 'drum', title: 'Drum' },
        { value: 'tote', title: 'Tote' },
        { value: 'rig tank', title: 'Tank on a rig' },
      ],
    },
    { key: 'quantity_gal', title: 'Quantity', type: 'decimal', unit: 'gal' },
    { key: 'lot', title: 'Lot', type: 'text' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    {
      key: 'expires',
      title: 'Expiry date',
      type: 'when',
      note: 'As printed, or as the maker states for its lot.',
    },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    { id: 'inspection', title: 'Inspection', readings: [] },
    { id: 'quality test', title: 'Quality test', readings: [] },
  ],
  repairs: [
    {
      kind: 'container or tank',
      title: 'Container or tank resealed or changed',
      owes: ['inspection'],
      source: { ...STORAGE, confidence: 'common practice', note: 'Common practice, no source.' },
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: {
        ...STORAGE,
        confidence: 'common practice',
        note: 'Common practice, no source; the reason is kept.',
      },
    },
  ],
  triggers: [
    { id: 'frozen or overheated', title: 'Frozen or overheated', owes: 'quality test', source: STORAGE },
    {
      id: 'mixed or diluted',
      title: 'Mixed with another foam, or diluted',
      owes: 'quality test',
      source: STORAGE,
    },
    { id: 'found open', title: 'Found open or leaking', owes: 'quality test', source: STORAGE },
    { id: 'separated', title: 'Sediment, layers or thickening seen', owes: 'quality test', source: STORAGE },
  ],
  requirements: [
    {
      id: 'foam.expiry',
      family: 'foam',
      title: 'Expiry',
      activity: 'retirement',
      appliesTo: [{ attribute: 'expires', known: true }],
      clock: { kind: 'printed date', attribute: 'expires' },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 60 }),
      satisfiedBy: [],
      countedOutcomes: [],
      sources: [
        makers(
          'read second-hand',
          'Shelf life differs by type and maker; no span is assumed where none is printed.',
        ),
      ],
      force: 'manufacturer',
      binds: 'By the maker.',
      late: 'limits',
      who: 'Company officer takes it off the rig; disposal by the department’s environmental rules.',
      cautions: ['Never pour concentrate down a drain. Fluorinated foam may be barred from use or disposal.'],
    },
    {
      id: 'foam.quality-test',
      family: 'foam',
      title: 'Quality test',
      activity: 'quality test',
      appliesTo: [
        { attribute: 'type', notIn: ['class A', 'wetting agent', 'training'] },
        { attribute: 'container', notIn: ['pail', 'drum'] },
      ],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['quality test'],
      countedOutcomes: ['pass'],
      sources: [
        nfpa11(
          'read second-hand',
          'Foam is tested at least annually by its maker or an independent laboratory. The standard is written for fixed systems; for a rig’s tank it is a benchmark. Sealed pails and drums are left to their printed date: common practice.',
        ),
      ],
      force: 'standard',
      binds: 'Where the department has adopted NFPA 11 for its foam.',
      late: 'notes',
      who: 'The maker or an independent laboratory, from a sample taken by its instructions.',
      cautions: [],
    },
    {
      id: 'foam.inspection',
      family: 'foam',
      title: 'Inspection',
      activity: 'inspection',
      appliesTo: [],
      clock: {
        kind: 'since last',
        every: { months: 12 },
        first: { counts: 'in service', plus: { months: 12 } },
      },
      dueAt: 'day',
      warnDays: warnDaysFor({ months: 12 }),
      satisfiedBy: ['inspection', 'quality test'],
      countedOutcomes: ['pass', 'fail'],
      coveredBy: ['foam.quality-test'],
      sources: [
        makers('common practice', 'Common practice, no source: sealed, labeled, level full, no sediment.'),
      ],
      force: 'practice',
      binds: 'The department’s own practice.',
      late: 'notes',
      who: 'Trained members.',
      cautions: ['Gloves and eye protection: concentrate strips skin and stings eyes.'],
    },
  ],
};
