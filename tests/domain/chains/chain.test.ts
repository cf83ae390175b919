/**
 * The chain of a thing out of service, from the day it went out to the day it is back or gone. Common practice, no
 * source; that only a pass settles a failure: NFPA 1962 (2018) 4.8 and the book's own rules of what is owed.
 */
import { describe, expect, it } from 'vitest';
import { parseDay } from '../../../domain/calendar/day.ts';
import { chainsOf, nextWords, stuckFor } from '../../../domain/chains/chain.ts';
import type { Fact } from '../../../domain/facts.ts';

let clock = 0;
const fact = (effective: string, kind: string, values: object): Fact =>
  ({
    id: `f${++clock}`,
    effective,
    clock,
    device: 'aaaaa',
    n: 0,
    recordedAt: 0,
    kind,
    values,
  }) as unknown as Fact;
const state = (on: string, condition: string, more: object = {}) =>
  fact(on, 'condition', { condition, ...more });
const tested = (on: string, outcome: string, activity = 'service test') =>
  fact(on, 'record', { activity, outcome });
const repaired = (on: string, activities: string[], kind = 'rung') =>
  fact(on, 'owed', { activities, because: `repaired: ${kind}` });
const day = (text: string) => parseDay(text) as NonNullable<ReturnType<typeof parseDay>>;

describe('a chain', () => {
  it('runs tagged, at repair, retest owed, to be returned, and ends back in service', () => {
    const facts = [
      state('2026-03-01', 'serviceable'),
      state('2026-03-10', 'tagged out', { reason: 'Rung cracked', tag: '0412' }),
      state('2026-03-12', 'at repair'),
      fact('2026-03-12', 'sent', { promised: '2026-04-01', cost_usd: '180.00' }),
      repaired('2026-03-30', ['service test']),
      tested('2026-04-03', 'pass'),
      state('2026-04-04', 'serviceable'),
    ];
    const stages = facts.map((_, i) => chainsOf(facts.slice(0, i + 1)).at(-1)?.stage ?? null);
    expect(stages).toEqual([null, 'tagged', 'at repair', 'at repair', 'retest owed', 'to be returned', null]);
    const [chain, ...others] = chainsOf(facts);
    expect(others).toEqual([]);
    expect(chain).toMatchObject({
      from: '2026-03-10',
      until: '2026-04-04',
      ended: 'back in service',
      reason: 'Rung cracked',
      tag: '0412',
      promised: '2026-04-01',
    });
    expect(chain?.steps.map(s => s.what)).toEqual([
      'Tagged out, tag 0412: Rung cracked',
      'At repair',
      'Sent, promised for 2026-04-01, $180.00',
      'Repaired: rung; owes a service test',
      'Service test passed: nothing is owed any more',
      'Back in service',
    ]);
  });

  it('of a halyard owes nothing after the repair: it is to be returned at once', () => {
    const chain = chainsOf([state('2026-03-10', 'tagged out'), repaired('2026-03-11', [], 'halyard')]).at(-1);
    expect(chain?.stage).toBe('to be returned');
  });

  it('begins with a failed test, though nobody has tagged it', () => {
    const [chain] = chainsOf([tested('2026-05-01', 'pass'), tested('2026-06-01', 'fail')]);
    expect(chain).toMatchObject({ from: '2026-06-01', until: null, stage: 'retest owed' });
  });

  it('is not ended by a return that leaves a test owed, and is by the pass', () => {
    const facts = [
      tested('2026-06-01', 'fail'),
      state('2026-06-01', 'tagged out'),
      repaired('2026-06-05', ['service test']),
      // Signed back without the test.
      state('2026-06-06', 'serviceable'),
    ];
    expect(chainsOf(facts).at(-1)).toMatchObject({ until: null, stage: 'retest owed' });
    expect(chainsOf([...facts, tested('2026-07-17', 'pass')]).at(-1)).toMatchObject({
      until: '2026-07-17',
      ended: 'back in service',
    });
  });

  it('ends with what is retired, and the next time is another chain', () => {
    const facts = [
      state('2026-01-01', 'tagged out'),
      state('2026-01-03', 'serviceable'),
      state('2026-02-01', 'missing'),
      fact('2026-02-02', 'searched', { where: 'All crosslays' }),
      state('2026-02-20', 'retired', { reason: 'Written off' }),
    ];
    expect(chainsOf(facts).map(c => [c.from, c.until, c.ended])).toEqual([
      ['2026-01-01', '2026-01-03', 'back in service'],
      ['2026-02-01', '2026-02-20', 'retired'],
    ]);
    expect(
      chainsOf(facts)
        .at(-1)
        ?.steps.map(s => s.what),
    ).toContain('Searched: All crosslays');
  });

  it('of what is held tells who has it, and waits for whoever may release it', () => {
    const chain = chainsOf([
      state('2026-01-01', 'held for investigation', { reason: 'Injury' }),
      fact('2026-01-01', 'custody', { to: 'R. Alder, evidence locker' }),
    ]).at(-1);
    expect(chain?.stage).toBe('held for investigation');
    expect(chain?.steps.at(-1)?.what).toBe('Handed to R. Alder, evidence locker');
    expect(nextWords('held for investigation', [])).toContain('released');
  });

  it('is the same whatever order its facts arrive in', () => {
    const facts = [
      state('2026-03-10', 'tagged out'),
      state('2026-03-12', 'at repair'),
      repaired('2026-03-30', ['service test']),
    ];
    expect(chainsOf([...facts].reverse())).toEqual(chainsOf(facts));
  });
});

describe('a chain is stuck', () => {
  const at = (stage: 'at repair' | 'to be returned', since: string, promised: string | null = null) => ({
    stage,
    stageSince: since as never,
    promised: promised as never,
  });

  it('once it has stood at its stage for longer than is usual, and not on that day', () => {
    expect(stuckFor(at('at repair', '2026-03-01'), day('2026-03-31'))).toEqual({ days: 30, stuck: false });
    expect(stuckFor(at('at repair', '2026-03-01'), day('2026-04-01'))).toEqual({ days: 31, stuck: true });
    expect(stuckFor(at('to be returned', '2026-03-01'), day('2026-03-05')).stuck).toBe(true);
  });

  it('once the day it was promised for has passed, whatever is usual', () => {
    const sent = at('at repair', '2026-03-01', '2026-03-05');
    expect(stuckFor(sent, day('2026-03-05')).stuck).toBe(false);
    expect(stuckFor(sent, day('2026-03-06')).stuck).toBe(true);
  });
});
