/** The one address whose pages are ours. Not `file:`, whose pages may read other files. */

export const SCHEME = 'app';
export const HOST = 'baybook';
export const FIRST_PAGE = `${SCHEME}://${HOST}/`;

/** Whether an address is a page of the screens. Compared by parts: `app://baybook.example/` only begins alike. */
export function isOurs(address: string): boolean {
  const url = URL.parse(address);
  return (
    url !== null &&
    url.protocol === `${SCHEME}:` &&
    url.host === HOST &&
    url.username === '' &&
    url.password === ''
  );
}
