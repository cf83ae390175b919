import { closeSync, fsyncSync, openSync } from 'node:fs';

/** Force what was written of a file onto the disk. */
export function toDisk(path: string): void {
  const written = openSync(path, 'r+');
  fsyncSync(written);
  closeSync(written);
}
