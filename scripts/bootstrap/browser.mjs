/** A browser of the Chromium family: found, or installed where this is Debian and we may. */
import { join } from 'node:path';
import { canRun, onPath } from './files.mjs';
import { withLock } from './lock.mjs';
import { run, say } from './run.mjs';

const COMMANDS = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
  'msedge',
];
const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
  name => `/Applications/${name}.app/Contents/MacOS/${name}`,
);
const WINDOWS_PROGRAMS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Chromium\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

export const BROWSER_ADVICE =
  'Install Chromium (Debian: apt-get install chromium), Google Chrome or Microsoft Edge, ' +
  'or set CHROME_PATH to the one you have.';

/** An installed browser, `CHROME_PATH` first; null without one. */
export function findBrowser() {
  if (process.env.CHROME_PATH) return process.env.CHROME_PATH;
  if (process.platform === 'darwin') return MAC_APPS.find(canRun) ?? null;
  if (process.platform !== 'win32') return onPath(COMMANDS);
  const folders = [process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA];
  return (
    folders
      .filter(folder => folder !== undefined)
      .flatMap(folder => WINDOWS_PROGRAMS.map(program => join(folder, program)))
      .find(canRun) ?? null
  );
}

/** An installed browser, or one installed now as root on Debian; null where neither is possible. */
export async function browserOrInstall() {
  const found = findBrowser();
  if (found !== null) return found;
  const aptGet = onPath(['apt-get']);
  if (process.getuid?.() !== 0 || aptGet === null) return null;
  return withLock('browser', async () => {
    if (findBrowser() === null) {
      say(
        'Installing Chromium (apt-get): no browser of its family is on this machine. This takes about a minute.',
      );
      const options = { output: 'error', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
      const code =
        (await run(aptGet, ['update'], options)) ||
        (await run(aptGet, ['install', '-y', '--no-install-recommends', 'chromium'], options));
      if (code !== 0) say(`apt-get ended with ${code}.`);
    }
    return findBrowser();
  });
}
