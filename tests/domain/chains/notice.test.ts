/** Whom a notice means. What is not known of a thing never clears it. Common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { When } from '../../../domain/calendar/when.ts';
import { concerns, judge, type Notice, type Noticed, namesSomething } from '../../../domain/chains/notice.ts';
import { isSameSerial, rangeProblem } from '../../../domain/chains/serial.ts';
import { contradiction, type SETTLED_HOW, standing } from '../../../domain/chains/settled.ts';
import { CONDITIONS } from '../../../domain/facts.ts';

const NOTICE: Notice = {
  title: 'Lens retainer',
  kind: 'stop use',
  family: 'facepiece',
  maker: 'Maker B',
  model: 'Vista 3',
  serialFrom: 'VB-40410',
  serialTo: 'VB-40420',
  madeFrom: null,
  madeTo: null,
  issuedBy: 'Maker B',
  toDo: 'Take out of use at once.',
};
const MASK: Noticed = {
  family: 'facepiece',
  serial: 'VB-40415',
  maker: 'Maker B',
  model: 'Vista 3',
  made: '2022-03',
};
const mask = (more: Partial<Noticed>) => concerns(NOTICE, { ...MASK, ...more });

describe('a notice concerns', () => {
  it('what it names by family, maker, model and serial, both ends of the range included', () => {
    for (const serial of ['VB-40410', 'VB-40415', 'VB-40420']) expect(mask({ serial }), serial).toBe('yes');
    for (const serial of ['VB-40409', 'VB-40421', 'VB-4041', 'VB-404150'])
      expect(mask({ serial }), serial).toBe('no');
  });

  it('nothing of another family, model or maker, whatever its serial', () => {
    expect(mask({ family: 'pack' })).toBe('no');
    expect(mask({ model: 'Vista 2' })).toBe('no');
    expect(mask({ maker: 'Maker D' })).toBe('no');
    // One thing that is surely another clears it, whatever else is not known.
    expect(mask({ model: 'Vista 2', serial: null })).toBe('no');
  });

  it('names however they are written', () => {
    for (const model of ['VISTA 3', 'Vista-3', 'vista3']) expect(mask({ model }), model).toBe('yes');
  });

  it('perhaps whatever it cannot be told of, and says what to look at', () => {
    expect(judge(NOTICE, { ...MASK, serial: null, model: ' ' })).toEqual({
      concerns: 'perhaps',
      look: ['model not known', 'serial not known'],
    });
    expect(judge(NOTICE, { ...MASK, model: 'Vista 3 wide' })).toEqual({
      concerns: 'perhaps',
      look: ['model reads Vista 3 wide'],
    });
    for (const serial of ['N/A', 'unreadable', '']) expect(mask({ serial }), serial).toBe('perhaps');
  });

  it('by serials as they are copied: joined or not, padded or not', () => {
    for (const serial of ['VB40415', 'vb 40415', 'VB-040415', 'VB/40415'])
      expect(mask({ serial }), serial).toBe('yes');
  });

  it('perhaps a serial without its prefix, with a word before it, a letter after it or an O for a 0', () => {
    for (const serial of ['40415', 'S/N VB-40415', 'VB-40415-A', 'VB-4O415'])
      expect(mask({ serial }), serial).toBe('perhaps');
    for (const serial of ['40409', 'S/N VB-40421', 'VB-4O421', 'VA-40415', 'KX 40415'])
      expect(mask({ serial }), serial).toBe('no');
  });

  it('by numbers and not by text: 9 is before 10, and 12-9 is not 129', () => {
    const from9 = { ...NOTICE, serialFrom: 'A9', serialTo: 'A100' };
    expect(concerns(from9, { ...MASK, serial: 'A10' })).toBe('yes');
    expect(concerns(from9, { ...MASK, serial: 'A1000' })).toBe('no');
    const lots = { ...NOTICE, serialFrom: '12-5', serialTo: '12-15' };
    expect(concerns(lots, { ...MASK, serial: '12-9' })).toBe('yes');
    expect(concerns(lots, { ...MASK, serial: '9-99' })).toBe('no');
    expect(concerns(lots, { ...MASK, serial: '1212' })).toBe('perhaps');
  });

  it('with one end open, everything from there on', () => {
    const on = { ...NOTICE, serialTo: null };
    expect(concerns(on, { ...MASK, serial: 'VB-99999' })).toBe('yes');
    expect(concerns(on, { ...MASK, serial: 'VB-40409' })).toBe('no');
    expect(concerns({ ...NOTICE, serialFrom: null }, { ...MASK, serial: 'VB-1' })).toBe('yes');
  });

  it('by the date of manufacture as far as it is known', () => {
    const dated = {
      ...NOTICE,
      serialFrom: null,
      serialTo: null,
      madeFrom: '2022-02' as When,
      madeTo: '2022-04' as When,
    };
    const made = (on: string | null) => concerns(dated, { ...MASK, made: on });
    expect(['2022-02', '2022-03', '2022-04-30'].map(made)).toEqual(['yes', 'yes', 'yes']);
    expect(['2022-01', '2022-05-01', '2021'].map(made)).toEqual(['no', 'no', 'no']);
    // A year holds the three months and nine others; and what is not known has to be looked at.
    expect(['2022', null, 'spring'].map(made)).toEqual(['perhaps', 'perhaps', 'perhaps']);
  });

  it('never surely less than it did when more is forgotten of a thing', () => {
    const known = fc.record({
      serial: fc.constantFrom('VB-40415', 'VB-1', '40415', 'KX-2'),
      maker: fc.constantFrom('Maker B', 'Maker D'),
      model: fc.constantFrom('Vista 3', 'Vista 2', 'Vista'),
      made: fc.constantFrom('2022', '2022-03', '2019'),
    });
    const dated = { ...NOTICE, madeFrom: '2022' as When };
    fc.assert(
      fc.property(known, fc.constantFrom('serial', 'maker', 'model', 'made'), (thing, forget) => {
        const before = concerns(dated, { ...thing, family: 'facepiece' });
        const after = concerns(dated, { ...thing, family: 'facepiece', [forget]: null });
        return before === 'no' || after === 'perhaps';
      }),
    );
  });
});

describe('a range of serials', () => {
  it('has two ends of one prefix, the first not after the last', () => {
    expect(rangeProblem('VB-40410', 'VB-40420')).toBeNull();
    expect(rangeProblem('VB-40420', 'VB-40410')).toBe('reversed');
    expect(rangeProblem('VB-9', 'VB-10')).toBeNull();
    expect(rangeProblem('VA-1', 'VB-2')).toBe('two prefixes');
    expect(rangeProblem('first', null)).toBe('no figures');
    expect(rangeProblem(null, null)).toBeNull();
  });

  it('holds one serial under several spellings', () => {
    expect(isSameSerial('VB-40410', 'vb40410')).toBe(true);
    expect(isSameSerial('VB-40410', 'VB-40411')).toBe(false);
  });

  it('that names nothing but a family names every thing of it', () => {
    const nothing = { ...NOTICE, maker: null, model: null, serialFrom: null, serialTo: null };
    expect(namesSomething(nothing)).toBe(false);
    expect(namesSomething({ ...nothing, madeTo: '2020' as When })).toBe(true);
  });
});

describe('a thing under a notice', () => {
  it('is open until somebody says how it was settled, or it is gone for good', () => {
    expect(standing('tagged out', null)).toEqual({ open: true, how: null });
    expect(standing('tagged out', 'repaired')).toEqual({ open: false, how: 'repaired' });
    expect(standing('retired', null)).toEqual({ open: false, how: 'retired' });
    expect(standing('disposed', 'returned to the maker')).toEqual({
      open: false,
      how: 'returned to the maker',
    });
  });

  it('that could not be found and turns up is open again', () => {
    expect(standing('missing', 'cannot be found').open).toBe(false);
    expect(standing('tagged out', 'cannot be found')).toEqual({ open: true, how: null });
    expect(standing('retired', 'cannot be found')).toEqual({ open: false, how: 'retired' });
  });

  it('is not settled against what its own history says', () => {
    const against = (how: (typeof SETTLED_HOW)[number]) =>
      CONDITIONS.filter(c => contradiction(how, c) !== null);
    expect(against('not concerned')).toEqual([]);
    expect(against('cannot be found')).toEqual(CONDITIONS.filter(c => c !== 'missing'));
    expect(against('repaired')).toEqual(['held for investigation', 'missing']);
    expect(against('replaced')).toEqual([
      'received',
      'serviceable',
      'limited use',
      'held for investigation',
      'missing',
    ]);
    expect(against('returned to the maker')).toEqual(against('replaced'));
  });
});
