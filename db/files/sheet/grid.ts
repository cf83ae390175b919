/** From the bytes of a file to a grid of cells: delimited text or an `.xlsx` workbook. */
import readWorkbook, { InvalidInputError } from 'read-excel-file/node';
import { cellsOfText, decodeText } from './delimited.ts';
import { SheetError } from './sheet-error.ts';

export type Cell = string | number | boolean | Date | null;

/** The cells of a sheet, row by row; `lines` gives each row's line as a spreadsheet program numbers it. */
export interface Grid {
  cells: Cell[][];
  lines?: number[];
}

const SAVE_AS = 'Open it in the program it came from and save the sheet as CSV or .xlsx.';

/**
 * Read the cells of a file. Of a workbook, the sheet with the most filled rows of three or more cells is taken,
 * the first of equals: a cover page stands aside.
 * @param name the file's name; only used to say more when the file is refused
 * @throws SheetError where the file is empty or is no sheet
 */
export async function readGrid(bytes: Uint8Array, name: string): Promise<Grid> {
  if (bytes.length === 0) throw new SheetError('The file is empty.', 'Choose the file that holds the sheet.');
  refuseOthers(bytes, name);
  const grid = startsWith(bytes, [0x50, 0x4b]) ? await workbookGrid(bytes) : textGrid(bytes);
  if (!grid.cells.some(row => row.some(cell => cell !== null && cell !== ''))) {
    throw new SheetError(
      'The sheet has no filled cells.',
      'Choose the file that holds the sheet, and save it first.',
    );
  }
  return grid;
}

function textGrid(bytes: Uint8Array): Grid {
  const text = decodeText(bytes);
  if (text.includes('\u0000')) throw new SheetError('The file is not a sheet.', SAVE_AS);
  if (/^\s*(<!doctype html|<html|<table|<\?xml)/i.test(text)) {
    throw new SheetError('The file is a web page or XML, whatever its name says.', SAVE_AS);
  }
  if (/^\s*(\{\s*"|\[\s*[{[])/.test(text) && isJson(text)) {
    throw new SheetError('The file holds JSON, not a sheet.', SAVE_AS);
  }
  return cellsOfText(text);
}

async function workbookGrid(bytes: Uint8Array): Promise<Grid> {
  try {
    const sheets = await readWorkbook(Buffer.from(bytes));
    const grids = sheets.map(sheet => sheet.data.map(row => row.map(cellOf)));
    let best: Cell[][] = grids[0] ?? [];
    for (const cells of grids.slice(1)) if (fullRows(cells) > fullRows(best)) best = cells;
    return { cells: best };
  } catch (cause) {
    if (cause instanceof RangeError) throw cause;
    const what =
      cause instanceof InvalidInputError ? 'The file is not an .xlsx workbook' : 'The workbook is damaged';
    throw new SheetError(`${what}, or it is locked with a password.`, SAVE_AS);
  }
}

// The library types a date cell as `typeof Date`; what it gives is a Date.
function cellOf(value: unknown): Cell {
  if (value instanceof Date) return value;
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
}

function fullRows(cells: readonly Cell[][]): number {
  return cells.filter(row => row.filter(cell => cell !== null && cell !== '').length >= 3).length;
}

function refuseOthers(bytes: Uint8Array, name: string): void {
  if (startsWith(bytes, [0x25, 0x50, 0x44, 0x46])) {
    throw new SheetError('The file is a PDF, a picture of a sheet.', SAVE_AS);
  }
  if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0])) {
    throw new SheetError(
      'The file is an old .xls workbook, or a workbook locked with a password.',
      'Open it in a spreadsheet program and save it as .xlsx without a password, or as CSV.',
    );
  }
  const pictures = [
    [0x89, 0x50, 0x4e, 0x47],
    [0xff, 0xd8, 0xff],
    [0x47, 0x49, 0x46, 0x38],
  ];
  if (pictures.some(head => startsWith(bytes, head))) {
    throw new SheetError(
      'The file is a picture.',
      'Type the sheet into a spreadsheet and save it as CSV or .xlsx.',
    );
  }
  if (startsWith(bytes, [0x7b, 0x5c, 0x72, 0x74, 0x66])) {
    throw new SheetError('The file is a word-processor document.', SAVE_AS);
  }
  if (startsWith(bytes, [0x50, 0x4b]) && /\.(ods|docx|odt|numbers|zip|pptx)$/i.test(name)) {
    throw new SheetError(`${name} is not an .xlsx workbook.`, SAVE_AS);
  }
}

function startsWith(bytes: Uint8Array, head: readonly number[]): boolean {
  return head.every((byte, i) => bytes[i] === byte);
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
