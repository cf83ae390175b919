/** The dependencies as the lock file says, and the Node that comes with them. */
import { existsSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digest, ROOT, readJson, readText } from './files.mjs';
import { withLock } from './lock.mjs';
import { Advice, run, say } from './run.mjs';

/** The oldest Node that may run the program where none can be installed beside it (macOS). */
const OLDEST_NODE = [22, 12];

/** What `node_modules` must hold, as a short text: it changes with the lock file and with the machine's kind. */
export function installStamp(root = ROOT) {
  return digest([readFileSync(join(root, 'package-lock.json')), process.platform, process.arch]);
}

/** Why `node_modules` must be installed, or null where it is as the lock file says. */
export function whyInstall(root = ROOT) {
  const modules = join(root, 'node_modules');
  if (!existsSync(modules)) return 'the dependencies are not there yet';
  const stamp = readText(join(modules, '.baybook-stamp'));
  if (stamp === installStamp(root)) return null;
  if (stamp !== null) return 'the dependencies have changed since they were installed';
  return matchesLock(root) ? null : 'it is not known whether the dependencies are whole';
}

/** Whether what npm says it installed is what the lock file asks for: someone ran `npm ci` themselves. */
function matchesLock(root) {
  const wanted = readJson(join(root, 'package-lock.json'))?.packages ?? {};
  const there = readJson(join(root, 'node_modules', '.package-lock.json'))?.packages;
  if (!there) return false;
  const has = ([path, { version, optional }]) =>
    path === '' || (there[path] ? there[path].version === version : optional === true);
  return Object.entries(wanted).every(has) && Object.keys(there).every(path => path in wanted);
}

/** Installs the dependencies where they are missing or out of date. */
export async function installDependencies() {
  if (whyInstall() !== null) await withLock('dependencies', install);
}

async function install() {
  const why = whyInstall();
  if (why === null) return;
  say(`Installing the dependencies (npm ci): ${why}. This takes about a minute.`);
  const flags = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  // npm replaces node_modules, so it should not run on the Node that lives there.
  const node = process.env.npm_node_execpath ?? process.execPath;
  const npm = process.env.npm_execpath;
  const code = npm?.endsWith('.js')
    ? await run(node, [npm, ...flags], { output: 'error' })
    : await run(process.platform === 'win32' ? 'npm.cmd' : 'npm', flags, { output: 'error' });
  if (code !== 0)
    throw new Advice(`npm ci ended with ${code}. Is the package registry reachable? Then run this again.`);
  writeFileSync(join(ROOT, 'node_modules', '.baybook-stamp'), installStamp());
}

/** The Node that came with the dependencies; null where there is none for this kind of machine. */
export function localNode(root = ROOT) {
  const windows = process.platform === 'win32';
  const name = `node-${windows ? 'win' : process.platform}-${process.arch}`;
  const path = join(root, 'node_modules', name, 'bin', windows ? 'node.exe' : 'node');
  return existsSync(path) ? path : null;
}

/**
 * Runs the same command on the Node that came with the dependencies.
 * @returns the exit code of that run; null where this is the right Node already and the command should go on
 */
export async function handOver(script) {
  const node = localNode();
  if (node !== null) {
    if (realpathSync(node) === realpathSync(process.execPath)) return null;
    return run(node, [script, ...process.argv.slice(2)], { cwd: process.cwd() });
  }
  if (isLateEnough(process.versions.node)) return null;
  throw new Advice(
    `Baybook needs Node ${OLDEST_NODE.join('.')} or later here; this is ${process.versions.node}. ` +
      'Install a later Node from nodejs.org, then run this again.',
  );
}

/** Whether a Node version such as `22.12.0` is 22.12 or later. */
export function isLateEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [oldestMajor, oldestMinor] = OLDEST_NODE;
  return major > oldestMajor || (major === oldestMajor && minor >= oldestMinor);
}
