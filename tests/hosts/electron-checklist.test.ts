/**
 * Each item of the security checklist that Electron publishes (its documentation, “Security”, “Checklist: Security
 * recommendations”): items 1 to 17 read there; 18 to 20, which later versions added, from memory.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PAGE_POLICY } from '../../electron/loopback/headers.ts';
import { fakeElectron, PAPER, preventable, started, withPaper } from './electronFake.ts';
import { desktopSources, fromRoot } from './electronSources.ts';
import { scratchFolder } from './scratch.ts';

const preferences = async () => (await started()).window.options.webPreferences ?? {};
const json = (path: string) => JSON.parse(readFileSync(fromRoot(path), 'utf8'));

const ELSEWHERE = [
  'https://example.org/',
  'http://127.0.0.1:8080/',
  'file:///etc/passwd',
  'app://baybook.example/',
  'app://other/',
  'app://member@baybook/',
  'data:text/html,<p>',
  'javascript:0',
  'about:blank',
  'not an address',
];

it('1. Only load secure content: nothing but our own pages is loaded, and the network is cut off', async () => {
  const { window, electron } = await started();
  expect(window.loaded).toEqual(['app://baybook/']);
  const { session } = electron;
  expect(session.filter).toEqual(
    expect.arrayContaining(['http://*/*', 'https://*/*', 'ws://*/*', 'wss://*/*', 'file:///*']),
  );
  let cancelled: boolean | undefined;
  session.requests?.({}, ({ cancel }) => {
    cancelled = cancel;
  });
  expect(cancelled).toBe(true);
  // A dictionary would be fetched from elsewhere.
  expect(window.options.webPreferences?.spellcheck).toBe(false);
});

it('2. Do not enable Node.js integration', async () => {
  expect(await preferences()).toMatchObject({
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
  });
});

it('3. Enable context isolation', async () => {
  expect((await preferences()).contextIsolation).toBe(true);
});

it('4. Enable process sandboxing: of this window and of every other, before anything is ready', async () => {
  const { electron, window } = await started();
  expect(window.options.webPreferences?.sandbox).toBe(true);
  expect(electron.log.indexOf('sandbox')).toBeGreaterThanOrEqual(0);
  expect(electron.log.indexOf('sandbox')).toBeLessThan(electron.log.indexOf('ready'));
});

it.each(['media', 'geolocation', 'notifications', 'clipboard-read', 'openExternal', 'fileSystem'])(
  '5. Handle permission requests: %s is denied',
  async permission => {
    const { session } = (await started()).electron;
    const answers: boolean[] = [];
    session.asks?.({}, permission, yes => answers.push(yes));
    expect(answers).toEqual([false]);
    expect(session.checks?.()).toBe(false);
    expect(session.devices?.()).toBe(false);
  },
);

it('6. Do not disable webSecurity', async () => {
  expect((await preferences()).webSecurity).toBe(true);
});

it('7. Define a Content Security Policy: on every answer, of a page or of none', async () => {
  const pages = scratchFolder();
  writeFileSync(join(pages, 'index.html'), '<!doctype html>');
  const { electron } = await started({ pages });
  for (const path of ['', 'due', 'assets/none.js']) {
    const response = await electron.pages.get('app')?.(new Request(`app://baybook/${path}`));
    expect(response?.headers.get('Content-Security-Policy')).toBe(PAGE_POLICY);
    expect(response?.headers.get('X-Content-Type-Options')).toBe('nosniff');
  }
  expect(PAGE_POLICY).toContain("default-src 'self'");
  // Scripts fall back on the default: none inline, none evaluated.
  expect(PAGE_POLICY).not.toMatch(/script-src|unsafe-eval|https?:|\*/);
});

it('8. Do not enable allowRunningInsecureContent', async () => {
  expect((await preferences()).allowRunningInsecureContent).toBe(false);
});

it('9. Do not enable experimental features', async () => {
  expect((await preferences()).experimentalFeatures).toBe(false);
});

it('10. Do not use enableBlinkFeatures', async () => {
  expect(await preferences()).not.toHaveProperty('enableBlinkFeatures');
});

it('11. Do not use allowpopups: there are no webviews at all', async () => {
  expect((await preferences()).webviewTag).toBe(false);
  for (const text of desktopSources().values()) expect(text).not.toContain('allowpopups');
});

it('12. Verify webview options before creation: none is created', async () => {
  const event = preventable();
  (await started()).window.webContents.emit('will-attach-webview', event, {}, {});
  expect(event.prevented).toBe(true);
});

it.each(ELSEWHERE)('13. Limit navigation: not to %s', async url => {
  const { webContents } = (await started()).window;
  for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect']) {
    const event = preventable({ url });
    webContents.emit(name, event);
    expect(event.prevented, name).toBe(true);
  }
});

it('13. Limit navigation: to our own pages, so that the screens may start over', async () => {
  const event = preventable({ url: 'app://baybook/#/due' });
  (await started()).window.webContents.emit('will-navigate', event);
  expect(event.prevented).toBe(false);
});

it.each([...ELSEWHERE, 'app://baybook/'])('14. No new windows: not of %s', async url => {
  expect((await started()).window.webContents.windowOpens?.({ url })).toEqual({ action: 'deny' });
});

it('15. Do not use shell.openExternal: of the shell, only what opens a paper that the program itself wrote', () => {
  const sources = [...desktopSources()];
  for (const [, text] of sources) expect(text).not.toMatch(/openExternal|showItemInFolder|trashItem/);
  expect(sources.filter(([, text]) => /openPath/.test(text)).map(([name]) => name)).toEqual(['papers.ts']);
  const knowsShell = sources.filter(([, text]) => /\bshell\b/i.test(text)).map(([name]) => name);
  expect(knowsShell.sort()).toEqual(['desktop.ts', 'main.ts', 'papers.ts']);
});

it('15. A page can have nothing opened but a paper of the store: no path, no bytes and no address of its own', async () => {
  const { electron, invoke, folder } = await started({ store: withPaper('../../out of the folder.pdf') });
  const answer = await invoke('baybook:paper', {
    paper: 'rule sheet',
    family: 'hose',
    path: '/etc/passwd',
    url: 'https://example.org/',
    base64: 'AAAA',
  });
  expect(answer).toEqual({
    ok: true,
    value: { name: 'out of the folder.pdf', pages: 1, shown: 'opened' },
  });
  expect(electron.shown).toEqual([join(folder, 'papers', 'out of the folder.pdf')]);
  expect(readFileSync(join(folder, 'papers', 'out of the folder.pdf'), 'utf8')).toBe(PAPER);
});

it('16. Use a current version of Electron: pinned, and packaged as pinned', () => {
  const pinned: string = json('package.json').devDependencies.electron;
  expect(pinned).toMatch(/^\d+\.\d+\.\d+$/);
  expect(json('node_modules/electron/package.json').version).toBe(pinned);
  expect(json('electron-builder.json').electronVersion).toBe(pinned);
});

it.each([
  ['another origin', { url: 'https://example.org/', parent: null }],
  ['a host that only begins like ours', { url: 'app://baybook.example/', parent: null }],
  ['a frame inside our page', { url: 'app://baybook/', parent: { url: 'app://baybook/' } }],
  ['a frame that is gone', null],
])('17. Validate the sender of all IPC messages: %s is refused', async (_, senderFrame) => {
  const { electron, store } = await started();
  const log = (store as unknown as { log: string[] }).log;
  const before = [...log];
  expect(electron.handlers.size).toBe(4);
  for (const handler of electron.handlers.values())
    expect(await handler({ senderFrame }, 'department.summary', {})).toMatchObject({
      ok: false,
      error: { code: 'not let in' },
    });
  expect(log).toEqual(before);
});

it('18. Avoid file://: a scheme of our own, standard and secure, without the right to go round the policy', async () => {
  const { electron } = await started();
  expect(electron.schemes).toEqual([{ scheme: 'app', privileges: { standard: true, secure: true } }]);
  expect(electron.log.indexOf('scheme')).toBeLessThan(electron.log.indexOf('ready'));
  for (const text of desktopSources().values()) expect(text).not.toMatch(/loadFile|file:\/\/\/(?!\*)/);
});

it.each([
  '../secret.txt',
  '..%2fsecret.txt',
  '%2e%2e/secret.txt',
  'assets/..%5c..%5csecret.txt',
  '/secret.txt',
  '..\\secret.txt',
  '.stamp.json',
])('18. Our scheme gives out nothing beside the pages: %s', async path => {
  const root = scratchFolder();
  const pages = join(root, 'pages');
  mkdirSync(join(pages, 'assets'), { recursive: true });
  writeFileSync(join(root, 'secret.txt'), 'secret');
  writeFileSync(join(pages, '.stamp.json'), 'secret');
  writeFileSync(join(pages, 'index.html'), 'first page');
  const { electron } = await started({ pages });
  const response = await electron.pages.get('app')?.(new Request(`app://baybook/${path}`));
  expect(await response?.text()).not.toContain('secret');
});

it('19. Fuses: what the packaged program cannot be told to do', () => {
  expect(json('electron-builder.json').electronFuses).toMatchObject({
    runAsNode: false,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    grantFileProtocolExtraPrivileges: false,
  });
});

it('20. Do not expose Electron’s APIs: the page cannot be looked into in what is packaged', async () => {
  expect((await preferences()).devTools).toBe(false);
  const electron = fakeElectron();
  electron.app.isPackaged = false;
  expect((await started({ electron })).window.options.webPreferences?.devTools).toBe(true);
});
