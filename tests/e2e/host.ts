/**
 * A loopback host of a test's own, on a data folder of its own. `test` gives each test `host` (a running host) and a
 * `page` that is let in; `test.use({ startWith: … })` says what is on the desk.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { test as base, type Page } from '@playwright/test';
import type { Answer, QuestionName, Questions } from '../../db/api.ts';

/** The day every end-to-end test takes for today. */
export const TODAY = '2026-11-25';

const fromRoot = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const DEMO_FILE = fromRoot('test-results/made/demo.baybook');
const SHOTS = fromRoot('test-results/shots');

export interface Host {
  origin: string;
  /** The data folder. */
  folder: string;
  /** The department file that was put there, or null. */
  file: string | null;
  /** The one-time address; spent once `page` was used. */
  firstAddress: string;
  /** What the host printed so far, on both outputs. */
  printed(): string;
  /** Asks a question at the host's own door, with the page's own cookie. */
  ask<K extends QuestionName>(
    page: Page,
    question: K,
    args: Questions[K]['takes'],
  ): Promise<Questions[K]['gives']>;
  /** Ends the host as Ctrl-C does. @returns its exit code */
  stop(): Promise<number | null>;
}

interface Settings {
  /** `demo`: the demo department; `empty`: a new file that holds no department; `nothing`: the folder is empty. */
  startWith: 'demo' | 'empty' | 'nothing';
}

export const test = base.extend<Settings & { host: Host }>({
  startWith: ['demo', { option: true }],
  host: async ({ startWith }, use) => {
    const host = await startHost(startWith);
    await use(host);
    await host.stop();
    rmSync(host.folder, { recursive: true, force: true });
  },
  page: async ({ page, host }, use) => {
    await page.goto(host.firstAddress);
    await page.waitForURL(url => !url.pathname.startsWith('/enter'));
    await use(page);
  },
});

export { expect } from '@playwright/test';

/** Keeps a picture of the page under `test-results/shots`. */
export async function shot(page: Page, name: string): Promise<void> {
  await page.screenshot({ path: join(SHOTS, `${name}.png`) });
}

/** Runs the built terminal. @returns what it printed, read as JSON */
export async function terminal(args: readonly string[], env: Record<string, string> = {}): Promise<unknown> {
  const child = spawn(process.execPath, [fromRoot('dist/host/terminal.js'), ...args], {
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let out = '';
  child.stdout.on('data', part => {
    out += part;
  });
  const code = await new Promise<number | null>(resolve => child.on('close', resolve));
  if (code !== 0) throw new Error(`The terminal ended with ${code}: ${out}`);
  return JSON.parse(out);
}

async function startHost(startWith: Settings['startWith']): Promise<Host> {
  const folder = mkdtempSync(join(tmpdir(), 'baybook-e2e-'));
  const file = startWith === 'nothing' ? null : join(folder, `${startWith}.baybook`);
  if (startWith === 'demo' && file !== null) copyFileSync(DEMO_FILE, file);
  // A file that holds nothing yet is taken for one whose making was cut off, and made.
  if (startWith === 'empty' && file !== null) copyFileSync('/dev/null', file);
  const child = spawn(process.execPath, [fromRoot('dist/host/loopback.js'), '--no-window', '--on', TODAY], {
    env: { ...process.env, BAYBOOK_DATA: folder },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let printed = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', part => {
      printed += part;
    });
  const firstAddress = await addressOf(child, () => printed);
  return {
    origin: new URL(firstAddress).origin,
    folder,
    file,
    firstAddress,
    printed: () => printed,
    async ask(page, question, args) {
      const url = `${new URL(firstAddress).origin}/api/ask`;
      const response = await page.request.post(url, { data: { question, args } });
      const answer = (await response.json()) as Answer<never>;
      if (!answer.ok) throw new Error(`${question}: ${answer.error.message}`);
      return answer.value;
    },
    stop: () => stop(child),
  };
}

function addressOf(child: ChildProcess, printed: () => string): Promise<string> {
  return new Promise((resolve, reject) => {
    const look = () => {
      const address = /http:\/\/127\.0\.0\.1:\d+\/enter\?token=[\w-]+/.exec(printed())?.[0];
      if (address !== undefined) resolve(address);
    };
    child.stdout?.on('data', look);
    child.once('exit', code => reject(new Error(`The host ended with ${code}: ${printed()}`)));
  });
}

function stop(child: ChildProcess): Promise<number | null> {
  return new Promise(resolve => {
    if (child.exitCode !== null) resolve(child.exitCode);
    child.once('exit', resolve);
    child.kill('SIGINT');
  });
}
