/** Loosening is found wherever it hides. The program's own rule; that law is not loosened is what the acts of db test. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeOf, differences } from '../../../domain/rulebook/strictness.ts';
import type { Clock, Every, First, Requirement } from '../../../domain/rulebook/types.ts';
import { shipped } from '../notation.ts';

const BASE: Requirement = {
  ...shipped('hose.service-test'),
  appliesTo: [{ attribute: 'use', in: ['attack'] }],
  coveredBy: ['hose.other'],
  graceDays: 5,
  dueAt: 'day',
  late: 'limits',
  countedOutcomes: ['pass'],
  where: { states: ['WA'] },
};
const change = (own: Partial<Requirement>, against = BASE) =>
  changeOf(differences(against, { ...against, ...own }));
const clocks = (was: Clock, now: Clock) => change({ clock: now }, { ...BASE, clock: was });
const { where: _where, ...EVERYWHERE } = BASE;

describe('a version that is looser in one field', () => {
  const LOOSER: [string, Partial<Requirement>][] = [
    ['being late does less', { late: 'notes' }],
    ['more grace', { graceDays: 6 }],
    ['the month’s end instead of the day', { dueAt: 'month end' }],
    ['fewer things', { appliesTo: [...BASE.appliesTo, { attribute: 'made', known: true }] }],
    ['other things', { appliesTo: [{ attribute: 'use', in: ['supply'] }] }],
    ['more settles it', { satisfiedBy: [...BASE.satisfiedBy, 'inspection'] }],
    ['a failure counts', { countedOutcomes: ['pass', 'fail'] }],
    ['more hides it', { coveredBy: ['hose.other', 'hose.third'] }],
    ['it waits in storage', { inStorage: 'waits' }],
    ['another activity', { activity: 'inspection' }],
    ['another state', { where: { states: ['OR'] } }],
    [
      'it is no longer judged, its sources being from memory',
      { sources: BASE.sources.map(s => ({ ...s, confidence: 'memory' as const })) },
    ],
  ];
  it.each(LOOSER)('%s', (_what, own) => expect(change(own)).toBe('looser'));
  it.each(LOOSER)('%s, however strict the rest', (_what, own) =>
    expect(change({ ...own, clock: { ...every(1), first: FIRST } })).toBe('looser'),
  );
});

describe('a version that is stricter in one field', () => {
  it.each<[string, Requirement]>([
    ['being late does more', { ...BASE, late: 'blocks' }],
    ['less grace', { ...BASE, graceDays: 0 }],
    ['before the month', { ...BASE, dueAt: 'month start' }],
    ['more things', { ...BASE, appliesTo: [] }],
    ['nothing hides it', { ...BASE, coveredBy: [] }],
    ['everywhere', EVERYWHERE],
  ])('%s', (_what, own) => expect(changeOf(differences(BASE, own))).toBe('stricter'));

  it('is merely other where only words or the warning differ, and nothing where nothing does', () => {
    expect([change({ warnDays: 1 }), change({ title: 'Pressure test' }), change({})]).toEqual([
      'other',
      'other',
      null,
    ]);
  });
});

const FIRST: First = { counts: 'in service', plus: { months: 12 } };
const every = (months: number) => ({ kind: 'since last' as const, every: { months }, first: FIRST });
/** Each kind of clock by one limit of it: a larger amount allows more. */
const BY_AMOUNT: Record<string, (n: number) => Clock> = {
  'since last, months': n => every(n),
  'since last, days': n => ({ ...every(1), every: { days: n } }),
  'since last, first': n => ({ ...every(12), first: { ...FIRST, plus: { months: n } } }),
  once: n => ({ kind: 'once', first: { counts: 'made', plus: { days: n } } }),
  'fixed month, atMost': n => ({
    kind: 'fixed month',
    month: 6,
    every_months: 120,
    early_months: 11,
    atMost: { days: n },
    first: FIRST,
  }),
  'fixed month, early': n => ({
    kind: 'fixed month',
    month: 6,
    every_months: 12,
    early_months: n,
    first: FIRST,
  }),
  'fixed month, every': n => ({
    kind: 'fixed month',
    month: 6,
    every_months: n,
    early_months: 1,
    first: FIRST,
  }),
  meter: n => ({ kind: 'meter', meter: 'miles', every: n }),
  'first of, a span': n => ({
    kind: 'first of',
    clocks: [every(n), { kind: 'meter', meter: 'hours', every: 9 }],
  }),
  'first of, a meter': n => ({
    kind: 'first of',
    clocks: [every(9), { kind: 'meter', meter: 'hours', every: n }],
  }),
  life: n => ({ kind: 'life', counts: 'made', plus: { months: n } }),
  'printed date, a span after': n => ({ kind: 'printed date', attribute: 'replaceBy', plus: { months: n } }),
  'reading over': n => ({ kind: 'reading limit', reading: 'x', owedWhen: 'over', value: String(n) }),
  'reading under': n => ({ kind: 'reading limit', reading: 'x', owedWhen: 'under', value: String(2000 - n) }),
  'made before': n => ({ kind: 'made before', day: `${2000 - n}-07-01` }),
  'cylinder period': n => ({
    kind: 'cylinder period',
    specs: [{ spec: '3AA', construction: 'steel', months: n, lifeMonths: null }],
    constructions: [],
  }),
  'cylinder life': n => ({
    kind: 'cylinder life',
    specs: [{ spec: '3HT', construction: 'steel', months: 36, lifeMonths: n }],
    constructions: [{ construction: 'carbon', months: 60, lifeMonths: 180 }],
  }),
};

describe('a longer limit is looser and a shorter one never is', () => {
  it.each(Object.entries(BY_AMOUNT))('%s', (name, clock) => {
    const most = name.includes('early') ? 11 : 1000;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: most }), (a, b) => {
        fc.pre(a !== b);
        expect(clocks(clock(Math.min(a, b)), clock(Math.max(a, b)))).toBe('looser');
        expect(clocks(clock(Math.max(a, b)), clock(Math.min(a, b)))).toBe('stricter');
      }),
      { numRuns: 400, seed: 20_261_125 },
    );
  });

  it('also where a span is added after a printed date that had none', () => {
    const printed: Clock = { kind: 'printed date', attribute: 'replaceBy' };
    const plus: Every = { months: 60 };
    expect(clocks(printed, { ...printed, plus })).toBe('looser');
    expect(clocks({ ...printed, plus }, printed)).toBe('stricter');
  });

  it('also where an exception is added to a line of the table, or taken from it', () => {
    const line = { spec: '3AA', construction: 'steel', months: 60, lifeMonths: null };
    const table = (months?: number): Clock => ({
      kind: 'cylinder period',
      specs: [
        { ...line, ...(months ? { unless: { attribute: 'star', is: true, months, clause: '' } } : {}) },
      ],
      constructions: [],
    });
    expect(clocks(table(), table(120))).toBe('looser');
    expect(clocks(table(120), table())).toBe('stricter');
    expect(clocks(table(), table(36))).toBe('stricter');
    expect(clocks(table(36), table())).toBe('looser');
  });

  it('is found where a clock of several, or the clock itself, is gone', () => {
    const [a, b] = [every(12), { kind: 'meter', meter: 'hours', every: 100 } as const];
    expect(clocks({ kind: 'first of', clocks: [a, b] }, a)).toBe('looser');
    expect(clocks(a, { kind: 'first of', clocks: [a, b] })).toBe('stricter');
    expect(clocks(a, { kind: 'after happenings' })).toBe('looser');
    expect(clocks(a, { kind: 'once', first: FIRST })).toBe('looser');
    expect(clocks(b, { ...b, meter: 'uses' })).toBe('looser');
  });

  it('takes a month for what it may be: thirty days are longer than a February', () => {
    expect(clocks(every(1), { ...every(1), every: { days: 30 } })).toBe('looser');
    expect(clocks(every(1), { ...every(1), every: { days: 28 } })).toBe('stricter');
    expect(clocks({ ...every(1), every: { days: 30 } }, every(1))).toBe('looser');
    expect(clocks(every(12), { ...every(1), every: { days: 365 } })).not.toBe('looser');
    expect(clocks(every(12), { ...every(1), every: { days: 366 } })).toBe('looser');
    expect(clocks(every(12), { ...every(1), every: { days: 364 } })).toBe('stricter');
  });
});
