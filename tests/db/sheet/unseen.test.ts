/**
 * Whole sheets with the habits of departments: other headings, orders, units, titles, footers. Invented for these
 * tests from common practice; the expected values are written by hand from the sheet above them.
 */
import { describe, expect, it } from 'vitest';
import { codesOf, columnsOf, read, rowOf } from './sheets.ts';

const EUROPEAN = await read(
  'hose',
  [
    '\ufeffLarkspur Valley;;;;;;;;;',
    'Hose inventory 2026;;;;;;;;;',
    ';;;;;;;;;',
    'Asset Tag;I.D.;Section Length;Kind;Mfg;DOM;Placed in service;Proof;P/F;Apparatus',
    'H-001;1¾;50 feet;Attack;Maker A;Jun-19;15/07/2019;03/05/2026;PASS;E31',
    'H-002;2½";50’;ATTACK LINE;Maker A;2019;22/08/2019;28/04/2026;ok;E31',
    'H-003;65 mm;15,2 m;Supply;Maker A;06/2019;01/08/2019;30/04/2026;FAIL - leak;E31',
    'H-004;5” LDH;100 ft;LDH;Maker B;Q3 2019;01/08/2019;12/04/2026;X;E31',
    'Total;;350;;;;;;;',
    'Notes: H-003 to be recoupled;;;;;;;;;',
    '',
  ].join('\r\n'),
);

describe('a hose list from a European program: semicolons, commas in decimals, day first, a total', () => {
  const reading = EUROPEAN;

  it('finds the headings under the titles', () => expect(reading.headingLine).toBe(4));
  it('leaves no column unread', () => expect(reading.columns.every(c => c.field !== null)).toBe(true));

  it('reads the rows', () => {
    expect(rowOf(reading, 'H-001').becomes).toEqual({
      diameter_in: '1.75',
      length_ft: 50,
      made: '2019-06',
      inService: '2019-07-15',
      lastServiceTest: '2026-05-03',
      outcome: 'pass',
    });
    expect(rowOf(reading, 'H-003').becomes).toMatchObject({
      diameter_in: '2.5',
      length_ft: 50,
      outcome: 'fail',
    });
    expect(rowOf(reading, 'H-003').records[0]?.note).toBe('leak');
    expect(rowOf(reading, 'H-004').fields).toMatchObject({ diameter_in: '5.0', use: 'supply', made: '2019' });
  });

  it('refuses what is not said', () =>
    expect(codesOf(rowOf(reading, 'H-004'))).toEqual(['result unreadable']));
  it('lists the total and the note, and counts neither', () => {
    expect(reading.rows).toHaveLength(4);
    expect(reading.leftOut.map(l => l.line)).toEqual([9, 10]);
  });
});

const METRIC = await read(
  'hose',
  [
    'Station,Truck,Bed,Hose #,Dia. (mm),Length (m),Mfr,Mfg Dt,Date Placed In Service,Service Test Date,Pressure (bar),Pass,Fail,Next Test Due',
    '1,31,Crosslay 1,A1,38,15.24,Maker A,4/2016,2016-05-01,5/2/2026,20.7,X,,5/2/2027',
    '1,31,Crosslay 1,A2,45,15.24,Maker A,4/2016,2016-05-01,5/2/2026,20.7,,X,5/2/2027',
    '2,,Rack,A3,65,30.48,Maker A,4/2016,2016-05-01,5/2/2026,20.7,✓,,5/2/2027',
    '2,,Rack,A4,65,30.48,Maker A,4/2016,2016-05-01,5/2/2026,20.7,x,x,5/2/2027',
  ].join('\n'),
);

describe('a hose sheet with places in three columns, metric headings and ticks', () => {
  const reading = METRIC;

  it('puts the place together', () =>
    expect(reading.rows.map(r => r.details.place)).toEqual([
      'Truck 31 Crosslay 1',
      'Truck 31 Crosslay 1',
      'Station 2 Rack',
      'Station 2 Rack',
    ]));
  it('converts', () =>
    expect(
      reading.rows.map(r => [r.becomes.diameter_in, r.becomes.length_ft, r.details.testPressure_psi]),
    ).toEqual([
      ['1.5', 50, 300],
      ['1.75', 50, 300],
      ['2.5', 100, 300],
      ['2.5', 100, 300],
    ]));
  it('reads the ticks, and refuses two', () => {
    expect(reading.rows.map(r => r.becomes.outcome)).toEqual(['pass', 'fail', 'pass', null]);
    expect(codesOf(rowOf(reading, 'A4'))).toEqual(['result unreadable']);
  });
  it('takes no due date for a test', () => expect(columnsOf(reading)['Next Test Due']).toBeNull());
});

const MERGED = await read(
  'hose',
  [
    ',,,Service Test,,,Inspection,',
    'No,Dia,Len,Date,PSI,P/F,Date,P/F',
    'ENGINE 31,,,,,,,',
    '1,1.75,50,5/1/26,300,P,6/1/26,P',
    '2,1.75,50,5/1/26,300,F,6/1/26,',
    'ENGINE 32 (reserve):,,,,,,,',
    'No,Dia,Len,Date,PSI,P/F,Date,P/F',
    '3,1.75,50,,,,6/1/26,OK',
    'Page 2,,,,,,,',
    '4,1.75,50,5/1/26,300,P,,',
    'Tested by: J. Smith,,,Date:,5/1/26,,,',
  ].join('\n'),
);

describe('a hose record with merged headings, sections and headings printed again', () => {
  const reading = MERGED;

  it('reads the groups', () =>
    expect(reading.columns.map(c => c.field)).toEqual([
      'number',
      'diameter_in',
      'length_ft',
      'last service test',
      'testPressure_psi',
      'outcome service test',
      'last inspection',
      'outcome inspection',
    ]));
  it('takes the place from the titles between the rows', () =>
    expect(reading.rows.map(r => [r.number, r.details.place])).toEqual([
      ['1', 'ENGINE 31'],
      ['2', 'ENGINE 31'],
      ['3', 'ENGINE 32'],
      ['4', 'ENGINE 32'],
    ]));
  it('gives each test its record', () =>
    expect(rowOf(reading, '2').records).toEqual([
      {
        activity: 'service test',
        on: '2026-05-01',
        outcome: 'fail',
        readings: { testPressure_psi: 300 },
        note: null,
      },
      { activity: 'inspection', on: '2026-06-01', outcome: 'pass', readings: {}, note: null },
    ]));
  it('leaves out five lines', () => expect(reading.leftOut.map(l => l.line)).toEqual([3, 6, 7, 9, 11]));
});

const TWO_LINES = await read(
  'hose',
  '"Hose\nNumber",Diam.,Length,Last,Last,Test,Assigned\n,(in),(ft),Test,Inspection,Pressure,Unit\n31-1,1.75,50,5/1/26,6/1/26,300,E31\n',
);

describe('headings in two lines, the second of units', () => {
  const reading = TWO_LINES;

  it('are read together', () =>
    expect(columnsOf(reading)).toEqual({
      'Hose Number': 'number',
      'Diam. (in)': 'diameter_in',
      'Length (ft)': 'length_ft',
      'Last Test': 'last service test',
      Inspection: 'last inspection',
      'Test Pressure': 'testPressure_psi',
      'Assigned Unit': 'place',
    }));
  it('count no line of them as a row', () => expect(reading.rows.map(r => r.number)).toEqual(['31-1']));
});

const STAMPED = await read(
  'cylinder',
  [
    'Bottle #,S/N,DOT #,WP,Mins,Mfg Date (mm/yy),Last Hydro Date,Hydro by,Truck,Status',
    'B1,AB123,DOT-3AL2216,,30,0919,0924,B456,E1,In Service',
    'B2,AB124,E-7277,2216 psi,30 min,09/99,10/22,B456,E1,OOS',
    'B3,AB125,10915,310 bar,45,Sept 2012,08 A123 22,,E1,Retired',
    "B4,AB126,DOT-SP 10915-4500,,30,8/15/12,Aug '22,A123,E1,",
    'B5,AB127,sp 13583,4500psig,1 hr,2012,2022-08-15T00:00:00,A123,E1,Reserve',
    'B6,AB128,3AA2015,,30,16-Apr,08/2022,A123,E1,',
    'B7,1.23E+11,3AA*,2015,30,4/16,45142,A123,E1,blue',
  ].join('\n'),
);

describe('cylinders with stamps, statuses and marks that carry the pressure', () => {
  const reading = STAMPED;
  const becomes = (n: string) => rowOf(reading, n).becomes;

  it('reads them', () => {
    expect(becomes('B1')).toEqual({
      spec: '3AL',
      construction: null,
      servicePressure_psi: 2216,
      made: '2019-09',
      lastRequalification: '2024-09',
    });
    expect(becomes('B2')).toMatchObject({
      spec: 'DOT-E 7277',
      made: '1999-09',
      lastRequalification: '2022-10',
    });
    expect(becomes('B3')).toMatchObject({
      spec: 'DOT-SP 10915',
      servicePressure_psi: 4500,
      lastRequalification: '2022-08',
    });
    expect(becomes('B4')).toMatchObject({
      servicePressure_psi: 4500,
      made: '2012-08-15',
      lastRequalification: '2022-08',
    });
    expect(becomes('B5')).toMatchObject({ spec: 'DOT-SP 13583', lastRequalification: '2022-08-15' });
    expect(rowOf(reading, 'B5').fields.ratedDuration_min).toBe(60);
  });
  it('takes the RIN from its column or the stamp', () =>
    expect(reading.rows.map(r => r.fields.rin)).toEqual([
      'B456',
      'B456',
      'A123',
      'A123',
      'A123',
      'A123',
      'A123',
    ]));
  it('reads condition and assignment from the status', () => {
    expect(rowOf(reading, 'B2').fields.condition).toBe('tagged out');
    expect(rowOf(reading, 'B3').fields.condition).toBe('retired');
    expect(rowOf(reading, 'B5').fields.assignment).toBe('reserve');
    expect(rowOf(reading, 'B7').fields).toMatchObject({ condition: null, status: 'blue' });
  });
  it('refuses a month that the program has turned into a day', () =>
    expect(codesOf(rowOf(reading, 'B6'))).toEqual(['date unreadable']));
  it('keeps no serial that the program has shortened', () =>
    expect(rowOf(reading, 'B7').fields.serial).toBeNull());
});

describe('cylinders with month and year apart, several hydros and both marks', () => {
  it('puts month and year together', async () => {
    const { rows, columns } = await read(
      'cylinder',
      'Cylinder Number,Type,Cylinder Size,Manufacture Month,Manufacture Year,Hydro Mo,Hydro Yr\n1,Carbon,45 min,3,2015,4,2025\n2,Aluminum,30 min,Nov,01,,\n',
    );
    expect(rows.map(r => [r.becomes.construction, r.becomes.made, r.becomes.lastRequalification])).toEqual([
      ['carbon', '2015-03', '2025-04'],
      ['aluminum', '2001-11', null],
    ]);
    expect(columns.map(c => c.field).slice(3)).toEqual([
      'made',
      'made',
      'last requalification',
      'last requalification',
    ]);
  });

  it('records every hydro and takes the latest', async () => {
    const { rows } = await read(
      'cylinder',
      'Cyl ID,Spec,Size,Born,Hydro 1,Hydro 2,Hydro 3,EOL,Next Hydro\n1,SP 10915,4500/45,3/2012,3/2017,4/2022,,3/2027,4/2027\n2,E-9894,30 min,03-1998,2003,2006,2009,2013,n/a\n',
    );
    expect(rows.map(r => [r.becomes.lastRequalification, r.records.length])).toEqual([
      ['2022-04', 2],
      ['2009', 3],
    ]);
    expect(rows[0]?.fields).toMatchObject({ servicePressure_psi: 4500, ratedDuration_min: 45 });
  });
});

const LADDERS = await read(
  'ladder',
  [
    'Ground ladders - annual tests,,,,,,,,,',
    "Ladder,Size,Kind,Mat'l,Mfg year,Label exp.,Monthly visual,Load test,P/F,Assigned",
    'E31-24,24 ft,2-section ext.,Alum.,2015,2028,11/1/2026,4/15/26,Pass,Engine 31',
    "E31-14,14',Roof,AL,15,Oct 2028,11/1/2026,4/15/26,Pass,Engine 31",
    'E31-10,"10\' 0""",Attic,Fiberglass,Unknown,N/A,11/1/2026,4/15/26,Failed - bent hook,Engine 31',
    'T33-35,35,"Extension, 3 section",Wood,7/1/1990,exp 2027,11/1/2026,4/15/26,,Tower 33',
    'T33-16,tall,Roof,Wood,1990,13/2027,11/1/2026,4/15/26,,Tower 33',
  ].join('\n'),
);

describe('ladders', () => {
  const reading = LADDERS;

  it('reads them', () => {
    expect(reading.rows.map(r => [r.number, r.becomes.length_ft, r.fields.type, r.fields.material])).toEqual([
      ['E31-24', 24, 'extension', 'aluminum'],
      ['E31-14', 14, 'roof', 'aluminum'],
      ['E31-10', 10, 'folding', 'fiberglass'],
      ['T33-35', 35, 'extension', 'wood'],
      ['T33-16', null, 'roof', 'wood'],
    ]);
    expect(reading.rows.map(r => r.fields.heatLabelExpires)).toEqual(['2028', '2028-10', null, '2027', null]);
    expect(reading.rows.map(r => r.fields['outcome service test'])).toEqual([
      'pass',
      'pass',
      'fail',
      'pass',
      'pass',
    ]);
  });
  it('names every problem of a row', () =>
    expect(codesOf(rowOf(reading, 'T33-16'))).toEqual(['length unreadable', 'impossible date']));
});

const PACKS = await read(
  'pack',
  [
    'Pack No,Serial #,Mfr,Model,NFPA Edition,Date Mfd.,In Service,Date of Last Flow Test,Result,Low Air Alarm %,Insp. Date,Bottle PSI,Apparatus Assigned,Seat,Wkly check',
    '101,FF-88,Maker D,M7,2018,3/2019,4/1/2019,15 Mar 2026,Pass,33%,11/01/2026,4350,Engine 31,Officer,11/20/26',
    '102,FF-89,Maker D,M7,2018,3/2019,4/1/2019,15 Mar 2026,Fail – alarm,33,11/01/2026,"4,400",Engine 31,Driver,11/20/26',
    '103,FF-90,Maker D,M7,2013,,4/1/2014,never,,33,11/01/2026,0,Engine 31,FF 1,',
  ].join('\n'),
);

describe('packs', () => {
  const reading = PACKS;

  it('become', () =>
    expect(reading.rows.map(r => r.becomes)).toEqual([
      { made: '2019-03', inService: '2019-04-01', lastFlowTest: '2026-03-15', lastInspection: '2026-11-01' },
      { made: '2019-03', inService: '2019-04-01', lastFlowTest: '2026-03-15', lastInspection: '2026-11-01' },
      { made: null, inService: '2014-04-01', lastFlowTest: null, lastInspection: '2026-11-01' },
    ]));
  it('record', () =>
    expect(rowOf(reading, '102').records).toEqual([
      {
        activity: 'flow test',
        on: '2026-03-15',
        outcome: 'fail',
        readings: { alarm_percent: 33 },
        note: 'alarm',
      },
      {
        activity: 'inspection',
        on: '2026-11-01',
        outcome: 'pass',
        readings: { cylinder_psi: 4400 },
        note: null,
      },
      { activity: 'operational check', on: '2026-11-20', outcome: 'pass', readings: {}, note: null },
    ]));
  it('ride', () =>
    expect(rowOf(reading, '103').details).toMatchObject({ place: 'Engine 31 FF 1', edition: '2013' }));
});

describe('an export with headings run together or in program style', () => {
  it('HOSENO and LASTTESTDATE', async () => {
    const { rows } = await read(
      'hose',
      'HOSENO,HOSESIZE,LENGHT,MANUFACTUER,DATEOFMFG,INSERVICEDATE,LASTTESTDATE,PASSFAIL\n101,1.75,50,Maker A,5/15,6/1/15,5/6/26,P\n',
    );
    expect(rows[0]?.becomes).toEqual({
      diameter_in: '1.75',
      length_ft: 50,
      made: '2015-05',
      inService: '2015-06-01',
      lastServiceTest: '2026-05-06',
      outcome: 'pass',
    });
  });

  it('hose_id and manufacture_date, with null', async () => {
    const { rows } = await read(
      'hose',
      'hose_id;diameter_inch;length_feet;manufacture_date;last_service_test;test_result;assigned_unit;notes\nH1;1.75;50;2019-03-01T00:00:00Z;2026-05-06T13:22:11Z;PASSED;E31;null\nH2;2.5;50;null;null;null;E31;x\n',
    );
    expect(rows.map(r => [r.ok, r.becomes.made, r.becomes.lastServiceTest, r.becomes.outcome])).toEqual([
      [true, '2019-03-01', '2026-05-06', 'pass'],
      [true, null, null, null],
    ]);
    expect(rows.map(r => r.fields.remarks)).toEqual([null, 'x']);
  });
});

describe('a column a year', () => {
  it('of dates gives every test, the latest last', async () => {
    const { rows } = await read(
      'hose',
      'Hose,Size,2023 Test,2024 Test,2025 Test\n101,1.75,5/1/23,5/1/24,5/2/25\n102,1.75,5/1/23,,\n',
    );
    expect(rows.map(r => [r.records.length, r.becomes.lastServiceTest])).toEqual([
      [3, '2025-05-02'],
      [1, '2023-05-01'],
    ]);
  });

  it('of results gives a record of that year', async () => {
    const { rows } = await read('hose', 'Hose,Size,2023,2024,2025\n101,1.75,P,P,P\n102,1.75,P,F,\n');
    expect(rows.map(r => [r.records.map(x => [x.on, x.outcome]), r.becomes.outcome])).toEqual([
      [
        [
          ['2023', 'pass'],
          ['2024', 'pass'],
          ['2025', 'pass'],
        ],
        'pass',
      ],
      [
        [
          ['2023', 'pass'],
          ['2024', 'fail'],
        ],
        'fail',
      ],
    ]);
  });
});

describe('a test-day sheet whose date stands in the title', () => {
  const sheet = (title: string) =>
    `${title}\nHose #,Size,Length,P/F,Comments\n1,1.75,50,P,\n2,1.75,50,F,burst\n3,1.75,50,,\n`;

  it('takes it for the rows that have a result, and says so', async () => {
    const reading = await read('hose', sheet('Station 31,,,,\nTest Date: May 6 2026,,,,'));
    expect(reading.titleDate).toEqual({ line: 2, text: 'May 6 2026' });
    expect(reading.rows.map(r => [r.becomes.lastServiceTest, r.becomes.outcome])).toEqual([
      ['2026-05-06', 'pass'],
      ['2026-05-06', 'fail'],
      [null, null],
    ]);
  });

  it('in the cell beside its label', async () =>
    expect((await read('hose', sheet('Date:,5/6/26,,,'))).titleDate).toEqual({ line: 1, text: '5/6/26' }));

  it('is not taken from a title that names no test', async () => {
    const reading = await read('hose', sheet('Printed 5/6/2026,,,,'));
    expect(reading.titleDate).toBeNull();
    expect(codesOf(rowOf(reading, '2'))).toEqual(['result without date']);
  });

  it('stands back where a column gives the date', async () => {
    const reading = await read('hose', 'Test date: 5/6/26,,\nHose #,Last test,P/F\n1,4/1/26,P\n');
    expect(reading.titleDate).toBeNull();
    expect(reading.rows[0]?.becomes.lastServiceTest).toBe('2026-04-01');
  });
});

describe('a test vendor’s sheet: all quoted, a barcode beside the number, sums under the rows', () => {
  const sheet = `"2026 ANNUAL HOSE TESTING","","","","","","","","",""
"Vendor: Larkspur Hose Testing","","Test Date: 05/06/2026","","","","","","",""
"","","","","","","","","",""
"Barcode","Hose ID#","Dia","Length","Mfg.","Mfg Yr","Press.","Pass/Fail","Reason for Failure","Truck Assigned"
"0001","E31-001","1.75","50","Maker A","2012","300","PASS","","E-31"
"0002","E31-002","1.75","50","Maker A","2012","300","PASS","","E-31"
"0003","E31-003","5.00","100","Maker A","2012","200","FAIL","Coupling slip","E-31"
"0004","E31-004","5.00","100","Maker A","","200","PASS","","E-31"
"Total Tested:","4","Total Passed:","3","Total Failed:","1","","","",""
`;

  it('is read', async () => {
    const { rows, leftOut } = await read('hose', sheet);
    expect(
      rows.map(r => [r.number, r.ok, r.becomes.made, r.becomes.lastServiceTest, r.becomes.outcome]),
    ).toEqual([
      ['E31-001', true, '2012', '2026-05-06', 'pass'],
      ['E31-002', true, '2012', '2026-05-06', 'pass'],
      ['E31-003', true, '2012', '2026-05-06', 'fail'],
      ['E31-004', true, null, '2026-05-06', 'pass'],
    ]);
    expect(rows[2]?.fields).toMatchObject({ remarks: 'Coupling slip', place: 'E-31', testPressure_psi: 200 });
    expect(leftOut.map(l => l.line)).toEqual([9]);
  });
});

describe('rows', () => {
  it('blank ones are not counted, lines are', async () => {
    const { rows } = await read('hose', '\n\nHose,Dia\n\nA,3\n,\n  , \nB,3\n');
    expect(rows.map(r => [r.row, r.line, r.number])).toEqual([
      [1, 5, 'A'],
      [2, 8, 'B'],
    ]);
  });

  it('numbers: missing, doubled whatever the case and the spaces, never ditto', async () => {
    const { rows } = await read(
      'hose',
      'Tag,Dia,Len\n0012,3,50\n 0012 ,3,50\nc-1,3,50\nC-1,3,50\nN/A,3,50\n-,3,50\n12,3,50\n",3,50\n'.replace(
        '\n",',
        '\n"""",',
      ),
    );
    expect(rows.map(r => codesOf(r)[0])).toEqual([
      undefined,
      'duplicate number',
      undefined,
      'duplicate number',
      'number missing',
      'number missing',
      undefined,
      undefined,
    ]);
    expect(rows[1]?.problems[0]?.wrong).toBe('The number 0012 stands already in line 2.');
  });

  it('a number that a spreadsheet program has turned into a date is refused where the others show it', async () => {
    const { rows } = await read('hose', 'Hose,Dia,Len\n10-11,3,50\n12-Oct,3,50\n10-13,3,50\n10-14,3,50\n');
    expect(rows.map(r => codesOf(r)[0])).toEqual([undefined, 'number unreadable', undefined, undefined]);
    const named = await read('hose', 'Hose,Dia,Len\nMAR-11,3,50\nMAR-12,3,50\n');
    expect(named.rows.every(r => r.ok)).toBe(true);
  });

  it('a ditto mark stands for the cell above', async () => {
    const { rows } = await read(
      'hose',
      'Hose,Dia,Location,Last test\nA,3,Engine 31,5/6/26\nB,ditto,"""",″\n',
    );
    expect(rows[1]?.fields).toMatchObject({
      diameter_in: '3.0',
      place: 'Engine 31',
      'last service test': '2026-05-06',
    });
  });

  it('a location and a unit are one place', async () => {
    const { rows } = await read(
      'hose',
      'Unit,Location,Hose ID,Dia\nEngine 31,crosslay 1,1,3\n  Engine  32 ,bed,2,3\n',
    );
    expect(rows.map(r => r.details.place)).toEqual(['Engine 31 crosslay 1', 'Engine 32 bed']);
  });

  it('text that was mangled on its way is mended', async () => {
    const { rows } = await read('hose', 'Hose,Dia,Length\nA,2Â½,50â€™\n');
    expect(rows[0]?.becomes).toMatchObject({ diameter_in: '2.5', length_ft: 50 });
  });

  it('in a sheet without headings wait for the person', async () => {
    const text = '31-100,3,50,08/2023,05/06/26,P\n31-101,3,50,08/2023,05/06/26,P\n';
    const before = await read('hose', text);
    expect(before.headingLine).toBe(0);
    expect(before.rows.map(r => codesOf(r)[0])).toEqual(['number missing', 'number missing']);
    const mapping = {
      '0': 'number',
      '1': 'diameter_in',
      '2': 'length_ft',
      '3': 'made',
      '4': 'last service test',
      '5': 'outcome service test',
    };
    const { rows } = await read('hose', text, { mapping });
    expect(rows.map(r => [r.number, r.ok, r.becomes.lastServiceTest])).toEqual([
      ['31-100', true, '2026-05-06'],
      ['31-101', true, '2026-05-06'],
    ]);
  });
});
