/**
 * `npm start`: the loopback host as a program. Opens the department opened last (the demo department the first
 * time), serves the screens, and shows them in an app window, or prints the address where none can be shown.
 */
import type { ChildProcess } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { openDepartment, runDemo } from '../../db/store/client.ts';
import type { Progress } from '../demo.ts';
import { createDesk } from '../desk.ts';
import { dataFolder } from '../folder.ts';
import { problemOf } from '../problem.ts';
import { findBrowser, hasDisplay, openWindow } from './browser.ts';
import { unused } from './life.ts';
import { startLoopback } from './server.ts';

const USAGE = `Usage: npm start -- [--no-window] [--on YYYY-MM-DD]

  --no-window  print the address instead of opening a window
  --on         take this day for today

Department files are kept in ${dataFolder()} (another folder: BAYBOOK_DATA).
`;

const { values: flags } = parseArgs({
  options: {
    'no-window': { type: 'boolean', default: false },
    on: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});

if (flags.help) process.stdout.write(USAGE);
else
  run().catch(error => {
    console.error(problemOf(error).message);
    process.exit(1);
  });

async function run(): Promise<void> {
  const pages = fileURLToPath(new URL('../renderer', import.meta.url));
  if (!existsSync(join(pages, 'index.html')))
    throw new Error('The screens are not built. Start Baybook with `npm start`.');
  const folder = dataFolder();
  const today = flags.on;
  const desk = createDesk({ folder, store: { openDepartment, runDemo }, ...(today ? { today } : {}) });
  const loopback = await startLoopback({ desk, pages, preferredPort: portOf(folder) });

  let window: ChildProcess | null = null;
  let ending = false;
  async function end(): Promise<void> {
    if (ending) return;
    ending = true;
    // What hangs is left behind: everything acknowledged is already on the disk.
    setTimeout(() => process.exit(0), 10_000).unref();
    window?.kill();
    await loopback.close();
    await desk.close();
    process.exit(0);
  }
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end);

  await desk.start(progressShown()).catch(error => {
    // The host goes on: a screen can still open another file.
    const { message, todo } = problemOf(error);
    console.error(`The department file could not be opened. ${message} ${todo}`);
  });
  if (ending) return;

  const browser = flags['no-window'] || !hasDisplay() ? null : findBrowser();
  console.log(`Baybook is at ${loopback.firstAddress}`);
  if (browser === null) {
    console.log('Open that address in a browser on this machine; it works once. Ctrl-C ends Baybook.');
    return;
  }
  window = openWindow({ browser, address: loopback.firstAddress, profile: join(folder, 'window') });
  await unused({ ...loopback, windowClosed: closingOf(window, browser) });
  await end();
}

/** A port of the folder's own, out of those nobody registers (RFC 6335: 49152 to 65535). */
function portOf(folder: string): number {
  const number = createHash('sha256').update(folder).digest().readUInt32BE();
  return 49_152 + (number % 16_384);
}

function closingOf(window: ChildProcess, browser: string): Promise<void> {
  return new Promise(resolve => {
    window.once('exit', () => resolve());
    window.once('error', error => {
      console.error(`${browser} could not be started (${error.message}). Open the address yourself.`);
    });
  });
}

/** One line that is written over on a terminal; elsewhere a line at the start, at each quarter and at the end. */
function progressShown(): Progress {
  let quarter = -1;
  return (done, total, what) => {
    const line = `Making the demo department: ${what} (${done} of ${total})`;
    if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${line}${done >= total ? '\n' : ''}`);
    else if (Math.floor((4 * done) / total) > quarter) {
      quarter = Math.floor((4 * done) / total);
      console.error(line);
    }
  };
}
