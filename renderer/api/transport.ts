/**
 * How the screens reach the store: the two doors and the host's own command, over the bridge of the desktop
 * window where there is one and over HTTP of the same origin otherwise. Nothing else knows which it is.
 */
import type {
  ActAnswer,
  ActRequest,
  Answer,
  DepartmentFiles,
  Doors,
  HostCommand,
  HostRequest,
  Problem,
  QuestionName,
  Questions,
} from '../../db/api.ts';
import type { PaperShown } from '../../db/api-desk.ts';

/** What a host offers a screen. */
interface Host extends Doors {
  /** About which department file is open; outside the two doors. */
  host(request: HostRequest): Promise<Answer<DepartmentFiles>>;
  /** Names of what was touched, as they happen; `connected` says whether the feed is alive. */
  onChange(heard: (touched: string[]) => void, connected?: (alive: boolean) => void): () => void;
  /** How far long work of the host has come, where the host tells. */
  onProgress?(heard: (progress: HostProgress) => void): () => void;
  /** Makes a paper and shows it, where the host has a way of its own. */
  paper?(paper: Questions['paper.make']['takes']): Promise<Answer<PaperShown>>;
  /** What the host's own menu asks of the screens, where it has one. */
  onCommand?(heard: (command: HostCommand) => void): () => void;
}

export interface HostProgress {
  done: number;
  total: number;
  what: string;
}

declare global {
  interface Window {
    baybook?: Host;
  }
}

const UNREACHABLE: Problem = {
  code: 'unreachable',
  message: 'Baybook’s store does not answer.',
  todo: 'Nothing was lost. Close this window and start Baybook again.',
  field: null,
};

const SHUT_OUT: Problem = {
  code: 'shut out',
  message: 'This window may no longer talk to the store.',
  todo: 'Close it and open Baybook again from its own start command.',
  field: null,
};

async function post<T>(path: string, body: unknown, signal?: AbortSignal): Promise<Answer<T>> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
      ...(signal ? { signal } : {}),
    });
    if (response.status === 401 || response.status === 403) return { ok: false, error: SHUT_OUT };
    return (await response.json()) as Answer<T>;
  } catch {
    return { ok: false, error: UNREACHABLE };
  }
}

let changes: EventSource | undefined;

/** One connection for the window: the host takes each for an open page. */
function feed(): EventSource | undefined {
  if (typeof EventSource === 'undefined') return undefined;
  changes ??= new EventSource('/api/changes');
  return changes;
}

const overHttp: Host = {
  act: (request: ActRequest) => post<ActAnswer>('/api/act', { request }),
  ask: (question, args) => post('/api/ask', { question, args }),
  host: request => post('/api/host', request),
  onChange(heard, connected) {
    const source = feed();
    if (!source) return () => {};
    const message = (event: MessageEvent<string>) => heard(JSON.parse(event.data) as string[]);
    const opened = () => connected?.(true);
    const lost = () => connected?.(false);
    source.addEventListener('message', message);
    source.addEventListener('open', opened);
    source.addEventListener('error', lost);
    return () => {
      source.removeEventListener('message', message);
      source.removeEventListener('open', opened);
      source.removeEventListener('error', lost);
    };
  },
  onProgress(heard) {
    const source = feed();
    const progress = (event: MessageEvent<string>) => heard(JSON.parse(event.data) as HostProgress);
    source?.addEventListener('progress', progress);
    return () => source?.removeEventListener('progress', progress);
  },
};

/**
 * Ask, unless the question is called off while it waits: what a list flew past need not be answered any more.
 * The bridge has no way to call off, and no queue to hold up.
 */
export function askHost<K extends QuestionName>(
  question: K,
  args: Questions[K]['takes'],
  signal: AbortSignal,
): Promise<Answer<Questions[K]['gives']>> {
  return window.baybook ? window.baybook.ask(question, args) : post('/api/ask', { question, args }, signal);
}

/** The host this window belongs to. */
export function host(): Host {
  return window.baybook ?? overHttp;
}
