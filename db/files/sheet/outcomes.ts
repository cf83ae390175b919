/** Pass, fail and not completed in whatever spelling, and what else the cell says beside it. */
import type { Outcome } from '../../../domain/facts.ts';
import { isBlankLike } from './cell-text.ts';

/** What a result column is headed: either word, or one of a pair of columns that are ticked. */
export type Polarity = 'either' | 'pass' | 'fail';

export interface OutcomeReading {
  /** null: the cell says nothing, or that no test was made. */
  outcome: Outcome | null;
  /** The cell says in words that no test was made. */
  untested: boolean;
  /** What follows the word: the leak of `FAIL - leak`. */
  note: string;
}

const PHRASES = new Map<string, Outcome | null>();
const say = (outcome: Outcome | null, phrases: string) => {
  for (const phrase of phrases.split(',')) PHRASES.set(phrase.trim(), outcome);
};
say(
  'pass',
  `p, ps, pass, passed, passes, passing, passd, okay, ok, o k, k, good, gd, g, y, yes, true, sat, s, satisfactory,
   satis, acc, accept, accepted, acceptable, approved, complete, completed, done, tested, tested ok, tested good,
   test ok, no leaks, no leak, no defects, no defect, no issues, no issue, no problems, no failures, requalified,
   requal, recertified, certified, pass ok, p ok, 100%, in spec, within spec, returned to service, rts, ✓, ✔, √, ☑,
   ✅, 👍, passed test, passed inspection, good to go`,
);
say(
  'fail',
  `f, fail, failed, fails, failing, faild, failure, n, no, false, bad, unsat, u, unsatisfactory, rej, reject,
   rejected, condemn, condemned, cond, no good, ng, n g, not ok, not good, not acceptable, unacceptable, did not pass,
   not passed, no pass, not pass, didnt pass, leak, leaks, leaked, leaking, burst, bursted, ruptured, oos,
   out of service, removed, removed from service, red tag, red tagged, poor, ✗, ✘, ❌, ☒, np, failed test,
   failed inspection`,
);
say(
  'not completed',
  `not completed, not complete, incomplete, incompleted, inc, dnf, did not finish, not finished, unfinished, stopped,
   test stopped, aborted, abort, interrupted, nc, n c, canceled, cancelled, partial, unable to test,
   could not test, could not complete, suspended, halted, terminated`,
);
say(
  null,
  `not tested, untested, not done, not yet tested, no test, nt, n t, needs test, needs testing, to be tested, due,
   not inspected, awaiting test, scheduled, new hose, new ladder, new cylinder`,
);
/** A tick in a column headed `Pass` or `Fail`. */
const TICKS = new Set(['x', '✓', '✔', '√', '☑', '✅', '1', '*', '•', 'yes', 'y', 'true']);
const PASS_WORD = /\b(pass|passed|passes|ok|okay)\b/;
const FAIL_WORD =
  /\b(fail|failed|fails|failure|leak|leaks|leaked|leaking|burst|ruptured|reject|rejected|condemned)\b/;
const DENIED = /\b(no|without|not|never)\s+(a\s+)?(visible\s+)?(leaks?|leaking|failures?|bursts?)\b/g;

const NOTHING: OutcomeReading = { outcome: null, untested: false, note: '' };

function said(outcome: Outcome | null, note = ''): OutcomeReading {
  return { outcome, untested: outcome === null, note };
}

/**
 * Read a result.
 * @returns undefined where the text says neither, or both (`X`, `Fair`, `failed, then passed`)
 */
export function readOutcome(text: string, polarity: Polarity = 'either'): OutcomeReading | undefined {
  const lower = text.toLowerCase().trim();
  if (lower === 'n/a' || lower === 'na') return NOTHING;
  if (polarity !== 'either') {
    if (TICKS.has(lower)) return said(polarity);
    if (polarity === 'fail' && (lower === 'n' || lower === 'no' || lower === 'false')) return said('pass');
  }
  if (isBlankLike(lower)) return NOTHING;
  const words = wordsOf(lower);
  const whole = words.join(' ');
  const exact = PHRASES.get(whole);
  if (exact !== undefined) return said(exact);
  for (let n = Math.min(words.length - 1, 4); n >= 1; n--) {
    const outcome = PHRASES.get(words.slice(0, n).join(' '));
    if (outcome === undefined) continue;
    if (n === 1 && !standsAlone(words[0] ?? '', lower)) return undefined;
    return bothWays(outcome, words.slice(n).join(' ')) ? undefined : said(outcome, noteAfter(text, n));
  }
  return undefined;
}

/** A single letter, yes or no, counts before other words only where a mark sets it off: `F - coupling`, not `no flow`. */
function standsAlone(word: string, text: string): boolean {
  const weak = word.length <= 2 || word === 'yes' || word === 'new' || word === 'true' || word === 'due';
  if (!weak && word !== 'done' && word !== 'tested') return true;
  if (word === 'no' || word === 'n') return /^n[o.]?\s*[,;:–—-]/.test(text);
  return /^\w+[.)]?\s*[-–—,;:(/*]/.test(text) || word === 'ok';
}

function bothWays(outcome: Outcome | null, rest: string): boolean {
  const plain = rest.replace(DENIED, ' ');
  if (outcome === 'pass') return FAIL_WORD.test(plain);
  return outcome === 'fail' ? PASS_WORD.test(plain) : false;
}

function wordsOf(lower: string): string[] {
  return lower
    .replace(/['’`]/g, '')
    .replace(/[^\p{L}\p{N}%✓✔√☑✅👍✗✘❌☒]+/gu, ' ')
    .trim()
    .split(' ')
    .filter(word => word !== '');
}

function noteAfter(text: string, words: number): string {
  const m = new RegExp(`^(?:[^\\p{L}\\p{N}]*[\\p{L}\\p{N}'’]+){${words}}[^\\p{L}\\p{N}]*`, 'u').exec(
    text.trim(),
  );
  return m
    ? text
        .trim()
        .slice(m[0].length)
        .replace(/[)\]]$/, '')
        .trim()
    : '';
}
