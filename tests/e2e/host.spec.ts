/** The loopback host in a real browser: let in once, told of changes, ended cleanly. */
import { expect, shot, test } from './host.ts';

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

test('a page of another origin reaches neither door, with the cookie in the same browser', async ({
  page,
  host,
}) => {
  const other = await page.context().newPage();
  await other.route('http://127.0.0.1:1/', route =>
    route.fulfill({ contentType: 'text/html', body: 'other' }),
  );
  await other.goto('http://127.0.0.1:1/');
  const reached = await other.evaluate(async origin => {
    const body = JSON.stringify({ question: 'department.summary', args: {} });
    const tries = [
      fetch(`${origin}/api/ask`, {
        method: 'POST',
        credentials: 'include',
        headers: { 'content-type': 'application/json' },
        body,
      }),
      fetch(`${origin}/api/ask`, { method: 'POST', credentials: 'include', mode: 'no-cors', body }),
    ];
    return (await Promise.allSettled(tries)).map(t => (t.status === 'fulfilled' ? t.value.type : t.status));
  }, host.origin);
  // What is not refused outright cannot be read, and was answered with a refusal.
  expect(reached[0]).toBe('rejected');
  expect(['opaque', 'rejected']).toContain(reached[1]);
});

test.describe('with no department file at all', () => {
  test.use({ startWith: 'nothing' });
  test('the host makes the demo department and ends cleanly on Ctrl-C', async ({ page, host }) => {
    expect(host.printed()).toContain('Making the demo department');
    expect((await host.ask(page, 'department.summary', {}))?.isDemo).toBe(true);
    expect(await host.stop()).toBe(0);
  });
});
