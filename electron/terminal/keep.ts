/** Backups from the terminal: made, listed, and restored beside the file. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { checkBackup } from '../../db/store/checking.ts';
import { backupPath, backupsFolder, listBackups, makeBackup, restoreBeside } from '../backups.ts';
import { dataFolder, rememberOpened } from '../folder.ts';
import type { Store } from '../store.ts';
import type { Command, Common } from './args.ts';
import { departmentPath, typedPath } from './department.ts';
import { TerminalRefusal, valueIn } from './refusal.ts';

/** Backs up the file of a command, which must be there. */
export async function backup(store: Store, { file, on }: Common): Promise<unknown> {
  const path = departmentPath(file);
  if (!existsSync(path)) throw noFile(path);
  const department = await store.openDepartment(path, on === undefined ? {} : { today: on });
  try {
    return { folder: backupsFolder(dirname(path)), ...valueIn(await makeBackup(department, dirname(path))) };
  } finally {
    await department.close();
  }
}

export function backups({ file }: Common): unknown {
  const folder = dirname(departmentPath(file));
  return { folder: backupsFolder(folder), files: listBackups(folder) };
}

/** Checks a backup, compares it with the file of the command where that is there, and restores it beside that. */
export async function restore(
  store: Store,
  { file, backup: typed, dryRun }: Extract<Command, { name: 'restore' }>,
): Promise<unknown> {
  const path = departmentPath(file);
  const folder = dirname(path);
  const copy = backupPath(folder, typed, typedPath);
  const open = existsSync(path) && statSync(path).size > 0 ? path : null;
  const preview = { backup: copy, ...valueIn(await checkBackup({ copy, open })) };
  if (dryRun) return { ...preview, file: null };
  const restored = join(folder, restoreBeside(folder, copy));
  // Opened once, so that it is a device of its own and known to open.
  const department = await store.openDepartment(restored);
  await department.close();
  if (isData(folder)) rememberOpened(folder, basename(restored));
  return { ...preview, file: restored };
}

function isData(folder: string): boolean {
  return existsSync(dataFolder()) && realpathSync(folder) === realpathSync(dataFolder());
}

const noFile = (path: string) =>
  new TerminalRefusal(
    'no file',
    `There is no file ${path}.`,
    'Give the path of a department’s file.',
    'file',
  );
