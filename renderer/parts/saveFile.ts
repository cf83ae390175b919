/** Hand a text to the person as a file; the byte-order mark keeps spreadsheets from misreading ½ and ’. */
export function saveCsv(name: string, text: string): void {
  save(name, new Blob(['\uFEFF', text], { type: 'text/csv;charset=utf-8' }));
}

/** Hand bytes, as base64, to the person as a file. */
export function saveBase64(name: string, base64: string, type: string): void {
  const bytes = Uint8Array.from(atob(base64), c => c.charCodeAt(0));
  save(name, new Blob([bytes], { type }));
}

function save(name: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
