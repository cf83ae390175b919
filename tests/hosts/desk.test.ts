/** Which department file is open, and that no answer is lost when another is opened. Our own design, no source. */
import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { HostRequest } from '../../db/api.ts';
import { openDepartment, runDemo } from '../../db/store/client.ts';
import { createDesk } from '../../electron/desk.ts';
import { dataFolder, fileName, lastOpened, listFiles, rememberOpened } from '../../electron/folder.ts';
import { openingDeed } from '../db/kit/opening.ts';
import { fakeStore } from './fakeStore.ts';
import { scratchFolder } from './scratch.ts';

const DEMO = 'Larkspur Valley demo.baybook';
const SUMMARY = ['department.summary', {}] as const;

describe('a first start', () => {
  it('makes the demo department in a folder that is not there yet, telling how it comes along', async () => {
    const folder = join(scratchFolder(), 'new', 'folder');
    const told: string[] = [];
    const desk = createDesk({ folder, store: fakeStore() });
    await desk.start((done, total, what) => told.push(`${done}/${total} ${what}`));
    expect(told).toEqual(['1/2 things', '2/2 history']);
    expect(listFiles(folder).map(f => f.name)).toEqual([DEMO]);
    expect(await desk.ask(...SUMMARY)).toMatchObject({ ok: true, value: { file: DEMO } });
    await desk.close();
  });

  it('leaves no department behind where the demo was stopped halfway', async () => {
    const folder = scratchFolder();
    const store = fakeStore();
    store.runDemo = async file => {
      writeFileSync(file, '');
      writeFileSync(`${file}-wal`, '');
      throw new Error('power');
    };
    await expect(createDesk({ folder, store }).start()).rejects.toThrow('power');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('removes what a start that was killed left, but not what another is making', async () => {
    const folder = scratchFolder();
    const gone = ['x.baybook', 'x.baybook-wal', 'x.baybook.being-made'];
    const making = ['y.baybook', 'y.baybook.being-made'];
    for (const name of [...gone, ...making]) writeFileSync(join(folder, name), '999999999');
    writeFileSync(join(folder, 'y.baybook.being-made'), String(process.ppid));
    const desk = createDesk({ folder, store: fakeStore() });
    await desk.start();
    expect(gone.filter(name => existsSync(join(folder, name)))).toEqual([]);
    expect(making.filter(name => existsSync(join(folder, name)))).toEqual(making);
    expect(listFiles(folder).map(f => f.name)).toEqual([DEMO]);
    await desk.close();
  });
});

describe('a later start', () => {
  it('opens what was opened last, else what was changed last', async () => {
    const folder = scratchFolder();
    for (const [name, day] of [
      ['a.baybook', 1000],
      ['b.baybook', 3000],
      ['c.baybook', 2000],
    ] as const) {
      writeFileSync(join(folder, name), '');
      utimesSync(join(folder, name), day, day);
    }
    expect(lastOpened(folder)).toBe('b.baybook');
    rememberOpened(folder, 'c.baybook');
    expect(lastOpened(folder)).toBe('c.baybook');
    rememberOpened(folder, 'gone.baybook');
    expect(lastOpened(folder)).toBe('b.baybook');
    writeFileSync(join(folder, 'opened-last.json'), '{');
    expect(lastOpened(folder)).toBe('b.baybook');
  });

  it('goes on without a file where the last one cannot be opened, and opens another when asked', async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'a.baybook'), '');
    const store = fakeStore();
    const { openDepartment } = store;
    const problem = { code: 'newer file', message: 'Made by a later Baybook.', todo: 'Update.', field: null };
    store.openDepartment = async (file, options) => {
      if (file.endsWith('a.baybook')) throw Object.assign(new Error('newer'), { problem });
      return openDepartment(file, options);
    };
    const desk = createDesk({ folder, store });
    await expect(desk.start()).rejects.toMatchObject({ problem });
    // Whoever sits before the screens is told why.
    expect(await desk.ask(...SUMMARY)).toEqual({
      ok: false,
      error: { ...problem, code: 'no department open' },
    });
    expect(await desk.host({ command: 'open', name: 'a' })).toEqual({ ok: false, error: problem });
    expect(await desk.host({ command: 'new', name: 'b' })).toMatchObject({
      ok: true,
      value: { open: 'b.baybook' },
    });
    await desk.close();
  });
});

describe('opening another file', () => {
  it('lets what was asked of the first one finish on the first one', async () => {
    const folder = scratchFolder();
    const store = fakeStore();
    const desk = createDesk({ folder, store });
    await desk.start();
    let letGo = () => {};
    store.hold = new Promise(resolve => {
      letGo = resolve;
    });
    const asked = desk.ask(...SUMMARY);
    const opened = desk.host({ command: 'new', name: 'b' });
    await expect.poll(() => store.log).toContain('open b.baybook');
    expect(store.log).not.toContain(`close ${DEMO}`);
    letGo();
    expect(await asked).toMatchObject({ value: { file: DEMO } });
    await opened;
    expect(store.log.slice(-3)).toEqual(['open b.baybook', 'ask department.summary', `close ${DEMO}`]);
    expect(await desk.ask(...SUMMARY)).toMatchObject({ value: { file: 'b.baybook' } });
    await desk.close();
    expect(store.log.at(-1)).toBe('close b.baybook');
  });

  it('stops telling of the first one', async () => {
    const store = fakeStore();
    const desk = createDesk({ folder: scratchFolder(), store });
    await desk.start();
    const told: string[][] = [];
    desk.onChange(touched => told.push(touched));
    store.touch[0]?.(['due']);
    await desk.host({ command: 'new', name: 'b' });
    store.touch[0]?.(['items']);
    store.touch[1]?.(['places']);
    expect(told).toEqual([['due'], ['*'], ['places']]);
    await desk.close();
  });

  it('never writes over a file: a name that is taken is numbered', async () => {
    const folder = scratchFolder();
    const desk = createDesk({ folder, store: fakeStore() });
    await desk.start();
    await desk.host({ command: 'demo' });
    await desk.host({ command: 'new', name: 'Station 1' });
    const last = await desk.host({ command: 'new', name: 'Station 1.baybook' });
    expect(last).toMatchObject({ ok: true, value: { open: 'Station 1 (2).baybook' } });
    expect(
      listFiles(folder)
        .map(f => f.name)
        .sort(),
    ).toEqual(['Larkspur Valley demo (2).baybook', DEMO, 'Station 1 (2).baybook', 'Station 1.baybook']);
    await desk.close();
  });

  it('happens one command at a time', async () => {
    const store = fakeStore();
    const desk = createDesk({ folder: scratchFolder(), store });
    await desk.start();
    const both = [desk.host({ command: 'new', name: 'b' }), desk.host({ command: 'new', name: 'c' })];
    await Promise.all(both);
    expect(store.log.slice(-4)).toEqual([
      'open b.baybook',
      `close ${DEMO}`,
      'open c.baybook',
      'close b.baybook',
    ]);
    await desk.close();
  });
});

describe('the data folder', () => {
  it('is where programs keep a person’s data, or where BAYBOOK_DATA says', () => {
    // XDG Base Directory Specification: $XDG_DATA_HOME, by default ~/.local/share.
    expect(dataFolder({}, 'linux')).toBe(join(homedir(), '.local/share/baybook'));
    expect(dataFolder({ XDG_DATA_HOME: '/data' }, 'linux')).toBe('/data/baybook');
    expect(dataFolder({ XDG_DATA_HOME: '' }, 'linux')).toBe(join(homedir(), '.local/share/baybook'));
    expect(dataFolder({}, 'darwin')).toBe(join(homedir(), 'Library/Application Support/Baybook'));
    expect(dataFolder({ APPDATA: '/roaming' }, 'win32')).toBe(join('/roaming', 'Baybook'));
    expect(dataFolder({ BAYBOOK_DATA: '/here', XDG_DATA_HOME: '/data' }, 'linux')).toBe('/here');
  });

  it('lists department files only', () => {
    const folder = scratchFolder();
    for (const name of ['a.baybook', 'a.baybook-wal', 'b.txt', '.c.baybook'])
      writeFileSync(join(folder, name), 'x');
    mkdirSync(join(folder, 'd.baybook'));
    expect(listFiles(folder).map(({ name, bytes }) => [name, bytes])).toEqual([['a.baybook', 1]]);
    expect(listFiles(join(folder, 'gone'))).toEqual([]);
  });

  it.each([
    ['Station 31', 'Station 31.baybook'],
    [' Station 31.baybook ', 'Station 31.baybook'],
    ['Estación Nº 1', 'Estación Nº 1.baybook'],
    ['v1.2', 'v1.2.baybook'],
  ])('takes the name %j', (name, file) => {
    expect(fileName(name)).toBe(file);
  });

  it.each([
    '',
    ' ',
    '.',
    '..',
    '../a',
    'a/b',
    'a\\b',
    'C:a',
    'a\u0000',
    'a\nb',
    'a?',
    'a*',
    '.baybook',
    '.a',
    'a. ',
    'x'.repeat(250),
  ])('refuses the name %j', name => {
    expect(() => fileName(name)).toThrow();
  });
});

// Each check and each opening starts workers from source: slow where much else runs.
describe('backups', { timeout: 90_000 }, () => {
  const store = { openDepartment, runDemo };

  async function withDepartment() {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'a.baybook'), '');
    const desk = createDesk({ folder, store, today: '2026-11-25' });
    await desk.start();
    const opened = await desk.act({ by: null, deeds: [openingDeed('empty')] });
    if (!opened.ok) throw new Error(opened.error.message);
    const add = async (name: string) =>
      expect(
        await desk.act({
          by: `${opened.value.entries[0]}.m`,
          deeds: [{ action: 'station.add', body: { name } }],
        }),
      ).toMatchObject({ ok: true });
    const host = async (request: HostRequest) => {
      const answer = await desk.host(request);
      if (!answer.ok) throw new Error(answer.error.message);
      return answer.value;
    };
    return { folder, desk, add, host };
  }

  it('are made, listed, compared with what went on since, and restored beside, as another device', async () => {
    const { folder, desk, add, host } = await withDepartment();
    expect((await host({ command: 'backups' })).backups).toEqual({
      folder: join(folder, 'backups'),
      files: [],
    });
    const { made } = await host({ command: 'backup' });
    expect(made).toMatchObject({ department: 'Larkspur Valley Fire District', anchored: true });
    expect(made?.name).toMatch(/^Larkspur Valley Fire District \d{4}-\d{2}-\d{2} \d{4}\.baybook$/);
    const anchor = readFileSync(join(folder, 'backups', made?.anchor ?? ''), 'utf8');
    for (const { device, seq, hash } of made?.heads ?? [])
      expect(anchor).toContain(`${device} ${seq} ${hash}`);
    // A second one within the same minute is not written over the first.
    const second = await host({ command: 'backup' });
    expect(second.backups?.files).toHaveLength(2);
    expect(second.files.map(f => f.name)).toEqual(['a.baybook']);

    await add('Station 31');
    const name = made?.name ?? '';
    expect((await host({ command: 'preview', name })).preview).toMatchObject({
      name,
      entries: made?.entries,
      relation: { is: 'older', onlyHere: 1, onlyInBackup: 0 },
    });
    const before = await desk.ask('ledger.heads', {});
    const restored = await host({ command: 'restore', name });
    expect(restored.open).toBe(`${name.replace('.baybook', '')} restored.baybook`);
    expect(restored.files).toHaveLength(2);
    expect(await desk.ask('department.summary', {})).toMatchObject({ value: { stations: [] } });
    await add('Station 40');
    const heads = await desk.ask('ledger.heads', {});
    if (!heads.ok || !before.ok) throw new Error('No heads.');
    const devices = heads.value.devices.map(h => h.device);
    expect(devices).toHaveLength(2);
    expect(devices).toContain(before.value.devices[0]?.device);
    await desk.close();
  });

  it('that are damaged are refused with what is wrong, and the open file stays open', async () => {
    const { folder, desk, host } = await withDepartment();
    const { made } = await host({ command: 'backup' });
    const name = made?.name ?? '';
    const path = join(folder, 'backups', name);
    writeFileSync(path, readFileSync(path).fill(7, 9000, 60_000));
    for (const command of ['preview', 'restore'] as const)
      expect(await desk.host({ command, name })).toMatchObject({
        ok: false,
        error: { code: 'damaged backup', message: expect.stringContaining(name) },
      });
    expect(await host({ command: 'files' })).toMatchObject({
      open: 'a.baybook',
      files: [{ name: 'a.baybook' }],
    });
    await desk.close();
  });

  it.each(['../a', 'gone'])('are named only by what lies in their folder: not %j', async name => {
    const { desk } = await withDepartment();
    expect(await desk.host({ command: 'preview', name })).toMatchObject({
      ok: false,
      error: { field: 'name' },
    });
    await desk.close();
  });

  it('can be looked into and restored while no department can be opened', async () => {
    const { folder, desk, host } = await withDepartment();
    const { made } = await host({ command: 'backup' });
    await desk.close();
    writeFileSync(join(folder, 'a.baybook'), 'x'.repeat(5000));
    const again = createDesk({ folder, store });
    await expect(again.start()).rejects.toThrow();
    const name = made?.name ?? '';
    expect(await again.host({ command: 'preview', name })).toMatchObject({
      ok: true,
      value: { open: null, preview: { relation: null } },
    });
    expect(await again.host({ command: 'restore', name })).toMatchObject({
      ok: true,
      value: { open: expect.stringContaining('restored') },
    });
    await again.close();
  });
});
