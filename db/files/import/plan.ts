/** From a sheet's rows to what each will become. Reads the store, writes nothing. */
import type { Day } from '../../../domain/calendar/day.ts';
import { permitFor } from '../../../domain/derive/clocks/index.ts';
import { derive } from '../../../domain/derive/thing.ts';
import type { Book } from '../../../domain/rulebook/book.ts';
import { permitOffered, SPEC_PERIODS } from '../../../domain/rulebook/cylinder.ts';
import type { ImportOffer, ImportPreview, ImportRow } from '../../api.ts';
import { readBook } from '../../caches/book.ts';
import { asItemFacts, factsOf } from '../../caches/facts.ts';
import { all, type Db } from '../../store/statements.ts';
import {
  fieldsOf,
  type Grid,
  type ReadRow,
  readSheet,
  refusedCsv,
  type SheetReading,
} from '../sheet/index.ts';
import { conflictsWith, isIdentified, recordsNotKnown } from './meet.ts';
import { type NewPlace, type Placed, placeReader } from './places.ts';

/** One row with what it leads to. */
export interface PlannedRow {
  read: ReadRow;
  told: ImportRow;
  /** The thing it is, where its number is known. */
  item: string | null;
  records: ReadRow['records'];
  amend: Record<string, string> | null;
  placed: Placed | null;
}

export interface Plan {
  reading: SheetReading;
  rows: PlannedRow[];
  newPlaces: NewPlace[];
  preview: ImportPreview;
}

export interface Reading {
  family: string;
  mapping?: Record<string, string | null> | undefined;
  dayOrder?: Record<string, 'day first' | 'month first'> | undefined;
}

/** Plan a sheet against the department as it is on a day. */
export function planImport(db: Db, grid: Grid, request: Reading, today: Day): Plan {
  const reading = readSheet(grid, {
    family: request.family,
    today,
    ...(request.mapping ? { mapping: request.mapping } : {}),
    ...(request.dayOrder ? { dayOrder: request.dayOrder } : {}),
  });
  const book = readBook(db);
  const known = knownNumbers(db, request.family);
  const toPlace = placeReader(db);
  const rows = reading.rows.map(read => planRow(db, book, known, toPlace, request.family, read));
  const newPlaces = placesNeeded(rows);
  return { reading, rows, newPlaces, preview: previewOf(reading, rows, newPlaces, book, request.family) };
}

interface Numbered {
  key: number;
  id: string;
  /** Retired or disposed of: its number is free again. */
  gone: number;
}

/** Things of the family by number, in lower case; several where the number clashes or was given anew. */
function knownNumbers(db: Db, family: string): Map<string, Numbered[]> {
  const known = new Map<string, Numbered[]>();
  for (const { number, ...thing } of all<Numbered & { number: string }>(
    db,
    `SELECT i.key, t.id, i.number, i.condition IN ('retired', 'disposed') AS gone FROM items i
     JOIN things t ON t.key = i.key WHERE i.family = ? ORDER BY gone, i.key`,
    family,
  ))
    known.set(number.toLowerCase(), [...(known.get(number.toLowerCase()) ?? []), thing]);
  return known;
}

function planRow(
  db: Db,
  book: Book,
  known: ReadonlyMap<string, readonly Numbered[]>,
  toPlace: (text: string) => Placed | null,
  family: string,
  read: ReadRow,
): PlannedRow {
  const told: ImportRow = {
    row: read.row,
    line: read.line,
    ok: read.ok,
    number: read.number,
    becomes: read.ok ? becomes(read, family, book) : null,
    details: read.ok ? read.details : null,
    meets: null,
    adds: 0,
    conflict: [],
    problems: read.problems.map(({ column, wrong, todo }) => ({ column, wrong, todo })),
    notes: read.notes,
  };
  const planned: PlannedRow = { read, told, item: null, records: read.records, amend: null, placed: null };
  if (!read.ok || read.number === null) return planned;
  const { place } = read.fields;
  if (typeof place === 'string') planned.placed = toPlace(place);
  const fits = (known.get(read.number.toLowerCase()) ?? []).flatMap(thing => {
    const derived = derive(asItemFacts(factsOf(db, thing.key)), book);
    if (!derived) return [];
    const conflicts = conflictsWith(read, derived);
    // A number whose thing is gone may be given anew; it is the old thing only where everything agrees.
    if (thing.gone && (conflicts.length > 0 || !isIdentified(read, derived))) return [];
    return [{ id: thing.id, derived, conflicts }];
  });
  const [first] = fits;
  if (!first) {
    told.meets = 'new';
    told.adds = read.records.length;
    return planned;
  }
  const same = fits.find(f => f.conflicts.length === 0);
  if (!same) {
    told.ok = false;
    told.becomes = null;
    told.conflict = first.conflicts;
    told.problems.push({
      column: null,
      wrong: `${read.number} is known and differs: ${first.conflicts
        .map(c => `${c.field} ${c.sheet} in the sheet, ${c.known} here`)
        .join('; ')}.`,
      todo: 'Correct the sheet, amend the thing here, or give one of the two another number.',
    });
    return planned;
  }
  planned.item = same.id;
  planned.records = recordsNotKnown(read, same.derived);
  planned.amend = newLabel(read, same.derived.attributes.heatLabelExpires);
  told.adds = planned.records.length + (planned.amend ? 1 : 0);
  told.meets = told.adds > 0 ? 'known' : 'same';
  return planned;
}

/** A ladder's heat label with a later printed date than the one known was replaced since. */
function newLabel(read: ReadRow, known: unknown): Record<string, string> | null {
  const { heatLabelExpires } = read.fields;
  return typeof heatLabelExpires === 'string' && typeof known === 'string' && heatLabelExpires > known
    ? { heatLabelExpires }
    : null;
}

/** The row's keys as they are told; a cylinder's construction comes from its specification or permit. */
function becomes(read: ReadRow, family: string, book: Book): ImportRow['becomes'] {
  if (family !== 'cylinder') return read.becomes;
  const { spec } = read.becomes;
  const bySpec =
    SPEC_PERIODS.find(s => s.spec === spec)?.construction ??
    (typeof spec === 'string' ? (permitFor(book, spec) ?? permitOffered(spec))?.construction : undefined);
  return { ...read.becomes, construction: read.becomes.construction ?? bySpec ?? null };
}

/** What must be made for the accepted rows, outermost first, each once. */
function placesNeeded(rows: readonly PlannedRow[]): NewPlace[] {
  const needed = new Map<string, NewPlace>();
  for (const { told, item, placed } of rows) {
    if (!told.ok || item !== null || placed === null || 'known' in placed) continue;
    for (const place of placed.needs) if (!needed.has(place.path)) needed.set(place.path, place);
  }
  return [...needed.values()].sort((a, b) => Number(a.under !== null) - Number(b.under !== null));
}

function previewOf(
  reading: SheetReading,
  rows: readonly PlannedRow[],
  newPlaces: readonly NewPlace[],
  book: Book,
  family: string,
): ImportPreview {
  const told = rows.map(r => r.told);
  const refused = new Set(told.filter(t => !t.ok).map(t => t.row));
  return {
    family,
    headingLine: reading.headingLine,
    columns: reading.columns,
    fields: fieldsOf(family),
    questions: reading.questions,
    rows: told,
    leftOut: reading.leftOut,
    titleDate: reading.titleDate,
    offers: [...newPlaces.map(p => placeOffer(p, rows)), ...permitOffers(rows, book, family)],
    accepted: told.length - refused.size,
    refused: refused.size,
    refusedCsv: refusedCsv({
      ...reading,
      rows: rows
        .filter(r => refused.has(r.told.row))
        .map(r => ({
          ...r.read,
          ok: false,
          problems: r.told.problems.map(p => ({ ...p, code: 'refused' })),
        })),
    }),
  };
}

function placeOffer(place: NewPlace, rows: readonly PlannedRow[]): ImportOffer {
  const inside = rows.filter(
    ({ placed, told }) =>
      told.ok && placed !== null && 'path' in placed && placed.needs.some(n => n.path === place.path),
  ).length;
  const what = {
    station: 'New station',
    unit: 'New unit with a rig of the same name',
    rig: 'New rig without a unit of its own',
    place: place.under === null ? 'New place of the department' : `New place under ${place.under}`,
  }[place.kind];
  return { kind: 'place', name: place.path, what, rows: inside };
}

/** Permits marked on accepted cylinders that the department has not confirmed. */
function permitOffers(rows: readonly PlannedRow[], book: Book, family: string): ImportOffer[] {
  if (family !== 'cylinder') return [];
  const marked = new Map<string, number>();
  for (const { told } of rows) {
    const spec = told.becomes?.spec;
    if (typeof spec !== 'string' || !/^DOT-(SP|E) /.test(spec) || permitFor(book, spec)) continue;
    marked.set(spec, (marked.get(spec) ?? 0) + 1);
  }
  return [...marked]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([permit, count]) => {
      const offer = permitOffered(permit);
      return {
        kind: 'permit',
        name: permit,
        what: offer
          ? `Confirm: ${offer.construction}, every ${offer.months} months, life ${
              offer.lifeMonths === 'label' ? 'as its label says' : `${offer.lifeMonths} months`
            } (${offer.confidence}: ${offer.note})`
          : 'Not in the shipped table: confirm its construction, interval and life from the permit in hand',
        rows: count,
        ...(offer ? { permit: offer } : {}),
      };
    });
}
