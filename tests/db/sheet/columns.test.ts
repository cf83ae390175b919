/** Headings told from their words and from what stands under them. Headings: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { fieldsOf, guessFamily } from '../../../db/files/sheet/index.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { columnsOf, gridOf, read } from './sheets.ts';

/** A sheet of one heading with values that suit it, beside a number. */
async function fieldFor(family: string, heading: string, values: string[]) {
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const rows = values.map((value, i) => `X-${i + 1},${quoted(value)}`);
  const reading = await read(family, `Number,${quoted(heading)}\n${rows.join('\n')}\n`);
  return reading.columns[1]?.field;
}

const DATES = ['5/6/2026', '5/7/2026'];
const MONTHS = ['08/2019', 'Sep-20'];

describe.each([
  [
    'hose',
    'diameter_in',
    ['1 3/4', '2.5'],
    [
      'Dia',
      'Dia.',
      'Diam (in)',
      'Diameter',
      'Size',
      'Hose Size',
      'I.D.',
      'Inside Diameter',
      'ID (in)',
      'Bore',
      'DIAMATER',
      'HoseSize',
      'hose_size',
      'Nominal Size',
    ],
  ],
  [
    'hose',
    'length_ft',
    ['50', "100'"],
    [
      'Length',
      'Len',
      'Len.',
      'Section Length',
      'Length (ft)',
      'Length ft',
      'Lgth',
      'Lenght',
      'Footage',
      'Feet',
      'Length, feet',
      'LENGTH_FT',
    ],
  ],
  ['hose', 'use', ['Attack', 'Supply'], ['Use', 'Kind', 'Type', 'Hose Type', 'Usage', 'Class']],
  [
    'hose',
    'maker',
    ['Maker A', 'Maker B'],
    ['Maker', 'Make', 'Mfg', 'Mfr', 'Mfr.', 'Manufacturer', 'Manufactuer', 'Brand', 'Made by', 'Mfg by'],
  ],
  [
    'hose',
    'made',
    MONTHS,
    [
      'Made',
      'DOM',
      'D.O.M.',
      'Date of Manufacture',
      'Mfg',
      'Mfg Date',
      'Mfr Date',
      'Manufactured',
      'Date Made',
      'Mfd',
      'Year Made',
      'Born',
      'Built',
      'Manufacture Date (mm/yy)',
      'DateOfMfg',
    ],
  ],
  [
    'hose',
    'inService',
    DATES,
    [
      'In Svc',
      'In Service',
      'Placed in service',
      'Put in Svc',
      'Date Placed In Service',
      'In-Service Date',
      'In Serv.',
      'Service Date',
      'Date in Service',
      'INSERVICEDATE',
    ],
  ],
  [
    'hose',
    'last service test',
    DATES,
    [
      'Last Test',
      'Last Tested',
      'Test Date',
      'Date Tested',
      'Tested',
      'Hydro',
      'Last Hydro',
      'Service Test',
      'Annual Test',
      'Proof',
      'Retest',
      'Pressure Test',
      'Date',
      'Last Service Test Date',
      'LASTTEST',
      'Most Recent Test',
      'Date of last test',
    ],
  ],
  [
    'hose',
    'outcome service test',
    ['P', 'Fail'],
    [
      'Result',
      'Results',
      'P/F',
      'Pass/Fail',
      'PASS / FAIL',
      'Pass?',
      'Status',
      'Test Result',
      'Passed',
      'OK?',
      'Outcome',
      'Test Results (P/F)',
    ],
  ],
  [
    'hose',
    'testPressure_psi',
    ['300', '250'],
    ['Test PSI', 'PSI', 'Test Pressure', 'Pressure', 'Test Press.', 'Tested at (psi)', 'Svc Test PSI'],
  ],
  [
    'hose',
    'place',
    ['Engine 31', 'Truck 3'],
    [
      'Location',
      'Loc',
      'Apparatus',
      'Truck',
      'Unit',
      'Unit/Location',
      'Assigned',
      'Assigned To',
      'Rig',
      'Vehicle',
      'Engine',
      'Where',
      'Current Location',
    ],
  ],
  ['hose', 'remarks', ['wet', 'gasket'], ['Remarks', 'Notes', 'Comments', 'Comment', 'Misc.']],
  [
    'hose',
    'last inspection',
    DATES,
    ['Inspection', 'Last Insp', 'Insp. Date', 'Visual', 'Last Visual', 'Inspected'],
  ],
  [
    'hose',
    'agency',
    ['J. Smith', 'Acme Testing'],
    ['Tested By', 'Tester', 'By', 'Vendor', 'Test Company', 'Inspector'],
  ],
  ['ladder', 'type', ['Roof', 'Ext.'], ['Type', 'Kind', 'Ladder Type', 'Style', 'Description']],
  ['ladder', 'length_ft', ["24'", '14 ft'], ['Length', 'Size', 'Length ft', 'Ladder Size', 'Len']],
  ['ladder', 'material', ['Alum.', 'Wood'], ['Material', "Mat'l", 'Construction', 'Matl.', 'Made of']],
  [
    'ladder',
    'heatLabelExpires',
    ['2028', '08/2029'],
    [
      'Heat label expires',
      'Label exp.',
      'Exp',
      'Heat Sensor Exp',
      'Heat Sensor Label Expiration Date',
      'Heat label',
      'Label Expiration',
    ],
  ],
  [
    'ladder',
    'last inspection',
    DATES,
    ['Last visual', 'Visual', 'Monthly Inspection', 'Inspected', 'Last Insp.', 'Visual Insp'],
  ],
  [
    'ladder',
    'last service test',
    DATES,
    [
      'Last service test',
      'Load test',
      'Test Date',
      'Last Test',
      'Annual test',
      'Last load test',
      'Strength test',
    ],
  ],
  [
    'cylinder',
    'spec',
    ['DOT-SP 10915', '3AA'],
    ['Spec', 'DOT #', 'DOT Spec', 'Specification', 'Permit', 'DOT', 'Cyl Type', 'SP #', 'Special Permit'],
  ],
  [
    'cylinder',
    'servicePressure_psi',
    ['4500', '2216'],
    [
      'Svc PSI',
      'Service Pressure',
      'Working pressure',
      'WP',
      'W.P.',
      'Press',
      'PSI',
      'Pressure',
      'Rated Pressure',
      'Pressure Rating',
      'Max PSI',
    ],
  ],
  [
    'cylinder',
    'ratedDuration_min',
    ['30', '45 min'],
    ['Rated min', 'Minutes', 'Duration', 'Rating', 'Time', 'Size', 'Rated Duration (min)', 'Mins'],
  ],
  [
    'cylinder',
    'last requalification',
    MONTHS,
    [
      'Last hydro',
      'Hydro',
      'Last Hydro Date',
      'Retest',
      'Requal',
      'Hydro Date',
      'Last Retest',
      'Hydrostatic Test',
      'Test Date',
      'Last Test',
      'Hydrotest',
      'Hydro (mo/yr)',
    ],
  ],
  ['cylinder', 'made', MONTHS, ['Mfr date', 'DOM', 'Mfg', 'Born', 'Made', 'Manufacture Date', 'Mfg. Date']],
  [
    'cylinder',
    'rin',
    ['B456', 'A123'],
    ['RIN', 'Retester ID', 'RIN #', 'Requalifier', 'Hydro by', 'Tested by'],
  ],
  [
    'cylinder',
    'serial',
    ['T904413', 'A674644'],
    ['Serial', 'S/N', 'SN', 'Serial #', 'Serial No.', 'Cyl Serial', 'Ser. No.', 'SERIALNO'],
  ],
  [
    'cylinder',
    'construction',
    ['Carbon', 'Steel'],
    ['Construction', 'Material', 'Wrap', 'Type', 'Bottle Type'],
  ],
  [
    'pack',
    'last flow test',
    DATES,
    [
      'Flow Test',
      'Last Flow',
      'Flow',
      'Flow Test Date',
      'Annual Flow',
      'Last Flow Test',
      'Test Date',
      'Bench Test',
    ],
  ],
  ['pack', 'last inspection', DATES, ['Inspection', 'Monthly Insp', 'Last Insp.', 'Monthly']],
  ['pack', 'edition', ['2018', '2013 ed.'], ['NFPA', 'Edition', 'NFPA Edition', 'NFPA Year']],
] as const)('%s: %s', (family, field, values, headings) => {
  it.each(headings)('is headed “%s”', async heading => {
    expect(await fieldFor(family, heading, [...values])).toBe(field);
  });
});

describe('the number', () => {
  it.each([
    ['hose', 'Hose No'],
    ['hose', 'Hose #'],
    ['hose', 'Hose ID'],
    ['hose', 'HOSENO'],
    ['hose', 'Tag #'],
    ['hose', 'Asset Tag'],
    ['hose', 'ID'],
    ['hose', 'No.'],
    ['hose', 'Section #'],
    ['hose', 'Barcode'],
    ['hose', 'Item #'],
    ['hose', 'Hose'],
    ['ladder', 'Ladder ID'],
    ['ladder', 'Ladder'],
    ['cylinder', 'Cyl #'],
    ['cylinder', 'Bottle'],
    ['cylinder', 'Bottle #'],
    ['cylinder', 'Tank No'],
    ['pack', 'Pack #'],
    ['pack', 'SCBA'],
  ])('of a %s is headed “%s”', async (family, heading) => {
    const reading = await read(family, `${heading},Remarks\nA-1,x\nA-2,y\n`);
    expect(reading.columns[0]?.field).toBe('number');
  });

  it('is the serial where the sheet has no other', async () => {
    const { rows } = await read('cylinder', 'S/N,Spec\nT1,3AA\nT2,3AA\n,3AA\n');
    expect(rows.map(r => [r.number, r.fields.serial])).toEqual([
      ['T1', 'T1'],
      ['T2', 'T2'],
      [null, null],
    ]);
    expect(rows[2]?.ok).toBe(false);
  });
});

describe('headings that are left aside', () => {
  it.each([
    ['hose', 'Next Test', DATES],
    ['hose', 'Next Test Due', DATES],
    ['hose', 'Due', DATES],
    ['hose', 'Hydro Exp', DATES],
    ['hose', 'Test Interval', ['12', '12']],
    ['hose', 'Out of Service Date', DATES],
    ['hose', 'Purchase Date', DATES],
    ['hose', 'PO Number', ['77', '78']],
    ['hose', 'Cost', ['100', '200']],
    ['hose', 'Reason', ['Dia: big', 'x']],
    ['cylinder', 'Next Hydro', DATES],
    ['cylinder', 'Hydro Due', DATES],
    ['cylinder', 'End of Life', DATES],
    ['ladder', 'Rung Condition', ['good', 'bent']],
    ['pack', 'Regulator S/N', ['R1', 'R2']],
    ['pack', 'Cylinder #', ['C1', 'C2']],
  ])('%s: “%s”', async (family, heading, values) =>
    expect(await fieldFor(family, heading, [...values])).toBeNull(),
  );
});

describe('what stands in a column tells it', () => {
  it('“Mfg” is a date or a maker', async () => {
    expect(await fieldFor('hose', 'Mfg', ['Maker A', 'Maker B'])).toBe('maker');
    expect(await fieldFor('hose', 'Mfg', MONTHS)).toBe('made');
  });

  it('“Test” is a date or a result', async () => {
    expect(await fieldFor('hose', 'Test', DATES)).toBe('last service test');
    expect(await fieldFor('hose', 'Test', ['P', 'F'])).toBe('outcome service test');
  });

  it('“Status” is a result or a condition', async () => {
    expect(await fieldFor('hose', 'Status', ['Pass', 'Failed'])).toBe('outcome service test');
    expect(await fieldFor('hose', 'Status', ['In service', 'Retired'])).toBe('condition');
  });

  it('“In service” over Y and N is a condition', async () =>
    expect(await fieldFor('hose', 'In Service', ['Y', 'N'])).toBe('condition'));

  it('“Rating” and “Size” of a bottle are minutes or a pressure', async () => {
    expect(await fieldFor('cylinder', 'Rating', ['30', '45'])).toBe('ratedDuration_min');
    expect(await fieldFor('cylinder', 'Rating', ['4500', '2216'])).toBe('servicePressure_psi');
  });

  it('“Type” of hose is its use or its construction', async () =>
    expect(await fieldFor('hose', 'Type', ['DJ', 'Rubber', 'SJ'])).toBe('construction'));

  it('“I.D.” beside an asset tag is the inside diameter, alone the number', async () => {
    const both = await read('hose', 'Asset Tag,I.D.\nH-1,1.75\nH-2,2.5\nH-3,5\n');
    expect(columnsOf(both)).toEqual({ 'Asset Tag': 'number', 'I.D.': 'diameter_in' });
    const alone = await read('hose', 'I.D.,Length\n101,50\n102,50\n');
    expect(columnsOf(alone)).toEqual({ 'I.D.': 'number', Length: 'length_ft' });
  });

  it('a unit in the heading rules out what it does not measure', async () =>
    expect(await fieldFor('cylinder', 'Rating (psi)', ['300', '400'])).toBe('servicePressure_psi'));
});

describe('results stand beside their test', () => {
  it('each to the date on its left', async () => {
    const reading = await read('ladder', 'Ladder,Visual,OK?,Load test,P/F\nL-1,6/1/26,Fail,5/1/26,Pass\n');
    expect(reading.columns.map(c => c.field)).toEqual([
      'number',
      'last inspection',
      'outcome inspection',
      'last service test',
      'outcome service test',
    ]);
    expect(reading.rows[0]?.records.map(r => [r.activity, r.outcome])).toEqual([
      ['inspection', 'fail'],
      ['service test', 'pass'],
    ]);
  });

  it('not to a date that could not be placed', async () => {
    const reading = await read(
      'ladder',
      'ID,Date,Result,Date,Result\nL1,5/1/26,P,6/1/26,F\nL2,5/1/26,P,6/1/26,P\n',
    );
    expect(reading.columns.map(c => c.field)).toEqual([
      'number',
      'last service test',
      'outcome service test',
      null,
      null,
    ]);
    expect(reading.rows.map(r => r.fields['outcome service test'])).toEqual(['pass', 'pass']);
  });
});

describe('the person’s corrections', () => {
  const text = 'Hose,A,B,Dia\nH-1,50,5/6/26,3\nH-2,100,5/7/26,3\n';

  it('map a column that no heading tells', async () => {
    const before = await read('hose', text);
    expect(before.columns.map(c => c.field)).toEqual(['number', null, null, 'diameter_in']);
    const { rows } = await read('hose', text, { mapping: { '1': 'length_ft', '2': 'last service test' } });
    expect(rows.map(r => [r.becomes.length_ft, r.becomes.lastServiceTest])).toEqual([
      [50, '2026-05-06'],
      [100, '2026-05-07'],
    ]);
  });

  it('take a field from the column that was guessed for it', async () => {
    const { columns } = await read('hose', text, { mapping: { '1': 'diameter_in' } });
    expect(columns.map(c => c.field)).toEqual(['number', 'diameter_in', null, null]);
  });

  it('leave a column aside', async () => {
    const { rows } = await read('hose', text, { mapping: { '3': null } });
    expect(rows[0]?.becomes.diameter_in).toBeNull();
  });

  it('may give one test two dates', async () => {
    const two = 'Hose,Last test,Before\nH-1,5/6/26,5/1/25\n';
    const { rows } = await read('hose', two, { mapping: { '2': 'last service test' } });
    expect(rows[0]?.records.map(r => r.on)).toEqual(['2026-05-06', '2025-05-01']);
    expect(rows[0]?.becomes.lastServiceTest).toBe('2026-05-06');
  });
});

it.each(['hose', 'ladder', 'cylinder', 'pack', 'equipment'])(
  'every attribute, activity and reading of the %s book has a field',
  family => {
    const fields = fieldsOf(family).map(f => f.field);
    const book = familyOf(family);
    for (const a of book?.attributes ?? []) expect(fields).toContain(a.key);
    for (const activity of book?.activities ?? []) {
      expect(fields).toContain(`last ${activity.id}`);
      expect(fields).toContain(`outcome ${activity.id}`);
      for (const reading of activity.readings) expect(fields).toContain(reading.key);
    }
    expect(new Set(fields).size).toBe(fields.length);
  },
);

it.each([
  ['hose', 'Hose,Size,Length\n1,1.75,50\n'],
  ['ladder', 'Ladder #,Type,Length\n1,Roof,14\n2,Extension,24\n'],
  ['cylinder', 'Bottle #,Hydro,DOT\n1,5/24,3AA\n'],
  ['pack', 'SCBA,Cylinder #,Flow test\n1,C1,5/6/26\n'],
  ['hose', 'HOSENO,HOSESIZE,LASTTEST\n1,1.75,5/6/26\n'],
  [null, 'Name,Phone\nSmith,555\n'],
  [null, 'Compartment,Item,Qty\nCab,SCBA pack,5\n'],
])('a sheet is told for %s', async (family, text) => expect(guessFamily(await gridOf(text))).toBe(family));
