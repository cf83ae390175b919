/**
 * `npm run -s baybook -- …`: the two doors for scripts. Standard output carries JSON and nothing else; a refusal is
 * `{"error": …}` with exit code 1.
 */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Deed, Problem, QuestionName } from '../../db/api.ts';
import { openDepartment, runDemo } from '../../db/store/client.ts';
import { makeDemo } from '../demo.ts';
import { DEMO_STEM } from '../desk.ts';
import { dataFolder, ensureFolder, freeName, rememberOpened } from '../folder.ts';
import { problemOf } from '../problem.ts';
import type { Store } from '../store.ts';
import { type Command, readCommand } from './args.ts';
import { actingMember, ensureDepartment, openFile, typedPath } from './department.ts';
import { help } from './help.ts';
import { backup, backups, restore } from './keep.ts';
import { writePaper } from './paper.ts';
import { readPhotos } from './photos.ts';
import { pin } from './pin.ts';
import { TerminalRefusal, valueIn } from './refusal.ts';
import { importCarryList, importSheet } from './sheet.ts';

const store: Store = { openDepartment, runDemo };

// A reader that has seen enough (`| head`) is no mistake.
process.stdout.on('error', () => process.exit());

let code = 0;
let text: string;
try {
  const command = readCommand(process.argv.slice(2));
  text = command.name === 'help' ? help() : asJson(await run(command));
} catch (error) {
  text = asJson(refusal(error));
  code = 1;
}
// Ends only when all of it is written: a pipe takes a long answer in pieces.
process.stdout.write(text, () => process.exit(code));

function asJson(value: unknown): string {
  return `${JSON.stringify(value, null, process.stdout.isTTY ? 2 : undefined)}\n`;
}

async function run(command: Exclude<Command, { name: 'help' }>): Promise<unknown> {
  if (command.name === 'demo') return demo(command);
  if (command.name === 'backup') return backup(store, command);
  if (command.name === 'backups') return backups(command);
  if (command.name === 'restore') return restore(store, command);
  const department = await openFile(store, command);
  try {
    const opens = command.name === 'act' && command.deeds[0]?.action === 'department.open';
    if (!opens) await ensureDepartment(department, command.on);
    switch (command.name) {
      case 'ask':
        // The store knows its questions and their shapes, and refuses others in words.
        return valueIn(await department.ask(command.question as QuestionName, command.args as never));
      case 'act': {
        const by = opens ? null : await actingMember(department, command.by);
        const deeds = command.deeds as unknown as Deed[];
        const attachments = readPhotos(command.photos);
        return valueIn(await department.act({ by, via: 'terminal', ...pin(), deeds, attachments }));
      }
      case 'paper':
        return await writePaper(department, command);
      case 'import':
        return await importSheet(department, command);
      case 'import carry':
        return await importCarryList(department, command);
    }
  } finally {
    await department.close();
  }
}

async function demo({ file, on, seed }: Extract<Command, { name: 'demo' }>): Promise<unknown> {
  const folder = dataFolder();
  if (file === undefined) ensureFolder(folder);
  const path = file === undefined ? join(folder, freeName(folder, DEMO_STEM)) : typedPath(file);
  if (existsSync(path))
    throw new TerminalRefusal(
      'file exists',
      `${path} exists already.`,
      'Choose a path where no file is; the demo department is never made over another.',
      'file',
    );
  const department = await makeDemo(store, path, {
    ...(on === undefined ? {} : { on }),
    ...(seed === undefined ? {} : { seed }),
    onProgress: (done, total, what) => progress(`${what}: ${done} of ${total}`),
  });
  try {
    if (file === undefined) rememberOpened(folder, basename(path));
    return {
      file: path,
      ...valueIn(await department.ask('department.summary', on === undefined ? {} : { on })),
    };
  } finally {
    await department.close();
  }
}

function progress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text}`);
}

/** A refusal as scripts read it; `errors` only where there is more than one. */
function refusal(error: unknown): { error: Problem; errors?: Problem[] } {
  const problem = problemOf(error);
  if (problem.code === 'unexpected') console.error(error);
  const problems =
    error instanceof Error && 'problems' in error && Array.isArray(error.problems) ? error.problems : [];
  return { error: problem, ...(problems.length > 1 ? { errors: problems as Problem[] } : {}) };
}
