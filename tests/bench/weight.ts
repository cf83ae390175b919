/** How heavy it is: the file, and the memory of a process that has it open and works. */
import { execFileSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import Database from 'better-sqlite3';
import { build } from 'vite';
import type { Measured } from './measure.ts';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const BUILT = here('../../.cache/bench');

export function fileSize(file: string): Measured {
  const db = new Database(file, { readonly: true });
  const bytes = db
    .prepare('SELECT coalesce(sum(length(CAST(text AS BLOB)) + length(hash)), 0) FROM entries')
    .pluck()
    .get() as number;
  db.close();
  return {
    name: 'File size',
    unit: 'MB',
    ours: statSync(file).size / 1e6,
    bare: bytes / 1e6,
    bareIs: 'the bytes of the entries and their hashes alone, which is all that cannot be made again',
  };
}

/** Bundle the store the way the product is bundled: read file by file its libraries weigh several times as much. */
export async function buildStore(): Promise<void> {
  await build({
    configFile: here('../../vite.host.config.ts'),
    logLevel: 'error',
    build: {
      outDir: BUILT,
      emptyOutDir: true,
      rollupOptions: { input: { client: here('../../db/store/client.ts') } },
    },
  });
}

/** Resident memory after deeds and questions, each side in a process of its own. */
export function memory(file: string): Measured {
  const resident = (...client: string[]) =>
    Number(execFileSync(process.execPath, [here('./working.ts'), file, ...client], { encoding: 'utf8' })) /
    1e6;
  return {
    name: 'Memory of the store at work',
    unit: 'MB',
    ours: resident(pathToFileURL(`${BUILT}/client.js`).href),
    bare: resident(),
    bareIs:
      'a process with two bare connections of the same page cache that has read every row of items and due once through each',
    aim: { atMost: 300, at: 20_000 },
  };
}
