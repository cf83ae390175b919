/** Which Baybook this is. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The version as the package says it, from the source or from the bundle; `unknown` where it lies alone. */
export function programVersion(): string {
  for (const place of ['../package.json', '../../package.json']) {
    try {
      const about: unknown = JSON.parse(readFileSync(fileURLToPath(new URL(place, import.meta.url)), 'utf8'));
      if (about !== null && typeof about === 'object' && 'version' in about && 'name' in about)
        if (about.name === 'baybook' && typeof about.version === 'string') return about.version;
    } catch {
      // Not there: the next place.
    }
  }
  return 'unknown';
}
