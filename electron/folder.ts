/**
 * The data folder: where department files live, what a file may be called, and which was opened last.
 * Hosts name files only by their name inside the folder; a name that could reach outside is refused.
 */
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { basename, join } from 'node:path';
import type { DepartmentFile, Problem } from '../db/api.ts';
import { isBeingMade } from './demo.ts';

export const ENDING = '.baybook';
const REMEMBERED = 'opened-last.json';

export class FileNameRefused extends Error {
  readonly problem: Problem;
  constructor(message: string, todo: string) {
    super(message);
    this.problem = { code: 'file name', message, todo, field: 'name' };
  }
}

/** `BAYBOOK_DATA` where it is set; otherwise where programs keep a person's data on this system. */
export function dataFolder(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
): string {
  if (env.BAYBOOK_DATA) return env.BAYBOOK_DATA;
  if (platform === 'win32') return join(env.APPDATA ?? join(homedir(), 'AppData', 'Roaming'), 'Baybook');
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Baybook');
  return join(env.XDG_DATA_HOME || join(homedir(), '.local', 'share'), 'baybook');
}

/** Makes the folder where it is not there yet, for its owner only: it holds names of members. */
export function ensureFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
}

/**
 * The name a department file may have, with its ending.
 * @throws FileNameRefused where the name could reach outside the folder or be unreadable on another system
 */
export function fileName(name: unknown): string {
  if (typeof name !== 'string' || name.trim() === '')
    throw new FileNameRefused('No file name was given.', 'Give the file a name.');
  const trimmed = name.trim();
  const whole = trimmed.toLowerCase().endsWith(ENDING) ? trimmed : trimmed + ENDING;
  const stem = whole.slice(0, -ENDING.length);
  // Letters of any script are fine; separators, drive colons, controls and wildcards are not on some system or other.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
  const reaches = /[/\\:*?"<>|\u0000-\u001f\u007f]/.test(whole) || basename(whole) !== whole;
  if (reaches || stem === '' || stem.startsWith('.') || /[. ]$/.test(stem) || Buffer.byteLength(whole) > 200)
    throw new FileNameRefused(
      `“${trimmed}” cannot be the name of a department file.`,
      'Use letters, figures, spaces and dashes, without a folder.',
    );
  return whole;
}

/**
 * The full path of a department file in the folder.
 * @throws FileNameRefused as `fileName`, and where something that is not an ordinary file has that name: a link
 *   could lead outside the folder
 */
export function filePath(folder: string, name: unknown): string {
  const path = join(folder, fileName(name));
  if (lstatSync(path, { throwIfNoEntry: false })?.isFile() === false)
    throw new FileNameRefused(`“${basename(path)}” is not an ordinary file.`, 'Choose another file.');
  return path;
}

/** Department files in the folder, the latest changed first. */
export function listFiles(folder: string): DepartmentFile[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter(entry => entry.isFile() && entry.name.endsWith(ENDING) && !entry.name.startsWith('.'))
    .filter(entry => !isBeingMade(join(folder, entry.name)))
    .map(entry => {
      const path = join(folder, entry.name);
      const changes = [path, `${path}-wal`].map(p => lstatSync(p, { throwIfNoEntry: false })?.mtimeMs ?? 0);
      return { name: entry.name, bytes: lstatSync(path).size, changedAt: Math.round(Math.max(...changes)) };
    })
    .sort((a, b) => b.changedAt - a.changedAt || (a.name < b.name ? -1 : 1));
}

/** A name of this stem that no file has: `Station 1.baybook`, then `Station 1 (2).baybook`. */
export function freeName(folder: string, stem: string): string {
  for (let n = 1; ; n++) {
    const name = fileName(n === 1 ? stem : `${stem} (${n})`);
    if (!existsSync(join(folder, name))) return name;
  }
}

/** The file opened last, where it is still there; otherwise the latest changed; otherwise null. */
export function lastOpened(folder: string): string | null {
  const files = listFiles(folder);
  const remembered = readRemembered(folder);
  return files.find(f => f.name === remembered)?.name ?? files[0]?.name ?? null;
}

/** Remembers a file as the one opened last; written beside and renamed, so a power cut leaves one or the other. */
export function rememberOpened(folder: string, name: string): void {
  const path = join(folder, REMEMBERED);
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, `${JSON.stringify({ name })}\n`);
  renameSync(beside, path);
}

function readRemembered(folder: string): string | null {
  try {
    const kept: unknown = JSON.parse(readFileSync(join(folder, REMEMBERED), 'utf8'));
    return kept !== null && typeof kept === 'object' && 'name' in kept && typeof kept.name === 'string'
      ? kept.name
      : null;
  } catch {
    // Only a convenience: a missing or damaged note falls back to the latest changed file.
    return null;
  }
}
