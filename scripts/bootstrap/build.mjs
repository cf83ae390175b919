/** Building what is stale: the screens and the hosts, each known by a hash of its sources. */
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hashOf, ROOT, readText } from './files.mjs';
import { withLock } from './lock.mjs';
import { Advice, runTool, say } from './run.mjs';

/** What is built, from what, and how. The screens take only types from db, which leave no trace in what is built. */
const BUILDS = {
  renderer: {
    title: 'the screens',
    from: ['renderer', 'domain', 'vite.config.ts', 'package-lock.json'],
    makes: 'renderer/index.html',
    args: ['build'],
  },
  host: {
    title: 'the hosts',
    from: ['electron', 'db', 'domain', 'migrations', 'vite.host.config.ts', 'package-lock.json'],
    makes: 'host/terminal.js',
    args: ['build', '--config', 'vite.host.config.ts'],
  },
};

/** A text that changes when any source of a build changes. */
export function sourcesHash(name, root = ROOT) {
  return hashOf(root, BUILDS[name].from);
}

/** Whether a build must be made again: its sources changed, or what it makes is not there. */
export function isStale(name, root = ROOT) {
  const dist = join(root, 'dist');
  if (!existsSync(join(dist, BUILDS[name].makes))) return true;
  return readText(join(dist, `${name}.stamp`)) !== sourcesHash(name, root);
}

/** Builds what is stale of `renderer` and `host`. A failed build says why and ends the command. */
export async function buildStale(names) {
  if (names.some(name => isStale(name))) await withLock('build', () => build(names));
}

async function build(names) {
  for (const name of names) {
    if (!isStale(name)) continue;
    const { title, args } = BUILDS[name];
    const stamp = join(ROOT, 'dist', `${name}.stamp`);
    say(`Building ${title}.`);
    rmSync(stamp, { force: true });
    // Taken before the build: what is edited meanwhile must count as changed.
    const hash = sourcesHash(name);
    const code = await runTool('vite', 'vite', [...args, '--logLevel', 'warn'], { output: 'error' });
    if (code !== 0) throw new Advice(`Building ${title} failed.`);
    writeFileSync(stamp, hash);
  }
}
