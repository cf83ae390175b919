/** A store that keeps nothing, for tests of what a host does around it: every file is an empty file. */
import { existsSync, writeFileSync } from 'node:fs';
import type { ActRequest, Problem } from '../../db/api.ts';
import type { Department } from '../../db/store/client.ts';
import type { Store } from '../../electron/store.ts';

export interface FakeStore extends Store {
  /** What happened, in order: `open a.baybook`, `ask due.list`, `close a.baybook`. */
  log: string[];
  acts: ActRequest[];
  /** By the order of opening: tells whoever listens to that department. */
  touch: ((touched: string[]) => void)[];
  /** Answers to `ask` wait for this. */
  hold: Promise<void>;
}

export function fakeStore(): FakeStore {
  const log: string[] = [];
  const acts: ActRequest[] = [];
  const touch: FakeStore['touch'] = [];

  function department(file: string): Department {
    const name = file.split('/').at(-1) ?? file;
    const listeners = new Set<(touched: string[]) => void>();
    touch.push(touched => {
      for (const listener of listeners) listener(touched);
    });
    log.push(`open ${name}`);
    return {
      file,
      async act(request) {
        acts.push(request);
        return { ok: true, value: { batch: 'b-1', entries: ['b-1'], touched: ['due'] } };
      },
      async ask(question, args) {
        await store.hold;
        log.push(`ask ${question}`);
        return { ok: true, value: { question, args, file: name } as never };
      },
      async copyTo(path) {
        log.push(`copy ${name}`);
        writeFileSync(path, '');
        return { ok: true, value: null };
      },
      onChange(listener) {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
      async close() {
        log.push(`close ${name}`);
      },
    };
  }

  const store: FakeStore = {
    log,
    acts,
    hold: Promise.resolve(),
    touch,
    async openDepartment(file, options = {}) {
      if (!existsSync(file)) {
        if (!options.create) throw refused('no such file', `${file} does not exist.`);
        writeFileSync(file, '');
      }
      return department(file);
    },
    async runDemo(file, options = {}) {
      options.onProgress?.(1, 2, 'things');
      writeFileSync(file, '');
      options.onProgress?.(2, 2, 'history');
      return department(file);
    },
  };
  return store;
}

function refused(code: string, message: string): Error {
  const problem: Problem = { code, message, todo: 'Choose another file.', field: null };
  return Object.assign(new Error(message), { problem });
}
