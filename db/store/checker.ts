/** A worker that lives for one check of a backup, so that neither screens nor writing wait for it. */
import { readFileSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';
import type { Answer, BackupPreview } from '../api.ts';
import { examineCopy, relationTo } from '../files/backup.ts';
import type { CheckOrder } from './checking.ts';
import { migrationsFolder } from './migrate.ts';
import { openForReading } from './open.ts';
import { CannotOpen } from './refusal.ts';

const { copy, open } = workerData as CheckOrder;

function check(): Answer<BackupPreview> {
  try {
    const contents = examineCopy(copy, formatsKnown());
    return { ok: true, value: { ...contents, relation: open === null ? null : compared(open) } };
  } catch (error) {
    if (error instanceof CannotOpen) return { ok: false, error: error.problem };
    throw error;
  }
}

function compared(file: string): BackupPreview['relation'] {
  const db = openForReading(file);
  try {
    return relationTo(db, copy);
  } finally {
    db.close();
  }
}

function formatsKnown(): number {
  const journal = JSON.parse(readFileSync(`${migrationsFolder()}/meta/_journal.json`, 'utf8')) as {
    entries: unknown[];
  };
  return journal.entries.length;
}

parentPort?.postMessage(check());
