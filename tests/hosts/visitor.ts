/** A visitor of the loopback host that may send any header at all, which a browser's own `fetch` may not. */
import { type IncomingHttpHeaders, request } from 'node:http';
import type { Loopback } from '../../electron/loopback/server.ts';

export interface Reply {
  status: number;
  headers: IncomingHttpHeaders;
  text: string;
}

export interface Visit {
  method?: string;
  /** Taken as it is: nothing is made tidy on the way. */
  path: string;
  headers?: Record<string, string>;
  body?: string | Buffer;
}

export function visit(port: number, { method = 'GET', path, headers = {}, body }: Visit): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port, method, path, headers, agent: false }, response => {
      const parts: Buffer[] = [];
      response.on('data', part => parts.push(part));
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: Buffer.concat(parts).toString(),
        }),
      );
      response.on('error', reject);
    });
    asked.on('error', reject);
    asked.end(body);
  });
}

/** Spends the first address. @returns the cookie as a visitor sends it back */
export async function enter({ port, firstAddress }: Loopback): Promise<string> {
  const { headers } = await visit(port, { path: firstAddress.slice(firstAddress.indexOf('/enter')) });
  return headers['set-cookie']?.[0]?.split(';')[0] ?? '';
}

/** A deed, question or command as the screens send it. */
export const post = (path: string, value: unknown, headers: Record<string, string>): Visit => ({
  method: 'POST',
  path,
  headers: { 'content-type': 'application/json', ...headers },
  body: JSON.stringify(value),
});
