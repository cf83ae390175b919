/**
 * The rig itself: NFPA 1911 (its duties now printed in NFPA 1910). What it owes as a vehicle, for its pump, for its
 * aerial and for the systems it carries stands in the files beside this one.
 */
import { AERIAL_REPAIRS, AERIAL_REQUIREMENTS, AERIAL_TRIGGERS } from './apparatus-aerial.ts';
import { CHASSIS_REQUIREMENTS } from './apparatus-chassis.ts';
import { PUMP_REQUIREMENTS } from './apparatus-pump.ts';
import { nfpa1911, practice } from './apparatus-sources.ts';
import { nfpa1989, SYSTEM_REQUIREMENTS } from './apparatus-systems.ts';
import type { Attribute, Family } from './types.ts';

const REPAIR_TEST = nfpa1911(
  'performance tests',
  'memory',
  'After major repair of the pump or of what drives it, the pump is tested before return. That test is the yearly one: the next counts from it.',
);

const flag = (key: string, title: string): Attribute => ({ key, title, type: 'flag' });
const pounds = (key: string, title: string): Attribute => ({ key, title, type: 'whole', unit: 'lb' });

export const apparatus: Family = {
  id: 'apparatus',
  title: 'Rig',
  plural: 'Rigs',
  meters: ['miles', 'engine hours', 'pump hours', 'aerial hours'],
  attributes: [
    {
      key: 'kind',
      title: 'Kind',
      type: 'choice',
      choices: [
        { value: 'engine', title: 'Engine' },
        { value: 'quint', title: 'Quint' },
        { value: 'ladder', title: 'Ladder' },
        { value: 'rescue', title: 'Rescue' },
        { value: 'tender', title: 'Tender' },
        { value: 'brush', title: 'Brush' },
        { value: 'command', title: 'Command' },
        { value: 'ambulance', title: 'Ambulance' },
        { value: 'other', title: 'Other' },
      ],
    },
    {
      key: 'staffed',
      title: 'Crew around the clock',
      type: 'flag',
      note: 'A staffed rig is checked each day.',
    },
    { key: 'pump_gpm', title: 'Rated pump', type: 'whole', unit: 'gpm' },
    { key: 'tank_gal', title: 'Water tank', type: 'whole', unit: 'gal' },
    {
      key: 'aerial',
      title: 'Aerial device',
      type: 'choice',
      choices: [
        { value: 'none', title: 'None' },
        { value: 'ladder', title: 'Ladder' },
        { value: 'platform', title: 'Platform' },
        { value: 'boom', title: 'Articulating boom' },
        { value: 'water tower', title: 'Water tower' },
      ],
    },
    { key: 'aerial_ft', title: 'Aerial height', type: 'whole', unit: 'ft' },
    flag('waterway', 'Aerial waterway'),
    flag('foamSystem', 'Foam system'),
    flag('cafs', 'Compressed-air foam'),
    {
      key: 'airSystem',
      title: 'Breathing-air system',
      type: 'choice',
      choices: [
        { value: 'none', title: 'None' },
        { value: 'compressor', title: 'Compressor' },
        { value: 'cascade', title: 'Storage cylinders' },
        { value: 'both', title: 'Compressor and storage' },
      ],
    },
    flag('lineVoltage', 'Line voltage'),
    flag('winch', 'Winch'),
    pounds('gvwr_lb', 'Gross vehicle weight rating'),
    pounds('gawrFront_lb', 'Front axle rating'),
    pounds('gawrRear_lb', 'Rear axle rating'),
    {
      key: 'steerTiresMade',
      title: 'Date code of the steering tires',
      type: 'when',
      note: 'The oldest one, by the date code on its sidewall: 2318 is week 23 of 2018, so June 2018.',
    },
    {
      key: 'otherTiresMade',
      title: 'Date code of the other tires',
      type: 'when',
      note: 'The oldest one, by the date code on its sidewall.',
    },
    { key: 'stateInspectionExpires', title: 'State inspection expires', type: 'when' },
    { key: 'vin', title: 'VIN', type: 'text' },
    { key: 'maker', title: 'Maker', type: 'text' },
    { key: 'model', title: 'Model', type: 'text' },
    { key: 'made', title: 'Made', type: 'when' },
    { key: 'inService', title: 'In service', type: 'when' },
    { key: 'remarks', title: 'Remarks', type: 'text' },
  ],
  activities: [
    { id: 'operational check', title: 'Operational check', readings: [] },
    {
      id: 'inspection',
      title: 'Inspection and diagnostic check',
      readings: [
        { key: 'steerTread_32nds', title: 'Least steering tread', type: 'decimal', unit: '/32 in' },
        { key: 'otherTread_32nds', title: 'Least other tread', type: 'decimal', unit: '/32 in' },
      ],
    },
    {
      id: 'brake inspection',
      title: 'Brake inspection and test',
      readings: [{ key: 'airLoss_psi_per_min', title: 'Air lost in a minute', type: 'decimal', unit: 'psi' }],
    },
    {
      id: 'replacement of steering tires',
      title: 'Steering tires replaced',
      readings: [{ key: 'steerTread_32nds', title: 'Least steering tread', type: 'decimal', unit: '/32 in' }],
    },
    {
      id: 'replacement of other tires',
      title: 'Other tires replaced',
      readings: [{ key: 'otherTread_32nds', title: 'Least other tread', type: 'decimal', unit: '/32 in' }],
    },
    {
      id: 'weighing',
      title: 'Weighing',
      readings: [
        pounds('frontAxle_lb', 'Front axle'),
        pounds('rearAxle_lb', 'Rear axle'),
        pounds('total_lb', 'Total'),
      ],
    },
    {
      id: 'load correction',
      title: 'Load taken off or moved, and weighed again',
      readings: [
        pounds('frontAxle_lb', 'Front axle'),
        pounds('rearAxle_lb', 'Rear axle'),
        pounds('total_lb', 'Total'),
      ],
    },
    { id: 'preventive service', title: 'Preventive service', readings: [] },
    { id: 'service-age evaluation', title: 'Service-age evaluation', readings: [] },
    {
      id: 'pump test',
      title: 'Pump service test',
      readings: [
        { key: 'flow_gpm', title: 'Flow at 150 psi net', type: 'whole', unit: 'gpm' },
        { key: 'prime_s', title: 'Priming', type: 'whole', unit: 's' },
        { key: 'vacuumLoss_inHg', title: 'Vacuum lost in 5 min', type: 'decimal', unit: 'inHg' },
        { key: 'tankToPump_gpm', title: 'Tank-to-pump flow', type: 'whole', unit: 'gpm' },
      ],
    },
    {
      id: 'tank-to-pump flow test',
      title: 'Tank-to-pump flow test',
      readings: [{ key: 'tankToPump_gpm', title: 'Tank-to-pump flow', type: 'whole', unit: 'gpm' }],
    },
    {
      id: 'pump controls check',
      title: 'Pump controls check',
      readings: [{ key: 'intakeRelief_psi', title: 'Intake relief opened at', type: 'whole', unit: 'psi' }],
    },
    {
      id: 'aerial test',
      title: 'Aerial inspection and test',
      readings: [{ key: 'load_lb', title: 'Test load', type: 'whole', unit: 'lb' }],
    },
    { id: 'aerial NDT', title: 'Aerial nondestructive testing', readings: [] },
    { id: 'waterway check', title: 'Aerial waterway check', readings: [] },
    { id: 'low-voltage test', title: 'Low-voltage electrical test', readings: [] },
    { id: 'line-voltage test', title: 'Line-voltage electrical test', readings: [] },
    {
      id: 'foam proportioner test',
      title: 'Foam proportioner accuracy test',
      readings: [{ key: 'proportion_percent', title: 'Proportion', type: 'decimal', unit: '%' }],
    },
    { id: 'CAFS test', title: 'Compressed-air foam system test', readings: [] },
    { id: 'air sample', title: 'Breathing air sample', readings: [] },
    { id: 'air system test', title: 'Breathing-air system test', readings: [] },
    { id: 'stored air replacement', title: 'Stored breathing air replaced', readings: [] },
    { id: 'winch inspection', title: 'Winch inspection', readings: [] },
  ],
  repairs: [
    {
      kind: 'pump or pump drive',
      title: 'Pump, pump transmission or pump drive',
      owes: ['pump test'],
      source: REPAIR_TEST,
    },
    {
      kind: 'engine, with pump',
      title: 'Engine or transmission of a rig with a pump',
      owes: ['pump test'],
      source: REPAIR_TEST,
    },
    {
      kind: 'engine, no pump',
      title: 'Engine or transmission of a rig without a pump',
      owes: ['operational check'],
      source: practice(),
    },
    {
      kind: 'tank or tank-to-pump line',
      title: 'Water tank, tank-to-pump line or valve',
      owes: ['tank-to-pump flow test'],
      source: practice(),
    },
    {
      kind: 'pump controls',
      title: 'Gauge, governor, relief valve, primer or other pump control',
      owes: ['pump controls check'],
      source: practice(),
    },
    { kind: 'brakes', title: 'Brakes', owes: ['brake inspection'], source: practice() },
    {
      kind: 'steering, suspension or frame',
      title: 'Steering, suspension, axle or frame',
      owes: ['inspection'],
      source: practice(),
    },
    {
      kind: 'low voltage',
      title: 'Battery, alternator or low-voltage wiring',
      owes: ['low-voltage test'],
      source: practice(),
    },
    {
      kind: 'line voltage',
      title: 'Generator or line-voltage wiring',
      owes: ['line-voltage test'],
      source: practice(),
    },
    {
      kind: 'foam system',
      title: 'Foam system',
      owes: ['foam proportioner test'],
      source: practice(),
    },
    {
      kind: 'breathing-air system',
      title: 'Breathing-air compressor, filter or piping',
      owes: ['air sample'],
      source: nfpa1989('After alteration, maintenance or repair, and before and after a change of filters.'),
    },
    ...AERIAL_REPAIRS,
    {
      kind: 'lamp, body or other',
      title: 'Lamp, siren, door, body or other minor repair',
      owes: ['operational check'],
      source: practice(),
    },
    {
      kind: 'no fault found',
      title: 'No fault found',
      owes: [],
      source: practice('Common practice, no source; the reason is kept.'),
    },
  ],
  triggers: [
    {
      id: 'back from the shop',
      title: 'Back from the shop, or changed with a reserve rig',
      owes: 'operational check',
      source: practice('Departments’ procedures: a full check when a rig comes back or is changed.'),
    },
    { id: 'crash', title: 'In a crash', owes: 'inspection', source: practice() },
    {
      id: 'load added',
      title: 'Equipment or water added',
      owes: 'weighing',
      source: practice('Weighed again when the load has changed: common practice.'),
    },
    {
      id: 'pump overheated',
      title: 'Pump ran dry, overheated or froze',
      owes: 'pump test',
      source: practice(),
    },
    {
      id: 'air contamination suspected',
      title: 'Breathing air: contamination suspected',
      owes: 'air sample',
      source: nfpa1989('When contamination is suspected.'),
    },
    ...AERIAL_TRIGGERS,
  ],
  requirements: [
    ...CHASSIS_REQUIREMENTS,
    ...PUMP_REQUIREMENTS,
    ...AERIAL_REQUIREMENTS,
    ...SYSTEM_REQUIREMENTS,
  ],
};
