/** The system's own dialogs: which department, which sheet, and under what name a list is saved. */
import { constants, copyFileSync, realpathSync, statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { BrowserWindow, Dialog, Session } from 'electron';
import type { HostCommand, Problem } from '../../db/api.ts';
import type { Desk } from '../desk.ts';
import { ENDING, ensureFolder, fileName, freeName } from '../folder.ts';
import { BODY_LIMIT_BYTES } from '../loopback/body.ts';
import { problemOf } from '../problem.ts';

const DEPARTMENTS = { name: 'Baybook departments', extensions: [ENDING.slice(1)] };
const SHEETS = { name: 'Sheets', extensions: ['csv', 'xlsx'] };

export interface Choosing {
  dialog: Pick<Dialog, 'showOpenDialog' | 'showSaveDialog' | 'showMessageBox'>;
  window: BrowserWindow;
  desk: Desk;
  folder: string;
  tell(command: HostCommand): void;
}

export interface Choices {
  newDepartment(): Promise<void>;
  openDepartment(): Promise<void>;
  /** Opens a department file of the data folder by name. */
  openNamed(name: string): Promise<void>;
  /** Opens a department file wherever it lies; one from outside is copied into the data folder first, if wished. */
  openAt(path: string): Promise<void>;
  importSheet(): Promise<void>;
  say(problem: Problem): Promise<void>;
}

export function createChoices({ dialog, window, desk, folder, tell }: Choosing): Choices {
  async function say({ message, todo }: Problem): Promise<void> {
    await dialog.showMessageBox(window, { type: 'warning', message, detail: todo, buttons: ['Close'] });
  }

  async function saying(deed: () => Promise<void>): Promise<void> {
    try {
      await deed();
    } catch (error) {
      await say(problemOf(error));
    }
  }

  async function command(request: { command: 'open' | 'new'; name: string }): Promise<void> {
    const answer = await desk.host(request);
    if (answer.ok) tell({ do: 'screen', screen: 'readiness' });
    else await say(answer.error);
  }

  /** @returns the name of the copy, or null where it is not wished for */
  async function copyIn(path: string): Promise<string | null> {
    if ((statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0)
      throw problem('The file is open somewhere else, or was not closed cleanly.', 'Close it there first.');
    const { response } = await dialog.showMessageBox(window, {
      type: 'question',
      message: `${basename(path)} is not in Baybook’s own folder.`,
      detail: `Department files are kept in ${folder}. The copy goes on by itself: what is written into it does not reach the file it was copied from.`,
      buttons: ['Copy it there and open the copy', 'Cancel'],
      defaultId: 0,
      cancelId: 1,
    });
    if (response !== 0) return null;
    const name = freeName(folder, basename(fileName(basename(path)), ENDING));
    copyFileSync(path, join(folder, name), constants.COPYFILE_EXCL);
    return name;
  }

  const openAt = (path: string) =>
    saying(async () => {
      ensureFolder(folder);
      if (!path.toLowerCase().endsWith(ENDING))
        throw problem(`${basename(path)} is not a department file.`, `Choose one that ends in ${ENDING}.`);
      const name = isIn(folder, path) ? basename(path) : await copyIn(path);
      if (name !== null) await command({ command: 'open', name });
    });

  return {
    say,
    openAt,
    openNamed: name => saying(() => command({ command: 'open', name })),

    async openDepartment() {
      const { canceled, filePaths } = await dialog.showOpenDialog(window, {
        title: 'Open department',
        defaultPath: folder,
        filters: [DEPARTMENTS],
        properties: ['openFile'],
      });
      const [path] = filePaths;
      if (!canceled && path !== undefined) await openAt(path);
    },

    newDepartment: () =>
      saying(async () => {
        ensureFolder(folder);
        const { canceled, filePath } = await dialog.showSaveDialog(window, {
          title: 'New department',
          defaultPath: join(folder, freeName(folder, 'My department')),
          filters: [DEPARTMENTS],
          buttonLabel: 'Start it',
        });
        if (canceled || filePath === '') return;
        if (!isIn(folder, filePath))
          throw problem('Department files are kept in one folder.', `Save it in ${folder}.`);
        await command({ command: 'new', name: basename(filePath) });
      }),

    importSheet: () =>
      saying(async () => {
        const { canceled, filePaths } = await dialog.showOpenDialog(window, {
          title: 'Import a sheet',
          filters: [SHEETS],
          properties: ['openFile'],
        });
        const [path] = filePaths;
        if (canceled || path === undefined) return;
        if (statSync(path).size > BODY_LIMIT_BYTES)
          throw problem(`${basename(path)} is larger than 64 MB.`, 'Part it into several sheets.');
        tell({ do: 'sheet', name: basename(path), bytes: new Uint8Array(await readFile(path)) });
      }),
  };
}

/** A list that a screen saves is asked about in the system's own dialog. */
export function askWhereToSave(session: Pick<Session, 'on'>, documents: () => string): void {
  session.on('will-download', (event, item) => {
    // Only what a screen made itself; nothing is fetched from elsewhere.
    if (!item.getURL().startsWith('blob:')) event.preventDefault();
    else item.setSaveDialogOptions({ title: 'Save', defaultPath: join(documents(), item.getFilename()) });
  });
}

function isIn(folder: string, path: string): boolean {
  try {
    return realpathSync(dirname(path)) === realpathSync(folder);
  } catch {
    return false;
  }
}

function problem(message: string, todo: string): Error {
  const told: Problem = { code: 'file', message, todo, field: null };
  return Object.assign(new Error(message), { problem: told });
}
