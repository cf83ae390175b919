/** What this program remembers about itself in the data folder: never anything of a department. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const NAME = 'desktop.json';
const RECENT_MOST = 8;

const placement = z.object({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().min(400),
  height: z.number().int().min(300),
  maximized: z.boolean(),
});

const notes = z.object({
  window: placement.nullable().catch(null),
  /** Names of department files, the one opened last first. */
  recent: z.array(z.string()).catch([]),
  light: z.enum(['system', 'light', 'dark']).catch('system'),
});

/** Of the window, in pixels of the desktop that do not change with its scale. */
export type Placement = z.infer<typeof placement>;
export type Notes = z.infer<typeof notes>;
export type Light = Notes['light'];

/** Only a convenience: what is missing or damaged is as on the first day. */
export function readNotes(folder: string): Notes {
  return notes.catch({ window: null, recent: [], light: 'system' }).parse(fileIn(folder));
}

/** Written beside and renamed, so a power cut leaves the old notes or the new. */
export function writeNotes(folder: string, changed: Partial<Notes>): Notes {
  const now = { ...readNotes(folder), ...changed };
  const path = join(folder, NAME);
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, `${JSON.stringify(now)}\n`);
  renameSync(beside, path);
  return now;
}

export function withRecent(recent: readonly string[], name: string): string[] {
  return [name, ...recent.filter(n => n !== name)].slice(0, RECENT_MOST);
}

function fileIn(folder: string): unknown {
  try {
    return JSON.parse(readFileSync(join(folder, NAME), 'utf8'));
  } catch {
    return null;
  }
}
