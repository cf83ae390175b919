/** Bringing in a sheet from the terminal: what its rows become, and what was accepted. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { ActAnswer, ImportOffer, ImportPreview, ImportRow } from '../../db/api.ts';
import type { CarryRow } from '../../db/api-checks.ts';
import type { Department } from '../../db/store/client.ts';
import type { Command } from './args.ts';
import { actingMember, typedPath } from './department.ts';
import { pin } from './pin.ts';
import { TerminalRefusal, valueIn } from './refusal.ts';

export interface ImportReport {
  accepted: number;
  refused: number;
  rows: Omit<ImportRow, 'line'>[];
  /** New places and permits the sheet names; taken with `--yes`. */
  offers: ImportOffer[];
  /** What only a person can answer about the sheet. */
  questions: ImportPreview['questions'];
  /** Whether anything was written. */
  written: boolean;
  note: string | null;
  batch: string | null;
}

/** Previews the sheet and, unless it is a dry run, brings in the rows that are right. */
export async function importSheet(
  department: Department,
  { sheet, family, dryRun, yes, dayOrder, by, on }: Extract<Command, { name: 'import' }>,
): Promise<ImportReport> {
  const file = { name: basename(sheet), bytes: readSheet(sheet).toString('base64'), family };
  const dated = on === undefined ? {} : { on };
  const first = valueIn(await department.ask('import.preview', { ...file, ...dated }));
  // The answer stands for every column that is asked about.
  const answered =
    dayOrder === null || first.questions.length === 0
      ? {}
      : { dayOrder: Object.fromEntries(first.questions.map(q => [q.column, dayOrder])) };
  const preview =
    'dayOrder' in answered
      ? valueIn(await department.ask('import.preview', { ...file, ...dated, ...answered }))
      : first;
  const takesPermit = yes && preview.offers.some(o => o.permit);
  const adds = preview.rows.filter(row => row.ok && row.meets !== 'same').length;
  if (dryRun) return report(preview, null, 'A dry run: nothing was written.');
  if (adds === 0 && !takesPermit) return report(preview, null, emptyNote(preview));
  const accept = { places: yes ? 'all' : [], permits: yes ? 'all' : [] };
  const member = await actingMember(department, by);
  const request = { by: member, via: 'import' as const, ...pin() };
  const done = valueIn(
    await department.act({
      ...request,
      deeds: [{ action: 'import.commit', body: { ...file, ...answered, accept } }],
    }),
  );
  return report(preview, done, offersNote(preview, yes));
}

export interface CarryReport {
  of: string;
  accepted: number;
  refused: number;
  rows: Pick<CarryRow, 'row' | 'ok' | 'becomes' | 'short' | 'problems' | 'notes'>[];
  written: boolean;
  batch: string | null;
}

/** Previews a carry list and, unless it is a dry run, puts the rows that are right on the unit's list. */
export async function importCarryList(
  department: Department,
  { sheet, unit, dryRun, by, on }: Extract<Command, { name: 'import carry' }>,
): Promise<CarryReport> {
  const preview = valueIn(
    await department.ask('carry.preview', {
      name: basename(sheet),
      bytes: readSheet(sheet).toString('base64'),
      of: unit,
      ...(on === undefined ? {} : { on }),
    }),
  );
  const done =
    dryRun || preview.deeds.length === 0
      ? null
      : valueIn(
          await department.act({
            by: await actingMember(department, by),
            via: 'terminal',
            ...pin(),
            deeds: preview.deeds,
          }),
        );
  return {
    of: preview.of,
    accepted: preview.accepted,
    refused: preview.refused,
    rows: preview.rows.map(({ row, ok, becomes, short, problems, notes }) => ({
      row,
      ok,
      becomes,
      short,
      problems,
      notes,
    })),
    written: done !== null,
    batch: done?.batch ?? null,
  };
}

function readSheet(path: string): Buffer {
  try {
    return readFileSync(typedPath(path));
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    throw new TerminalRefusal(
      'no such file',
      why === 'ENOENT' ? `There is no file ${path}.` : `${path} cannot be read (${why}).`,
      'Give the path of a CSV or XLSX file.',
      'file',
    );
  }
}

function report(preview: ImportPreview, done: ActAnswer | null, note: string | null): ImportReport {
  const { accepted, refused, rows, offers, questions } = preview;
  return {
    accepted,
    refused,
    rows: rows.map(({ line, ...row }) => row),
    offers,
    questions,
    written: done !== null,
    note,
    batch: done?.batch ?? null,
  };
}

function emptyNote({ accepted, rows }: ImportPreview): string {
  if (rows.length === 0) return 'The sheet has no rows.';
  return accepted === 0
    ? 'Nothing was written: no row was right.'
    : 'Nothing new: all rows are already known.';
}

function offersNote({ offers }: ImportPreview, yes: boolean): string | null {
  return yes || offers.length === 0
    ? null
    : `${offers.length} offered places or permits were not taken; take them with --yes.`;
}
