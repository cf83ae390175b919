/** A scan of the desktop host's sources for what must not be written there. Words from Electron's security page. */
import { describe, expect, it } from 'vitest';
import { desktopSources } from './electronSources.ts';

const FORBIDDEN: readonly [name: string, pattern: RegExp][] = [
  ['Node in the page', /nodeIntegration\w*:\s*true/],
  ['no isolation', /contextIsolation:\s*false/],
  ['no sandbox', /sandbox:\s*false|no-sandbox/],
  ['no same-origin policy', /webSecurity:\s*false/],
  ['insecure content', /allowRunningInsecureContent:\s*true/],
  ['experiments', /experimentalFeatures:\s*true|enableBlinkFeatures/],
  ['webviews', /webviewTag:\s*true|allowpopups/],
  ['the remote module', /enableRemoteModule|@electron\/remote/],
  ['code from text', /\beval\(|new Function\(|executeJavaScript|insertCSS/],
  ['the shell, but to open a file', /shell\.(?!openPath\()|openExternal/],
  ['a scheme that goes round the policy', /bypassCSP/],
  ['certificates waved through', /certificate-error|setCertificateVerifyProc|ignore-certificate/],
  ['another program', /child_process/],
  ['a server', /node:http\b|node:net\b/],
  ['an open IPC', /ipcMain\.on\(|sendSync|ipcRenderer\.send\(/],
];

/** The same words, as somebody would write them: a pattern that finds nothing here would find nothing there. */
const WRITTEN = [
  'webPreferences: { nodeIntegration: true }',
  'contextIsolation: false',
  'sandbox:false',
  'webSecurity: false',
  'allowRunningInsecureContent: true',
  'enableBlinkFeatures: "x"',
  'webviewTag: true',
  'enableRemoteModule: true',
  'contents.executeJavaScript(text)',
  'shell.openExternal(url)',
  'privileges: { bypassCSP: true }',
  "app.on('certificate-error', allow)",
  "import { exec } from 'node:child_process'",
  "import { createServer } from 'node:http'",
  'ipcMain.on(channel, deed)',
];

const SOURCES = desktopSources();

describe.each(FORBIDDEN.map(([name, pattern], i) => [name, pattern, WRITTEN[i] ?? ''] as const))(
  '%s',
  (_, pattern, written) => {
    it('is found where it is written', () => expect(written).toMatch(pattern));
    it('is nowhere in the sources', () => {
      const where = [...SOURCES].filter(([, text]) => pattern.test(text)).map(([name]) => name);
      expect(where).toEqual([]);
    });
  },
);

it('reads the files that matter', () => {
  expect([...SOURCES.keys()]).toEqual(
    expect.arrayContaining(['main.ts', 'preload.ts', 'window.ts', 'doors.ts']),
  );
});

it('loads Electron itself only in main and preload', () => {
  const loads = [...SOURCES].filter(([, text]) => /^(import (?!type).*|\} )from 'electron'/m.test(text));
  expect(loads.map(([name]) => name).sort()).toEqual(['main.ts', 'preload.ts']);
});

it('hands neither ipcRenderer nor a channel’s name to the page', () => {
  const preload = SOURCES.get('preload.ts') ?? '';
  expect(preload.match(/exposeInMainWorld\([^)]*\)/g)).toEqual(["exposeInMainWorld('baybook', bridge)"]);
  expect(preload).toContain('satisfies Bridge');
  expect(preload).not.toMatch(/:\s*ipcRenderer\s*[,}]|\.\.\.ipcRenderer|ipcRenderer\.(on|invoke),/);
  const channels = [...preload.matchAll(/ipcRenderer\.invoke\(([^,)]+)/g)].map(m => m[1] ?? '');
  expect(channels).toHaveLength(4);
  for (const channel of channels) expect(channel).toMatch(/^CHANNELS\./);
});
