/** Having a backup checked beside everything else that goes on. */
import { Worker } from 'node:worker_threads';
import type { Answer, BackupPreview } from '../api.ts';

export interface CheckOrder {
  /** The copy's path. */
  copy: string;
  /** The path of the file it is compared with, or null. */
  open: string | null;
}

/**
 * Check a copy whole and compare it with a file.
 * @returns what it holds and what it is to the file, or what is wrong with it
 */
export function checkBackup(order: CheckOrder): Promise<Answer<BackupPreview>> {
  const extension = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(`./checker${extension}`, import.meta.url), { workerData: order });
    worker.once('message', (answer: Answer<BackupPreview>) => resolve(answer));
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error('The check of the backup has ended early.')));
  });
}
