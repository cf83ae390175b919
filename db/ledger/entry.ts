/**
 * One entry of the ledger: its exact bytes and its hash. The bytes are the RFC 8785 canonical JSON of the entry,
 * so that any language can rebuild and verify them; the hash is the SHA-256 of those bytes, in hex.
 */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import type { Via } from '../api.ts';

export const FORMAT = 1;

export interface Entry {
  format: number;
  device: string;
  /** 1 for a device's first entry. */
  seq: number;
  /** Lamport clock: above every entry that was known when this one was written. */
  clock: number;
  /** UTC milliseconds, never below the device's previous. */
  recordedAt: number;
  /** The member who acted; null only for the entry that opens a department. */
  by: string | null;
  via: Via;
  /** The id of the first entry of the same act. */
  batch: string;
  action: string;
  /** The version of the action's body. */
  v: number;
  body: Record<string, unknown>;
  /** Hash of this device's previous entry; for a copied file's new device, the head it was copied at; else null. */
  prev: string | null;
}

/** The id of an entry: `<device>-<seq in base 36>`. */
export function entryId(device: string, seq: number): string {
  return `${device}-${seq.toString(36)}`;
}

/**
 * The exact text that is kept and hashed.
 * @throws RangeError where the body holds what another language would read back differently
 */
export function entryText(entry: Entry): string {
  const unwritable = notPortable(entry.body);
  if (unwritable) throw new RangeError(`${unwritable.path} ${unwritable.wrong}`);
  const text = canonicalize(entry);
  if (text === undefined) throw new RangeError('The entry cannot be written as JSON.');
  return text;
}

/** SHA-256 of the text's UTF-8 bytes, lower-case hex. */
export function hashOf(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** The first value in a body that any other language might read back differently, or null. */
export function notPortable(value: unknown, path = ''): { path: string; wrong: string; todo: string } | null {
  if (typeof value === 'number')
    return Number.isSafeInteger(value)
      ? null
      : { path, wrong: `is ${value}, not a whole number.`, todo: 'Write decimals as text.' };
  if (typeof value === 'string')
    return value.isWellFormed()
      ? null
      : { path, wrong: 'holds half a character.', todo: 'Enter the text again.' };
  if (value === null || typeof value !== 'object') return null;
  for (const [key, v] of Object.entries(value)) {
    const inner = Array.isArray(value) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
    const problem = key.isWellFormed()
      ? notPortable(v, inner)
      : { path, wrong: 'holds half a character in a name.', todo: 'Enter the name again.' };
    if (problem) return problem;
  }
  return null;
}
