/** Hand a text to the person as a file; the byte-order mark keeps spreadsheets from misreading ½ and ’. */
export function saveCsv(name: string, text: string): void {
  saveBytes(name, new Blob(['\uFEFF', text], { type: 'text/csv;charset=utf-8' }));
}

/** Hand a whole file's text to the person, as it is. */
export function saveText(name: string, text: string, type: string): void {
  saveBytes(name, new Blob([text], { type }));
}

/** Hand a file to the person, to be kept under this name. */
export function saveBytes(name: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
