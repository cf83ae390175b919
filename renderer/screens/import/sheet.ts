/** The sheet at hand: its bytes, what it is read as, and what a person has mended. */

import type { ImportOffer, ImportRequest } from '../../../db/api.ts';
import type { Family } from '../../../domain/rulebook/types.ts';

export interface SheetFile {
  /** Told apart from other files of the same name, for remembering answers. */
  key: string;
  name: string;
  size_bytes: number;
  bytes: string;
}

export interface Mending {
  family: string;
  mapping: Readonly<Record<string, string | null>>;
  dayOrder: Readonly<Record<string, 'day first' | 'month first'>>;
}

/** Read a file as the store takes it. Rejects where the browser cannot read it. */
export async function readSheet(file: File, key: string): Promise<SheetFile> {
  const url = await new Promise<string>((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error ?? new Error(`${file.name} cannot be read.`));
    reader.readAsDataURL(file);
  });
  return { key, name: file.name, size_bytes: file.size, bytes: url.slice(url.indexOf(',') + 1) };
}

/** The family a file's name speaks of, or null: `cylinders 2026.xlsx` is of cylinders. */
export function familyOfName(name: string, families: readonly Family[]): string | null {
  const said = name.toLowerCase();
  const words = (f: Family) =>
    [f.plural, f.title, f.title.split(' ').at(-1) ?? f.title].map(w => w.toLowerCase());
  return families.find(f => words(f).some(w => said.includes(w)))?.id ?? null;
}

export function importRequest(file: SheetFile, { family, mapping, dayOrder }: Mending): ImportRequest {
  return { name: file.name, bytes: file.bytes, family, mapping: { ...mapping }, dayOrder: { ...dayOrder } };
}

/**
 * A column read as a field, or left aside (null). A field is read from one column only: the column that had it
 * before is left aside.
 */
export function withMapping(
  mending: Mending,
  columns: readonly { index: number; field: string | null }[],
  column: number,
  field: string | null,
): Mending {
  const before = field === null ? undefined : columns.find(c => c.field === field && c.index !== column);
  return {
    ...mending,
    mapping: { ...mending.mapping, ...(before ? { [before.index]: null } : {}), [column]: field },
  };
}

/** What a person has said of the offers: places are taken unless refused, permits only when confirmed. */
export interface Accepted {
  refusedPlaces: ReadonlySet<string>;
  confirmedPermits: ReadonlySet<string>;
}

export function acceptOf(offers: readonly ImportOffer[], { refusedPlaces, confirmedPermits }: Accepted) {
  const places = offers.filter(o => o.kind === 'place').map(o => o.name);
  const permits = offers.filter(o => o.kind === 'permit').map(o => o.name);
  return {
    places: refusedPlaces.size === 0 ? ('all' as const) : places.filter(p => !refusedPlaces.has(p)),
    permits: permits.filter(p => confirmedPermits.has(p)),
  };
}
