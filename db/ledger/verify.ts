/** Is the ledger what it was? Every stored byte, every link, every head. */
import type { LedgerHead, Verification } from '../api.ts';
import { all, one, prepared, type Db } from '../store/statements.ts';
import { type Entry, entryText, hashOf } from './entry.ts';

interface Row {
  text: string;
  hash: string;
}

/** Tells how far the check has come, and may ask it to stop. */
export type Watching = (done: number, total: number) => 'go on' | 'stop';

/**
 * Check the whole chain: the hash of the stored bytes, that the bytes are canonical, that each device's entries
 * follow one another without a gap, each naming the one before, with clocks that rise and times that do not fall.
 * @param anchor a head kept outside this file (on paper, with a backup): shows a tail that was cut off
 * @returns the first entry that is wrong and what is wrong with it, or ok
 */
export function verifyLedger(db: Db, anchor?: LedgerHead, watch?: Watching): Verification {
  const total = one<{ n: number }>(db, 'SELECT count(*) AS n FROM entries')?.n ?? 0;
  const heads = all<LedgerHead>(db, 'SELECT device, seq, hash FROM heads ORDER BY device');
  const found: LedgerHead[] = [];
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
    let previous: (Entry & { hash: string }) | null = null;
    for (let seq = 1; ; ) {
      const page = prepared(
        db,
        'SELECT text, hash FROM entries WHERE device = ? AND seq >= ? ORDER BY seq LIMIT 500',
      ).all(device, seq) as Row[];
      for (const row of page) {
        const wrong = wrongWith(row, device, seq, previous);
        if (wrong.what !== null) return bad(device, seq, wrong.what);
        previous = { ...wrong.entry, hash: row.hash };
        if (anchor && anchor.device === device && anchor.seq === seq && anchor.hash !== row.hash)
          return bad(device, seq, 'It is not the entry that the anchor names: its hash differs.');
        seq++;
        done++;
      }
      if (watch?.(done, total) === 'stop') throw new Error('canceled');
      if (page.length < 500) break;
    }
    if (previous) found.push({ device, seq: previous.seq, hash: previous.hash });
  }
  for (const head of heads) {
    const last = found.find(f => f.device === head.device);
    if (!last || last.seq < head.seq)
      return bad(head.device, (last?.seq ?? 0) + 1, `Entries up to ${head.seq} were written and are gone.`);
    if (last.hash !== head.hash) return bad(head.device, last.seq, 'It is not the entry that was written last.');
  }
  if (anchor) {
    const last = found.find(f => f.device === anchor.device);
    if (!last || last.seq < anchor.seq)
      return bad(
        anchor.device,
        (last?.seq ?? 0) + 1,
        `The anchor names entry ${anchor.seq} of this device; the ledger ends before it.`,
      );
  }
  return { ok: true, entries: total, devices: found };
}

function wrongWith(
  row: Row,
  device: string,
  seq: number,
  previous: (Entry & { hash: string }) | null,
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
  if (previous && entry.recordedAt < previous.recordedAt) return { what: 'Its time is before the entry before it.' };
  return { what: null, entry };
}

/** The newest entry of each device. */
export function headsOf(db: Db): LedgerHead[] {
  return all<LedgerHead>(db, 'SELECT device, seq, hash FROM heads ORDER BY device');
}
