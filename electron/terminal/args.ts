/** What was typed, as a command. */
import { parseArgs } from 'node:util';
import { TerminalRefusal } from './refusal.ts';

export interface Common {
  /** The department file; without it, the one opened last. */
  file?: string;
  /** The number of the member who acts; without it, the member called Terminal. */
  by?: string;
  /** The day compared with, `YYYY-MM-DD`. */
  on?: string;
}

/** Which part of a typed date comes first. */
type DayOrder = 'day first' | 'month first';

export type Command =
  | { name: 'help' }
  | ({ name: 'ask'; question: string; args: Record<string, unknown> } & Common)
  | ({ name: 'act'; deeds: Record<string, unknown>[]; photos: readonly string[] } & Common)
  | ({
      name: 'import';
      sheet: string;
      family: string;
      dryRun: boolean;
      yes: boolean;
      dayOrder: DayOrder | null;
    } & Common)
  | ({ name: 'import carry'; sheet: string; unit: string; dryRun: boolean } & Common)
  | ({ name: 'paper'; paper: Record<string, unknown>; to: string } & Common)
  | ({ name: 'demo'; seed?: number } & Common)
  | ({ name: 'backup' | 'backups' } & Common)
  | ({ name: 'restore'; backup: string; dryRun: boolean } & Common);

const OPTIONS = {
  file: { type: 'string' },
  by: { type: 'string' },
  on: { type: 'string' },
  family: { type: 'string' },
  unit: { type: 'string' },
  seed: { type: 'string' },
  to: { type: 'string' },
  photo: { type: 'string', multiple: true },
  'dry-run': { type: 'boolean' },
  yes: { type: 'boolean' },
  'day-first': { type: 'boolean' },
  'month-first': { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const;

type OptionName = keyof typeof OPTIONS;

/** Options each command takes beside `--file`, `--by` and `--on`. */
const TAKES: Readonly<Record<string, readonly OptionName[]>> = {
  ask: [],
  act: ['photo'],
  import: ['family', 'unit', 'dry-run', 'yes', 'day-first', 'month-first'],
  paper: ['to'],
  demo: ['seed'],
  backup: [],
  backups: [],
  restore: ['dry-run'],
};

/**
 * @param typed what follows `npm run -s baybook --`
 * @throws TerminalRefusal where it is no command, naming what is wrong
 */
export function readCommand(typed: readonly string[]): Command {
  const { values, positionals } = parse(typed);
  const [name, ...rest] = positionals;
  if (values.help || name === 'help') return { name: 'help' };
  if (name === undefined) throw usage('No command was given.', null);
  const takes = TAKES[name];
  if (takes === undefined) throw usage(`There is no command ${name}.`, 'command');
  for (const option of Object.keys(values) as OptionName[])
    if (!['file', 'by', 'on', ...takes].includes(option))
      throw usage(`The command ${name} takes no --${option}.`, option);

  const { file, by, on } = values;
  if (on !== undefined) mustBeDay(on);
  const common: Common = {
    ...(file === undefined ? {} : { file }),
    ...(by === undefined ? {} : { by }),
    ...(on === undefined ? {} : { on }),
  };
  if (name === 'ask') {
    const [question, json] = only(rest, ['question', 'arguments'], 1);
    return { name, question: question ?? '', args: readArgs(json ?? '{}'), ...common };
  }
  if (name === 'act') {
    const [json] = only(rest, ['list of deeds'], 1);
    return { name, deeds: readDeeds(json ?? ''), photos: values.photo ?? [], ...common };
  }
  if (name === 'import') {
    const [sheet] = only(rest, ['file'], 1);
    const { family, 'dry-run': dryRun = false, yes = false } = values;
    const dayOrder = values['day-first'] ? 'day first' : values['month-first'] ? 'month first' : null;
    if (family === undefined)
      throw usage('An import needs --family: hose, ladder, cylinder, pack, or carry.', 'family');
    if (family === 'carry') {
      if (values.unit === undefined)
        throw usage('A carry list needs --unit: whose it is, as "Engine 31".', 'unit');
      return { name: 'import carry', sheet: sheet ?? '', unit: values.unit, dryRun, ...common };
    }
    if (values.unit !== undefined)
      throw usage('Only a carry list belongs to a unit: --family carry.', 'unit');
    return { name, sheet: sheet ?? '', family, dryRun, yes, dayOrder, ...common };
  }
  if (name === 'paper') {
    const [json] = only(rest, ['paper'], 1);
    const { to } = values;
    if (to === undefined || to.trim() === '') throw usage('A paper needs --to: the file to write.', 'to');
    return { name, paper: readArgs(json ?? ''), to, ...common };
  }
  if (name === 'restore') {
    const [backup] = only(rest, ['backup'], 1);
    return { name, backup: backup ?? '', dryRun: values['dry-run'] ?? false, ...common };
  }
  only(rest, [], 0);
  if (name === 'backup' || name === 'backups') return { name, ...common };
  return { name: 'demo', ...(values.seed === undefined ? {} : { seed: readSeed(values.seed) }), ...common };
}

function parse(typed: readonly string[]) {
  try {
    return parseArgs({ args: [...typed], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    throw usage(error instanceof Error ? error.message : String(error), null);
  }
}

function only(rest: readonly string[], names: readonly string[], least: number): readonly string[] {
  const missing = names[rest.length];
  if (rest.length < least && missing !== undefined) throw usage(`The ${missing} is missing.`, missing);
  if (rest.length > names.length)
    throw usage(`It is not clear what ${rest[names.length]} is for. Is the JSON in quotes?`, null);
  return rest;
}

function readArgs(text: string): Record<string, unknown> {
  const value = readJson(text, 'arguments');
  if (isObject(value)) return value;
  throw badJson('The arguments of a question are one JSON object.', 'arguments');
}

/** A list of deeds; a single deed may stand without its list. */
function readDeeds(text: string): Record<string, unknown>[] {
  const value = readJson(text, 'deeds');
  const list = Array.isArray(value) ? value : [value];
  if (list.every(isObject)) return list;
  throw badJson('Deeds are a JSON list of objects, each with an action and a body.', 'deeds');
}

function readJson(text: string, field: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw badJson(`This is not JSON: ${error instanceof Error ? error.message : error}`, field);
  }
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

function mustBeDay(text: string): void {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : null;
  if (day === null || Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== text)
    throw usage(`${text} is not a day. Write it as 2026-11-25.`, 'on');
}

function readSeed(text: string): number {
  const seed = Number(text);
  if (/^\d+$/.test(text) && Number.isSafeInteger(seed)) return seed;
  throw usage(`${text} is not a seed. Give a whole number.`, 'seed');
}

function badJson(message: string, field: string): TerminalRefusal {
  return new TerminalRefusal(
    'bad JSON',
    message,
    'Put the JSON in single quotes. See --help for the shapes.',
    field,
  );
}

function usage(message: string, field: string | null): TerminalRefusal {
  return new TerminalRefusal('usage', message, 'See --help.', field);
}
