/** The desktop host as a whole. Electron is an argument, so that all of it runs where there is none. */
import { join } from 'node:path';
import type * as Electron from 'electron';
import type { HostCommand } from '../../db/api.ts';
import { createDesk, type Desk, EVERYTHING } from '../desk.ts';
import { ENDING, ensureFolder, listFiles } from '../folder.ts';
import { problemOf } from '../problem.ts';
import type { Store } from '../store.ts';
import { FIRST_PAGE, SCHEME } from './address.ts';
import { CHANNELS } from './bridge.ts';
import { askWhereToSave, type Choices, createChoices } from './choosing.ts';
import { openDoors } from './doors.ts';
import { lockContents, lockSession } from './lockdown.ts';
import { menuTemplate } from './menu.ts';
import { type Light, readNotes, withRecent, writeNotes } from './notes.ts';
import { tellDaily } from './notices.ts';
import { pageAnswerer } from './pages.ts';
import { createPapers } from './papers.ts';
import { placementOf, windowOptions } from './window.ts';

export type Parts = Pick<
  typeof Electron,
  | 'app'
  | 'BrowserWindow'
  | 'dialog'
  | 'ipcMain'
  | 'Menu'
  | 'nativeTheme'
  | 'Notification'
  | 'protocol'
  | 'screen'
  | 'session'
  | 'shell'
>;

export interface DesktopOptions {
  electron: Parts;
  store: Store;
  /** The data folder. */
  folder: string;
  /** The folder of the built screens. */
  pages: string;
  /** The built preload. */
  preload: string;
  /** The day compared with, `YYYY-MM-DD`; without it, the department's own today. */
  today?: string;
  /** What the program was started with: a department file may be among it. */
  argv?: readonly string[];
  platform?: NodeJS.Platform;
}

/** What hangs is left behind after so long: everything acknowledged is already on the disk. */
const END_MS = 10_000;

/**
 * Starts the host; a second start on the same data folder shows the first one's window and ends.
 * @returns null for the second start
 */
export async function startDesktop(options: DesktopOptions): Promise<BrowserWindowOf | null> {
  const { electron, folder, argv = [] } = options;
  const { app, protocol, session } = electron;
  ensureFolder(folder);
  app.setName('Baybook');
  // The lock and the profile go with the data folder: another folder is another program.
  app.setPath('userData', join(folder, 'desktop'));
  app.enableSandbox();
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return null;
  }
  protocol.registerSchemesAsPrivileged([{ scheme: SCHEME, privileges: { standard: true, secure: true } }]);
  app.on('web-contents-created', (_event, contents) => lockContents(contents));
  // On macOS a file is opened by an event, which may come before anything is ready.
  let wanted = argv.findLast(isDepartment);
  let open = (path: string): void => {
    wanted = path;
  };
  app.on('open-file', (event, path) => {
    event.preventDefault();
    open(path);
  });

  await app.whenReady();
  lockSession(session.defaultSession);
  askWhereToSave(session.defaultSession, () => app.getPath('documents'));
  protocol.handle(SCHEME, pageAnswerer(options.pages));
  const { window, choices, ready } = showDesk(options);
  app.on('second-instance', (_event, started) => {
    bringForward(window);
    const path = started.findLast(isDepartment);
    if (path !== undefined) open(path);
  });
  open = path => void ready.then(() => choices.openAt(path));
  if (wanted !== undefined) open(wanted);
  await window.loadURL(FIRST_PAGE);
  return window;
}

type BrowserWindowOf = Electron.BrowserWindow;

interface Shown {
  window: BrowserWindowOf;
  choices: Choices;
  ready: Promise<void>;
}

/** The desk, the window in front of it, and all that goes between them. */
function showDesk(options: DesktopOptions): Shown {
  const { electron, store, folder, today } = options;
  const { app, ipcMain } = electron;
  const desk = createDesk({ folder, store, ...(today ? { today } : {}) });
  const notes = readNotes(folder);
  electron.nativeTheme.themeSource = notes.light;
  const window = createWindow(options);
  const send = (channel: string, value: unknown) => {
    if (!window.isDestroyed()) window.webContents.send(channel, value);
  };
  const tell = (command: HostCommand) => {
    bringForward(window);
    send(CHANNELS.command, command);
  };
  const choices = createChoices({ dialog: electron.dialog, window, desk, folder, tell });
  const progress = (done: number, total: number, what: string) => {
    send(CHANNELS.progress, { done, total, what });
    // Below nothing takes the bar away.
    if (!window.isDestroyed()) window.setProgressBar(done >= total ? -1 : done / total);
  };
  const redrawMenu = () => setMenu(options, { window, choices, tell }, redrawMenu);

  desk.onProgress(progress);
  desk.onChange(touched => {
    send(CHANNELS.changes, touched);
    if (touched.includes(EVERYTHING[0] ?? '')) void rememberOpen(options, desk).then(redrawMenu);
  });
  redrawMenu();
  const ready = desk.start(progress).catch(error => choices.say(problemOf(error)));
  const { dialog, shell } = electron;
  const papers = createPapers({
    desk,
    shell,
    dialog,
    window,
    folder,
    documents: () => app.getPath('documents'),
  });
  openDoors({ ipcMain, desk, papers, ready });
  void ready.then(() => tellDaily({ desk, day: localDay, show: showNotice(electron, tell) }));
  endWith(app, desk);
  return { window, choices, ready };
}

function createWindow({ electron, folder, preload }: DesktopOptions): BrowserWindowOf {
  const { app, BrowserWindow, nativeTheme, screen } = electron;
  const placement = readNotes(folder).window;
  const displays = screen.getAllDisplays().map(display => display.workArea);
  const dark = nativeTheme.shouldUseDarkColors;
  const window = new BrowserWindow(
    windowOptions({ preload, placement, displays, dark, devTools: !app.isPackaged }),
  );
  if (placement?.maximized) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', () => writeNotes(folder, { window: placementOf(window) }));
  window.webContents.on('render-process-gone', () => {
    // Whatever was acknowledged is in the store; the screens start over.
    if (!window.isDestroyed()) window.webContents.reload();
  });
  return window;
}

function setMenu(
  { electron, folder, platform = process.platform }: DesktopOptions,
  { window, choices, tell }: Omit<Shown, 'ready'> & { tell(command: HostCommand): void },
  redraw: () => void,
): void {
  const { app, Menu, nativeTheme } = electron;
  const notes = readNotes(folder);
  const there = new Set(listFiles(folder).map(file => file.name));
  const template = menuTemplate(
    {
      newDepartment: () => void choices.newDepartment(),
      openDepartment: () => void choices.openDepartment(),
      openRecent: name => void choices.openNamed(name),
      importSheet: () => void choices.importSheet(),
      print: () => print(window, choices),
      setLight(light: Light) {
        nativeTheme.themeSource = light;
        writeNotes(folder, { light });
        tell({ do: 'light', scheme: light === 'system' ? 'auto' : light });
        redraw();
      },
      about: () => app.showAboutPanel(),
      tell,
    },
    { recent: notes.recent.filter(name => there.has(name)), light: notes.light, platform },
  );
  Menu.setApplicationMenu(Menu.buildFromTemplate(template));
}

function print(window: BrowserWindowOf, choices: Choices): void {
  window.webContents.print({ printBackground: false }, (printed, why) => {
    // To think better of it is not a failure.
    if (printed || /cancel/i.test(why)) return;
    void choices.say({
      code: 'print',
      message: `The screen was not printed: ${why}.`,
      todo: 'Look whether a printer is set up and on, then print again.',
      field: null,
    });
  });
}

async function rememberOpen({ electron, folder }: DesktopOptions, desk: Desk): Promise<void> {
  const answer = await desk.host({ command: 'files' });
  if (!answer.ok || answer.value.open === null) return;
  const name = answer.value.open;
  writeNotes(folder, { recent: withRecent(readNotes(folder).recent, name) });
  electron.app.addRecentDocument(join(folder, name));
}

function showNotice({ Notification }: Parts, tell: (command: HostCommand) => void) {
  return ({ title, body }: { title: string; body: string }) => {
    if (!Notification.isSupported()) return;
    const notice = new Notification({ title, body });
    notice.on('click', () => tell({ do: 'screen', screen: 'due' }));
    notice.show();
  };
}

/** The store is closed before the program ends, once. */
function endWith(app: Electron.App, desk: Desk): void {
  let closing = false;
  app.on('window-all-closed', () => app.quit());
  app.on('will-quit', event => {
    if (closing) return;
    closing = true;
    event.preventDefault();
    const late = new Promise(resolve => setTimeout(resolve, END_MS).unref());
    void Promise.race([desk.close(), late]).finally(() => app.exit(0));
  });
}

function bringForward(window: BrowserWindowOf): void {
  if (window.isDestroyed()) return;
  if (window.isMinimized()) window.restore();
  window.focus();
}

const isDepartment = (argument: string) => argument.toLowerCase().endsWith(ENDING);

/** The computer's own day: a notice belongs to whoever sits at it. */
function localDay(): string {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map(n => String(n).padStart(2, '0'))
    .join('-');
}
