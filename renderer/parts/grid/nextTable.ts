/** To the row with the focus of the next table under `top`, and from the last one back to the first. */
export function focusNextTable(top: HTMLElement | null): void {
  const tables = [...(top?.querySelectorAll('table') ?? [])];
  const at = tables.findIndex(t => t.contains(document.activeElement));
  tables[(at + 1) % tables.length]?.querySelector<HTMLElement>('tbody tr[tabindex="0"]')?.focus();
}
