/** Telling the open pages what was touched, as server-sent events; and knowing how many pages are open. */
import type { ServerResponse } from 'node:http';

const HEARTBEAT_MS = 15_000;

export interface Changes {
  /** Takes a page's connection and keeps it until the page goes. */
  connect(response: ServerResponse): void;
  /** Without an event's name, the page's ordinary message. */
  send(data: unknown, event?: string): void;
  count(): number;
  onCount(listener: () => void): void;
  end(): void;
}

export function createChanges(heartbeat_ms = HEARTBEAT_MS): Changes {
  const pages = new Set<ServerResponse>();
  const listeners = new Set<() => void>();
  const counted = () => {
    for (const listener of listeners) listener();
  };
  const write = (text: string) => {
    for (const page of pages) page.write(text);
  };
  // Something must be sent now and then: a page that went away without closing is noticed by the failed write.
  const heartbeat = setInterval(() => write(': still here\n\n'), heartbeat_ms);
  heartbeat.unref();
  return {
    connect(response) {
      response.writeHead(200, { 'Content-Type': 'text/event-stream; charset=utf-8' });
      // The page tries again this soon after the connection was lost.
      response.write('retry: 1000\n\n');
      pages.add(response);
      counted();
      response.on('close', () => {
        pages.delete(response);
        counted();
      });
    },
    send: (data, event) =>
      write(`${event === undefined ? '' : `event: ${event}\n`}data: ${JSON.stringify(data)}\n\n`),
    count: () => pages.size,
    onCount(listener) {
      listeners.add(listener);
    },
    end() {
      clearInterval(heartbeat);
      for (const page of pages) page.end();
    },
  };
}
