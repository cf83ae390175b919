/**
 * The desk of a host: which department file is open, and the two doors to whichever it is. Screens may start a
 * new file, make the demo or open another; what is being answered meanwhile is finished on the file it was asked of.
 */
import { basename } from 'node:path';
import type { Answer, DepartmentFiles, Doors, HostRequest, Problem } from '../db/api.ts';
import type { Department } from '../db/store/client.ts';
import { backupsFolder, listBackups, makeBackup, previewBackup, restoreBeside } from './backups.ts';
import { makeDemo, type Progress, removeHalfMade } from './demo.ts';
import {
  ensureFolder,
  fileName,
  filePath,
  freeName,
  lastOpened,
  listFiles,
  rememberOpened,
} from './folder.ts';
import { problemOf } from './problem.ts';
import type { Store } from './store.ts';
import { programVersion } from './version.ts';

export const DEMO_STEM = 'Larkspur Valley demo';
/** Sent to screens as the touched keys when another file was opened: everything they hold is of the old one. */
export const EVERYTHING = ['*'];

export interface DeskOptions {
  folder: string;
  store: Store;
  /** The day compared with, `YYYY-MM-DD`; without it, the department's own today. */
  today?: string;
}

export interface Desk extends Doors {
  /** Opens what was opened last; makes the demo department where the folder holds no department file. */
  start(progress?: Progress): Promise<void>;
  /** What screens ask about department files. */
  host(request: HostRequest): Promise<Answer<DepartmentFiles>>;
  onChange(listener: (touched: string[]) => void): () => void;
  onProgress(listener: Progress): () => void;
  close(): Promise<void>;
}

interface Open {
  name: string;
  department: Department;
  answering: Set<Promise<unknown>>;
  quiet: () => void;
}

export function createDesk({ folder, store, today }: DeskOptions): Desk {
  const listeners = new Set<(touched: string[]) => void>();
  const watchers = new Set<Progress>();
  let open: Open | null = null;
  // Why the file that was wanted at the start is not open: whoever sits before the screens did not see the start.
  let whyNot: Problem | null = null;
  const nothingOpen = () => (whyNot === null ? NOTHING_OPEN : { ...whyNot, code: NOTHING_OPEN.code });
  // Commands about files take turns: two windows must not open two files at once.
  let turn: Promise<unknown> = Promise.resolve();

  const tell = (touched: string[]) => {
    for (const listener of listeners) listener(touched);
  };
  const day = today === undefined ? {} : { today };

  async function putOnDesk(name: string, department: Department): Promise<void> {
    const before = open;
    open = { name, department, answering: new Set(), quiet: department.onChange(tell) };
    rememberOpened(folder, name);
    tell(EVERYTHING);
    if (before) await putAway(before);
  }

  async function openFile(name: string, create: boolean): Promise<void> {
    if (open?.name === name) return;
    await putOnDesk(name, await store.openDepartment(filePath(folder, name), { create, ...day }));
  }

  async function demo(stem: string, progress: Progress): Promise<void> {
    const name = freeName(folder, stem);
    const options = { ...(today === undefined ? {} : { on: today }), onProgress: progress };
    await putOnDesk(name, await makeDemo(store, filePath(folder, name), options));
  }

  function report(done: number, total: number, what: string): void {
    for (const watcher of watchers) watcher(done, total, what);
  }

  /** @returns what the command adds to the answer */
  async function obey(request: HostRequest): Promise<Partial<DepartmentFiles>> {
    const { command, name } = request;
    switch (command) {
      case 'files':
      case 'backups':
        return {};
      case 'demo':
        await demo(name === undefined ? DEMO_STEM : withoutEnding(fileName(name)), report);
        return {};
      case 'new':
        await openFile(freeName(folder, withoutEnding(fileName(name))), true);
        return {};
      case 'open': {
        const wanted = basename(filePath(folder, name));
        if (!listFiles(folder).some(f => f.name === wanted)) throw new ProblemError(noSuchFile(wanted));
        await openFile(wanted, false);
        return {};
      }
      case 'backup':
        if (open === null) throw new ProblemError(nothingOpen());
        return { made: valueIn(await makeBackup(open.department, folder)) };
      case 'preview':
        return { preview: { name: backupNamed(name), ...(await previewed(name)) } };
      case 'restore': {
        // Checked again just before: what was shown may have been another file a minute ago.
        await previewed(name);
        await openFile(restoreBeside(folder, filePath(backupsFolder(folder), name)), false);
        return {};
      }
      default:
        throw new ProblemError(noSuchCommand(command));
    }
  }

  function backupNamed(name: unknown): string {
    const wanted = fileName(name);
    if (!listBackups(folder).some(f => f.name === wanted)) throw new ProblemError(noSuchBackup(wanted));
    return wanted;
  }

  const previewed = async (name: unknown) =>
    valueIn(await previewBackup(folder, backupNamed(name), open?.department.file ?? null));

  function filesNow({ command }: HostRequest): DepartmentFiles {
    const files = { folder, open: open?.name ?? null, files: listFiles(folder), version: programVersion() };
    if (!ABOUT_BACKUPS.has(command)) return files;
    return { ...files, backups: { folder: backupsFolder(folder), files: listBackups(folder) } };
  }

  function answer<T>(asked: (department: Department) => Promise<Answer<T>>): Promise<Answer<T>> {
    if (open === null) return Promise.resolve({ ok: false, error: nothingOpen() });
    const { answering, department } = open;
    const answered = asked(department).catch(error => ({ ok: false as const, error: problemOf(error) }));
    answering.add(answered);
    return answered.finally(() => answering.delete(answered));
  }

  return {
    act: request => answer(department => department.act(request)),
    ask: (question, args) => answer(department => department.ask(question, args)),

    async start(progress = () => {}) {
      ensureFolder(folder);
      removeHalfMade(folder);
      const name = lastOpened(folder);
      try {
        if (name === null) await demo(DEMO_STEM, progress);
        else await openFile(name, false);
      } catch (error) {
        whyNot = problemOf(error);
        throw error;
      }
    },

    host(request) {
      const done = turn.then(async (): Promise<Answer<DepartmentFiles>> => {
        try {
          ensureFolder(folder);
          const added = await obey(request);
          return { ok: true, value: { ...filesNow(request), ...added } };
        } catch (error) {
          return { ok: false, error: problemOf(error) };
        }
      });
      turn = done;
      return done;
    },

    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },

    onProgress(listener) {
      watchers.add(listener);
      return () => watchers.delete(listener);
    },

    async close() {
      await turn;
      const last = open;
      open = null;
      if (last) await putAway(last);
    },
  };
}

async function putAway({ department, answering, quiet }: Open): Promise<void> {
  quiet();
  await Promise.allSettled(answering);
  await department.close();
}

class ProblemError extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.message);
    this.problem = problem;
  }
}

const ABOUT_BACKUPS: ReadonlySet<HostRequest['command']> = new Set([
  'backups',
  'backup',
  'preview',
  'restore',
]);

function valueIn<T>(answer: Answer<T>): T {
  if (answer.ok) return answer.value;
  throw new ProblemError(answer.error);
}

const withoutEnding = (name: string) => basename(name, '.baybook');

const NOTHING_OPEN: Problem = {
  code: 'no department open',
  message: 'No department file is open.',
  todo: 'Open a department file, start a new one, or make the demo department.',
  field: null,
};

const noSuchFile = (name: string): Problem => ({
  code: 'no such file',
  message: `There is no department file “${name}” in the data folder.`,
  todo: 'Choose one of the files listed.',
  field: 'name',
});

const noSuchBackup = (name: string): Problem => ({
  code: 'no such file',
  message: `There is no backup “${name}” in the folder of backups.`,
  todo: 'Choose one of the backups listed.',
  field: 'name',
});

const noSuchCommand = (command: unknown): Problem => ({
  code: 'no such command',
  message: `The host does not know the command “${String(command)}”.`,
  todo: 'Use files, new, demo, open, backups, backup, preview or restore.',
  field: 'command',
});
