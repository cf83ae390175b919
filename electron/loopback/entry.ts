/**
 * Who may speak to the loopback host. The first address holds a token that works once; it is exchanged for a cookie
 * that only this program's own page can use. Every request is also held to the host's own address, because pages of
 * other sites and of other ports on this machine can reach the port as well.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

export const ENTER_PATH = '/enter';

export interface Entry {
  /** Path and query of the first address. */
  firstPath: string;
  /**
   * Exchanges the token for the cookie.
   * @returns the `Set-Cookie` value the one time the token is right; null afterwards and for any other token
   */
  enter(token: string | null): string | null;
  /** Whether the request carries the cookie. */
  isIn(request: IncomingMessage): boolean;
}

/** Cookies on 127.0.0.1 are shared by all ports, so the cookie is named after the port. */
export function createEntry(port: number): Entry {
  const token = randomBytes(32).toString('base64url');
  const secret = randomBytes(32).toString('base64url');
  const cookie = `baybook_${port}`;
  let spent = false;
  return {
    firstPath: `${ENTER_PATH}?token=${token}`,
    enter(offered) {
      if (spent || offered === null || !isSame(offered, token)) return null;
      spent = true;
      return `${cookie}=${secret}; Path=/; HttpOnly; SameSite=Strict`;
    },
    isIn(request) {
      const offered = cookies(request.headers.cookie)
        .filter(([name]) => name === cookie)
        .map(([, value]) => value);
      return offered.some(value => isSame(value, secret));
    },
  };
}

/**
 * Why a request is not for this host, or null where it is.
 * `Host` defeats names rebound to 127.0.0.1; `Origin` and `Sec-Fetch-Site` defeat pages of other sites and ports.
 */
export function strangeness(request: IncomingMessage, port: number): string | null {
  const own = `127.0.0.1:${port}`;
  const { host, origin, 'sec-fetch-site': site } = request.headers;
  if (host !== own) return 'The address asked for is not this host.';
  if (origin !== undefined && origin !== `http://${own}`) return 'The request comes from another page.';
  const asks = request.url?.startsWith('/api/') ?? false;
  if (asks && site !== undefined && site !== 'same-origin' && site !== 'none')
    return 'The request comes from another site.';
  return null;
}

function cookies(header: string | undefined): [name: string, value: string][] {
  return (header ?? '').split(';').map(pair => {
    const at = pair.indexOf('=');
    return at < 0 ? [pair.trim(), ''] : [pair.slice(0, at).trim(), pair.slice(at + 1).trim()];
  });
}

/** Compared as digests, so that neither length nor content shows in the time it takes. */
function isSame(a: string, b: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}
