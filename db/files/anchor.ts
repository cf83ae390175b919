/** Anchors: what a ledger ends with, as text beside a backup or on paper. */
import type { BackupContents } from '../api.ts';

/** The anchor of a backup has its name and this ending. */
export const ANCHOR_ENDING = '.anchor.txt';

/** The anchor as text: the count and, for each device, its newest entry, to be read by people and by machines. */
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
