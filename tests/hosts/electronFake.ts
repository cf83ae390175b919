/** Electron as far as the desktop host uses it: it shows nothing, remembers what was asked of it, and can be driven. */
import { EventEmitter } from 'node:events';
import type { BrowserWindowConstructorOptions, MenuItemConstructorOptions } from 'electron';
import { onTestFinished } from 'vitest';
import type { HostCommand } from '../../db/api.ts';
import type { Department } from '../../db/store/client.ts';
import { type DesktopOptions, type Parts, startDesktop } from '../../electron/desktop/desktop.ts';
import type { Store } from '../../electron/store.ts';
import { type FakeStore, fakeStore } from './fakeStore.ts';
import { scratchFolder } from './scratch.ts';

type Handler = (event: unknown, ...sent: unknown[]) => Promise<unknown>;
type Template = MenuItemConstructorOptions[];

class FakeContents extends EventEmitter {
  sent: [channel: string, value: unknown][] = [];
  printed: unknown[] = [];
  printEnds: [boolean, string] = [true, ''];
  windowOpens: ((details: { url: string }) => { action: string }) | null = null;
  reloads = 0;
  send(channel: string, value: unknown) {
    // As Electron sends: by structured clone, which refuses what cannot be copied.
    this.sent.push([channel, structuredClone(value)]);
  }
  print(options: unknown, done: (printed: boolean, why: string) => void) {
    this.printed.push(options);
    done(...this.printEnds);
  }
  reload() {
    this.reloads++;
  }
  setWindowOpenHandler(handler: FakeContents['windowOpens']) {
    this.windowOpens = handler;
  }
}

export class FakeWindow extends EventEmitter {
  webContents = new FakeContents();
  options: BrowserWindowConstructorOptions;
  loaded: string[] = [];
  did: string[] = [];
  bounds = { x: 10, y: 20, width: 1000, height: 700 };
  maximized = false;
  minimized = false;
  destroyed = false;
  progress: number[] = [];
  constructor(options: BrowserWindowConstructorOptions, app: EventEmitter) {
    super();
    this.options = options;
    app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(url: string) {
    this.loaded.push(url);
  }
  show() {
    this.did.push('show');
  }
  focus() {
    this.did.push('focus');
  }
  restore() {
    this.did.push('restore');
    this.minimized = false;
  }
  maximize() {
    this.maximized = true;
  }
  isMinimized = () => this.minimized;
  isMaximized = () => this.maximized;
  isDestroyed = () => this.destroyed;
  getNormalBounds = () => this.bounds;
  setProgressBar(value: number) {
    this.progress.push(value);
  }
}

/** An event that can be held back, as Electron's are. */
export function preventable<T extends object>(more: T = {} as T) {
  const event = {
    prevented: false,
    preventDefault() {
      event.prevented = true;
    },
    ...more,
  };
  return event;
}

export function fakeElectron({
  firstInstance = true,
  displays = [{ x: 0, y: 0, width: 1920, height: 1080 }],
} = {}) {
  const log: string[] = [];
  const windows: FakeWindow[] = [];
  const handlers = new Map<string, Handler>();
  const pages = new Map<string, (request: Request) => Promise<Response>>();
  const schemes: { scheme: string; privileges: unknown }[] = [];
  const menus: Template[] = [];
  const notices: (EventEmitter & { title: string; body: string })[] = [];
  const told: { message: string; detail?: string }[] = [];
  const answers = { open: [] as string[], save: '', button: 0, cannotOpen: '' };
  const shown: string[] = [];
  const opened: { filters?: unknown; defaultPath?: string }[] = [];
  const session = Object.assign(new EventEmitter(), {
    asks: null as ((contents: unknown, permission: string, answer: (yes: boolean) => void) => void) | null,
    checks: null as (() => boolean) | null,
    devices: null as (() => boolean) | null,
    filter: [] as string[],
    requests: null as ((details: unknown, answer: (what: { cancel?: boolean }) => void) => void) | null,
    setPermissionRequestHandler(handler: never) {
      session.asks = handler;
    },
    setPermissionCheckHandler(handler: never) {
      session.checks = handler;
    },
    setDevicePermissionHandler(handler: never) {
      session.devices = handler;
    },
    webRequest: {
      onBeforeRequest(filter: { urls: string[] }, handler: never) {
        session.filter = filter.urls;
        session.requests = handler;
      },
    },
  });
  const app = Object.assign(new EventEmitter(), {
    isPackaged: true,
    setName: (name: string) => log.push(`name ${name}`),
    setPath: (what: string, path: string) => log.push(`path ${what} ${path}`),
    getPath: (what: string) => `/home/member/${what}`,
    enableSandbox: () => log.push('sandbox'),
    requestSingleInstanceLock: () => firstInstance,
    whenReady: async () => void log.push('ready'),
    quit: () => void log.push('quit'),
    exit: (code: number) => void log.push(`exit ${code}`),
    showAboutPanel: () => log.push('about'),
    addRecentDocument: (path: string) => log.push(`recent ${path}`),
  });
  const dialog = {
    showOpenDialog: async (_window: unknown, options: { filters?: unknown; defaultPath?: string }) => {
      opened.push(options);
      return { canceled: answers.open.length === 0, filePaths: answers.open };
    },
    showSaveDialog: async () => ({ canceled: answers.save === '', filePath: answers.save }),
    async showMessageBox(_window: unknown, options: { message: string; detail?: string }) {
      told.push(options);
      return { response: answers.button };
    },
  };
  const parts = {
    app,
    dialog,
    BrowserWindow: class extends FakeWindow {
      constructor(options: BrowserWindowConstructorOptions) {
        super(options, app);
        windows.push(this);
      }
    },
    ipcMain: { handle: (channel: string, handler: Handler) => void handlers.set(channel, handler) },
    Menu: {
      buildFromTemplate: (template: Template) => template,
      setApplicationMenu: (template: Template) => void menus.push(template),
    },
    nativeTheme: { themeSource: 'system', shouldUseDarkColors: false },
    Notification: class extends EventEmitter {
      static isSupported = () => true;
      title: string;
      body: string;
      constructor({ title, body }: { title: string; body: string }) {
        super();
        this.title = title;
        this.body = body;
      }
      show() {
        notices.push(this);
      }
    },
    protocol: {
      registerSchemesAsPrivileged(given: typeof schemes) {
        schemes.push(...given);
        log.push('scheme');
      },
      handle: (scheme: string, handler: (request: Request) => Promise<Response>) =>
        void pages.set(scheme, handler),
    },
    shell: {
      async openPath(path: string) {
        shown.push(path);
        return answers.cannotOpen;
      },
    },
    screen: { getAllDisplays: () => displays.map(workArea => ({ workArea })) },
    session: { defaultSession: session },
  };
  return {
    log,
    windows,
    handlers,
    pages,
    schemes,
    menus,
    notices,
    told,
    answers,
    opened,
    shown,
    session,
    app,
    nativeTheme: parts.nativeTheme,
    parts: parts as unknown as Parts,
  };
}

export type FakeElectron = ReturnType<typeof fakeElectron>;

export const OUR_FRAME = { senderFrame: { url: 'app://baybook/#/due', parent: null } };

/** The whole host, started on a folder of the test's own. */
export async function started(
  options: Partial<Omit<DesktopOptions, 'electron'>> & { electron?: FakeElectron } = {},
) {
  const { electron = fakeElectron(), ...rest } = options;
  const store: Store = rest.store ?? withNothingDue(fakeStore());
  const folder = rest.folder ?? scratchFolder();
  await startDesktop({
    electron: electron.parts,
    pages: scratchFolder(),
    preload: '/built/preload.cjs',
    platform: 'linux',
    ...rest,
    store,
    folder,
  });
  const [window] = electron.windows;
  if (!window) throw new Error('No window was made.');
  onTestFinished(async () => {
    if (electron.log.some(line => line.startsWith('exit'))) return;
    electron.app.emit('will-quit', preventable());
    await until(() => electron.log.includes('exit 0'));
  });
  return {
    electron,
    store,
    folder,
    window,
    /** Knocks at a door as the screens do. */
    invoke(channel: string, ...sent: unknown[]) {
      const handler = electron.handlers.get(channel);
      if (!handler) throw new Error(`Nothing answers ${channel}.`);
      return handler(OUR_FRAME, ...sent);
    },
    commands: () =>
      window.webContents.sent.filter(([c]) => c === 'baybook:command').map(([, v]) => v as HostCommand),
    /** Presses the item of the menu that is shown now. */
    press(label: string) {
      const item = items(electron.menus.at(-1) ?? []).find(i => i.label === label);
      if (!item?.click) throw new Error(`There is no ${label}.`);
      (item.click as () => void)();
    },
  };
}

/** The store of these tests answers every question with an echo; the notice needs counts. */
function withNothingDue(store: FakeStore): FakeStore {
  const counted = (department: Department): Department => ({
    ...department,
    ask: (question, args) =>
      question === 'due.counts'
        ? Promise.resolve({ ok: true, value: { on: '2026-11-25', things: 0, byState: {} } as never })
        : department.ask(question, args),
  });
  const { openDepartment, runDemo } = store;
  return Object.assign(store, {
    openDepartment: async (...given: Parameters<typeof openDepartment>) =>
      counted(await openDepartment(...given)),
    runDemo: async (...given: Parameters<typeof runDemo>) => counted(await runDemo(...given)),
  });
}

/** The bytes of the paper that `withPaper` makes, as text. */
export const PAPER = '%PDF-1.7 a paper';

/** A store whose one paper has this name. */
export function withPaper(name: string): FakeStore {
  const store = withNothingDue(fakeStore());
  const papered = (department: Department): Department => ({
    ...department,
    ask: (question, args) =>
      question === 'paper.make'
        ? Promise.resolve({
            ok: true,
            value: { name, pages: 1, base64: Buffer.from(PAPER).toString('base64') } as never,
          })
        : department.ask(question, args),
  });
  const { openDepartment, runDemo } = store;
  return Object.assign(store, {
    openDepartment: async (...given: Parameters<typeof openDepartment>) =>
      papered(await openDepartment(...given)),
    runDemo: async (...given: Parameters<typeof runDemo>) => papered(await runDemo(...given)),
  });
}

/** Every item of a menu, however deep. */
export function items(template: Template): Template {
  return template.flatMap(item => [item, ...(Array.isArray(item.submenu) ? items(item.submenu) : [])]);
}

export async function until(holds: () => boolean, most_ms = 5_000): Promise<void> {
  for (const end = Date.now() + most_ms; !holds(); ) {
    if (Date.now() > end) throw new Error(`Not within ${most_ms} ms: ${holds}`);
    await new Promise(resolve => setTimeout(resolve, 5));
  }
}
