/** Small questions about files that every step of the bootstrap asks. */

import { createHash } from 'node:crypto';
import { accessSync, constants, readdirSync, readFileSync, statSync } from 'node:fs';
import { delimiter, dirname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** The text of a file, or null where it cannot be read. */
export function readText(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

export function readJson(path) {
  const text = readText(path);
  return text === null ? null : JSON.parse(text);
}

/** SHA-256 over parts, each with its length: moving text from one part to the next must not go unseen. */
export function digest(parts) {
  const hash = createHash('sha256');
  for (const part of parts) {
    const bytes = Buffer.from(part);
    hash.update(`${bytes.length}:`).update(bytes);
  }
  return hash.digest('hex');
}

/** A text that changes when any file under the paths changes, appears, goes or is renamed. */
export function hashOf(root, paths) {
  const parts = [];
  for (const path of [...paths].sort())
    for (const file of filesUnder(join(root, path)))
      parts.push(file.slice(root.length).split(sep).join('/'), readFileSync(file));
  return digest(parts);
}

function filesUnder(path) {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) return [];
  if (!stat.isDirectory()) return [path];
  return readdirSync(path)
    .filter(name => !name.startsWith('.'))
    .sort()
    .flatMap(name => filesUnder(join(path, name)));
}

/** The first of some programs found on PATH, by full path; null without one. */
export function onPath(commands) {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(folder => folder !== '');
  return commands.flatMap(command => folders.map(folder => join(folder, command))).find(canRun) ?? null;
}

export function canRun(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
