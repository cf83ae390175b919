/**
 * The first one of a thing with nothing on record, and the hose that no test restores. NFPA 1962 4.1.3 and 4.8.1,
 * NFPA 1932 7.1.6, NFPA 1852 (read in public copies or second-hand, as the rule book says).
 */
import { describe, expect, it } from 'vitest';
import { dueOn, state } from '../notation.ts';

const states = (text: string, requirement: string, days: readonly string[]) =>
  days.map(on => state(text, requirement, on));

describe('the first one', () => {
  it('of new hose is at the later of a year after manufacture and the day it was placed in service', () => {
    expect(dueOn('hose H-1: made 2025-03-01, inService 2025-09-01', 'hose.service-test')).toBe('2026-03-01');
    expect(dueOn('hose H-1: made 2023-03-01, inService 2025-09-01', 'hose.service-test')).toBe('2025-09-01');
    expect(dueOn('hose H-1: made 2024-09-01, inService 2025-09-01', 'hose.service-test')).toBe('2025-09-01');
  });

  it('of hose whose one date is not known counts from the other', () => {
    expect(dueOn('hose H-1: made 2025-03', 'hose.service-test')).toBe('2026-03-31');
    expect(dueOn('hose H-1: inService 2025-09', 'hose.service-test')).toBe('2025-09-30');
  });

  it('of hose of which no date is known is never done, with no date', () => {
    expect(dueOn('hose H-1: use attack', 'hose.service-test')).toBeNull();
    expect(state('hose H-1: use attack', 'hose.service-test', '2026-01-01')).toBe('never done');
  });

  it('is not late before its day: then it is never done', () =>
    expect(
      states('hose H-1: made 2025-03-01, inService 2025-09-01', 'hose.service-test', [
        '2025-12-30',
        '2025-12-31',
        '2026-03-01',
        '2026-03-02',
      ]),
    ).toEqual(['current', 'due soon', 'due soon', 'never done']));

  it('of a ladder and the flow test of a pack are due before they are placed in service', () => {
    const placed = 'inService 2026-02-10';
    expect(dueOn(`ladder L-1: ${placed}`, 'ladder.service-test')).toBe('2026-02-10');
    expect(dueOn(`pack P-1: ${placed}`, 'pack.flow-test')).toBe('2026-02-10');
    expect(dueOn(`ladder L-1: ${placed}`, 'ladder.inspection')).toBe('2026-03-10');
    expect(dueOn(`pack P-1: ${placed}`, 'pack.operational-check')).toBe('2026-02-17');
    expect(dueOn('ladder L-1: made 2020-01', 'ladder.service-test')).toBeNull();
  });

  it('of building hose is five years after manufacture, then every three years', () => {
    const hose = 'hose B-2: use occupant, made 2020-06-01';
    expect(dueOn(hose, 'hose.occupant-service-test')).toBe('2025-06-01');
    expect(dueOn(`${hose}\n2025-05-20  passed  service test`, 'hose.occupant-service-test')).toBe(
      '2028-05-20',
    );
    expect(dueOn(hose, 'hose.service-test')).toBeUndefined();
    expect(dueOn('hose B-2: use occupant, inService 2020-06-01', 'hose.occupant-service-test')).toBeNull();
  });
});

describe('hose made before July 1987', () => {
  const made = (text: string, on: string) => state(`hose H-9: made ${text}`, 'hose.end-of-life', on);

  it('is past its life on any day, and no test restores it', () => {
    expect([
      made('1987-06-30', '2026-01-01'),
      made('1986-12-01', '2026-01-01'),
      made('1987-06', '1987-07-01'),
    ]).toEqual(['life ended', 'life ended', 'life ended']);
    const tested = 'hose H-9: made 1987-06-30\n2026-01-02  passed  service test';
    expect(state(tested, 'hose.end-of-life', '2026-01-03')).toBe('life ended');
  });

  it('or on the first of that month: the rule does not concern what was made on or after it', () =>
    expect([
      made('1987-07-01', '2026-01-01'),
      made('1987-07', '2026-01-01'),
      made('1988', '2026-01-01'),
    ]).toEqual([undefined, undefined, undefined]));

  it('in 1987, month not known, is not judged; with no date at all the rule is silent', () => {
    expect(made('1987', '2026-01-01')).toBe('not judged');
    expect(state('hose H-9: use attack', 'hose.end-of-life', '2026-01-01')).toBeUndefined();
  });
});
