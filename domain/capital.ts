/** A text with its first letter as a capital: what begins a line. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
