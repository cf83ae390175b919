/** A row while it is being read: its fields so far, and what is wrong. */
import type { Column } from './columns.ts';
import type { ReadProblem } from './reading-types.ts';

export type Value = string | number | boolean | null;

/** A row while it is being read. */
export class Draft {
  readonly fields: Record<string, Value> = {};
  readonly problems: ReadProblem[] = [];
  readonly notes: { column: string | null; note: string }[] = [];
  readonly cells: string[];

  constructor(cells: readonly string[]) {
    this.cells = [...cells];
  }

  refuse(column: Column | null, code: string, wrong: string, todo: string): void {
    this.problems.push({ column: column?.heading ?? null, wrong, todo, code });
  }

  note(column: Column | null, note: string): void {
    this.notes.push({ column: column?.heading ?? null, note });
  }

  /** Keep a value; of several columns for one field the first that says something. */
  set(field: string, value: Value): void {
    const known = this.fields[field];
    if (known === undefined || known === null) this.fields[field] = value;
  }
}

/** Two remarks as one. */
export function joined(known: Value | undefined, more: string): string {
  return typeof known === 'string' && known !== '' ? `${known}; ${more}` : more;
}
