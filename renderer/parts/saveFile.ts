/** Hand a text to the person as a file; the byte-order mark keeps spreadsheets from misreading ½ and ’. */
export function saveCsv(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob(['\uFEFF', text], { type: 'text/csv;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
