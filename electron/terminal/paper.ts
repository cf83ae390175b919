/** Printing from the terminal: a paper written to a file. */
import { writeFileSync } from 'node:fs';
import type { Questions } from '../../db/api.ts';
import type { Department } from '../../db/store/client.ts';
import type { Command } from './args.ts';
import { actingMember, typedPath } from './department.ts';
import { TerminalRefusal, valueIn } from './refusal.ts';

export interface PaperWritten {
  file: string;
  pages: number;
  bytes: number;
}

/** Makes the paper and writes it where there is no file yet. */
export async function writePaper(
  department: Department,
  { paper, to, by }: Extract<Command, { name: 'paper' }>,
): Promise<PaperWritten> {
  // Who prints is named on the paper; the terminal's own member says nothing that is not known.
  const named = by === undefined ? {} : { by: await memberName(department, by) };
  // The store knows its papers and refuses others in words.
  const asked = { ...named, ...paper } as unknown as Questions['paper.make']['takes'];
  const { pages, base64 } = valueIn(await department.ask('paper.make', asked));
  const bytes = Buffer.from(base64, 'base64');
  const file = typedPath(to);
  try {
    writeFileSync(file, bytes, { flag: 'wx' });
  } catch (error) {
    const there = error instanceof Error && 'code' in error && error.code === 'EEXIST';
    throw new TerminalRefusal(
      'file',
      there ? `There is a file ${file} already.` : `${file} cannot be written.`,
      'Give the path of a new file in a folder that is there.',
      'to',
    );
  }
  return { file, pages, bytes: bytes.length };
}

async function memberName(department: Department, number: string): Promise<string> {
  const id = await actingMember(department, number);
  const members = valueIn(await department.ask('members.list', {}));
  return members.find(m => m.id === id)?.name ?? number;
}
