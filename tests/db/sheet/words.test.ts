/** Results, marks, choices and status words. Spellings: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { readChoice, readStatus } from '../../../db/files/sheet/choices.ts';
import { readMark } from '../../../db/files/sheet/cylinder-marks.ts';
import { readOutcome } from '../../../db/files/sheet/outcomes.ts';
import { codesOf, read, rowOf } from './sheets.ts';

describe('a result', () => {
  it.each([
    'P',
    'p',
    'PASS',
    'Pass',
    'passed',
    'Passed.',
    'ok',
    'OK',
    'O.K.',
    'okay',
    'good',
    'Y',
    'yes',
    'TRUE',
    'sat',
    'Satisfactory',
    '✓',
    '✔',
    'Pass*',
    'no leaks',
    'P (new gasket)',
    'passed w/ new gasket',
    'Accepted',
    'Passd',
  ])('“%s” is a pass', text => expect(readOutcome(text)?.outcome).toBe('pass'));

  it.each([
    'F',
    'f',
    'fail',
    'FAIL',
    'Failed',
    'FAIL - leak',
    'F - coupling',
    'Failed/leaking',
    'failed: burst',
    'N',
    'no',
    'No.',
    'false',
    'bad',
    'unsat',
    'rejected',
    'condemned',
    'did not pass',
    'not passed',
    'leaked',
    'OOS',
    '✗',
    'no good',
    'NG',
  ])('“%s” is a fail', text => expect(readOutcome(text)?.outcome).toBe('fail'));

  it.each([
    'not completed',
    'Not complete',
    'incomplete',
    'DNF',
    'did not finish',
    'stopped',
    'Test stopped',
    'aborted',
    'stopped - rain',
    'N/C',
    'interrupted',
    'canceled',
    'cancelled',
  ])('“%s” is not completed', text => expect(readOutcome(text)?.outcome).toBe('not completed'));

  it.each(['', '-', 'N/A', 'n/a', 'TBD', '?', 'not tested', 'untested', 'N/T'])('“%s” is no result', text =>
    expect(readOutcome(text)?.outcome).toBeNull(),
  );

  it.each([
    'X',
    'fair',
    'pass/fail',
    'maybe',
    'failed, then passed',
    'pass but leaking',
    'no flow',
    'see notes',
    '300',
    'retest',
  ])('“%s” is not guessed', text => expect(readOutcome(text)).toBeUndefined());

  it('keeps what stands beside it', () => {
    expect(readOutcome('FAIL - leak at coupling')?.note).toBe('leak at coupling');
    expect(readOutcome('P (new gasket)')?.note).toBe('new gasket');
  });

  it('under Pass or Fail is a tick', () => {
    expect(readOutcome('X', 'pass')?.outcome).toBe('pass');
    expect(readOutcome('x', 'fail')?.outcome).toBe('fail');
    expect(readOutcome('', 'fail')?.outcome).toBeNull();
    expect(readOutcome('N', 'fail')?.outcome).toBe('pass');
  });
});

describe('a result and its date', () => {
  const sheet = (rows: string) => read('hose', `Hose,Last test,P/F\n${rows}`);

  it('blank beside a date is the date of a good test', async () => {
    const { rows } = await sheet('A-1,5/6/26,\nA-2,5/6/26,N/A\n');
    expect(rows.map(r => r.becomes.outcome)).toEqual(['pass', 'pass']);
    expect(rows[0]?.records).toEqual([
      { activity: 'service test', on: '2026-05-06', outcome: 'pass', readings: {}, note: null },
    ]);
  });

  it('that no one can read is refused, and records nothing', async () => {
    const row = rowOf(await sheet('A-1,5/6/26,X\n'), 'A-1');
    expect(codesOf(row)).toEqual(['result unreadable']);
    expect([row.records, row.becomes.outcome]).toEqual([[], null]);
  });

  it('pass with no date records nothing and says so; a fail may not be lost', async () => {
    const reading = await sheet('A-1,,Pass\nA-2,N/A,FAIL\nA-3,,\n');
    expect(rowOf(reading, 'A-1')).toMatchObject({ ok: true, records: [], becomes: { outcome: null } });
    expect(rowOf(reading, 'A-1').notes).toHaveLength(1);
    expect(codesOf(rowOf(reading, 'A-2'))).toEqual(['result without date']);
    expect(rowOf(reading, 'A-3')).toMatchObject({ ok: true, records: [], notes: [] });
  });

  it('“not tested” beside a date is not a pass', async () =>
    expect(codesOf(rowOf(await sheet('A-1,5/6/26,Not tested\n'), 'A-1'))).toEqual(['result unreadable']));

  it('in the date’s own cell counts', async () => {
    const { rows } = await read(
      'hose',
      'Hose,Last test\nA-1,5/6/26 P\nA-2,FAIL 5/6/26\nA-3,5/6/26 (failed)\n',
    );
    expect(rows.map(r => [r.becomes.lastServiceTest, r.becomes.outcome])).toEqual([
      ['2026-05-06', 'pass'],
      ['2026-05-06', 'fail'],
      ['2026-05-06', 'fail'],
    ]);
  });
});

describe('a cylinder’s mark', () => {
  it.each([
    ['SP10915', 'DOT-SP 10915', null],
    ['dot-sp 10945', 'DOT-SP 10945', null],
    ['DOT-SP 10945', 'DOT-SP 10945', null],
    ['DOT SP-10945', 'DOT-SP 10945', null],
    ['DOT-SP10915-4500', 'DOT-SP 10915', 4500],
    ['SP-10915', 'DOT-SP 10915', null],
    ['DOT-E 7277', 'DOT-E 7277', null],
    ['E-7277', 'DOT-E 7277', null],
    ['E7277', 'DOT-E 7277', null],
    ['dote 7277', 'DOT-E 7277', null],
    ['Exemption 8162', 'DOT-E 8162', null],
    ['10915', 'DOT-SP 10915', null],
    ['9894', 'DOT-E 9894', null],
    ['3AA', '3AA', null],
    ['DOT 3AA', '3AA', null],
    ['DOT-3AA', '3AA', null],
    ['3aa 2015', '3AA', 2015],
    ['3AA2015', '3AA', 2015],
    ['DOT-3AL2216', '3AL', 2216],
    ['3AL-2216', '3AL', 2216],
    ['3A', '3A', null],
    ['3HT1850', '3HT', 1850],
    ['4B240ET', '4B240ET', null],
    ['ICC-3AA2015', '3AA', 2015],
    ['TC-3ALM153 DOT-3AL2216', '3AL', 2216],
    ['UN ISO 11119-2', 'UN composite', null],
    ['UN ISO 9809-1', 'UN seamless', null],
  ])('%s is %s', (text, spec, psi) =>
    expect(readMark(text)).toEqual({ spec, servicePressure_psi: psi, known: true }),
  );

  it('that is not known stays as it stands; a bare pressure is no permit', () => {
    expect(readMark('composite')).toMatchObject({ spec: 'composite', known: false });
    expect(readMark('4500').known).toBe(false);
  });

  it('gives the service pressure only where no column does', async () => {
    const { rows } = await read('cylinder', 'Cyl #,Spec,Svc PSI\nC-1,3AL2216,\nC-2,3AL2216,3000\n');
    expect(rows.map(r => r.becomes.servicePressure_psi)).toEqual([2216, 3000]);
    expect(rows[1]?.notes).toHaveLength(1);
  });
});

describe('words of the trade', () => {
  it.each([
    ['use', 'ATTACK', 'attack'],
    ['use', 'Supply (LDH)', 'supply'],
    ['use', 'forestry', 'forestry'],
    ['use', 'Hard suction', 'suction'],
    ['use', 'LDH', 'supply'],
    ['use', 'Training', null],
    ['type', 'Attic/folding', 'folding'],
    ['type', 'ROOF', 'roof'],
    ['type', 'Ext.', 'extension'],
    ['type', '2-section extension', 'extension'],
    ['type', 'Combo', 'combination'],
    ['type', 'Straight', 'single'],
    ['material', 'Alum.', 'aluminum'],
    ['material', 'aluminium', 'aluminum'],
    ['material', 'Fibreglass', 'fiberglass'],
    ['material', 'FG', 'fiberglass'],
    ['material', 'wood', 'wood'],
    ['construction', 'Carbon fiber', 'carbon'],
    ['construction', 'carbon over aluminum liner', 'carbon'],
    ['construction', 'Hoop wrapped', 'hoop'],
    ['construction', 'AL', 'aluminum'],
  ])('%s “%s” is %s', (field, text, value) => expect(readChoice(field, text)).toBe(value));

  it('a status is a condition or an assignment', () => {
    expect(readStatus('In Service')).toEqual({ condition: 'serviceable', assignment: null });
    expect(readStatus('OOS')).toEqual({ condition: 'tagged out', assignment: null });
    expect(readStatus('Retired')).toEqual({ condition: 'retired', assignment: null });
    expect(readStatus('Reserve')).toEqual({ condition: null, assignment: 'reserve' });
    expect(readStatus('blue')).toEqual({ condition: null, assignment: null });
  });

  it('not known are left empty with a note; they refuse nothing', async () => {
    const row = rowOf(await read('hose', 'Hose,Use,Dia\nA-1,Training,3\n'), 'A-1');
    expect([row.ok, row.fields.use, row.notes.length]).toEqual([true, null, 1]);
  });
});
