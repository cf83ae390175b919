/** An installed browser of the Chromium family, and the app window it shows the screens in. */
import { type ChildProcess, spawn } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

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

/** The browser's path: `CHROME_PATH` where it is set, else the first one that is installed; null without one. */
export function findBrowser(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
): string | null {
  if (env.CHROME_PATH) return env.CHROME_PATH;
  return candidates(env, platform).find(canRun) ?? null;
}

/** Whether a window could be shown: on Linux, only where there is a display. */
export function hasDisplay(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
): boolean {
  return platform !== 'linux' || Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

export interface WindowOptions {
  browser: string;
  address: string;
  /** The window's own profile folder, apart from the person's browsing. */
  profile: string;
}

/** The arguments for an app window: no tabs, no address bar, no first-run pages. */
export function windowArguments({ address, profile }: WindowOptions, uid = process.getuid?.()): string[] {
  return [
    `--app=${address}`,
    `--user-data-dir=${profile}`,
    '--no-first-run',
    '--no-default-browser-check',
    // As root the sandbox cannot start; `--test-type` keeps a warning bar about that off the window.
    ...(uid === 0 ? ['--no-sandbox', '--test-type'] : []),
  ];
}

/** Opens the window; the process ends when its last window is closed. What it prints is not for people. */
export function openWindow(options: WindowOptions): ChildProcess {
  return spawn(options.browser, windowArguments(options), { stdio: 'ignore' });
}

function candidates(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string[] {
  if (platform === 'darwin') return MAC_APPS;
  if (platform === 'win32')
    return [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA]
      .filter(folder => folder !== undefined)
      .flatMap(folder => WINDOWS_PROGRAMS.map(program => join(folder, program)));
  const folders = (env.PATH ?? '').split(delimiter).filter(folder => folder !== '');
  return COMMANDS.flatMap(command => folders.map(folder => join(folder, command)));
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
