/** The bytes of a photo, and the photos that the facts of many things name. */
import { z } from 'zod';
import { type Photo, photosOf, SHA256 } from '../../domain/photos.ts';
import type { Questions } from '../api.ts';
import { attachmentNamed, isWhole, missingAttachments } from '../ledger/attachments.ts';
import { all } from '../store/statements.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const photoGet = question({
  name: 'photo.get',
  title: 'A photo by the SHA-256 that an entry names it by; its bytes are checked against that name',
  schema: z.strictObject({ sha256: z.string().regex(SHA256) }) as unknown as z.ZodType<
    Questions['photo.get']['takes']
  >,
  answer(asking, { sha256 }) {
    const kept = attachmentNamed(asking.db, sha256);
    if (!kept)
      throw missingAttachments(asking.db).includes(sha256)
        ? new CannotAnswer(
            'not here',
            'The photo has not come to this file: the entry that names it came without it.',
            'Exchange again with the device that took it.',
            'sha256',
          )
        : new CannotAnswer(
            'not found',
            'No entry names such a photo.',
            'Take its name from a history.',
            'sha256',
          );
    if (!isWhole(kept))
      throw new CannotAnswer(
        'damaged',
        'The photo is not what was kept: its bytes were changed.',
        'Look for it in a backup.',
        'sha256',
      );
    return { mime: kept.mime, size_bytes: kept.size_bytes, bytes: kept.bytes.toString('base64') };
  },
  example: { sha256: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' },
});

/** The photos of the defects that have some, by the defect's key: as it was found, still so, and added since. */
export function photosOfDefects(asking: Asking): ReadonlyMap<number, readonly Photo[]> {
  const byDefect = new Map<number, Photo[]>();
  const told = all<{ key: number; values: string }>(
    asking.db,
    `SELECT d.key, f."values" FROM defects d JOIN facts f ON f.thing = d.key
     WHERE f.voided_at IS NULL AND instr(f."values", '"photos":[{') > 0 ORDER BY f.effective, f.clock, f.n`,
  );
  for (const { key, values } of told) {
    const before = byDefect.get(key) ?? [];
    const more = photosOf(JSON.parse(values) as Record<string, unknown>);
    byDefect.set(key, [...before, ...more.filter(p => !before.some(b => b.sha256 === p.sha256))]);
  }
  return byDefect;
}
