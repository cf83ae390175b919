/** What tells against a unit. Which effect a requirement has when late is the department's choice; the weights are common practice, no source. */
import { describe, expect, it } from 'vitest';
import {
  byWeight,
  conditionEffect,
  dueEffect,
  rigEffect,
  type UnitKnown,
  verdictOf,
} from '../../../domain/coverage/readiness.ts';
import { day } from '../notation.ts';

const SOUND: UnitKnown = {
  hasRig: true,
  things: 12,
  lastSeen: day('2026-11-24'),
  effects: [],
};
const verdict = (more: Partial<UnitKnown>) => verdictOf({ ...SOUND, ...more });

describe('a unit', () => {
  it('against which nothing is known is ready', () => expect(verdict({})).toBe('ready'));

  it('without a rig, or with nothing ever seen on it, is not known: no news is not good news', () => {
    expect(verdict({ hasRig: false })).toBe('not known');
    expect(verdict({ lastSeen: null })).toBe('not known');
    expect(verdict({ things: 0 })).toBe('not known');
  });

  it('is not ready for one thing that blocks, even where nothing else was ever seen', () => {
    expect(verdict({ effects: ['notes', 'blocks', 'limits'] })).toBe('not ready');
    expect(verdict({ effects: ['blocks'], lastSeen: null })).toBe('not ready');
  });

  it.each(['overdue', 'never done', 'life ended'] as const)(
    'is told of what is %s by the effect its requirement has',
    state => {
      expect(dueEffect({ state, late: 'blocks' })).toBe('blocks');
      expect(dueEffect({ state, late: 'notes' })).toBe('notes');
    },
  );

  it('is blocked by what owes a retest, whatever its date’s being late would do', () =>
    expect(dueEffect({ state: 'retest owed', late: 'notes' })).toBe('blocks'));

  it('is not told of what is only due soon', () =>
    expect(dueEffect({ state: 'due soon', late: 'blocks' })).toBeNull());

  it('is limited by what nobody vouches for', () =>
    expect(dueEffect({ state: 'not judged', late: 'blocks' })).toBe('limits'));

  it('is limited by a thing tagged out, held or missing, and noted where one is for limited use', () => {
    expect(
      (['tagged out', 'at repair', 'held for investigation', 'missing'] as const).map(conditionEffect),
    ).toEqual(Array(4).fill('limits'));
    expect(conditionEffect('limited use')).toBe('notes');
    expect(conditionEffect('serviceable')).toBeNull();
    expect(verdict({ effects: ['notes', 'limits'] })).toBe('ready with limits');
    expect(verdict({ effects: ['notes'] })).toBe('ready');
  });

  it('is not ready on a rig that is out of service, limited on one that is', () => {
    expect(rigEffect('out of service')).toBe('blocks');
    expect(rigEffect('limited')).toBe('limits');
    expect(rigEffect('in service')).toBeNull();
  });
});

describe('reasons', () => {
  it('stand in order of effect, then state, then the older date, then number', () => {
    const reasons = [
      { effect: 'notes', state: 'life ended', dueOn: day('2020-01-01'), number: '1' },
      { effect: 'blocks', state: 'overdue', dueOn: day('2026-06-01'), number: '2' },
      { effect: 'blocks', state: 'overdue', dueOn: day('2026-05-01'), number: '4' },
      { effect: 'blocks', state: 'overdue', dueOn: day('2026-05-01'), number: '3' },
      { effect: 'blocks', state: 'retest owed', dueOn: null, number: '5' },
      { effect: 'limits', state: null, dueOn: null, number: '6' },
    ] as const;
    expect([...reasons].sort(byWeight).map(r => r.number)).toEqual(['5', '3', '4', '2', '6', '1']);
  });
});
