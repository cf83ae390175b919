/** Anchors: what a ledger ends with, as text beside a backup or on paper. */
import type { BackupContents, LedgerHead } from '../api.ts';

/** The anchor of a backup has its name and this ending. */
export const ANCHOR_ENDING = '.anchor.txt';

/** The anchor as text: the count and, for each device, its newest entry, to be read by people and by `readAnchor`. */
export function anchorText(name: string, { department, lastAt, heads, entries }: BackupContents): string {
  return [
    'Baybook anchor: what the ledger of this backup ends with. Keep a copy of it somewhere else, on paper too.',
    `file: ${name}`,
    `department: ${department ?? ''}`,
    `last entry: ${lastAt ?? ''}`,
    `entries: ${entries}`,
    ...heads.map(h => `head: ${h.device} ${h.seq} ${h.hash}`),
    '',
  ].join('\n');
}

/** A head as it is written in an anchor or read from paper: device, number, hash; null where it is none. */
export function readHead(text: string): LedgerHead | null {
  const m = /^\s*(?:head:\s*)?([a-z0-9]+)\s+(\d+)\s+([0-9a-f]{64})\s*$/i.exec(text);
  const [, device, seq, hash] = m ?? [];
  return device && seq && hash
    ? { device: device.toLowerCase(), seq: Number(seq), hash: hash.toLowerCase() }
    : null;
}
