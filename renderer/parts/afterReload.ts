import { toast } from './toast.ts';

const KEY = 'baybook to say';

/** Start the screens over at an address, and say what was done once they stand again. */
export function startOver(hash: string, said: string): void {
  sessionStorage.setItem(KEY, said);
  location.hash = hash;
  location.reload();
}

/** Say what was left to be said, once. */
export function sayWhatWasDone(): void {
  const said = sessionStorage.getItem(KEY);
  sessionStorage.removeItem(KEY);
  if (said !== null) toast(said);
}
