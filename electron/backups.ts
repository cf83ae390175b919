/** The folder of backups beside department files: what lies there, making one, and restoring one beside the others. */
import {
  constants,
  copyFileSync,
  existsSync,
  lstatSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Answer, BackupMade, BackupPreview, DepartmentFile, Problem } from '../db/api.ts';
import { ANCHOR_ENDING, anchorText } from '../db/files/anchor.ts';
import { toDisk } from '../db/files/disk.ts';
import { checkBackup } from '../db/store/checking.ts';
import type { Department } from '../db/store/client.ts';
import { ENDING, ensureFolder, fileName, filePath, freeName, listFiles } from './folder.ts';

export const backupsFolder = (folder: string) => join(folder, 'backups');

/** Backups in the folder beside the department files, the latest first. */
export const listBackups = (folder: string): DepartmentFile[] => listFiles(backupsFolder(folder));

/**
 * Copy an open department into the folder of backups, check the copy and put its anchor beside it.
 * @returns what was made, or what is wrong with it; then it does not lie there
 */
export async function makeBackup(
  department: Department,
  folder: string,
  now = new Date(),
): Promise<Answer<BackupMade>> {
  const summary = await department.ask('department.summary', {});
  if (!summary.ok) return summary;
  const backups = backupsFolder(folder);
  ensureFolder(backups);
  const stem = plainStem(summary.value?.name ?? basename(department.file, ENDING));
  const name = freeName(backups, `${stem} ${momentName(now, summary.value?.zone)}`);
  const path = join(backups, name);
  const before = await department.ask('ledger.heads', {});
  if (!before.ok) return before;
  const copied = await department.copyTo(path);
  if (!copied.ok) return copied;
  const checked = await checkBackup({ copy: path, open: department.file });
  const wrong = checked.ok ? shortOf(checked.value, before.value.entries) : checked.error;
  if (!checked.ok || wrong) {
    rmSync(path, { force: true });
    return { ok: false, error: wrong ?? NOT_WHOLE };
  }
  const { relation, ...contents } = checked.value;
  writeFileSync(path + ANCHOR_ENDING, anchorText(name, contents), { flag: 'wx' });
  toDisk(path + ANCHOR_ENDING);
  return {
    ok: true,
    value: { ...contents, anchored: true, name, bytes: statSync(path).size, anchor: name + ANCHOR_ENDING },
  };
}

/** Check a backup whole and compare it with the file that is open. */
export async function previewBackup(
  folder: string,
  name: unknown,
  open: string | null,
): Promise<Answer<BackupPreview>> {
  return checkBackup({ copy: filePath(backupsFolder(folder), name), open });
}

/**
 * Copy a checked backup beside the department files under a name of its own. Opened, it is a new device.
 * @returns the new file's name
 */
export function restoreBeside(folder: string, backup: string): string {
  const name = freeName(folder, `${basename(backup, ENDING)} restored`);
  const path = join(folder, name);
  // What stands in the journal beside it alone would not come along.
  if ((statSync(`${backup}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0)
    throw Object.assign(new Error(NOT_CLOSED.message), { problem: NOT_CLOSED });
  const part = `${path}.part`;
  rmSync(part, { force: true });
  copyFileSync(backup, part, constants.COPYFILE_EXCL);
  toDisk(part);
  if (existsSync(path)) throw new Error(`There is a file ${name} already.`);
  renameSync(part, path);
  return name;
}

/** A path of a backup as typed, or a name in the folder of backups. */
export function backupPath(folder: string, typed: string, asPath: (typed: string) => string): string {
  const path = asPath(typed);
  const isFile = (at: string) => lstatSync(at, { throwIfNoEntry: false })?.isFile() ?? false;
  return isFile(path) || dirname(typed) !== '.' ? path : join(backupsFolder(folder), fileName(typed));
}

/** A copy that lacks what was in the file before it was begun, or holds what the file does not, is none. */
function shortOf({ relation, entries }: BackupPreview, before: number): Problem | null {
  return entries >= before && relation && (relation.is === 'same' || relation.is === 'older')
    ? null
    : NOT_WHOLE;
}

const NOT_CLOSED: Problem = {
  code: 'backup not closed',
  message: 'The backup is open somewhere else, or was not closed cleanly: not all of it is in this one file.',
  todo: 'Close it there, then restore it.',
  field: 'name',
};

const NOT_WHOLE: Problem = {
  code: 'backup not whole',
  message: 'The copy does not hold what the file holds.',
  todo: 'It was taken away again. Look whether the disk is full or failing, then back up again.',
  field: null,
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out.
const NOT_IN_NAMES = /[/\\:*?"<>|\u0000-\u001f\u007f]+/g;

/** A department's name as a file may bear it on any system. */
function plainStem(name: string): string {
  const plain = name.replace(NOT_IN_NAMES, ' ').replace(/\s+/g, ' ').trim().replace(/^\.+/, '');
  const short = [...plain].slice(0, 40).join('');
  return short.replace(/[. ]+$/, '') || 'Department';
}

/** `2026-11-25 1407`, on the department's clock. */
function momentName(at: Date, zone: string | undefined): string {
  const parts = new Intl.DateTimeFormat('en-US', {
    ...(zone ? { timeZone: zone } : {}),
    calendar: 'gregory',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(at);
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find(p => p.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')} ${part('hour')}${part('minute')}`;
}
