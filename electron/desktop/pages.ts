/** Gives the built screens out under our own scheme, with the headers that the loopback host gives them. */
import { readFile } from 'node:fs/promises';
import { EVERY_ANSWER } from '../loopback/headers.ts';
import { findPages } from '../loopback/pages.ts';
import { isOurs } from './address.ts';

/** Answers requests for `app://baybook/…` from the files under `folder`, found once: no path climbs out of it. */
export function pageAnswerer(folder: string): (request: Request) => Promise<Response> {
  const find = findPages(folder);
  return async request => {
    if (!isOurs(request.url)) return plain(404, 'There is nothing at this address.');
    if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405, 'Pages are only read.');
    const file = find(new URL(request.url).pathname);
    if (file === null) return plain(404, 'There is nothing at this address.');
    const headers = { ...EVERY_ANSWER, 'Content-Type': file.type };
    return new Response(request.method === 'HEAD' ? null : await readFile(file.path), { headers });
  };
}

function plain(status: number, text: string): Response {
  return new Response(text, {
    status,
    headers: { ...EVERY_ANSWER, 'Content-Type': 'text/plain; charset=utf-8' },
  });
}
