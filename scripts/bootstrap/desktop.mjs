/** Electron's runtime: found, or tried for once, briefly. Without it the screens open in a browser's app window. */
import { spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, readJson, readText } from './files.mjs';
import { withLock } from './lock.mjs';
import { say } from './run.mjs';

const DAY_MS = 86_400_000;
/** A start must not wait long for what it can do without. */
export const TRY_MS = 20_000;
/** After a try that failed, no other for so long: a station without a network would wait at every start. */
export const PAUSE_DAYS = 7;

const packageOf = root => join(root, 'node_modules', 'electron');
const stampOf = root => join(root, 'node_modules', '.baybook-electron-tried');

/** The runtime's program, where it is there whole and of the version asked for; otherwise null. */
export function electronRuntime(root = ROOT) {
  const folder = packageOf(root);
  const version = readJson(join(folder, 'package.json'))?.version;
  const program = readText(join(folder, 'path.txt'));
  if (version === undefined || program === null) return null;
  if (
    readText(join(folder, 'dist', 'version'))
      ?.trim()
      .replace(/^v/, '') !== version
  )
    return null;
  const path = join(folder, 'dist', program);
  return existsSync(path) ? path : null;
}

/** The runtime's program, fetched where it is missing and was not tried for lately; null where it is not to be had. */
export async function electronOrFetch({ root = ROOT, now = Date.now(), try_ms = TRY_MS } = {}) {
  const found = electronRuntime(root);
  if (found !== null || !existsSync(join(packageOf(root), 'install.js'))) return found;
  if (wasTriedLately(root, now)) return null;
  return withLock('desktop runtime', () => fetchRuntime(root, now, try_ms), root);
}

async function fetchRuntime(root, now, try_ms) {
  // Another command may have fetched it, or tried, while this one waited.
  if (electronRuntime(root) !== null || wasTriedLately(root, now)) return electronRuntime(root);
  say(`Fetching Electron’s runtime, which the desktop window runs on. Tried once, for ${try_ms / 1000} s.`);
  const why = await install(packageOf(root), try_ms);
  const found = electronRuntime(root);
  if (found !== null) return found;
  writeFileSync(stampOf(root), new Date(now).toISOString());
  say(
    `Electron’s runtime could not be fetched (${why ?? 'it is not whole'}). The screens open in a browser window ` +
      `instead; it is tried for again in ${PAUSE_DAYS} days. To fetch it now: node node_modules/electron/install.js`,
  );
  return null;
}

function wasTriedLately(root, now) {
  const age_ms = now - Date.parse(readText(stampOf(root)) ?? '');
  // A stamp from the future is a clock that was set back.
  return age_ms >= 0 && age_ms < PAUSE_DAYS * DAY_MS;
}

/** @returns why it did not come, or null */
function install(folder, try_ms) {
  return new Promise(resolve => {
    const child = spawn(process.execPath, [join(folder, 'install.js')], { stdio: 'ignore' });
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      child.kill('SIGKILL');
    }, try_ms);
    const end = why => {
      clearTimeout(timer);
      resolve(late ? 'it took too long' : why);
    };
    child.once('error', error => end(error.message));
    child.once('close', code => end(code === 0 ? null : 'it could not be reached'));
  });
}

/** How the runtime is started on this project. As root its sandbox cannot start. */
export function electronArguments(args, root = ROOT, uid = process.getuid?.()) {
  return [...(uid === 0 && process.platform === 'linux' ? ['--no-sandbox'] : []), root, ...args];
}

const ENDED_BY_PERSON = [129, 130, 143];

/** Whether the runtime could not start at all (libraries missing, say), rather than ending later on its own. */
export function didNotStart(code, lived_ms) {
  return code !== 0 && lived_ms < 10_000 && !ENDED_BY_PERSON.includes(code);
}
