/** Backups from the terminal, in a process of its own. Our own design, no source. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildStale } from '../../scripts/bootstrap/build.mjs';
import { scratchFolder } from './scratch.ts';

const TERMINAL = fileURLToPath(new URL('../../dist/host/terminal.js', import.meta.url));

beforeAll(() => buildStale(['host']), 120_000);

function baybook(folder: string, ...args: string[]) {
  const { status, stdout } = spawnSync(process.execPath, [TERMINAL, ...args], {
    cwd: folder,
    env: { ...process.env, npm_lifecycle_event: '', BAYBOOK_DATA: folder },
    encoding: 'utf8',
  });
  return { code: status, said: JSON.parse(stdout) };
}

const addStation = (folder: string, name: string, ...more: string[]) =>
  baybook(folder, 'act', JSON.stringify({ action: 'station.add', body: { name } }), ...more);

describe('a backup from the terminal', { timeout: 90_000 }, () => {
  it('is made, listed, compared, and restored beside the file, which stays as it is', () => {
    const folder = scratchFolder();
    expect(addStation(folder, 'Station 31').code).toBe(0);
    const { said: made } = baybook(folder, 'backup');
    expect(made).toMatchObject({ folder: join(folder, 'backups'), department: 'New department', entries: 3 });
    expect(existsSync(join(folder, 'backups', made.anchor))).toBe(true);
    expect(baybook(folder, 'backups').said.files).toMatchObject([{ name: made.name }]);

    addStation(folder, 'Station 32');
    const relation = { is: 'older', onlyHere: 1, onlyInBackup: 0 };
    const dry = baybook(folder, 'restore', made.name, '--dry-run');
    expect(dry).toMatchObject({ code: 0, said: { relation, file: null } });
    const { said: restored } = baybook(folder, 'restore', made.name);
    expect(restored).toMatchObject({ relation, file: expect.stringContaining('restored.baybook') });
    const stations = (...more: string[]) =>
      baybook(folder, 'ask', 'department.summary', '{}', ...more).said.stations.length;
    // What was restored is what is opened next.
    expect(stations()).toBe(1);
    expect(stations('--file', 'department.baybook')).toBe(2);
    const heads = (...more: string[]) => baybook(folder, 'ask', 'ledger.heads', '{}', ...more).said.devices;
    addStation(folder, 'Station 40');
    expect(heads()).toHaveLength(2);
    expect(baybook(folder, 'restore', made.name, '--dry-run').said.relation.is).toBe('older');
  });

  it('that is damaged is refused, and nothing is restored', () => {
    const folder = scratchFolder();
    addStation(folder, 'Station 31');
    const { said: made } = baybook(folder, 'backup');
    const path = join(folder, 'backups', made.name);
    writeFileSync(path, readFileSync(path).fill(7, 9000, 60_000));
    const { code, said } = baybook(folder, 'restore', path);
    expect(code).toBe(1);
    expect(said.error).toMatchObject({ code: 'damaged backup' });
    expect(existsSync(join(folder, `${made.name.replace('.baybook', '')} restored.baybook`))).toBe(false);
  });

  it('of a file that is not there makes none', () => {
    const folder = scratchFolder();
    expect(baybook(folder, 'backup')).toMatchObject({ code: 1, said: { error: { code: 'no file' } } });
    expect(existsSync(join(folder, 'department.baybook'))).toBe(false);
  });
});
