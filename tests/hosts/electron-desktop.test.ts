/** The desktop host as a whole, in front of a store that keeps nothing and of a real file. Our own design, no source. */
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDepartment, runDemo } from '../../db/store/client.ts';
import { createDesk } from '../../electron/desk.ts';
import { startDesktop } from '../../electron/desktop/desktop.ts';
import { menuTemplate } from '../../electron/desktop/menu.ts';
import { readNotes } from '../../electron/desktop/notes.ts';
import { noticeOf, tellDaily } from '../../electron/desktop/notices.ts';
import { isReachable } from '../../electron/desktop/window.ts';
import {
  FakeWindow,
  fakeElectron,
  items,
  PAPER,
  preventable,
  started,
  until,
  withPaper,
} from './electronFake.ts';
import { fakeStore } from './fakeStore.ts';
import { scratchFolder } from './scratch.ts';

const OPENING = {
  action: 'department.open',
  body: {
    name: 'Larkspur Valley Fire District',
    zone: 'America/Denver',
    member: { number: '100', name: 'R. Alder' },
    book: 'shipped',
    on: '2015-01-01',
  },
};

describe('one program for one data folder', () => {
  it('a second start ends without a window or a store', async () => {
    const electron = fakeElectron({ firstInstance: false });
    const store = fakeStore();
    const options = { electron: electron.parts, store, folder: scratchFolder(), pages: '', preload: '' };
    expect(await startDesktop(options)).toBeNull();
    expect(electron.log).toContain('quit');
    expect(electron.windows).toEqual([]);
    expect(store.log).toEqual([]);
  });

  it('the first one comes forward, and opens the file the second was started with', async () => {
    const { electron, window, folder, store } = await started();
    writeFileSync(join(folder, 'other.baybook'), '');
    window.minimized = true;
    electron.app.emit('second-instance', {}, ['electron', '--flag', join(folder, 'other.baybook')]);
    expect(window.did).toEqual(expect.arrayContaining(['restore', 'focus']));
    await until(() => (store as ReturnType<typeof fakeStore>).log.includes('open other.baybook'));
  });

  it('keeps lock and profile with the data folder', async () => {
    const { electron, folder } = await started();
    expect(electron.log).toContain(`path userData ${join(folder, 'desktop')}`);
  });
});

describe('a paper', () => {
  const rules = { paper: 'rule sheet', family: 'hose' };
  const shownBy = async (prepare: (electron: ReturnType<typeof fakeElectron>, folder: string) => void) => {
    const begun = await started({ store: withPaper('Rule sheet, hose.pdf') });
    prepare(begun.electron, begun.folder);
    return { ...begun, answer: await begun.invoke('baybook:paper', rules) };
  };

  it('is kept in the folder of papers, for its owner alone, and opened with what the system opens a PDF with', async () => {
    const { answer, electron, folder, invoke } = await shownBy(() => {});
    expect(answer).toEqual({ ok: true, value: { name: 'Rule sheet, hose.pdf', pages: 1, shown: 'opened' } });
    const path = join(folder, 'papers', 'Rule sheet, hose.pdf');
    expect(readFileSync(path, 'utf8')).toBe(PAPER);
    if (process.platform !== 'win32') expect(statSync(path).mode & 0o077).toBe(0);
    // One that is open somewhere is left as it is.
    writeFileSync(path, 'being read');
    expect(await invoke('baybook:paper', rules)).toMatchObject({
      value: { name: 'Rule sheet, hose (2).pdf' },
    });
    expect(readFileSync(path, 'utf8')).toBe('being read');
    expect(electron.shown).toEqual([path, join(folder, 'papers', 'Rule sheet, hose (2).pdf')]);
  });

  it('is saved where it is wished, where nothing opens a PDF', async () => {
    const { answer, electron, folder } = await shownBy((fake, data) => {
      fake.answers.cannotOpen = 'No application is known for this file.';
      fake.answers.save = join(data, 'wished.pdf');
    });
    expect(answer).toEqual({ ok: true, value: { name: 'wished.pdf', pages: 1, shown: 'saved' } });
    expect(readFileSync(electron.answers.save, 'utf8')).toBe(PAPER);
    expect(existsSync(join(folder, 'papers', 'Rule sheet, hose.pdf'))).toBe(true);
  });

  it('stays in the folder of papers, where no place is chosen', async () => {
    const { answer } = await shownBy(fake => {
      fake.answers.cannotOpen = 'No application is known for this file.';
    });
    expect(answer).toEqual({ ok: true, value: { name: 'Rule sheet, hose.pdf', pages: 1, shown: 'kept' } });
  });

  it('that the store refuses is not written, and one of a real file is a PDF', async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'mine.baybook'), '');
    const { electron, invoke } = await started({ folder, store: { openDepartment, runDemo } });
    await invoke('baybook:act', { by: null, via: 'terminal', deeds: [OPENING] });
    for (const wrong of [{ paper: 'rule sheet', family: 'kite' }, { paper: 'poster' }, null, 'rule sheet'])
      expect(await invoke('baybook:paper', wrong)).toMatchObject({ ok: false });
    expect(existsSync(join(folder, 'papers'))).toBe(false);
    expect(await invoke('baybook:paper', rules)).toMatchObject({ ok: true, value: { shown: 'opened' } });
    const [path] = electron.shown;
    expect(readFileSync(path ?? '', 'latin1').slice(0, 8)).toBe('%PDF-1.7');
  });
});

describe('the doors', () => {
  it('lead to a real file: a department is opened, asked about, and told to the screens', async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, 'mine.baybook'), '');
    const { electron, invoke, window } = await started({ folder, store: { openDepartment, runDemo } });
    expect(await invoke('baybook:ask', 'department.summary', {})).toEqual({ ok: true, value: null });
    expect(await invoke('baybook:act', { by: null, via: 'terminal', deeds: [OPENING] })).toMatchObject({
      ok: true,
    });
    expect(await invoke('baybook:ask', 'department.summary', {})).toMatchObject({
      ok: true,
      value: { name: 'Larkspur Valley Fire District' },
    });
    await until(() => window.webContents.sent.some(([channel]) => channel === 'baybook:changes'));
    expect(await invoke('baybook:host', { command: 'files' })).toMatchObject({
      ok: true,
      value: { open: 'mine.baybook', folder },
    });
    electron.app.emit('will-quit', preventable());
    await until(() => electron.log.includes('exit 0'));
    // Read anew by another process's eyes: the deed is in the file.
    const again = await openDepartment(join(folder, 'mine.baybook'));
    const summary = await again.ask('department.summary', {});
    await again.close();
    expect(summary).toMatchObject({ ok: true, value: { name: 'Larkspur Valley Fire District' } });
  });

  it.each([
    ['a question without a name', 'baybook:ask', 7],
    ['an act without a request', 'baybook:act', undefined],
    ['an act whose deeds are no list', 'baybook:act', { by: null, deeds: 'all' }],
    ['a command that is none', 'baybook:host', 'files'],
    ['a file outside the folder', 'baybook:host', { command: 'open', name: '../mine.baybook' }],
  ])('refuse %s in words', async (_, channel, sent) => {
    const { invoke } = await started();
    expect(await invoke(channel, sent)).toMatchObject({ ok: false, error: { todo: expect.any(String) } });
  });

  it('do not let a page claim to be the terminal', async () => {
    const { invoke, store } = await started();
    await invoke('baybook:act', { by: 'm', via: 'terminal', deeds: [] });
    await invoke('baybook:act', { by: 'm', via: 'claimed', pin: '1234', deeds: [] });
    expect((store as ReturnType<typeof fakeStore>).acts.map(act => act.via)).toEqual(['claimed', 'PIN']);
  });

  it('wait for the department that is being opened', async () => {
    const store = fakeStore();
    const { runDemo: make } = store;
    let go = () => {};
    const held = new Promise<void>(resolve => {
      go = resolve;
    });
    store.runDemo = async (...given) => {
      await held;
      return make(...given);
    };
    const { invoke, window } = await started({ store: withCounts(store) });
    const asked = invoke('baybook:ask', 'department.summary', {});
    const early = await Promise.race([asked, new Promise(resolve => setTimeout(() => resolve('waits'), 30))]);
    expect(early).toBe('waits');
    go();
    expect(await asked).toMatchObject({ ok: true });
    const progress = window.webContents.sent.filter(([channel]) => channel === 'baybook:progress');
    expect(progress.map(([, value]) => value)).toContainEqual({ done: 1, total: 2, what: 'things' });
    expect(window.progress).toEqual([0.5, -1]);
  });
});

describe('the end', () => {
  it('closes the store before the program, once', async () => {
    const { electron, store } = await started();
    electron.app.emit('window-all-closed');
    expect(electron.log).toContain('quit');
    const [first, second] = [preventable(), preventable()];
    electron.app.emit('will-quit', first);
    electron.app.emit('will-quit', second);
    expect([first.prevented, second.prevented]).toEqual([true, false]);
    await until(() => electron.log.includes('exit 0'));
    expect((store as ReturnType<typeof fakeStore>).log.at(-1)).toBe('close Larkspur Valley demo.baybook');
  });

  it('starts the screens over where they were lost', async () => {
    const { window } = await started();
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(window.webContents.reloads).toBe(1);
  });
});

describe('the window', () => {
  it('stands where it stood, full size where it was', async () => {
    const folder = scratchFolder();
    const first = await started({ folder });
    first.window.bounds = { x: 300, y: 200, width: 1100, height: 750 };
    first.window.maximized = true;
    first.window.emit('close');
    const second = await started({ folder });
    expect(second.window.options).toMatchObject({ x: 300, y: 200, width: 1100, height: 750 });
    expect(second.window.maximized).toBe(true);
  });

  it('comes back to a display that is there', async () => {
    const folder = scratchFolder();
    const first = await started({ folder });
    first.window.bounds = { x: 2500, y: 100, width: 1000, height: 700 };
    first.window.emit('close');
    const { window } = await started({ folder });
    expect(window.options).not.toHaveProperty('x');
    expect(window.options).toMatchObject({ width: 1000, height: 700 });
  });

  it.each([
    [{ x: 0, y: 0 }, true],
    [{ x: -900, y: 0 }, true],
    [{ x: -950, y: 0 }, false],
    [{ x: 1840, y: 0 }, true],
    [{ x: 1841, y: 0 }, false],
    [{ x: 0, y: -1 }, false],
    [{ x: 0, y: 1000 }, true],
    [{ x: 0, y: 1001 }, false],
  ])('at %o can be taken hold of: %s', (at, can) => {
    const display = { x: 0, y: 0, width: 1920, height: 1080 };
    expect(isReachable({ ...at, width: 1000, height: 700 }, [display])).toBe(can);
  });

  it.each(['not JSON', '[]', '{"window":{"x":"left"},"recent":7,"light":"dim"}', '{"window":{"width":1}}'])(
    'is as on the first day where its notes are damaged: %s',
    text => {
      const folder = scratchFolder();
      writeFileSync(join(folder, 'desktop.json'), text);
      expect(readNotes(folder)).toEqual({ window: null, recent: [], light: 'system' });
    },
  );
});

describe('the menu', () => {
  const none = () => {};
  const deeds = {
    newDepartment: none,
    openDepartment: none,
    openRecent: none,
    importSheet: none,
    print: none,
    setLight: none,
    about: none,
    tell: none,
  };

  it.each(['linux', 'win32', 'darwin'] as const)('gives each accelerator once on %s', platform => {
    const all = items(menuTemplate(deeds, { recent: ['a.baybook'], light: 'dark', platform }));
    const given = all.flatMap(item => (item.accelerator ? [String(item.accelerator).toLowerCase()] : []));
    expect(given.length).toBeGreaterThan(20);
    expect(new Set(given).size).toBe(given.length);
    // A role brings an accelerator of its own unless one is written here.
    const roles = all.filter(item => item.role && !['appMenu', 'help'].includes(item.role));
    expect(roles.filter(item => item.accelerator === undefined)).toEqual([]);
    expect(all.filter(i => i.type === 'radio').map(i => i.checked)).toEqual([false, false, true]);
    expect(all.find(i => i.role === 'reload')?.visible).toBe(false);
  });

  it('has every item that can be pressed do something', () => {
    const all = items(menuTemplate(deeds, { recent: [], light: 'system', platform: 'linux' }));
    const idle = all.filter(
      i => !i.role && !i.submenu && i.type !== 'separator' && i.enabled !== false && !i.click,
    );
    expect(idle).toEqual([]);
  });

  it('tells the screens what is theirs to do', async () => {
    const { press, commands } = await started();
    for (const label of ['Coming due', 'Import', 'Department files', 'Display', 'Search', 'Who acts', 'Keys'])
      press(label);
    expect(commands()).toEqual([
      { do: 'screen', screen: 'due' },
      { do: 'screen', screen: 'import' },
      { do: 'dialog', dialog: 'files' },
      { do: 'dialog', dialog: 'display' },
      { do: 'search' },
      { do: 'dialog', dialog: 'who' },
      { do: 'dialog', dialog: 'keys' },
    ]);
  });

  it('turns light or dark, remembers it, and shows which it is', async () => {
    const folder = scratchFolder();
    const { press, commands, electron } = await started({ folder });
    press('Dark');
    expect(electron.nativeTheme.themeSource).toBe('dark');
    expect(commands()).toEqual([{ do: 'light', scheme: 'dark' }]);
    const shown = items(electron.menus.at(-1) ?? []).filter(i => i.checked);
    expect(shown.map(i => i.label)).toEqual(['Dark']);
    const again = await started({ folder });
    expect(again.electron.nativeTheme.themeSource).toBe('dark');
    again.press('Light or dark as the computer');
    expect(again.electron.nativeTheme.themeSource).toBe('system');
    expect(again.commands()).toEqual([{ do: 'light', scheme: 'auto' }]);
  });

  it('prints, and says what went wrong unless somebody thought better of it', async () => {
    const { press, window, electron } = await started();
    press('Print…');
    window.webContents.printEnds = [false, 'Print job canceled'];
    press('Print…');
    expect(window.webContents.printed).toHaveLength(2);
    expect(electron.told).toEqual([]);
    window.webContents.printEnds = [false, 'Print job failed'];
    press('Print…');
    expect(electron.told[0]?.message).toContain('Print job failed');
  });

  it('lists what was opened, the last first, without what is gone', async () => {
    const folder = scratchFolder();
    for (const name of ['a.baybook', 'b & c.baybook']) writeFileSync(join(folder, name), '');
    const { electron, invoke, press, store } = await started({ folder });
    await invoke('baybook:host', { command: 'open', name: 'a.baybook' });
    await invoke('baybook:host', { command: 'open', name: 'b & c.baybook' });
    const recent = () => {
      const menu = items(electron.menus.at(-1) ?? []).find(i => i.label === 'Open recent');
      return Array.isArray(menu?.submenu) ? menu.submenu.map(i => i.label) : [];
    };
    await until(() => recent()[0] === 'b && c.baybook' && recent().includes('a.baybook'));
    expect(electron.log).toContain(`recent ${join(folder, 'a.baybook')}`);
    press('a.baybook');
    await until(() => (store as ReturnType<typeof fakeStore>).log.at(-1) === 'close b & c.baybook');
    await until(() => recent()[0] === 'a.baybook');
  });
});

describe('the system’s dialogs', () => {
  it('open a department of the folder', async () => {
    const { electron, folder, press, commands, store } = await started();
    writeFileSync(join(folder, 'a.baybook'), '');
    electron.answers.open = [join(folder, 'a.baybook')];
    press('Open department…');
    await until(() => commands().length === 1);
    expect(electron.opened[0]).toMatchObject({ defaultPath: folder });
    expect((store as ReturnType<typeof fakeStore>).log).toContain('open a.baybook');
  });

  it('copy one from outside only when told to, and leave the other as it was', async () => {
    const { electron, folder, press, commands } = await started();
    const outside = join(scratchFolder(), 'away.baybook');
    writeFileSync(outside, 'theirs');
    electron.answers.open = [outside];
    electron.answers.button = 1;
    press('Open department…');
    await until(() => electron.told.length === 1);
    expect(existsSync(join(folder, 'away.baybook'))).toBe(false);
    electron.answers.button = 0;
    press('Open department…');
    await until(() => commands().length === 1);
    expect(readFileSync(join(folder, 'away.baybook'), 'utf8')).toBe('theirs');
    expect(readFileSync(outside, 'utf8')).toBe('theirs');
  });

  it('refuse one that is open elsewhere, and what is no department', async () => {
    const { electron, press, folder } = await started();
    const outside = join(scratchFolder(), 'away.baybook');
    writeFileSync(outside, '');
    writeFileSync(`${outside}-wal`, 'not yet in the file');
    electron.answers.open = [outside];
    press('Open department…');
    await until(() => electron.told.length === 1);
    expect(electron.told[0]?.message).toContain('open somewhere else');
    electron.answers.open = [join(scratchFolder(), 'letter.txt')];
    press('Open department…');
    await until(() => electron.told.length === 2);
    expect(electron.told[1]?.message).toContain('not a department file');
    expect(existsSync(join(folder, 'away.baybook'))).toBe(false);
  });

  it('start a new department in the folder and nowhere else', async () => {
    const { electron, folder, press, commands, store } = await started();
    electron.answers.save = join(scratchFolder(), 'away.baybook');
    press('New department…');
    await until(() => electron.told.length === 1);
    expect(electron.told[0]?.detail).toContain(folder);
    electron.answers.save = join(folder, 'Station 1.baybook');
    press('New department…');
    await until(() => commands().length === 1);
    expect((store as ReturnType<typeof fakeStore>).log).toContain('open Station 1.baybook');
  });

  it('hand a sheet to the screens byte for byte, and nothing where none was chosen', async () => {
    const { electron, press, commands } = await started();
    press('Import a sheet…');
    const path = join(scratchFolder(), 'hose.csv');
    writeFileSync(path, 'Hose No,Date\n31-100,½\n');
    electron.answers.open = [path];
    press('Import a sheet…');
    await until(() => commands().length === 1);
    const [command] = commands();
    if (command?.do !== 'sheet') throw new Error('No sheet came.');
    expect(command.name).toBe('hose.csv');
    expect(Buffer.from(command.bytes).toString('utf8')).toBe('Hose No,Date\n31-100,½\n');
  });

  it('ask where a list is saved, and save nothing that comes from elsewhere', async () => {
    const { electron } = await started();
    const asked: unknown[] = [];
    const item = (url: string) => ({
      getURL: () => url,
      getFilename: () => 'due.csv',
      setSaveDialogOptions: (options: unknown) => asked.push(options),
    });
    const [own, other] = [preventable(), preventable()];
    electron.session.emit('will-download', own, item('blob:app://baybook/1-2'));
    electron.session.emit('will-download', other, item('https://example.org/due.csv'));
    expect([own.prevented, other.prevented]).toEqual([false, true]);
    expect(asked).toEqual([{ title: 'Save', defaultPath: join('/home/member/documents', 'due.csv') }]);
  });

  it('say why a department could not be opened at the start', async () => {
    const folder = scratchFolder();
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'a.baybook'), '');
    const store = fakeStore();
    store.openDepartment = async () => {
      throw Object.assign(new Error('no'), {
        problem: { code: 'x', message: 'The file is damaged.', todo: 'Use a copy.', field: null },
      });
    };
    const { electron } = await started({ folder, store });
    await until(() => electron.told.length === 1);
    expect(electron.told[0]).toMatchObject({ message: 'The file is damaged.', detail: 'Use a copy.' });
  });
});

describe('the notice', () => {
  const on = '2026-11-25';

  it('says what is owed and what falls due within the week', () => {
    const byState = { overdue: 1200, 'due soon': 3, current: 2, 'retest owed': 1, 'not judged': 9 };
    expect(noticeOf({ on, things: 1300, byState })).toEqual({
      title: 'Coming due on 2026-11-25',
      body: '1,200 overdue, 5 due within 7 days, 1 to be tested again.',
    });
  });

  it('is not given where nothing is owed', () => {
    expect(noticeOf({ on, things: 9, byState: { 'not judged': 9, 'not applicable': 2 } })).toBeNull();
  });

  it('is given at the start from the open department, and leads to the list', async () => {
    const store = fakeStore();
    const { electron, window, commands } = await started({ store: withCounts(store, { overdue: 2 }) });
    await until(() => electron.notices.length === 1);
    expect(electron.notices[0]?.body).toBe('2 overdue.');
    electron.notices[0]?.emit('click');
    expect(window.did).toContain('focus');
    expect(commands()).toEqual([{ do: 'screen', screen: 'due' }]);
  });

  it('counts a real department as its list does', { timeout: 60_000 }, async () => {
    const folder = scratchFolder();
    const desk = createDesk({ folder, store: { openDepartment, runDemo }, today: on });
    await desk.start();
    const told: string[] = [];
    const stop = tellDaily({ desk, day: () => on, show: ({ body }) => told.push(body) });
    await until(() => told.length === 1);
    stop();
    const count = async (state: 'overdue' | 'due soon' | 'current') => {
      const answer = await desk.ask('due.list', { state, within: 7, limit: 1 });
      return answer.ok ? answer.value.total : -1;
    };
    const soon = (await count('due soon')) + (await count('current'));
    const overdue = await count('overdue');
    await desk.close();
    expect(overdue).toBeGreaterThan(0);
    expect(told[0]).toContain(`${overdue.toLocaleString('en-US')} overdue`);
    expect(told[0]).toContain(`${soon.toLocaleString('en-US')} due within 7 days`);
  });

  it('is given again when the day has turned, and not before', async () => {
    const { vi } = await import('vitest');
    vi.useFakeTimers();
    let today = '2026-11-25';
    let shown = 0;
    const desk = {
      ask: async () => ({ ok: true, value: { on: today, things: 1, byState: { overdue: 1 } } }),
    } as unknown as ReturnType<typeof createDesk>;
    const stop = tellDaily({ desk, day: () => today, show: () => shown++ });
    await vi.advanceTimersByTimeAsync(3 * 3_600_000);
    expect(shown).toBe(1);
    today = '2026-11-26';
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(shown).toBe(2);
    stop();
    today = '2026-11-27';
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(shown).toBe(2);
    vi.useRealTimers();
  });
});

it('nothing is sent to a window that is gone', async () => {
  const { window, store } = await started();
  const before = window.webContents.sent.length;
  window.destroyed = true;
  (store as ReturnType<typeof fakeStore>).touch[0]?.(['due']);
  expect(window.webContents.sent).toHaveLength(before);
  expect(window).toBeInstanceOf(FakeWindow);
});

function withCounts(store: ReturnType<typeof fakeStore>, byState: Record<string, number> = {}) {
  const { runDemo: make } = store;
  store.runDemo = async (...given) => {
    const department = await make(...given);
    return {
      ...department,
      ask: (question, args) =>
        question === 'due.counts'
          ? Promise.resolve({ ok: true, value: { on: '2026-11-25', things: 1, byState } as never })
          : department.ask(question, args),
    };
  };
  return store;
}
