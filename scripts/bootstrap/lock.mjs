/** One command at a time: two that are started at once must not install or build twice. */
import { mkdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, readText } from './files.mjs';
import { say } from './run.mjs';

const BEAT_MS = 1_000;
const LOOK_MS = 250;
/** A lock not renewed for so long belongs to a command that is gone, even if its process number lives again. */
export const GONE_MS = 15_000;

/** Does something while no other command of this folder does it; takes over a lock whose owner is gone. */
export async function withLock(name, work, root = ROOT) {
  const folder = join(root, '.cache');
  mkdirSync(folder, { recursive: true });
  const lock = join(folder, `${name}.lock`);
  for (let looks = 0; !take(lock); looks++) {
    const owner = readText(lock);
    if (isGone(lock, owner) && readText(lock) === owner) rmSync(lock, { force: true });
    else {
      if (looks === 4) say(`Waiting for another command (process ${owner}) that is busy with the ${name}.`);
      await new Promise(resolve => setTimeout(resolve, LOOK_MS));
    }
  }
  const beat = setInterval(() => renew(lock), BEAT_MS);
  const release = () => rmSync(lock, { force: true });
  process.once('exit', release);
  try {
    return await work();
  } finally {
    clearInterval(beat);
    process.off('exit', release);
    release();
  }
}

function take(lock) {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
}

function renew(lock) {
  try {
    utimesSync(lock, new Date(), new Date());
  } catch {
    // Someone took it away, or over; what is being done is finished all the same.
  }
}

function isGone(lock, owner) {
  const stat = statSync(lock, { throwIfNoEntry: false });
  if (!stat) return false;
  if (Date.now() - stat.mtimeMs > GONE_MS) return true;
  const pid = Number(owner);
  // An empty lock is one whose owner is about to write its number.
  return pid > 0 && pid !== process.pid && !isAlive(pid);
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}
