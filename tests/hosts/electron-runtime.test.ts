/** Electron's runtime: found, or tried for once. Fetching is played by a script. Our own design, no source. */
import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sourcesHash } from '../../scripts/bootstrap/build.mjs';
import {
  didNotStart,
  electronArguments,
  electronOrFetch,
  electronRuntime,
  PAUSE_DAYS,
} from '../../scripts/bootstrap/desktop.mjs';
import { installStamp } from '../../scripts/bootstrap/install.mjs';
import { fromRoot } from './electronSources.ts';
import { scratchFolder } from './scratch.ts';

const DAY_MS = 86_400_000;
const NOW = Date.UTC(2026, 10, 25, 18);
const STAMP = 'node_modules/.baybook-electron-tried';

function put(root: string, path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

/** A folder whose Electron package fetches with the script given, which leaves word of each try. */
function withInstaller(script: string): { root: string; tries: () => number } {
  const root = scratchFolder();
  put(root, 'node_modules/electron/package.json', '{"version":"45.4.1","type":"commonjs"}');
  const note = "require('node:fs').appendFileSync(require('node:path').join(__dirname, 'tries'), '.');";
  put(root, 'node_modules/electron/install.js', `${note}${script}`);
  const tries = join(root, 'node_modules/electron/tries');
  return { root, tries: () => (existsSync(tries) ? readFileSync(tries, 'utf8').length : 0) };
}

function lay(root: string, version = '45.4.1'): string {
  put(root, 'node_modules/electron/path.txt', 'electron');
  put(root, 'node_modules/electron/dist/version', version);
  put(root, 'node_modules/electron/dist/electron', '');
  return join(root, 'node_modules/electron/dist/electron');
}

const ARRIVES = `
  const { mkdirSync, writeFileSync } = require('node:fs');
  mkdirSync(__dirname + '/dist');
  writeFileSync(__dirname + '/dist/electron', '');
  writeFileSync(__dirname + '/dist/version', 'v45.4.1');
  writeFileSync(__dirname + '/path.txt', 'electron');`;

describe('the runtime', () => {
  it('is found where it is whole, without any fetching', async () => {
    const { root, tries } = withInstaller('process.exit(1)');
    const program = lay(root);
    expect(electronRuntime(root)).toBe(program);
    expect(await electronOrFetch({ root, now: NOW })).toBe(program);
    expect(tries()).toBe(0);
  });

  it('of another version is none', () => {
    const { root } = withInstaller('');
    lay(root, '44.0.0');
    expect(electronRuntime(root)).toBeNull();
  });

  it('is fetched where it is missing', async () => {
    const { root, tries } = withInstaller(ARRIVES);
    expect(await electronOrFetch({ root, now: NOW })).toBe(join(root, 'node_modules/electron/dist/electron'));
    expect(tries()).toBe(1);
    expect(existsSync(join(root, STAMP))).toBe(false);
  });

  it('that could not be fetched is not tried for again within the week, and then is', async () => {
    const { root, tries } = withInstaller('process.exit(1)');
    expect(await electronOrFetch({ root, now: NOW })).toBeNull();
    expect(readFileSync(join(root, STAMP), 'utf8')).toBe('2026-11-25T18:00:00.000Z');
    expect(await electronOrFetch({ root, now: NOW + PAUSE_DAYS * DAY_MS - 1 })).toBeNull();
    expect(tries()).toBe(1);
    expect(await electronOrFetch({ root, now: NOW + PAUSE_DAYS * DAY_MS })).toBeNull();
    expect(tries()).toBe(2);
  });

  it('is taken where somebody fetched it by hand meanwhile', async () => {
    const { root } = withInstaller('process.exit(1)');
    await electronOrFetch({ root, now: NOW });
    const program = lay(root);
    expect(await electronOrFetch({ root, now: NOW + 1 })).toBe(program);
  });

  it.each(['', 'soon', '2027-01-01T00:00:00.000Z'])('is tried for where the stamp says “%s”', async stamp => {
    const { root, tries } = withInstaller('process.exit(1)');
    put(root, STAMP, stamp);
    await electronOrFetch({ root, now: NOW });
    expect(tries()).toBe(1);
  });

  it('that takes too long is given up', async () => {
    const { root } = withInstaller('setInterval(() => {}, 1000)');
    const before = performance.now();
    expect(await electronOrFetch({ root, now: NOW, try_ms: 300 })).toBeNull();
    expect(performance.now() - before).toBeLessThan(5_000);
    expect(existsSync(join(root, STAMP))).toBe(true);
  });

  it('is fetched once by two starts at once', async () => {
    const { root, tries } = withInstaller('setTimeout(() => process.exit(1), 200)');
    await Promise.all([electronOrFetch({ root, now: NOW }), electronOrFetch({ root, now: NOW })]);
    expect(tries()).toBe(1);
  });

  it('is not missed where Electron is not installed at all', async () => {
    const root = scratchFolder();
    mkdirSync(join(root, 'node_modules'));
    utimesSync(join(root, 'node_modules'), 1, 1);
    expect(await electronOrFetch({ root, now: NOW })).toBeNull();
    expect(existsSync(join(root, STAMP))).toBe(false);
  });
});

describe('it is started', () => {
  it('without its sandbox only as root, where it could not start', () => {
    expect(electronArguments(['--on', '2026-11-25'], '/root', 1000)).toEqual(['/root', '--on', '2026-11-25']);
    const asRoot = process.platform === 'linux' ? ['--no-sandbox', '/root'] : ['/root'];
    expect(electronArguments([], '/root', 0)).toEqual(asRoot);
  });

  it.each([
    [0, 500, false],
    [127, 500, true],
    [133, 500, true],
    [130, 500, false],
    [143, 500, false],
    [1, 60_000, false],
  ])('and ended with %i after %i ms: another host is needed %s', (code, lived_ms, is) =>
    expect(didNotStart(code, lived_ms)).toBe(is),
  );
});

/** `npm start` itself, on a copy in which all is installed and built, with programs that only say their names. */
describe('the start command shows', () => {
  function copy(program: string | null): { start: (...args: string[]) => string; tries: () => number } {
    const { root, tries } = withInstaller('process.exit(1)');
    cpSync(fromRoot('scripts'), join(root, 'scripts'), { recursive: true });
    put(root, 'package-lock.json', '{"packages":{}}');
    put(root, 'node_modules/.baybook-stamp', installStamp(root));
    put(root, 'dist/renderer/index.html', '');
    put(root, 'dist/host/terminal.js', '');
    put(root, 'dist/host/loopback.js', "console.log('loopback', ...process.argv.slice(2));");
    put(root, 'package.json', '{"type":"module"}');
    for (const name of ['renderer', 'host'] as const)
      put(root, `dist/${name}.stamp`, sourcesHash(name, root));
    if (program !== null) {
      const path = lay(root);
      writeFileSync(path, `#!/bin/sh\n${program}\n`);
      chmodSync(path, 0o755);
    }
    return {
      tries,
      start(...args) {
        const env = { ...process.env, DISPLAY: ':9', CHROME_PATH: process.execPath };
        const given = [join(root, 'scripts', 'start.mjs'), ...args];
        return spawnSync(process.execPath, given, { encoding: 'utf8', env, cwd: root }).stdout;
      },
    };
  }

  it('Electron where its runtime is, and no second host after it', () => {
    const { start } = copy('echo electron "$@"');
    const said = start('--on', '2026-11-25');
    expect(said).toMatch(/^electron .*--on 2026-11-25/);
    expect(said).not.toContain('loopback');
  });

  it('the loopback host where the runtime cannot start', () => {
    expect(copy('exit 127').start()).toBe('loopback\n');
  });

  it('the loopback host where the runtime is not to be had, after one try', () => {
    const { start, tries } = copy(null);
    expect(start('--on', '2026-11-25')).toBe('loopback --on 2026-11-25\n');
    expect(start()).toBe('loopback\n');
    expect(tries()).toBe(1);
  });

  it('the loopback host without trying where no window is wanted', () => {
    const { start, tries } = copy(null);
    expect(start('--no-window')).toBe('loopback --no-window\n');
    expect(tries()).toBe(0);
  });
});
