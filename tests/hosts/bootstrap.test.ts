/** When the entry commands install and build, and that two of them at once do it once. Our own design, no source. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isStale, sourcesHash } from '../../scripts/bootstrap/build.mjs';
import { installStamp, isLateEnough, localNode, whyInstall } from '../../scripts/bootstrap/install.mjs';
import { GONE_MS, withLock } from '../../scripts/bootstrap/lock.mjs';
import { scratchFolder } from './scratch.ts';

/** A folder holding files by path. */
function folderWith(files: Record<string, string>): string {
  const root = scratchFolder();
  for (const [path, text] of Object.entries(files)) put(root, path, text);
  return root;
}

function put(root: string, path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

const LOCK = JSON.stringify({
  packages: {
    '': { version: '0.1.0' },
    'node_modules/a': { version: '1.0.0' },
    'node_modules/other-system': { version: '2.0.0', optional: true },
  },
});
const installed = (packages: Record<string, { version: string }>) => JSON.stringify({ packages });

describe('the dependencies are installed', () => {
  it('where there are none', () => {
    expect(whyInstall(folderWith({ 'package-lock.json': LOCK }))).toContain('not there yet');
  });

  it('not again while the stamp is that of the lock file', () => {
    const root = folderWith({ 'package-lock.json': LOCK, 'node_modules/a/index.js': '' });
    put(root, 'node_modules/.baybook-stamp', installStamp(root));
    expect(whyInstall(root)).toBeNull();
    put(root, 'package-lock.json', LOCK.replace('1.0.0', '1.0.1'));
    expect(whyInstall(root)).toContain('changed');
  });

  it('not where npm itself installed what the lock file asks for, whatever belongs to other systems', () => {
    const root = folderWith({
      'package-lock.json': LOCK,
      'node_modules/.package-lock.json': installed({ 'node_modules/a': { version: '1.0.0' } }),
    });
    expect(whyInstall(root)).toBeNull();
  });

  it.each([
    ['another version is there', { 'node_modules/a': { version: '0.9.0' } }],
    ['one is missing', {}],
    [
      'one too many is there',
      { 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '1.0.0' } },
    ],
  ])('where %s', (_, packages) => {
    const root = folderWith({
      'package-lock.json': LOCK,
      'node_modules/.package-lock.json': installed(packages as Record<string, { version: string }>),
    });
    expect(whyInstall(root)).toContain('not known');
  });

  it('where an install was stopped halfway and npm left no word', () => {
    expect(
      whyInstall(folderWith({ 'package-lock.json': LOCK, 'node_modules/a/index.js': '' })),
    ).not.toBeNull();
  });
});

describe('the Node it runs on', () => {
  it('comes with the dependencies, and is the one these tests run on', () => {
    const node = localNode();
    if (node === null) return expect(isLateEnough(process.versions.node)).toBe(true);
    const { stdout } = spawnSync(node, ['-p', 'process.versions.node'], { encoding: 'utf8' });
    expect(stdout.trim()).toBe(process.versions.node);
  });

  it.each([
    ['20.20.2', false],
    ['22.11.0', false],
    ['22.12.0', true],
    ['24.0.0', true],
  ])('elsewhere may be %s: %s', (version, late) => {
    expect(isLateEnough(version)).toBe(late);
  });
});

describe('a build is made again', () => {
  const built = () => {
    const root = folderWith({
      'renderer/main.tsx': 'one',
      'domain/facts.ts': 'two',
      'db/api.ts': 'three',
      'electron/desk.ts': 'four',
      'package-lock.json': LOCK,
      'dist/renderer/index.html': '',
      'dist/host/terminal.js': '',
    });
    for (const name of ['renderer', 'host'] as const)
      put(root, `dist/${name}.stamp`, sourcesHash(name, root));
    return root;
  };

  it('not while nothing changed, even where files were only touched', () => {
    const root = built();
    utimesSync(join(root, 'renderer/main.tsx'), 1, 1);
    expect([isStale('renderer', root), isStale('host', root)]).toEqual([false, false]);
  });

  it.each([
    ['renderer/main.tsx', true, false],
    ['electron/desk.ts', false, true],
    ['db/api.ts', false, true],
    ['domain/facts.ts', true, true],
    ['package-lock.json', true, true],
    ['renderer/new.tsx', true, false],
    ['migrations/0001.sql', false, true],
    ['tests/new.test.ts', false, false],
  ])('where %s changed: screens %s, hosts %s', (path, renderer, host) => {
    const root = built();
    put(root, path, 'changed');
    expect([isStale('renderer', root), isStale('host', root)]).toEqual([renderer, host]);
  });

  it('where a source was renamed or went away', () => {
    const root = built();
    renameSync(join(root, 'renderer/main.tsx'), join(root, 'renderer/other.tsx'));
    expect(isStale('renderer', root)).toBe(true);
    rmSync(join(root, 'electron/desk.ts'));
    expect(isStale('host', root)).toBe(true);
  });

  it('where text moved from one file into the next', () => {
    const one = folderWith({ 'electron/a.ts': 'ab', 'electron/b.ts': 'c' });
    const two = folderWith({ 'electron/a.ts': 'a', 'electron/b.ts': 'bc' });
    expect(sourcesHash('host', one)).not.toBe(sourcesHash('host', two));
  });

  it('where what it makes is gone, or was never finished', () => {
    const root = built();
    rmSync(join(root, 'dist/renderer/index.html'));
    expect(isStale('renderer', root)).toBe(true);
    rmSync(join(root, 'dist/host.stamp'));
    expect(isStale('host', root)).toBe(true);
  });
});

describe('of two commands at once', () => {
  it('the second waits for the first', async () => {
    const root = scratchFolder();
    const order: string[] = [];
    const first = withLock(
      'build',
      async () => {
        order.push('first begins');
        await new Promise(resolve => setTimeout(resolve, 300));
        order.push('first ends');
      },
      root,
    );
    const second = withLock('build', () => order.push('second begins'), root);
    await Promise.all([first, second]);
    expect(order).toEqual(['first begins', 'first ends', 'second begins']);
  });

  it('the second goes on where the first failed', async () => {
    const root = scratchFolder();
    await expect(withLock('build', () => Promise.reject(new Error('no')), root)).rejects.toThrow('no');
    expect(await withLock('build', () => 'done', root)).toBe('done');
  });

  it('the second takes over from a process that is gone', async () => {
    const { pid } = spawnSync(process.execPath, ['-e', '']);
    const root = folderWith({ '.cache/build.lock': String(pid) });
    expect(await withLock('build', () => 'done', root)).toBe('done');
  });

  it('the second takes over a lock nobody renews, even if its process number lives again', async () => {
    const root = folderWith({ '.cache/build.lock': '1' });
    const long = (Date.now() - GONE_MS - 1000) / 1000;
    utimesSync(join(root, '.cache/build.lock'), long, long);
    expect(await withLock('build', () => 'done', root)).toBe('done');
  });
});
