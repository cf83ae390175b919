/** Making the demo department: whole or not at all. */
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Department } from '../db/store/client.ts';
import type { Store } from './store.ts';

export type Progress = (done: number, total: number, what: string) => void;

export interface DemoOptions {
  /** The day its three years of history end on, `YYYY-MM-DD`. */
  on?: string;
  seed?: number;
  onProgress?: Progress;
}

const MARK = '.being-made';

/**
 * Makes the demo department at `path`, where no file may be. A mark beside it says who is making it: what was
 * stopped halfway must not be taken for a department. (It is not made under another name and renamed, because a
 * file that finds itself elsewhere takes itself for a copy.)
 */
export async function makeDemo(store: Store, path: string, options: DemoOptions): Promise<Department> {
  if (existsSync(path)) throw new Error(`${path} is there already.`);
  writeFileSync(path + MARK, String(process.pid), { flag: 'wx' });
  try {
    const department = await store.runDemo(path, options);
    rmSync(path + MARK);
    return department;
  } catch (error) {
    remove(path);
    throw error;
  }
}

/** Whether a file is a demo department that is not whole yet. */
export const isBeingMade = (path: string) => existsSync(path + MARK);

/** Removes demo departments that were stopped halfway, unless their process is still at it. */
export function removeHalfMade(folder: string): void {
  for (const name of readdirSync(folder).filter(n => n.endsWith(MARK))) {
    const mark = join(folder, name);
    if (!isAlive(Number(readFileSync(mark, 'utf8')))) remove(mark.slice(0, -MARK.length));
  }
}

/** The mark goes last: a removal that is itself stopped halfway is done again. */
function remove(path: string): void {
  for (const suffix of ['-wal', '-shm', '', MARK]) rmSync(path + suffix, { force: true });
}

function isAlive(pid: number): boolean {
  if (pid === 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
