/** The department file a command is for, and the member who acts in it. */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { MemberLine } from '../../db/api.ts';
import type { Department } from '../../db/store/client.ts';
import { dataFolder, ensureFolder, lastOpened, rememberOpened } from '../folder.ts';
import type { Store } from '../store.ts';
import type { Common } from './args.ts';
import { TerminalRefusal, valueIn } from './refusal.ts';

const DEFAULT_FILE = 'department.baybook';

/** A path as it was typed, from where it was typed: npm runs its scripts in the project's folder. */
export function typedPath(path: string, env: NodeJS.ProcessEnv = process.env): string {
  const from = env.npm_lifecycle_event === 'baybook' ? env.INIT_CWD : undefined;
  return resolve(from ?? process.cwd(), path);
}

/** `--file`, else the file the data folder's hosts opened last, else a first one there. */
export function departmentPath(file: string | undefined): string {
  if (file !== undefined) return typedPath(file);
  const folder = dataFolder();
  ensureFolder(folder);
  return join(folder, lastOpened(folder) ?? DEFAULT_FILE);
}

/** Opens the file of a command; one that does not exist yet is made. */
export async function openFile(store: Store, { file, on }: Common): Promise<Department> {
  const path = departmentPath(file);
  const isNew = !existsSync(path);
  const department = await store.openDepartment(path, {
    create: isNew,
    ...(on === undefined ? {} : { today: on }),
  });
  if (isNew && file === undefined) rememberOpened(dataFolder(), DEFAULT_FILE);
  return department;
}

/** Makes a file that holds no department yet a new department, with the member called Terminal. */
export async function ensureDepartment(department: Department, on: string | undefined): Promise<void> {
  if (valueIn(await department.ask('department.summary', {})) !== null) return;
  const body = {
    name: 'New department',
    zone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
    member: { number: 'T', name: 'Terminal' },
    ...(on === undefined ? {} : { on }),
  };
  valueIn(await department.act({ by: null, via: 'terminal', deeds: [{ action: 'department.open', body }] }));
}

/** The id of the member who acts: the one with the number given, else the one called Terminal. */
export async function actingMember(department: Department, by: string | undefined): Promise<string> {
  const members = valueIn(await department.ask('members.list', {}));
  const fits = (m: MemberLine) => (by === undefined ? m.name === 'Terminal' : m.number === by);
  const [member, other] = members.filter(fits);
  if (member === undefined)
    throw by === undefined
      ? new TerminalRefusal(
          'no Terminal member',
          'This department has no member called Terminal.',
          'Say who acts with --by and a member’s number, or have an administrator add a member called Terminal.',
          'by',
        )
      : new TerminalRefusal('no such member', `There is no member ${by}.`, 'See members.list.', 'by');
  if (other !== undefined)
    throw new TerminalRefusal(
      'two members',
      `Several members have the ${by === undefined ? 'name Terminal' : `number ${by}`}.`,
      'Say who acts with --by and a number that only one member has.',
      'by',
    );
  return member.id;
}
