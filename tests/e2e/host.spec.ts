/** The loopback host in a real browser: let in once, told of changes, ended cleanly. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, shot, TODAY, terminal, test } from './host.ts';

test('the first address opens the screens once', async ({ page, host, browser }) => {
  expect(new URL(page.url()).search).toBe('');
  await expect(page).toHaveURL(url => url.origin === host.origin && url.pathname === '/');
  expect((await host.ask(page, 'department.summary', {}))?.isDemo).toBe(true);
  await page.reload();
  await expect(page).toHaveTitle(/Baybook/);
  await shot(page, 'host-first-screen');

  const stranger = await browser.newContext();
  const second = await stranger.newPage();
  for (const address of [host.firstAddress, host.origin]) {
    const response = await second.goto(address);
    expect(response?.status()).toBe(403);
    await expect(second.getByText('Start Baybook again.')).toBeVisible();
  }
  await stranger.close();
});

test('a page of another port reaches neither door, though the browser sends it the cookie', async ({
  page,
  host,
}) => {
  const by = (await host.ask(page, 'members.list', {})).find(m => m.name === 'Terminal')?.id;
  const request = { by, deeds: [{ action: 'station.add', body: { name: 'Station 99' } }] };
  // A real server: a page that only seems to come from this machine is kept out by the browser itself.
  const server = createServer((_, response) => response.setHeader('Content-Type', 'text/html').end('other'));
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  const other = await page.context().newPage();
  await other.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  const reached = await other.evaluate(
    async ({ origin, body }) => {
      const post = { method: 'POST', credentials: 'include', body } as const;
      const tries = [
        fetch(`${origin}/api/act`, { ...post, headers: { 'content-type': 'application/json' } }),
        // Without asking first a page may send no JSON, and may not read what it is answered.
        fetch(`${origin}/api/act`, { ...post, mode: 'no-cors' }),
      ];
      return (await Promise.allSettled(tries)).map(t => (t.status === 'fulfilled' ? t.value.type : t.status));
    },
    { origin: host.origin, body: JSON.stringify({ request }) },
  );
  server.close();
  expect(reached).toEqual(['rejected', 'rejected']);
  const stations = async () => (await host.ask(page, 'department.summary', {}))?.stations.map(s => s.name);
  expect(await stations()).not.toContain('Station 99');
  // The same from the host's own page is done: it was the page that was refused, not the deed.
  const own = await page.request.post(`${host.origin}/api/act`, { data: { request } });
  expect(await own.json()).toMatchObject({ ok: true });
  expect(await stations()).toContain('Station 99');
});

test('an open page is told of what a script writes in the same file', async ({ page, host }) => {
  const told = page.evaluate(
    () =>
      new Promise<string[]>(resolve => {
        const feed = new EventSource('/api/changes');
        feed.onmessage = event => resolve(JSON.parse(event.data));
      }),
  );
  await expect.poll(async () => (await host.ask(page, 'department.summary', {}))?.stations.length).toBe(4);
  const deeds = JSON.stringify([{ action: 'station.add', body: { name: 'Station 35' } }]);
  await terminal(['act', deeds, '--file', host.file ?? '', '--on', TODAY]);
  expect(await told).toContain('places');
  expect((await host.ask(page, 'department.summary', {}))?.stations.map(s => s.name)).toContain('Station 35');
});

test.describe('with no department file at all', () => {
  test.use({ startWith: 'nothing' });
  test('the host makes the demo department and ends cleanly on Ctrl-C', async ({ page, host }) => {
    expect(host.printed()).toContain('Making the demo department');
    expect((await host.ask(page, 'department.summary', {}))?.isDemo).toBe(true);
    expect(await host.stop()).toBe(0);
  });
});
