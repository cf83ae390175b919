/** Small settings of this window, kept by the browser: never anything of the department. */

/** Read a setting, or keep it where a value is given. */
export function remembered(name: string, value?: string): string | null {
  const key = `baybook ${name}`;
  try {
    if (value !== undefined) localStorage.setItem(key, value);
    return localStorage.getItem(key);
  } catch {
    // A browser may refuse storage; the setting then lasts as long as the window.
    return value ?? null;
  }
}
