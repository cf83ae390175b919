/** In what two versions of a requirement differ, in words. */
import { clockWords, onTimeWords } from './clock-words.ts';
import type { Family, Requirement } from './types.ts';
import { cited, concernsWords, LATE_WORDS, settledWords, warnWords } from './words.ts';

export interface VersionChange {
  what: string;
  was: string;
  now: string;
}

/** What is told of a version, point by point. */
const POINTS: readonly { what: string; told: (r: Requirement, family: Family | undefined) => string }[] = [
  { what: 'Clock', told: (r, family) => clockWords(r, family) },
  { what: 'On time', told: onTimeWords },
  { what: 'Concerns', told: (r, family) => concernsWords(r, family) },
  { what: 'Settled by', told: r => settledWords(r).join(' ') },
  { what: 'Being late', told: r => LATE_WORDS[r.late] },
  { what: 'Grace', told: r => (r.graceDays ? `${r.graceDays} days` : 'none') },
  { what: 'Warning', told: warnWords },
  {
    what: 'In storage',
    told: r => (r.inStorage === 'waits' ? 'waits, and is owed before it comes back' : 'keeps running'),
  },
  {
    what: 'Source',
    told: r =>
      r.sources
        .map(s => [cited(s), s.edition].filter(Boolean).join(', '))
        .filter(Boolean)
        .join('; ') || 'none',
  },
  { what: 'Force', told: r => r.force },
  { what: 'Confirmed', told: r => r.confirmed ?? 'no' },
  { what: 'Who may do it', told: r => r.who },
  { what: 'Cautions', told: r => r.cautions.join(' ') || 'none' },
];

/** Point by point, what was and what is now; empty where they say the same. */
export function versionChanges(
  before: Requirement,
  after: Requirement,
  family: Family | undefined,
): VersionChange[] {
  return POINTS.flatMap(({ what, told }) => {
    const [was, now] = [told(before, family), told(after, family)];
    return was === now ? [] : [{ what, was, now }];
  });
}
