/** Serial numbers as people number and copy them: a prefix and figures, `VB-40410`, with or without what joins them. */
import { numberSort } from '../number.ts';

/** A serial taken apart: what stands before its last figures, the figures, what follows them. */
interface Serial {
  prefix: string;
  figures: string;
  suffix: string;
  /** Letters and figures in turn, as `a9`: two serials of one maker are of one shape. */
  shape: string;
}

/**
 * Whether a serial lies between two, both included; a bound that is null is open. `perhaps` where it is not known or
 * was copied so that it may be one of them: without its prefix, with an O for a 0, with a letter more.
 */
export function rangeOf(
  from: string | null,
  to: string | null,
  known: string | null,
): 'yes' | 'perhaps' | 'no' {
  if (from === null && to === null) return 'yes';
  const serial = read(known ?? '');
  // Without figures it is a word for not knowing: N/A, unreadable.
  if (serial === null) return 'perhaps';
  const low = from === null ? null : read(from);
  const high = to === null ? null : read(to);
  const named = low ?? high;
  if (named === null) return 'perhaps';
  if (low && high && low.prefix !== high.prefix) {
    // Over two prefixes nobody can say which figures were given out: what sorts between them has to be looked at.
    const [a, b, at] = [from, to, known].map(s => numberSort((s ?? '').replace(/[^a-z0-9]/gi, '')));
    return (a ?? '') <= (at ?? '') && (at ?? '') <= (b ?? '') ? 'perhaps' : 'no';
  }
  const isBetween = within(low, high, serial.figures);
  if (serial.prefix === named.prefix) {
    if (isBetween) return [low?.suffix ?? '', high?.suffix ?? ''].includes(serial.suffix) ? 'yes' : 'perhaps';
  } else if (isBetween && (serial.prefix.endsWith(named.prefix) || named.prefix.endsWith(serial.prefix)))
    return 'perhaps';
  if (serial.shape === named.shape) return 'no';
  // Another shape: read once more without what joins it, and with figures for the letters that pass for them.
  const bare = { at: read(plain(known)), low: read(plain(from)), high: read(plain(to)) };
  return bare.at !== null &&
    bare.at.prefix === (bare.low ?? bare.high)?.prefix &&
    within(bare.low, bare.high, bare.at.figures)
    ? 'perhaps'
    : 'no';
}

/** Whether two serials are one, however they are joined and padded. */
export function isSameSerial(a: string, b: string): boolean {
  return runsOf(a).join(' ') === runsOf(b).join(' ');
}

/** Whether a range can be read: its ends of one prefix, and the first not after the last. */
export function rangeProblem(
  from: string | null,
  to: string | null,
): 'no figures' | 'two prefixes' | 'reversed' | null {
  const [low, high] = [from, to].map(s => (s === null ? null : read(s)));
  if ((from !== null && !low) || (to !== null && !high)) return 'no figures';
  if (!low || !high) return null;
  if (low.prefix !== high.prefix) return 'two prefixes';
  return byFigures(low.figures, high.figures) > 0 ? 'reversed' : null;
}

/** Letters and figures in turn, in lower case, figures without leading zeros. */
const runsOf = (text: string): string[] =>
  (text.toLowerCase().match(/[a-z]+|\d+/g) ?? []).map(run => run.replace(/^0+(?=\d)/, ''));

function read(text: string): Serial | null {
  const runs = runsOf(text);
  const at = runs.findLastIndex(run => /\d/.test(run));
  const figures = runs[at];
  if (figures === undefined) return null;
  return {
    prefix: runs.slice(0, at).join(' '),
    figures,
    suffix: runs.slice(at + 1).join(' '),
    shape: runs.map(run => (/\d/.test(run) ? '9' : 'a')).join(''),
  };
}

const within = (low: Serial | null, high: Serial | null, figures: string): boolean =>
  (low === null || byFigures(low.figures, figures) <= 0) &&
  (high === null || byFigures(figures, high.figures) <= 0);

/** As numbers, however long. */
const byFigures = (a: string, b: string): number => a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

const plain = (text: string | null): string =>
  (text ?? '')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '')
    .replace(/o/g, '0')
    .replace(/[il]/g, '1');
