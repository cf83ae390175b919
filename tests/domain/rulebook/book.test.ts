/**
 * Which version of a rule speaks on which day. That an old day is judged by that day's rule is this program's rule;
 * that editions and their dates differ between departments: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import { inForce } from '../../../domain/derive/thing.ts';
import { bookFrom, type PolicyChoice, policyOn } from '../../../domain/rulebook/book.ts';
import type { Requirement } from '../../../domain/rulebook/types.ts';
import { book, day, dueOn, rowOn, shipped, state, thing, why } from '../notation.ts';

const yearly = shipped('ladder.service-test');
const every = (months: number): Requirement => ({
  ...yearly,
  clock: { kind: 'since last', every: { months }, first: { counts: 'in service', plus: { months: 0 } } },
});
const from = (text: string | null) => (text === null ? null : day(text));
const adopted = (...list: [months: number, from: string | null][]) =>
  book({ adoptions: list.map(([months, on]) => ({ requirement: every(months), from: from(on) })) });

const spans = (by: ReturnType<typeof book>) =>
  (by.versions.get('ladder') ?? [])
    .filter(v => v.requirement.id === yearly.id)
    .map(v => [
      v.requirement.clock.kind === 'since last' && 'months' in v.requirement.clock.every
        ? v.requirement.clock.every.months
        : null,
      v.from === null ? null : dayText(v.from),
      v.to === null ? null : dayText(v.to),
    ]);

describe('a stricter rule adopted from a day on', () => {
  const by = adopted([6, '2026-07-01']);
  const ladder = 'ladder L-1: made 2019\n2025-11-10  passed  service test';

  it('ends the old one on its first day', () =>
    expect(spans(by)).toEqual([
      [12, null, '2026-07-01'],
      [6, '2026-07-01', null],
    ]));

  it('leaves an old day judged by the old rule, and judges the first day by the new one', () => {
    expect([dueOn(ladder, yearly.id, by, '2026-06-30'), dueOn(ladder, yearly.id, by, '2026-07-01')]).toEqual([
      '2026-11-10',
      '2026-05-10',
    ]);
    expect([state(ladder, yearly.id, '2026-06-30', by), state(ladder, yearly.id, '2026-07-01', by)]).toEqual([
      'current',
      'overdue',
    ]);
  });

  it('is told with the days it is in force', () => {
    expect(why(ladder, yearly.id, '2026-06-30', by).inForce).toEqual({ from: null, to: '2026-07-01' });
    expect(why(ladder, yearly.id, '2026-07-01', by).inForce).toEqual({ from: '2026-07-01', to: null });
    expect(why(ladder, yearly.id, '2026-07-01', by).paragraph).toContain('every 6 months');
  });

  it('keeps both rows on the thing, each with its days', () => {
    const rows = thing(ladder, by).due.filter(r => r.requirement === yearly.id);
    expect(rows.map(r => [r.from, r.to])).toEqual([
      [null, day('2026-07-01')],
      [day('2026-07-01'), null],
    ]);
  });
});

describe('a later adoption', () => {
  it('from the opening on replaces all that went before', () =>
    expect(spans(adopted([6, '2026-07-01'], [24, null]))).toEqual([[24, null, null]]));

  it('that takes effect on the same day or earlier replaces the one decided before it', () => {
    expect(spans(adopted([6, '2026-07-01'], [3, '2026-07-01']))).toEqual([
      [12, null, '2026-07-01'],
      [3, '2026-07-01', null],
    ]);
    expect(spans(adopted([6, '2026-07-01'], [3, '2026-06-30']))).toEqual([
      [12, null, '2026-06-30'],
      [3, '2026-06-30', null],
    ]);
  });

  it('that takes effect a day later follows it', () =>
    expect(spans(adopted([6, '2026-07-01'], [3, '2026-07-02']))).toEqual([
      [12, null, '2026-07-01'],
      [6, '2026-07-01', '2026-07-02'],
      [3, '2026-07-02', null],
    ]));

  it('of one rule leaves the others of the family alone', () => {
    const others = (b: ReturnType<typeof book>) =>
      (b.versions.get('ladder') ?? []).filter(v => v.requirement.id !== yearly.id);
    expect(others(adopted([6, '2026-07-01']))).toEqual(others(book()));
  });

  it('with nothing before it is not in force before its first day', () => {
    const only = bookFrom([{ requirement: every(6), from: day('2026-07-01') }], [], []);
    const derived = thing('ladder L-1: inService 2026-01-01', only);
    expect([rowOn(derived, yearly.id, '2026-06-30'), rowOn(derived, yearly.id, '2026-07-01')?.basis]).toEqual(
      [undefined, 'first'],
    );
  });
});

describe('a version', () => {
  it('is in force from its first day up to, not including, its last', () => {
    const span = { from: day('2026-07-01'), to: day('2026-08-01') };
    expect(
      ['2026-06-30', '2026-07-01', '2026-07-31', '2026-08-01'].map(on => inForce(span, day(on))),
    ).toEqual([false, true, true, false]);
    expect(inForce({ from: null, to: null }, day('1970-01-01'))).toBe(true);
  });
});

describe('the policy on the end of a life', () => {
  const lifeEnds = (choice: string, on: string | null): PolicyChoice => ({
    policy: 'life ends',
    choice,
    from: from(on),
  });
  const carbon = 'cylinder C-1: construction carbon, made 2012-02';
  const LIFE = 'cylinder.end-of-life';

  it('chosen from a day on leaves older days as they were judged', () => {
    const by = book({ policies: [lifeEnds('month start', '2027-02-10')] });
    expect([dueOn(carbon, LIFE, by, '2027-02-09'), dueOn(carbon, LIFE, by, '2027-02-10')]).toEqual([
      '2027-02-28',
      '2027-01-31',
    ]);
    expect([state(carbon, LIFE, '2027-02-09', by), state(carbon, LIFE, '2027-02-10', by)]).toEqual([
      'due soon',
      'life ended',
    ]);
  });

  it('may be chosen and chosen back, each from its day', () => {
    const by = book({
      policies: [lifeEnds('month start', '2026-01-01'), lifeEnds('month end', '2026-06-01')],
    });
    expect(
      ['2025-12-31', '2026-01-01', '2026-05-31', '2026-06-01'].map(on => dueOn(carbon, LIFE, by, on)),
    ).toEqual(['2027-02-28', '2027-01-31', '2027-01-31', '2027-02-28']);
  });

  it('moves no requalification and no life of hose', () => {
    const by = book({ policies: [lifeEnds('month start', null)] });
    expect(dueOn(carbon, 'cylinder.requalification', by)).toBe('2017-02-28');
    expect(dueOn('hose H-1: made 1986', 'hose.end-of-life', by)).toBe('1987-06-30');
  });

  it('cuts a rule version that starts after it only where it is in force', () => {
    const life = shipped(LIFE);
    const by = book({
      policies: [lifeEnds('month start', '2026-01-01')],
      adoptions: [{ requirement: { ...life, warnDays: 365 }, from: day('2026-03-01') }],
    });
    expect(
      (by.versions.get('cylinder') ?? [])
        .filter(v => v.requirement.id === LIFE)
        .map(v => [v.requirement.dueAt, v.requirement.warnDays, v.from, v.to]),
    ).toEqual([
      ['month end', 180, null, day('2026-01-01')],
      ['month start', 180, day('2026-01-01'), day('2026-03-01')],
      ['month start', 365, day('2026-03-01'), null],
    ]);
  });
});

describe('a policy', () => {
  const choose = (choice: string, on: string | null): PolicyChoice => ({
    policy: 'charged past due',
    choice,
    from: from(on),
  });
  const on = (policies: PolicyChoice[], text: string) =>
    policyOn(book({ policies }), 'charged past due', day(text));

  it('that nobody has chosen is as shipped', () => {
    expect(on([], '2026-01-01')).toBe('pull');
    expect(policyOn(book(), 'fill in due month', day('2026-01-01'))).toBe('to month end');
    expect(policyOn(book(), 'life ends', day('2026-01-01'))).toBe('month end');
  });

  it('holds from its first day, and the last one told of a day holds', () => {
    const chosen = [choose('until emptied', '2026-03-01')];
    expect([on(chosen, '2026-02-28'), on(chosen, '2026-03-01')]).toEqual(['pull', 'until emptied']);
    expect(on([...chosen, choose('pull', '2026-03-01')], '2026-03-01')).toBe('pull');
    expect(on([choose('until emptied', null)], '1999-01-01')).toBe('until emptied');
  });

  it('decided again for an earlier day replaces what was decided for a later one, as an adoption does', () =>
    expect(on([choose('until emptied', '2026-03-01'), choose('pull', '2026-01-01')], '2026-04-01')).toBe(
      'pull',
    ));
});
