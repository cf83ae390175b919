/** The doors of the store, as the preload knocks at them. */
import type { IpcMain, IpcMainInvokeEvent } from 'electron';
import type { Answer, Problem } from '../../db/api.ts';
import type { Desk } from '../desk.ts';
import { DOORS } from '../loopback/doors.ts';
import { problemOf } from '../problem.ts';
import { isOurs } from './address.ts';
import { CHANNELS } from './bridge.ts';
import type { Papers } from './papers.ts';

export interface Doorway {
  ipcMain: Pick<IpcMain, 'handle'>;
  desk: Desk;
  papers: Papers;
  /** Settles when the desk has its first department, or has none. */
  ready: Promise<unknown>;
}

/** The doors refuse shapes in the same words as the loopback host's: they are the same functions. */
export function openDoors({ ipcMain, desk, papers, ready }: Doorway): void {
  const handle = (channel: string, door: (...sent: unknown[]) => Promise<Answer<unknown>>) =>
    ipcMain.handle(channel, async (event, ...sent: unknown[]): Promise<Answer<unknown>> => {
      if (!isOurPage(event)) return { ok: false, error: NOT_LET_IN };
      try {
        await ready;
        return await door(...sent);
      } catch (error) {
        return { ok: false, error: problemOf(error) };
      }
    });
  const open = (channel: string, path: string, bodyOf: (...sent: unknown[]) => Record<string, unknown>) => {
    const door = DOORS.get(path);
    if (door === undefined) throw new Error(`There is no door ${path}.`);
    handle(channel, (...sent) => door(desk, bodyOf(...sent)));
  };
  open(CHANNELS.ask, '/api/ask', (question, args) => ({ question, args }));
  open(CHANNELS.act, '/api/act', request => ({ request }));
  open(CHANNELS.host, '/api/host', request =>
    request !== null && typeof request === 'object' ? { ...request } : {},
  );
  handle(CHANNELS.paper, paper => papers.show(paper));
}

/** The main frame of a window of ours, showing our page. A frame that is gone already has no say. */
export function isOurPage({ senderFrame }: Pick<IpcMainInvokeEvent, 'senderFrame'>): boolean {
  return senderFrame !== null && senderFrame.parent === null && isOurs(senderFrame.url);
}

const NOT_LET_IN: Problem = {
  code: 'not let in',
  message: 'The request comes from another page.',
  todo: 'Start Baybook again.',
  field: null,
};
