/** Photos that an act of the terminal brings, from their files. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { AttachmentSent } from '../../db/api.ts';
import { typedPath } from './department.ts';
import { TerminalRefusal } from './refusal.ts';

/** @throws TerminalRefusal where a file cannot be read */
export function readPhotos(paths: readonly string[]): AttachmentSent[] {
  return paths.map(path => {
    try {
      // What kind of picture it is, its bytes say.
      return { name: basename(path), mime: '', bytes: readFileSync(typedPath(path)).toString('base64') };
    } catch (error) {
      throw new TerminalRefusal(
        'file',
        `${path} cannot be read: ${error instanceof Error ? error.message : error}`,
        'Give the path of a photo.',
        'photo',
      );
    }
  });
}
