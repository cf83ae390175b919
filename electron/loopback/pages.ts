/** The files of the built screens, as the loopback host gives them out. */
import { existsSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8',
};

export interface PageFile {
  path: string;
  type: string;
  /** Its name changes with its content, so a browser may keep it. */
  keeps: boolean;
}

/**
 * The files under `folder`, found once at the start: only what was there then can be asked for, so a path that
 * climbs out of the folder finds nothing to climb to.
 * @returns looks up the path of an address; the first page for a path that names a screen; null otherwise
 */
export function findPages(folder: string): (pathname: string) => PageFile | null {
  const files = new Map<string, PageFile>();
  if (existsSync(folder))
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      const path = join(entry.parentPath, entry.name);
      const type = TYPES[extname(entry.name)];
      if (!entry.isFile() || entry.name.startsWith('.') || type === undefined) continue;
      const address = path.slice(folder.length).replaceAll('\\', '/');
      files.set(address, { path, type, keeps: address.startsWith('/assets/') });
    }
  return pathname => {
    const file = files.get(pathname);
    if (file) return file;
    const namesScreen = !pathname.startsWith('/assets/') && !(extname(pathname) in TYPES);
    return (namesScreen && files.get('/index.html')) || null;
  };
}
