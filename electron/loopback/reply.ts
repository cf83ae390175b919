/** What the loopback host answers with, as values, and how it is sent. */
import { createReadStream } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { pipeline } from 'node:stream/promises';
import type { Answer, Problem } from '../../db/api.ts';
import type { Changes } from './changes.ts';
import type { PageFile } from './pages.ts';

export type Reply =
  | { kind: 'text'; status: number; type: string; text: string; headers: Record<string, string> }
  | { kind: 'file'; file: PageFile }
  /** The page stays connected and is told of changes. */
  | { kind: 'changes' };

export const json = (status: number, value: unknown, headers: Record<string, string> = {}): Reply => ({
  kind: 'text',
  status,
  type: 'application/json; charset=utf-8',
  text: JSON.stringify(value),
  headers,
});

export function problem(status: number, error: Problem, headers: Record<string, string> = {}): Reply {
  return json(status, { ok: false, error } satisfies Answer<never>, headers);
}

export const notFound = (): Reply =>
  problem(404, {
    code: 'not found',
    message: 'There is nothing at this address.',
    todo: 'Go back to the first screen.',
    field: null,
  });

export const notAllowed = (allowed: string): Reply =>
  problem(
    405,
    {
      code: 'method',
      message: `Only ${allowed} is answered here.`,
      todo: `Ask with ${allowed}.`,
      field: null,
    },
    { Allow: allowed },
  );

/** Turned away: in words a person can read where a browser asks for a page. */
export function notLetIn(request: IncomingMessage, message: string): Reply {
  const todo = 'Start Baybook again.';
  return request.headers.accept?.includes('text/html')
    ? page(403, `<p>${message}</p><p>${todo}</p>`)
    : problem(403, { code: 'not let in', message, todo, field: null });
}

/** A page of a few plain sentences of the host's own, never a visitor's text. */
export const page = (
  status: number,
  body: string,
  head = '',
  headers: Record<string, string> = {},
): Reply => ({
  kind: 'text',
  status,
  type: 'text/html; charset=utf-8',
  text: `<!doctype html><html lang="en"><head><title>Baybook</title>${head}</head><body>${body}</body></html>`,
  headers,
});

export async function send(
  reply: Reply,
  request: IncomingMessage,
  response: ServerResponse,
  changes: Changes,
): Promise<void> {
  const bare = request.method === 'HEAD';
  if (reply.kind === 'changes') changes.connect(response);
  else if (reply.kind === 'text') {
    response.writeHead(reply.status, { 'Content-Type': reply.type, ...reply.headers });
    response.end(bare ? undefined : reply.text);
  } else {
    response.setHeader('Content-Type', reply.file.type);
    if (reply.file.keeps) response.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
    if (bare) response.end();
    else await pipeline(createReadStream(reply.file.path), response);
  }
}
