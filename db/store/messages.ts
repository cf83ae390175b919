/** What passes between a host's thread and the two workers. */

import type { Day } from '../../domain/calendar/day.ts';
import type { ActRequest, Answer, Problem } from '../api.ts';

export interface WorkerData {
  file: string;
  create: boolean;
  /** The day compared with where it is not today; for scripts and tests. */
  today: Day | null;
  /** One shared 32-bit cell: not zero once the asker has canceled the long question under way. */
  cancel: SharedArrayBuffer;
}

export type ToWorker =
  | { id: number; kind: 'act'; request: ActRequest }
  | { id: number; kind: 'ask'; question: string; args: unknown }
  | { id: number; kind: 'demo'; on: Day; seed: number }
  /** Write a consistent copy of the file into a new one. */
  | { id: number; kind: 'copy'; path: string }
  | { id: number; kind: 'damaged'; problem: Problem }
  /** This process's own writer has added the entries after the first `before`, up to `after`. */
  | { id: number; kind: 'wrote'; before: number; after: number }
  | { id: number; kind: 'close' };

export type FromWorker =
  | { kind: 'ready' }
  | { kind: 'cannot open'; problem: Problem }
  | { kind: 'answer'; id: number; answer: Answer<unknown> }
  | { kind: 'progress'; id: number; done: number; total: number; what: string }
  | { kind: 'broken'; id: number; message: string }
  | { kind: 'changed'; touched: string[] }
  | { kind: 'wrote'; before: number; after: number }
  /** The ledger is not what it was: nothing more is written in this file. */
  | { kind: 'damaged'; problem: Problem }
  | { kind: 'closed'; id: number };
