/** Running programs, and speaking to the person: standard output belongs to the command, all else goes to error. */
import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { join } from 'node:path';
import { ROOT, readJson } from './files.mjs';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'];

export const say = text => process.stderr.write(`${text}\n`);

/** Something the person must do first; told in words, without a stack. */
export class Advice extends Error {}

/** Runs an entry command: a number it gives becomes the exit code; advice is printed and ends it with 1. */
export function main(command) {
  command().then(
    code => {
      if (typeof code === 'number') process.exitCode = code;
    },
    error => {
      say(error instanceof Advice ? error.message : (error?.stack ?? String(error)));
      process.exitCode = 1;
    },
  );
}

/**
 * Runs a program until it ends, in the project's folder unless another is given; signals are passed on to it.
 * `output: 'error'` sends its standard output to ours for errors.
 * @returns its exit code; as a shell counts them where a signal ended it
 */
export function run(command, args, { output = 'inherit', env = process.env, cwd = ROOT } = {}) {
  return new Promise((resolve, reject) => {
    const stdio = output === 'error' ? ['ignore', 2, 2] : 'inherit';
    const child = spawn(command, args, { cwd, env, stdio, shell: command.endsWith('.cmd') });
    const passOn = signal => child.kill(signal);
    for (const signal of SIGNALS) process.on(signal, passOn);
    const ended = () => {
      for (const signal of SIGNALS) process.off(signal, passOn);
    };
    child.on('error', error => {
      ended();
      reject(
        error.code === 'ENOENT'
          ? new Advice(`${command} was not found. Install it, then run this again.`)
          : error,
      );
    });
    child.on('close', (code, signal) => {
      ended();
      resolve(code ?? 128 + (constants.signals[signal] ?? 0));
    });
  });
}

/** Runs a program of a dependency on the Node we are on, found as the dependency itself says. */
export function runTool(dependency, program, args, options = {}) {
  const folder = join(ROOT, 'node_modules', dependency);
  const bin = readJson(join(folder, 'package.json'))?.bin;
  const path = typeof bin === 'string' ? bin : bin?.[program];
  if (path === undefined) throw new Error(`${dependency} has no program ${program}.`);
  return run(process.execPath, [join(folder, path), ...args], options);
}
