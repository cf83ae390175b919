/** The clocks by the trade's own cases. Common practice, no source, but where one is named. */
import { describe, expect, it } from 'vitest';
import { owedBeforeReturn } from '../../../domain/derive/storage.ts';
import type { Clock, Requirement } from '../../../domain/rulebook/types.ts';
import { day, state } from '../notation.ts';
import { bookOf, IN_SERVICE, rowsOn, rule, type Told, thingOf } from './clockCase.ts';

const every = (months: number): Clock => ({ kind: 'since last', every: { months }, first: IN_SERVICE });
const done = (...on: string[]): Told => ({ done: on.map(o => [o, 'test', 'pass'] as const) });
const dueOf = (clock: Clock, told: Told, more: Partial<Requirement> = {}, on = '2020-01-01') =>
  rowsOn([rule(clock, more)], told, on)[0]?.due;
const stateOf = (clock: Clock, told: Told, on: string, more: Partial<Requirement> = {}) =>
  rowsOn([rule(clock, more)], told, on)[0]?.state;

describe('a span since the last one', () => {
  it('from the end of a month ends at the end of a shorter one; from 31 January, in February', () => {
    expect(dueOf(every(1), done('2025-01-31'))).toBe('2025-02-28');
    expect(dueOf(every(1), done('2024-01-31'))).toBe('2024-02-29');
    expect(dueOf(every(12), done('2024-02-29'))).toBe('2025-02-28');
    expect(dueOf(every(48), done('2024-02-29'))).toBe('2028-02-29');
    expect(dueOf(every(6), done('2025-08-31'))).toBe('2026-02-28');
  });

  it('drifts with every early and late test, where a fixed month does not', () => {
    const fixed: Clock = {
      kind: 'fixed month',
      month: 6,
      every_months: 12,
      early_months: 2,
      first: IN_SERVICE,
    };
    // Early by a month, then late by a month, then in its month.
    const years = ['2023-05-10', '2024-07-20', '2025-06-14'];
    const told = (n: number) => done(...years.slice(0, n));
    expect([1, 2, 3].map(n => dueOf(fixed, told(n)))).toEqual(['2024-06-30', '2025-06-30', '2026-06-30']);
    expect([1, 2, 3].map(n => dueOf(every(12), told(n)))).toEqual(['2024-05-10', '2025-07-20', '2026-06-14']);
  });
});

describe('a fixed month', () => {
  const fixed = (more: Partial<Clock & { kind: 'fixed month' }> = {}): Clock => ({
    ...{ kind: 'fixed month', month: 6, every_months: 12, early_months: 2, first: IN_SERVICE },
    ...more,
  });
  it('takes a test up to so many months early for it, and one earlier still for the one before', () => {
    expect(dueOf(fixed(), done('2025-04-01'))).toBe('2026-06-30');
    expect(dueOf(fixed(), done('2025-03-31'))).toBe('2025-06-30');
  });
  it('is on time through its last day, in February too', () => {
    expect(stateOf(fixed(), done('2024-06-02'), '2025-06-30')).toBe('due soon');
    expect(stateOf(fixed(), done('2024-06-02'), '2025-07-01')).toBe('overdue');
    expect(dueOf(fixed({ month: 2 }), done('2023-02-10'))).toBe('2024-02-29');
  });
  it('comes round twice a year, and every second year', () => {
    expect(dueOf(fixed({ month: 4, every_months: 6, early_months: 1 }), done('2025-04-10'))).toBe(
      '2025-10-31',
    );
    expect(dueOf(fixed({ month: 4, every_months: 6, early_months: 1 }), done('2025-10-10'))).toBe(
      '2026-04-30',
    );
    expect(dueOf(fixed({ every_months: 24 }), done('2025-06-10'))).toBe('2027-06-30');
  });
  it('is never later than the most', () => {
    const most = fixed({ early_months: 0, atMost: { months: 12 } });
    expect(dueOf(most, done('2025-06-10'))).toBe('2026-06-10');
    expect(dueOf(most, done('2025-09-10'))).toBe('2026-06-30');
  });
});

describe('a meter', () => {
  const hours: Clock = { kind: 'meter', meter: 'hours', every: 100 };
  const rising: Told = {
    ...done('2025-01-01'),
    read: [
      ['2025-01-01', 'hours', 500],
      ['2025-03-01', 'hours', 530],
      ['2025-05-01', 'hours', 560],
    ],
  };
  it('is a range, never overdue by itself, and not judged past it', () => {
    const [row] = rowsOn([rule(hours)], rising, '2025-06-01');
    expect(row).toMatchObject({ basis: 'projected', state: 'current' });
    expect((row?.due ?? '') < (row?.to ?? '')).toBe(true);
    // 40 hours left at 30 in two months: some 80 days on, at the end of July, which lies inside.
    expect((row?.due ?? '') < '2025-07-21' && (row?.to ?? '') > '2025-07-21').toBe(true);
    const states = ['2025-06-01', '2025-09-01', '2030-01-01'].map(on => stateOf(hours, rising, on));
    expect(states).not.toContain('overdue');
    expect(states[2]).toBe('not judged');
  });
  it('is due for certain when a reading shows it: that day, or the day before where it shows more', () => {
    const at = (reading: number): Told => ({
      ...rising,
      read: [...(rising.read ?? []), ['2025-07-01', 'hours', reading]],
    });
    expect([599, 600, 601].map(n => dueOf(hours, at(n)))).toEqual([
      expect.not.stringMatching('2025-07-01'),
      '2025-07-01',
      '2025-06-30',
    ]);
    expect(stateOf(hours, at(600), '2025-07-01')).not.toBe('overdue');
    expect(stateOf(hours, at(600), '2025-07-02')).toBe('overdue');
  });
  it('that was replaced counts on', () => {
    const replaced: Told = {
      ...rising,
      read: [...(rising.read ?? []), ['2025-05-10', 'hours', 0, true], ['2025-07-01', 'hours', 40]],
    };
    expect(dueOf(hours, replaced)).toBe('2025-07-01');
  });
  it('read backward, or never, or not by the last one, is not judged', () => {
    const backward: Told = { ...rising, read: [...(rising.read ?? []), ['2025-06-01', 'hours', 559]] };
    expect(stateOf(hours, backward, '2025-06-02')).toBe('not judged');
    expect(stateOf(hours, done('2025-01-01'), '2025-06-02')).toBe('not judged');
    expect(stateOf(hours, { ...rising, ...done('2024-12-31') }, '2025-06-02')).toBe('not judged');
  });

  it('beside a span: whichever first, and overdue by the certain one', () => {
    const both: Clock = { kind: 'first of', clocks: [every(12), hours] };
    expect(rowsOn([rule(both)], rising, '2025-06-01')[0]).toMatchObject({
      basis: 'projected',
      state: 'current',
    });
    expect(stateOf(both, rising, '2026-01-01')).not.toBe('overdue');
    expect(stateOf(both, rising, '2026-01-02')).toBe('overdue');
    expect(dueOf({ kind: 'first of', clocks: [every(3), hours] }, rising)).toBe('2025-04-01');
    expect(dueOf(both, done('2025-01-01'))).toBe('2026-01-01');
  });

  it('beside a life that has ended does not hide that it has', () => {
    const both: Clock = {
      kind: 'first of',
      clocks: [{ kind: 'life', counts: 'made', plus: { months: 120 } }, hours],
    };
    const told: Told = { ...rising, attributes: { made: '2015-12-01' } };
    expect(stateOf(both, told, '2025-11-30')).not.toBe('life ended');
    expect(stateOf(both, told, '2025-12-01')).toBe('life ended');
  });
});

describe('a limit of a reading', () => {
  const percent: Clock = {
    kind: 'reading limit',
    reading: 'psi',
    owedWhen: 'at or under',
    value: '90',
    percentOf: 'full',
  };
  const at = (psi: string): Told => ({
    attributes: { full: 4500 },
    done: [['2025-01-01', 'check', 'pass', { psi }]],
  });
  it('of 90 % is owed at 90 % exactly (29 CFR 1910.134(h)(3)(iii): falls to 90 %)', () => {
    expect(['4049.9', '4050', '4050.0'].map(p => stateOf(percent, at(p), '2025-01-02'))).toEqual(
      Array(3).fill('retest owed'),
    );
    expect(stateOf(percent, at('4050.1'), '2025-01-02')).toBeUndefined();
  });
  it('of lost agent is owed over 10 %, not at it (the book: more than 10 % of the charge)', () => {
    const lost: Clock = {
      kind: 'reading limit',
      reading: 'lb',
      owedWhen: 'over',
      value: '10',
      percentOf: 'charge',
      lostFrom: 'full',
    };
    const weighed = (lb: string): Told => ({
      attributes: { full: '48.5', charge: '20' },
      done: [['2025-01-01', 'weighing', 'pass', { lb }]],
    });
    expect(['46.5', '46.49', '48.5'].map(lb => stateOf(lost, weighed(lb), '2025-01-02'))).toEqual([
      undefined,
      'retest owed',
      undefined,
    ]);
  });
  it('is settled by the activity after it, by a better reading, and by neither before it', () => {
    const told = at('4000');
    const then = (...more: NonNullable<Told['done']>): Told => ({
      ...told,
      done: [...(told.done ?? []), ...more],
    });
    expect(stateOf(percent, then(['2025-01-03', 'test', 'pass']), '2025-01-04')).toBeUndefined();
    expect(
      stateOf(percent, then(['2025-01-03', 'check', 'pass', { psi: '4500' }]), '2025-01-04'),
    ).toBeUndefined();
    expect(stateOf(percent, then(['2024-12-31', 'test', 'pass']), '2025-01-04')).toBe('retest owed');
    expect(stateOf(percent, { ...told, attributes: {} }, '2025-01-04')).toBe('not judged');
  });
});

describe('a life', () => {
  const ten: Clock = { kind: 'life', counts: 'made', plus: { months: 120 } };
  it('is ended on the day it is full, and no test restores it', () => {
    const told: Told = { ...done('2025-11-24'), attributes: { made: '2015-11-25' } };
    expect(['2025-11-24', '2025-11-25'].map(on => stateOf(ten, told, on))).toEqual(
      ['due soon', 'life ended'].map((s, i) => (i === 0 ? expect.not.stringMatching('life ended') : s)),
    );
    expect(stateOf(ten, { attributes: { made: '2015-11' } }, '2025-11-30')).not.toBe('life ended');
    expect(stateOf(ten, { attributes: { made: '2015-11' } }, '2025-12-01')).toBe('life ended');
    expect(stateOf(ten, {}, '2025-12-01')).toBe('not judged');
  });
});

describe('once', () => {
  it('is owed by the first date and then never again', () => {
    const once: Clock = { kind: 'once', first: { counts: 'in service', plus: { days: 30 } } };
    const attributes = { inService: '2025-01-01' };
    expect(stateOf(once, { attributes }, '2025-01-31')).not.toBe('never done');
    expect(stateOf(once, { attributes }, '2025-02-01')).toBe('never done');
    expect(stateOf(once, { attributes, ...done('2025-03-01') }, '2040-01-01')).toBeUndefined();
  });
});

describe('duties that settle one another', () => {
  const six = rule(every(72), { id: 'six', activity: 'inner', satisfiedBy: ['inner', 'hydro'] });
  const twelve = rule(every(144), { id: 'twelve', activity: 'hydro', satisfiedBy: ['hydro'] });
  it('the twelve-year hydro restarts the six-year examination, not the other way round (NFPA 10, from memory)', () => {
    const told: Told = {
      done: [
        ['2014-05-01', 'hydro', 'pass'],
        ['2020-05-01', 'inner', 'pass'],
        ['2026-04-01', 'hydro', 'pass'],
      ],
    };
    expect(rowsOn([six, twelve], told, '2026-05-01').map(r => [r.id, r.due])).toEqual([
      ['six', '2032-04-01'],
      ['twelve', '2038-04-01'],
    ]);
  });
  it('the annual covers the month it falls in; a test that a repair asked for resets the annual', () => {
    const month = rule(every(1), { id: 'month', activity: 'check', satisfiedBy: ['check', 'test'] });
    const told: Told = {
      done: [
        ['2025-01-10', 'check', 'pass'],
        ['2025-02-01', 'test', 'pass'],
        ['2025-06-20', 'test', 'pass'],
      ],
    };
    expect(rowsOn([month, rule(every(12))], told, '2025-07-01').map(r => r.due)).toEqual([
      '2025-07-20',
      '2026-06-20',
    ]);
  });
});

describe('storage', () => {
  const waits = rule(every(12), { inStorage: 'waits' });
  const told: Told = { ...done('2024-01-10'), assignment: 'storage' };
  it('lets it wait, and what is late is owed before it comes back', () => {
    expect(rowsOn([waits], told, '2026-01-01')).toEqual([]);
    const book = bookOf(waits);
    const owed = (on: string) => owedBeforeReturn(thingOf(book, told), book, day(on)).map(r => r.id);
    expect([owed('2025-01-10'), owed('2025-01-11')]).toEqual([[], ['a']]);
    expect(stateOf(every(12), told, '2026-01-01')).toBe('overdue');
  });
  it('owes once what two rules of one duty owe, though one covers the other from a day on', () => {
    const later = rule(every(6), { id: 'b', inStorage: 'waits', besides: 'a' });
    expect(rowsOn([waits, later], { ...told, assignment: 'reserve' }, '2026-01-01').map(r => r.id)).toEqual([
      'b',
    ]);
  });
});

describe('grace', () => {
  it('does not move the date that is shown, only when it is late; a life has none', () => {
    const more = { graceDays: 30 };
    expect(dueOf(every(12), done('2025-01-10'), more)).toBe('2026-01-10');
    expect(stateOf(every(12), done('2025-01-10'), '2026-02-09', more)).toBe('due soon');
    expect(stateOf(every(12), done('2025-01-10'), '2026-02-10', more)).toBe('overdue');
    const ten: Clock = { kind: 'life', counts: 'made', plus: { months: 120 } };
    expect(stateOf(ten, { attributes: { made: '2015-11-25' } }, '2025-11-25', more)).toBe('life ended');
  });
});

describe('a local rule beside the shipped one', () => {
  const local = (months: number, more: Partial<Requirement> = {}) =>
    rule(every(months), { id: 'local', besides: 'a', ...more });
  const ids = (rules: Requirement[], told: Told = done('2025-01-10'), on = '2026-06-01') =>
    rowsOn(rules, told, on).map(r => r.id);
  it('the earlier is listed; of two of one day the shipped one', () => {
    expect(ids([rule(every(12)), local(6)])).toEqual(['local']);
    expect(ids([rule(every(12)), local(18)])).toEqual(['a']);
    expect(ids([rule(every(12)), local(12)])).toEqual(['a']);
  });
  it('a failure owes the shipped one, once', () => {
    const failed: Told = { done: [['2025-01-10', 'test', 'fail']] };
    expect(ids([rule(every(12)), local(6)], failed)).toEqual(['a']);
  });
  it('what stops less, or is late only after grace, or is only likely, hides nothing', () => {
    const blocks = rule(every(12), { late: 'blocks' });
    expect(ids([blocks, local(6, { late: 'notes' })])).toEqual(['a', 'local']);
    expect(ids([blocks, local(6, { late: 'blocks', graceDays: 300 })])).toEqual(['a', 'local']);
    const likely = local(0, { clock: { kind: 'meter', meter: 'hours', every: 100 }, late: 'blocks' });
    const read: Told = {
      ...done('2025-01-10'),
      read: [
        ['2025-01-10', 'hours', 0],
        ['2025-06-01', 'hours', 50],
      ],
    };
    expect(ids([blocks, likely], read)).toEqual(['a', 'local']);
    expect(rowsOn([blocks, likely], read, '2026-06-01').map(r => r.state)).toContain('overdue');
  });
});

describe('what is known from memory alone', () => {
  const memory = [{ document: 'A text', section: '', edition: '', confidence: 'memory' as const }];
  it('is not judged and stops nothing, until the department confirms it', () => {
    const told = done('2020-01-01');
    expect(rowsOn([rule(every(12), { sources: memory, late: 'blocks' })], told, '2026-01-01')).toMatchObject([
      { state: 'not judged', late: 'notes' },
    ]);
    expect(
      rowsOn(
        [rule(every(12), { sources: memory, late: 'blocks', confirmed: 'The manual' })],
        told,
        '2026-01-01',
      ),
    ).toMatchObject([{ state: 'overdue', late: 'blocks' }]);
  });
  it('hides no rule beside it that is judged', () => {
    const unknown = rule(every(6), { id: 'b', besides: 'a', sources: memory });
    expect(
      rowsOn([rule(every(12)), unknown], done('2020-01-01'), '2026-01-01').map(r => [r.id, r.state]),
    ).toEqual([
      ['a', 'overdue'],
      ['b', 'not judged'],
    ]);
    expect(
      state(
        'hose H-1: use attack, made 2020-01\n2025-06-14  passed  service test',
        'hose.service-test',
        '2025-07-01',
      ),
    ).toBe('current');
  });
});
