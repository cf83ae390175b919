/** The sources of the desktop host, as text, for scans. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const fromRoot = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Text by name of every file of `electron/desktop`. */
export function desktopSources(): Map<string, string> {
  const folder = fromRoot('electron/desktop');
  return new Map(readdirSync(folder).map(name => [name, readFileSync(join(folder, name), 'utf8')]));
}
