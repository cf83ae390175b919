/** Where the focus goes when what had it is gone: the screen's table, so that keys go on working. */
export function focusHome(): void {
  const home = document.querySelector<HTMLElement>(
    'main [role="grid"][tabindex="0"], main [role="grid"] [tabindex="0"], main button:not(:disabled)',
  );
  home?.focus({ preventScroll: true });
}
