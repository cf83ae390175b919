/** A sheet that was brought while another screen was shown: it waits here for the screen that reads it. */

let waiting: File | null = null;
const listeners = new Set<() => void>();

/** Puts a sheet there in place of any other, and tells the screen if it is there. */
export function bringSheet(file: File): void {
  waiting = file;
  for (const listener of listeners) listener();
}

/** Takes the sheet away; null where there is none. */
export function takeBrought(): File | null {
  const file = waiting;
  waiting = null;
  return file;
}

/** @returns stops listening */
export function onBrought(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Whether a file's name is that of a sheet that can be read. */
export function isSheet(name: string): boolean {
  return /\.(csv|xlsx)$/i.test(name);
}
