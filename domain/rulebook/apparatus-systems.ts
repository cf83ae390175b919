/** What the systems a rig may carry owe: electrical, foam, compressed-air foam, breathing air and winch. */
import { nfpa1911, TECHNICIAN, TECHNICIAN_ASKED, yearly } from './apparatus-sources.ts';
import type { Requirement, Source } from './types.ts';

/** Which systems have performance tests, and that these are annual, was read in trade press; what is told beside it was not. */
const tested = (system: string, note: string): Source =>
  nfpa1911(
    `performance tests, ${system}`,
    'read second-hand',
    `Trade press on the 2007 edition: yearly performance tests, with those of this system newly added. ${note}`.trim(),
    '2007',
  );

export const nfpa1989 = (note: string): Source => ({
  document: 'NFPA 1989',
  section: 'periodic air samples',
  edition: '2019',
  confidence: 'read second-hand',
  note,
});

export const SYSTEM_REQUIREMENTS: readonly Requirement[] = [
  yearly({
    id: 'apparatus.low-voltage',
    title: 'Low-voltage electrical test',
    activity: 'low-voltage test',
    appliesTo: [],
    sources: [
      tested('low-voltage electrical', 'Batteries, starter, alternator at full load, and the load analysis.'),
    ],
    late: 'limits',
    who: TECHNICIAN,
    asks: TECHNICIAN_ASKED,
    cautions: ['Batteries vent explosive gas: eye protection, and no spark near them.'],
  }),
  yearly({
    id: 'apparatus.line-voltage',
    title: 'Line-voltage electrical test',
    activity: 'line-voltage test',
    appliesTo: [{ attribute: 'lineVoltage', is: true }],
    sources: [
      tested(
        'line voltage',
        'Load run of the generator, wiring, receptacles and ground-fault protection; the 900 V dielectric test of new or altered wiring is from memory.',
      ),
    ],
    late: 'limits',
    who: 'A technician qualified for line voltage.',
    cautions: ['Line voltage kills. Lock out and prove dead before any cover is opened.'],
  }),
  yearly({
    id: 'apparatus.foam-proportioner',
    title: 'Foam proportioner accuracy test',
    activity: 'foam proportioner test',
    appliesTo: [{ attribute: 'foamSystem', is: true }],
    sources: [
      tested(
        'foam proportioning',
        'From the set rate to 30 % over it, or one percentage point, is from memory.',
      ),
    ],
    late: 'notes',
    who: 'Trained personnel with a calibrated method, or a testing agency.',
    cautions: ['Collect what is flowed; local rules may forbid foam in drains and on soil.'],
  }),
  yearly({
    id: 'apparatus.cafs',
    title: 'Compressed-air foam system test',
    activity: 'CAFS test',
    appliesTo: [{ attribute: 'cafs', is: true }],
    sources: [tested('compressed-air foam', '')],
    late: 'limits',
    who: TECHNICIAN,
    asks: TECHNICIAN_ASKED,
    cautions: ['A line charged with air but no foam kicks violently when it is opened.'],
  }),
  {
    id: 'apparatus.air-sample',
    family: 'apparatus',
    title: 'Breathing air sample',
    activity: 'air sample',
    appliesTo: [{ attribute: 'airSystem', in: ['compressor', 'both'] }],
    clock: {
      kind: 'since last',
      every: { months: 3 },
      first: { counts: 'in service', plus: { months: 0 } },
    },
    dueAt: 'day',
    warnDays: 30,
    satisfiedBy: ['air sample'],
    countedOutcomes: ['pass'],
    sources: [
      nfpa1989(
        'Laboratories’ pages: quarterly by an accredited laboratory, and when contamination is suspected. A failed sample takes the system out of service. That a new system is sampled before use is common practice.',
      ),
    ],
    force: 'standard',
    binds: 'Where the department has adopted NFPA 1989.',
    late: 'blocks',
    who: 'Trained members take the sample; an accredited laboratory analyzes it.',
    cautions: ['Nobody breathes air of a system whose sample failed.'],
  },
  yearly({
    id: 'apparatus.air-system',
    title: 'Breathing-air system test',
    activity: 'air system test',
    appliesTo: [{ attribute: 'airSystem', in: ['compressor', 'cascade', 'both'] }],
    sources: [tested('breathing-air system', 'The storage cylinders have dates of their own.')],
    late: 'limits',
    who: 'The maker’s technician, or one the maker accepts.',
    cautions: ['High-pressure air: relieve it before any fitting is loosened; a whipping hose kills.'],
  }),
  yearly({
    id: 'apparatus.stored-air',
    title: 'Stored breathing air replaced',
    activity: 'stored air replacement',
    appliesTo: [{ attribute: 'airSystem', in: ['cascade', 'both'] }],
    sources: [
      nfpa1989('A service company’s summary: air stored in steel cylinders is replaced at least annually.'),
    ],
    binds: 'Where the department has adopted NFPA 1989.',
    late: 'limits',
    who: 'Trained members, from a source whose sample passed.',
    cautions: ['Bleed slowly and outdoors; fill only cylinders in date.'],
  }),
  yearly({
    id: 'apparatus.winch',
    title: 'Winch inspection',
    activity: 'winch inspection',
    appliesTo: [{ attribute: 'winch', is: true }],
    sources: [
      nfpa1911('winch', 'memory', 'Checked yearly as its maker says: rope, hook, brake, fairlead, controls.'),
    ],
    late: 'notes',
    who: 'Trained personnel, by the maker’s instructions.',
    cautions: ['Nobody near a rope under load; it is put out with gloves and a damper.'],
  }),
];
