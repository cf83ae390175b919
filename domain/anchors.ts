/** Anchors as people carry them: a device, the number of its newest entry, that entry's hash. */

export interface Anchor {
  device: string;
  seq: number;
  hash: string;
}

/**
 * An anchor as it stands beside a backup or is typed from paper: device, number, hash; null where it is none. Paper
 * holds the first 16 digits of the hash: 64 bits that nobody finds another entry for.
 */
export function readAnchor(text: string): Anchor | null {
  const m = /^\s*(?:head:\s*)?([a-z0-9]+)\s+(\d+)\s+([0-9a-f]{16,64})\s*$/i.exec(text);
  const [, device, seq, hash] = m ?? [];
  return device && seq && hash
    ? { device: device.toLowerCase(), seq: Number(seq), hash: hash.toLowerCase() }
    : null;
}
