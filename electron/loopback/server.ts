/**
 * The loopback host: the screens and the two doors on 127.0.0.1, for this machine's own user and no one else.
 *
 * - `POST /api/ask` `{question, args}` and `POST /api/act` `{request}`, an `ActRequest`: the doors; a refusal is an `Answer` too
 * - `GET /api/changes`: server-sent events; a message is the list of touched keys, `["*"]` after another file was
 *   opened; an event `progress` is `{done, total, what}` while the demo department is being made
 * - `POST /api/host` a `HostRequest`: which department file is open
 */
import { createServer, type IncomingMessage, type Server } from 'node:http';
import type { Desk } from '../desk.ts';
import { problemOf } from '../problem.ts';
import { BODY_LIMIT_BYTES, BodyRefused, readObject } from './body.ts';
import { createChanges } from './changes.ts';
import { DOORS } from './doors.ts';
import { createEntry, ENTER_PATH, type Entry, strangeness } from './entry.ts';
import { EVERY_ANSWER } from './headers.ts';
import { findPages, type PageFile } from './pages.ts';
import { json, notAllowed, notFound, notLetIn, page, problem, type Reply, send } from './reply.ts';

export interface LoopbackOptions {
  desk: Desk;
  /** The folder of the built screens. */
  pages: string;
  bodyLimit_bytes?: number;
  /** Taken where it is free: what a browser keeps for an address is then still there the next time. */
  preferredPort?: number;
}

export interface Loopback {
  port: number;
  origin: string;
  /** The address that lets its first visitor in, and no other. */
  firstAddress: string;
  /** How many pages are open. */
  pagesOpen(): number;
  onPagesOpen(listener: () => void): void;
  close(): Promise<void>;
}

interface Host {
  desk: Desk;
  port: number;
  entry: Entry;
  pages: (pathname: string) => PageFile | null;
  bodyLimit_bytes: number;
}

/** Starts the host on the preferred port, or on a free one. */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  const { desk, bodyLimit_bytes = BODY_LIMIT_BYTES } = options;
  const server = createServer();
  const port = await listen(server, options.preferredPort ?? 0).catch(error => {
    if (!options.preferredPort) throw error;
    return listen(server, 0);
  });
  const entry = createEntry(port);
  const changes = createChanges();
  const host: Host = { desk, port, entry, pages: findPages(options.pages), bodyLimit_bytes };
  const stops = [
    desk.onChange(touched => changes.send(touched)),
    desk.onProgress((done, total, what) => changes.send({ done, total, what }, 'progress')),
  ];
  server.on('request', async (request, response) => {
    try {
      for (const [name, value] of Object.entries(EVERY_ANSWER)) response.setHeader(name, value);
      await send(await replyTo(host, request).catch(unexpected), request, response, changes);
    } catch {
      // The page went away in the middle; there is no one left to tell.
      response.destroy();
    }
  });
  return {
    port,
    origin: `http://127.0.0.1:${port}`,
    firstAddress: `http://127.0.0.1:${port}${entry.firstPath}`,
    pagesOpen: changes.count,
    onPagesOpen: changes.onCount,
    close() {
      for (const stop of stops) stop();
      changes.end();
      return new Promise(resolve => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    },
  };
}

function listen(server: Server, wanted: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(wanted, '127.0.0.1', () => {
      server.removeListener('error', reject);
      const address = server.address();
      if (address === null || typeof address === 'string') reject(new Error('No port was given.'));
      else resolve(address.port);
    });
  });
}

async function replyTo(host: Host, request: IncomingMessage): Promise<Reply> {
  const strange = strangeness(request, host.port);
  if (strange !== null) return notLetIn(request, strange);
  const address = URL.parse(request.url ?? '', `http://127.0.0.1:${host.port}`);
  if (address === null) return notFound();
  const { pathname, searchParams } = address;
  if (pathname === ENTER_PATH) return enter(host.entry, request, searchParams.get('token'));
  if (!host.entry.isIn(request))
    return notLetIn(request, 'Baybook opens only from the address it gave when it started.');
  if (pathname.startsWith('/api/')) return replyAtDoor(host, request, pathname);
  if (request.method !== 'GET' && request.method !== 'HEAD') return notAllowed('GET');
  const file = host.pages(pathname);
  return file === null ? notFound() : { kind: 'file', file };
}

function enter(entry: Entry, request: IncomingMessage, token: string | null): Reply {
  if (request.method !== 'GET') return notAllowed('GET');
  const cookie = entry.enter(token);
  if (cookie === null)
    return notLetIn(request, 'This address was already used, or is not the one Baybook gave.');
  // The page moves on by itself rather than by a redirect: a redirect would still count as coming from wherever the
  // address was clicked, and the browser would keep a strict cookie back.
  const moveOn = '<meta http-equiv="refresh" content="0;url=/">';
  return page(200, '<p>Opening Baybook…</p>', moveOn, { 'Set-Cookie': cookie });
}

async function replyAtDoor(host: Host, request: IncomingMessage, pathname: string): Promise<Reply> {
  if (pathname === '/api/changes') return request.method === 'GET' ? { kind: 'changes' } : notAllowed('GET');
  const door = DOORS.get(pathname);
  if (door === undefined) return notFound();
  if (request.method !== 'POST') return notAllowed('POST');
  try {
    return json(200, await door(host.desk, await readObject(request, host.bodyLimit_bytes)));
  } catch (error) {
    if (!(error instanceof BodyRefused)) throw error;
    const { status, message } = error;
    const todo = 'Send one JSON object of the shape this address takes.';
    // What is left of a refused body is not read, so the connection cannot be used again.
    return problem(status, { code: 'body', message, todo, field: null }, { Connection: 'close' });
  }
}

function unexpected(error: unknown): Reply {
  console.error(error);
  return problem(500, problemOf(error));
}
