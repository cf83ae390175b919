/** The screen's table before a short one, and either before a button, wherever on the screen they stand. */
const HOMES = [
  'main [role="grid"][tabindex="0"]',
  'main [role="grid"] [tabindex="0"]',
  'main button:not(:disabled)',
] as const;

/** Where the focus goes when what had it is gone: the screen's table, so that keys go on working. */
export function focusHome(): void {
  for (const selector of HOMES) {
    const home = document.querySelector<HTMLElement>(selector);
    if (!home) continue;
    home.focus({ preventScroll: true });
    return;
  }
}
