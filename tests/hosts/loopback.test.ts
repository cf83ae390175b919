/**
 * Who the loopback host lets in, and what it gives them. Sources: RFC 6265 (cookies are not separated by port, 8.5),
 * RFC 9110 (405 names the allowed methods, 15.5.6; 413 and 415), the Fetch and HTML standards (Origin,
 * Sec-Fetch-Site, server-sent events), CSP Level 3. Which of them apply to a local host is our own design.
 */
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { PHOTOS_LIMIT_bytes } from '../../domain/photos.ts';
import { createDesk } from '../../electron/desk.ts';
import { startLoopback } from '../../electron/loopback/server.ts';
import { fakeStore } from './fakeStore.ts';
import { scratchFolder } from './scratch.ts';
import { enter, post, visit } from './visitor.ts';

async function start(bodyLimit_bytes?: number, preferredPort?: number) {
  const root = scratchFolder();
  const pages = join(root, 'pages');
  const folder = join(root, 'data');
  mkdirSync(join(pages, 'assets'), { recursive: true });
  writeFileSync(join(root, 'secret.txt'), 'not for pages');
  writeFileSync(join(pages, 'index.html'), '<!doctype html><title>Screens</title>');
  writeFileSync(join(pages, 'assets', 'main-abc.js'), 'export {}');
  writeFileSync(join(pages, '.stamp.json'), 'hidden');
  symlinkSync(join(root, 'secret.txt'), join(pages, 'link.txt'));
  const store = fakeStore();
  const desk = createDesk({ folder, store });
  await desk.start();
  const host = await startLoopback({
    desk,
    pages,
    ...(bodyLimit_bytes ? { bodyLimit_bytes } : {}),
    ...(preferredPort ? { preferredPort } : {}),
  });
  onTestFinished(async () => {
    await host.close();
    await desk.close();
  });
  const firstPath = host.firstAddress.slice(host.origin.length);
  return { host, desk, store, folder, port: host.port, firstPath };
}

describe('the first address', () => {
  it('lets its first visitor in and is dead afterwards', async () => {
    const { port, firstPath } = await start();
    const first = await visit(port, { path: firstPath });
    expect(first.status).toBe(200);
    const cookie = first.headers['set-cookie']?.[0] ?? '';
    expect(cookie).toMatch(new RegExp(`^baybook_${port}=[\\w-]{43}; Path=/; HttpOnly; SameSite=Strict$`));
    const again = await visit(port, { path: firstPath });
    expect(again.status).toBe(403);
    expect(again.headers['set-cookie']).toBeUndefined();
    const inside = await visit(port, { path: '/', headers: { cookie: cookie.split(';')[0] ?? '' } });
    expect(inside.status).toBe(200);
    expect(inside.text).toContain('Screens');
  });

  it('moves on to the screens from its own page, so that a strict cookie is sent', async () => {
    const { port, firstPath } = await start();
    const { text } = await visit(port, { path: firstPath });
    expect(text).toContain('<meta http-equiv="refresh" content="0;url=/">');
  });

  it('is not spent by a wrong token, by asking for its headers alone or by a visitor under another name', async () => {
    const { port, firstPath } = await start();
    expect((await visit(port, { path: '/enter?token=guess' })).status).toBe(403);
    expect((await visit(port, { path: '/enter' })).status).toBe(403);
    expect((await visit(port, { path: firstPath, method: 'HEAD' })).status).toBe(405);
    expect((await visit(port, { path: firstPath, headers: { host: `localhost:${port}` } })).status).toBe(403);
    expect((await visit(port, { path: firstPath })).status).toBe(200);
  });
});

describe('a visitor without the cookie', () => {
  it.each([
    ['GET', '/'],
    ['GET', '/assets/main-abc.js'],
    ['GET', '/api/changes'],
    ['POST', '/api/ask'],
    ['POST', '/api/act'],
    ['POST', '/api/host'],
  ])('is refused %s %s', async (method, path) => {
    const { port, store } = await start();
    const headers = { 'content-type': 'application/json', accept: 'text/html' };
    const reply = await visit(port, { method, path, headers, ...(method === 'POST' ? { body: '{}' } : {}) });
    expect(reply.status).toBe(403);
    expect(reply.text).toContain('Start Baybook again.');
    expect(store.log.filter(line => line.startsWith('ask'))).toEqual([]);
  });

  it('is refused with a guessed cookie, and with the right one under the name of another port', async () => {
    const { host, port } = await start();
    const right = (await enter(host)).split('=')[1];
    for (const cookie of [`baybook_${port}=guess`, `baybook_${port + 1}=${right}`, `baybook_${port}`])
      expect((await visit(port, { path: '/', headers: { cookie } })).status).toBe(403);
  });

  it('gets in beside cookies of other programs on this machine', async () => {
    const { host, port } = await start();
    const cookie = `other=1; ${await enter(host)}; baybook_1=x`;
    expect((await visit(port, { path: '/', headers: { cookie } })).status).toBe(200);
  });
});

describe('a request that is not from the host’s own page', () => {
  it.each([
    ['a name rebound to this machine', { host: 'baybook.example' }],
    ['this machine by another name', { host: 'localhost:PORT' }],
    ['another port in its Host', { host: '127.0.0.1:1' }],
    ['another origin', { origin: 'http://evil.example' }],
    ['another port of this machine', { origin: 'http://127.0.0.1:1' }],
    ['an origin that is kept back', { origin: 'null' }],
    ['the secure form of the address', { origin: 'https://127.0.0.1:PORT' }],
    ['a page of the same site but another origin', { 'sec-fetch-site': 'same-site' }],
    ['a page of another site', { 'sec-fetch-site': 'cross-site' }],
  ])('is refused with the cookie: %s', async (_, strange) => {
    const { host, port, store } = await start();
    const cookie = await enter(host);
    const headers = Object.fromEntries(
      Object.entries(strange).map(([name, value]) => [name, value.replace('PORT', String(port))]),
    );
    const asked = await visit(
      port,
      post('/api/ask', { question: 'members.list', args: {} }, { cookie, ...headers }),
    );
    expect(asked.status).toBe(403);
    expect(store.log).not.toContain('ask members.list');
  });

  it('is refused without a Host at all', async () => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const text = await raw(port, `GET / HTTP/1.0\r\nCookie: ${cookie}\r\n\r\n`);
    expect(text).toMatch(/^HTTP\/1\.1 403 /);
  });

  it('is answered with the host’s own origin', async () => {
    const { host, port } = await start();
    const headers = { cookie: await enter(host), origin: host.origin, 'sec-fetch-site': 'same-origin' };
    const asked = await visit(port, post('/api/ask', { question: 'members.list', args: {} }, headers));
    expect(asked.status).toBe(200);
  });
});

describe('every answer', () => {
  it('keeps the page to itself', async () => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const replies = [
      await visit(port, { path: '/', headers: { cookie } }),
      await visit(port, { path: '/' }),
      await visit(port, { path: '/api/nothing', headers: { cookie } }),
      await visit(port, post('/api/ask', { question: 'members.list' }, { cookie })),
    ];
    for (const { headers } of replies) {
      expect(headers['content-security-policy']).toBe(
        "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' blob: data:; connect-src 'self'; " +
          "object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
      );
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
      expect(headers['cache-control']).toBe('no-store');
      expect(headers['access-control-allow-origin']).toBeUndefined();
    }
  });

  it('lets a browser keep only files whose names change with their content', async () => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const { headers } = await visit(port, { path: '/assets/main-abc.js', headers: { cookie } });
    expect(headers['cache-control']).toContain('immutable');
    expect(headers['content-type']).toBe('text/javascript; charset=utf-8');
  });
});

describe('the files of the screens', () => {
  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..%5csecret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '//secret.txt',
    '/link.txt',
    '/.stamp.json',
    '/%00',
  ])('do not lead out of their folder: %s', async path => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const reply = await visit(port, { path, headers: { cookie } });
    expect(reply.text).not.toContain('not for pages');
    expect(reply.text).not.toContain('hidden');
  });

  it('open the first page for the address of a screen, and nothing for a file that is not there', async () => {
    const { host, port } = await start();
    const headers = { cookie: await enter(host) };
    expect((await visit(port, { path: '/due/31-100', headers })).text).toContain('Screens');
    expect((await visit(port, { path: '/assets/gone.js', headers })).status).toBe(404);
    expect((await visit(port, { path: '/favicon.ico', headers })).status).toBe(404);
    expect((await visit(port, { path: '/', method: 'POST', headers })).status).toBe(405);
  });
});

describe('the doors', () => {
  it('carry a question and its answer', async () => {
    const { host, port } = await start();
    const body = { question: 'due.list', args: { on: '2026-11-25' } };
    const reply = await visit(port, post('/api/ask', body, { cookie: await enter(host) }));
    expect(reply.headers['content-type']).toBe('application/json; charset=utf-8');
    expect(JSON.parse(reply.text)).toMatchObject({ ok: true, value: body });
  });

  it('carry an act, and say how identity was shown whatever the page says of it', async () => {
    const { host, port, store } = await start();
    const cookie = await enter(host);
    const deeds = [{ action: 'void', body: {} }];
    await visit(port, post('/api/act', { request: { by: 'm-1', via: 'terminal', deeds } }, { cookie }));
    await visit(
      port,
      post('/api/act', { request: { by: 'm-1', via: 'claimed', pin: '1234', deeds, more: 1 } }, { cookie }),
    );
    await visit(port, post('/api/act', { request: { by: null, via: 'import', deeds } }, { cookie }));
    const attachments = [{ name: 'cut.png', mime: 'image/png', bytes: 'iVBORw0KGgo=' }];
    await visit(port, post('/api/act', { request: { by: 'm-1', deeds, attachments } }, { cookie }));
    expect(store.acts).toEqual([
      { by: 'm-1', via: 'claimed', deeds },
      { by: 'm-1', pin: '1234', via: 'PIN', deeds },
      { by: null, via: 'import', deeds },
      { by: 'm-1', via: 'claimed', deeds, attachments },
    ]);
  });

  it.each([
    ['a form', 415, 'application/x-www-form-urlencoded', '{}'],
    ['plain text', 415, 'text/plain', '{}'],
    ['no type', 415, '', '{}'],
    ['what is not JSON', 400, 'application/json', '{'],
    ['a list', 400, 'application/json', '[]'],
    ['no object', 400, 'application/json', '"text"'],
    ['no question', 400, 'application/json; charset=utf-8', '{}'],
  ])('refuse %s', async (_, status, type, body) => {
    const { host, port } = await start();
    const headers = { cookie: await enter(host), ...(type === '' ? {} : { 'content-type': type }) };
    const reply = await visit(port, { method: 'POST', path: '/api/ask', headers, body });
    expect(reply.status).toBe(status);
    expect(JSON.parse(reply.text)).toMatchObject({ ok: false, error: { code: 'body' } });
  });

  it('refuse a body over the limit, declared or not, and take one on the limit', async () => {
    const { host, port } = await start(100);
    const cookie = await enter(host);
    const body = (length: number) => `{"question":"${'q'.repeat(length - 15)}"}`;
    const headers = { cookie, 'content-type': 'application/json' };
    const ask = (length: number, more = {}) =>
      visit(port, { method: 'POST', path: '/api/ask', headers: { ...headers, ...more }, body: body(length) });
    expect((await ask(100)).status).toBe(200);
    expect((await ask(101, { 'content-length': '101' })).status).toBe(413);
    expect((await ask(101, { 'transfer-encoding': 'chunked' })).status).toBe(413);
  });

  it('take the photos of one act, as many and as large as the store takes', async () => {
    const { host, port, store } = await start();
    const cookie = await enter(host);
    const bytes = 'A'.repeat(Math.ceil((PHOTOS_LIMIT_bytes * 4) / 3));
    const request = { by: 'm-1', deeds: [], attachments: [{ name: 'all.jpg', mime: 'image/jpeg', bytes }] };
    expect((await visit(port, post('/api/act', { request }, { cookie }))).status).toBe(200);
    expect(store.acts).toHaveLength(1);
  });

  it('answer only POST, and say so', async () => {
    const { host, port } = await start();
    const headers = { cookie: await enter(host) };
    for (const path of ['/api/ask', '/api/act', '/api/host']) {
      const reply = await visit(port, { path, headers });
      expect([reply.status, reply.headers.allow]).toEqual([405, 'POST']);
    }
  });
});

describe('the changes', () => {
  it('tell every open page what was touched, and count the pages', async () => {
    const { host, port, store } = await start();
    const cookie = await enter(host);
    const one = listen(port, cookie);
    const two = listen(port, cookie);
    await expect.poll(() => host.pagesOpen()).toBe(2);
    store.touch[0]?.(['due', 'item:a-1']);
    await expect.poll(() => one.text()).toContain('data: ["due","item:a-1"]\n\n');
    await expect.poll(() => two.text()).toContain('data: ["due","item:a-1"]\n\n');
    expect(one.text()).toContain('Content-Type: text/event-stream');
    one.end();
    await expect.poll(() => host.pagesOpen()).toBe(1);
    two.end();
    await expect.poll(() => host.pagesOpen()).toBe(0);
  });

  it('tell that everything changed when another file is opened, and how the demo comes along', async () => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const page = listen(port, cookie);
    onTestFinished(page.end);
    await expect.poll(() => host.pagesOpen()).toBe(1);
    await visit(port, post('/api/host', { command: 'demo' }, { cookie }));
    await expect
      .poll(() => page.text())
      .toContain('event: progress\ndata: {"done":1,"total":2,"what":"things"}');
    await expect.poll(() => page.text()).toContain('data: ["*"]');
  });
});

describe('the files of the data folder', () => {
  it('are listed, opened and started by name', async () => {
    const { host, port } = await start();
    const cookie = await enter(host);
    const ask = async (value: unknown) =>
      JSON.parse((await visit(port, post('/api/host', value, { cookie }))).text);
    const first = await ask({ command: 'files' });
    expect(first.value.open).toBe('Larkspur Valley demo.baybook');
    const started = await ask({ command: 'new', name: 'Station 1' });
    expect(started.value.open).toBe('Station 1.baybook');
    expect(started.value.files).toHaveLength(2);
    const back = await ask({ command: 'open', name: 'Larkspur Valley demo.baybook' });
    expect(back.value.open).toBe('Larkspur Valley demo.baybook');
  });

  it.each([
    { command: 'open', name: '../other.baybook' },
    { command: 'open', name: '/etc/passwd' },
    { command: 'open', name: 'sub/other.baybook' },
    { command: 'open', name: '..\\other.baybook' },
    { command: 'open', name: 'C:other.baybook' },
    { command: 'open', name: 'nul\u0000.baybook' },
    { command: 'open', name: '.hidden.baybook' },
    { command: 'open', name: 'not there' },
    { command: 'open', name: 5 },
    { command: 'open' },
    { command: 'new', name: '../new.baybook' },
    { command: 'new' },
    { command: 'demo', name: '../demo' },
    { command: 'delete', name: 'Larkspur Valley demo' },
    {},
  ])('are not reached outside it: %j', async command => {
    const { host, port, store } = await start();
    const before = [...store.log];
    const reply = await visit(port, post('/api/host', command, { cookie: await enter(host) }));
    const { ok, error } = JSON.parse(reply.text);
    expect(ok).toBe(false);
    expect(error.todo).not.toBe('');
    expect(store.log).toEqual(before);
  });

  it('are ordinary files: a link is not followed', async () => {
    const { host, port, folder } = await start();
    writeFileSync(join(folder, '..', 'outside.baybook'), '');
    symlinkSync(join(folder, '..', 'outside.baybook'), join(folder, 'link.baybook'));
    const cookie = await enter(host);
    const reply = await visit(port, post('/api/host', { command: 'open', name: 'link' }, { cookie }));
    expect(JSON.parse(reply.text).error.code).toBe('file name');
  });
});

/** Sends bytes as they are. @returns everything that came back */
function raw(port: number, text: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    let got = '';
    socket.on('data', part => {
      got += part.toString();
    });
    socket.on('close', () => resolve(got));
    socket.on('error', reject);
  });
}

/** A page that listens for changes. */
function listen(port: number, cookie: string) {
  const socket = connect(port, '127.0.0.1', () =>
    socket.write(`GET /api/changes HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nCookie: ${cookie}\r\n\r\n`),
  );
  let got = '';
  socket.on('data', part => {
    got += part.toString();
  });
  return {
    text: () => got,
    end() {
      socket.destroy();
    },
  };
}

it('takes the port it is given, so that a browser finds again what it kept; another where that is taken', async () => {
  const first = await start();
  const port = first.host.port;
  await first.host.close();
  const again = await start(undefined, port);
  expect(again.host.port).toBe(port);
  const beside = await start(undefined, port);
  expect(beside.host.port).not.toBe(port);
});
