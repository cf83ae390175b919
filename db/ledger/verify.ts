/** Is the ledger what it was? Every stored byte, every link, every head. */
import type { LedgerHead, Verification } from '../api.ts';
import { all, type Db, one } from '../store/statements.ts';
import { type Entry, entryText, hashOf } from './entry.ts';

interface Row {
  text: string;
  hash: string;
}

/** Tells how far the check has come, and may ask it to stop. */
export type Watching = (done: number, total: number) => 'go on' | 'stop';

/** How many entries are checked between two looks at whether to go on. */
const PAGE = 500;

/**
 * Check the whole chain: the hash of the stored bytes, that the bytes are canonical, that each device's entries
 * follow one another without a gap, each naming the one before (a copied file's first one the head it was copied
 * at), with clocks that rise and times that do not fall.
 * @param anchor a head kept outside this file (on paper, with a backup): shows a tail that was cut off
 * @returns the first entry that is wrong and what is wrong with it, or ok
 * @throws Error `canceled` where `watch` says to stop
 */
export function verifyLedger(db: Db, anchor?: LedgerHead, watch?: Watching): Verification {
  const steps = verifySteps(db, anchor);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (watch?.(step.value.done, step.value.total) === 'stop') throw new Error('canceled');
  }
}

/** The same check in steps of a page of entries, for whoever does other things between them. */
export function* verifySteps(
  db: Db,
  anchor?: LedgerHead,
): Generator<{ done: number; total: number }, Verification> {
  // As it stands now: what is written while the check goes on is checked when it is next asked for.
  const heads = headsOf(db);
  const total = heads.reduce((sum, h) => sum + h.seq, 0);
  const found: LedgerHead[] = [];
  const copiedAt: { device: string; head: string }[] = [];
  const bad = (device: string, seq: number, what: string): Verification => ({
    ok: false,
    entries: total,
    devices: heads,
    firstBad: { device, seq, what },
  });
  // By the generated columns, so an entry whose text was changed to another device or place is found as a gap.
  const devices = all<{ device: string | null }>(db, 'SELECT DISTINCT device FROM entries ORDER BY device');
  let done = 0;
  for (const { device } of devices) {
    if (device === null) return bad('', 0, 'An entry has lost its device: its text was changed.');
    let previous: Checked | null = null;
    for (let seq = 1; ; ) {
      const page = all<Row>(
        db,
        'SELECT text, hash FROM entries WHERE device = ? AND seq >= ? ORDER BY seq LIMIT ?',
        device,
        seq,
        PAGE,
      );
      for (const row of page) {
        const wrong = wrongWith(row, device, seq, previous);
        if (wrong.what !== null) return bad(device, seq, wrong.what);
        previous = { ...wrong.entry, hash: row.hash };
        if (seq === 1 && previous.prev !== null) copiedAt.push({ device, head: previous.prev });
        if (anchor && anchor.device === device && anchor.seq === seq && !row.hash.startsWith(anchor.hash))
          return bad(device, seq, 'It is not the entry that the anchor names: its hash differs.');
        seq++;
        done++;
      }
      yield { done, total };
      if (page.length < PAGE) break;
    }
    if (previous) found.push({ device, seq: previous.seq, hash: previous.hash });
  }
  const last = (device: string) => found.find(f => f.device === device);
  for (const head of heads) {
    const at = last(head.device);
    if (!at || at.seq < head.seq)
      return bad(head.device, (at?.seq ?? 0) + 1, `Entries up to ${head.seq} were written and are gone.`);
    if (at.seq === head.seq && at.hash !== head.hash)
      return bad(head.device, at.seq, 'It is not the entry that was written last.');
  }
  for (const { device, head } of copiedAt)
    if (!one(db, 'SELECT 1 FROM entries WHERE hash = ?', head))
      return bad(device, 1, 'It names a head of the file it was copied from that is not here.');
  const reached = anchor ? (last(anchor.device)?.seq ?? 0) : 0;
  if (anchor && reached < anchor.seq)
    return bad(
      anchor.device,
      reached + 1,
      `The anchor names entry ${anchor.seq} of this device; the ledger ends before it.`,
    );
  return { ok: true, entries: done, devices: found };
}

/**
 * Check each device's last entries, as is done whenever a file is opened.
 * @returns what is wrong with the first bad one, or null
 */
export function verifyTail(db: Db, count = 100): Verification['firstBad'] | null {
  for (const head of headsOf(db)) {
    const from = Math.max(1, head.seq - count + 1);
    const rows = all<Row>(
      db,
      'SELECT text, hash FROM entries WHERE device = ? AND seq >= ? ORDER BY seq',
      head.device,
      from,
    );
    let previous: Checked | null = null;
    for (let seq = from; seq <= head.seq; seq++) {
      const row = rows[seq - from];
      if (!row)
        return { device: head.device, seq, what: `Entries up to ${head.seq} were written and are gone.` };
      const wrong = wrongWith(row, head.device, seq, previous);
      if (wrong.what !== null) return { device: head.device, seq, what: wrong.what };
      previous = { ...wrong.entry, hash: row.hash };
    }
  }
  return null;
}

/** An entry that was found right, with its hash. */
type Checked = Entry & { hash: string };

function wrongWith(
  row: Row,
  device: string,
  seq: number,
  previous: Checked | null,
): { what: string; entry?: undefined } | { what: null; entry: Entry } {
  if (hashOf(row.text) !== row.hash) return { what: 'Its text is not what was hashed.' };
  let entry: Entry;
  try {
    entry = JSON.parse(row.text) as Entry;
    if (entryText(entry) !== row.text) return { what: 'Its text is not in canonical form.' };
  } catch {
    return { what: 'Its text cannot be read.' };
  }
  if (entry.device !== device || entry.seq !== seq)
    return { what: `Entry ${seq} is missing; the next one is ${entry.seq}.` };
  if (previous && entry.prev !== previous.hash) return { what: 'It does not follow the entry before it.' };
  if (previous && entry.clock <= previous.clock) return { what: 'Its clock does not rise.' };
  if (previous && entry.recordedAt < previous.recordedAt)
    return { what: 'Its time is before the entry before it.' };
  return { what: null, entry };
}

/** The newest entry of each device. */
export function headsOf(db: Db): LedgerHead[] {
  return all<LedgerHead>(db, 'SELECT device, seq, hash FROM heads ORDER BY device');
}
