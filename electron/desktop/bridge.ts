/** What the preload hands to the screens, and the channels between it and the main process. */
import type { Answer, DepartmentFiles, Doors, HostCommand, HostRequest, Questions } from '../../db/api.ts';
import type { PaperShown } from '../../db/api-desk.ts';

export const CHANNELS = {
  act: 'baybook:act',
  ask: 'baybook:ask',
  host: 'baybook:host',
  paper: 'baybook:paper',
  changes: 'baybook:changes',
  progress: 'baybook:progress',
  command: 'baybook:command',
} as const;

export interface ProgressHeard {
  done: number;
  total: number;
  what: string;
}

/** `window.baybook`: named methods alone. No method takes a channel's name, so a page can reach these and no other. */
export interface Bridge extends Doors {
  host(request: HostRequest): Promise<Answer<DepartmentFiles>>;
  /** Makes a paper and shows it, outside the page. */
  paper(paper: Questions['paper.make']['takes']): Promise<Answer<PaperShown>>;
  onChange(heard: (touched: string[]) => void, connected?: (alive: boolean) => void): () => void;
  onProgress(heard: (progress: ProgressHeard) => void): () => void;
  onCommand(heard: (command: HostCommand) => void): () => void;
}
