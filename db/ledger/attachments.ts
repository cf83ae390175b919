/**
 * The bytes of photos beside the ledger: taken in with the entries that name them, given out by their SHA-256, told
 * where they are not what was named or are not here. A photo that was named is never changed or taken away.
 */
import { createHash } from 'node:crypto';
import { type Photo, photosIn, photoTypeOf } from '../../domain/photos.ts';
import type { PhotosKept } from '../api.ts';
import { all, type Db, one, run } from '../store/statements.ts';

/** A photo with its bytes. */
export interface Attachment extends Photo {
  bytes: Buffer;
}

/** What the bytes of a photo are named by, or null where they are no picture that is kept. */
export function attachmentOf(bytes: Buffer): Attachment | null {
  const mime = photoTypeOf(bytes);
  return mime === null ? null : { sha256: sha256Of(bytes), mime, size_bytes: bytes.length, bytes };
}

/** Keep a photo, unless it is kept already. @param now UTC milliseconds: when this file was given it */
export function keepAttachment(db: Db, { sha256, mime, size_bytes, bytes }: Attachment, now: number): void {
  run(
    db,
    'INSERT INTO attachments (sha256, mime, size_bytes, bytes, learned_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING',
    sha256,
    mime,
    size_bytes,
    bytes,
    now,
  );
}

/** A photo that this file holds, as an entry names it, or null. */
export function photoKept(db: Db, sha256: string): Photo | null {
  return one<Photo>(db, 'SELECT sha256, mime, size_bytes FROM attachments WHERE sha256 = ?', sha256) ?? null;
}

/** The bytes under a name, whatever has become of them; null where this file has none. */
export function attachmentNamed(db: Db, sha256: string): Attachment | null {
  return (
    one<Attachment>(db, 'SELECT sha256, mime, size_bytes, bytes FROM attachments WHERE sha256 = ?', sha256) ??
    null
  );
}

/** Whether the bytes are those that the name was made of. */
export const isWhole = ({ sha256, bytes }: Attachment): boolean => sha256Of(bytes) === sha256;

/** The photos that entries name and this file holds whole: what travels with those entries. */
export function attachmentsOf(db: Db, texts: readonly string[]): Attachment[] {
  return [...new Set(texts.flatMap(namesIn))].flatMap(sha256 => {
    const kept = attachmentNamed(db, sha256);
    return kept && isWhole(kept) ? [kept] : [];
  });
}

/**
 * Look at every photo: are the bytes here those that were named, and are all that entries name here?
 * @param watch asked between two photos whether to go on
 * @throws Error `canceled` where it says to stop
 */
export function verifyAttachments(db: Db, watch?: () => 'go on' | 'stop'): PhotosKept {
  const kept = all<{ sha256: string }>(db, 'SELECT sha256 FROM attachments ORDER BY sha256');
  const damaged = kept
    .filter(({ sha256 }) => {
      if (watch?.() === 'stop') throw new Error('canceled');
      const here = attachmentNamed(db, sha256);
      return here === null || !isWhole(here);
    })
    .map(a => a.sha256);
  return { kept: kept.length, damaged, missing: missingAttachments(db) };
}

/** The names of photos that entries here name and whose bytes have not come: they may lie in another file. */
export function missingAttachments(db: Db): string[] {
  const kept = new Set(all<{ sha256: string }>(db, 'SELECT sha256 FROM attachments').map(a => a.sha256));
  const named = all<{ text: string }>(db, `SELECT text FROM entries WHERE instr(text, '"sha256":"') > 0`);
  return [...new Set(named.flatMap(e => namesIn(e.text)))].filter(sha256 => !kept.has(sha256)).sort();
}

function namesIn(text: string): string[] {
  return text.includes('"sha256":"') ? photosIn(JSON.parse(text)).map(p => p.sha256) : [];
}

const sha256Of = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
