/** The ordinary deeds that a planned sheet comes to. */
import { type Day, dayText } from '../../../domain/calendar/day.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import type { Deed } from '../../api.ts';
import type { ReadRow } from '../sheet/index.ts';
import type { NewPlace } from './places.ts';
import type { Plan, PlannedRow } from './plan.ts';

export interface Accepting {
  places: 'all' | readonly string[];
  permits: 'all' | readonly string[];
}

/** The ordinary deeds that a plan comes to, with what the person has accepted. */
export function deedsOf(
  plan: Plan,
  file: { name: string; sha256: string },
  accept: Accepting,
  today: Day,
  knownPlace: (path: string) => string | null,
): Deed[] {
  const { rows, preview } = plan;
  const on = dayText(today);
  const deeds: Deed[] = [];
  const accepted = rows.filter(r => r.told.ok);
  const work = accepted.filter(r => r.told.meets !== 'same');
  const permits = preview.offers.filter(
    o => o.kind === 'permit' && o.permit && takes(accept.permits, o.name),
  );
  // A permit may be accepted of cylinders that are all known already.
  if (work.length === 0 && permits.length === 0) return [];
  deeds.push({
    action: 'import.note',
    body: {
      file: file.name,
      sha256: file.sha256,
      family: preview.family,
      rows: rows.length,
      accepted: preview.accepted,
      refused: preview.refused,
      on,
    },
  });
  for (const offer of permits) {
    if (!offer.permit) continue;
    const { permit, construction, months, lifeMonths } = offer.permit;
    deeds.push({
      action: 'permit.confirm',
      body: { permit, construction, months, lifeMonths, basis: 'the book’s offer, taken as it is', on },
    });
  }
  const made = new Map<string, string>();
  for (const place of plan.newPlaces) {
    if (!takes(accept.places, place.path)) continue;
    const under = place.under === null ? null : (made.get(place.under) ?? knownPlace(place.under));
    if (place.under !== null && under === null) continue;
    made.set(place.path, `&${deeds.length}${place.kind === 'unit' ? '.r' : ''}`);
    deeds.push(placeDeed(place, under, on));
  }
  for (const row of work) itemDeeds(row, preview.family, made, on, deeds);
  return deeds;
}

function takes(accepted: 'all' | readonly string[], name: string): boolean {
  return accepted === 'all' || accepted.includes(name);
}

function placeDeed(place: NewPlace, under: string | null, on: string): Deed {
  if (place.kind === 'station') return { action: 'station.add', body: { name: place.name, on } };
  if (place.kind === 'rig') return { action: 'rig.add', body: { name: place.name, on } };
  if (place.kind === 'unit')
    return { action: 'unit.add', body: { name: place.name, rig: { name: place.name }, on } };
  const kind = under === null || /rack|room|shelf|shop|store/i.test(place.name) ? 'storeroom' : 'compartment';
  return { action: 'place.add', body: { name: place.name, kind, ...(under ? { under } : {}), on } };
}

function itemDeeds(
  row: PlannedRow,
  family: string,
  made: ReadonlyMap<string, string>,
  on: string,
  deeds: Deed[],
): void {
  const { read } = row;
  let item = row.item;
  if (item === null) {
    const place =
      row.placed === null ? undefined : 'known' in row.placed ? row.placed.known : made.get(row.placed.path);
    item = `&${deeds.length}`;
    const { serial } = read.fields;
    deeds.push({
      action: 'item.receive',
      body: {
        family,
        number: read.number,
        ...(typeof serial === 'string' ? { serial } : {}),
        attributes: attributesOf(read, family),
        ...(place === undefined ? {} : { place }),
        how: 'sheet',
        ...(typeof read.fields.assignment === 'string' ? { assignment: read.fields.assignment } : {}),
        on,
      },
    });
  }
  const { status } = read.fields;
  const condition = row.item === null ? read.fields.condition : null;
  if (typeof condition === 'string' && TOLD_BY_SHEET[condition])
    deeds.push({
      action: TOLD_BY_SHEET[condition],
      body: {
        item,
        ...(condition === 'missing'
          ? { note: said(status) }
          : condition === 'disposed'
            ? { how: said(status) }
            : { reason: said(status) }),
        on,
      },
    });
  if (row.amend)
    deeds.push({ action: 'item.amend', body: { item, attributes: row.amend, from: on, why: 'Newer sheet' } });
  const { rin } = read.fields;
  for (const { activity, on: done, outcome, readings, note } of row.records) {
    const outside = familyOf(family)?.activities.find(a => a.id === activity)?.outside === true;
    deeds.push({
      action: 'record.add',
      body: {
        item,
        activity,
        outcome,
        on: done,
        ...(Object.keys(readings).length > 0 ? { readings } : {}),
        ...(note ? { note } : {}),
        ...(outside && typeof rin === 'string' ? { rin } : {}),
      },
    });
  }
}

/** Conditions that a sheet may tell of a thing, and the deed that says so. What is not told is taken as serviceable. */
const TOLD_BY_SHEET: Readonly<Record<string, string>> = {
  'limited use': 'item.limit',
  'tagged out': 'item.tagOut',
  'at repair': 'item.sendToRepair',
  'held for investigation': 'item.hold',
  missing: 'item.missing',
  retired: 'item.retire',
  disposed: 'item.dispose',
};

const said = (status: unknown): string =>
  `On the sheet: ${typeof status === 'string' ? status : 'so marked'}`;

/** The row's fields that are attributes of the family. */
function attributesOf(read: ReadRow, family: string): Record<string, string | number | boolean> {
  const attributes: Record<string, string | number | boolean> = {};
  for (const { key } of familyOf(family)?.attributes ?? []) {
    const value = read.fields[key];
    if (value !== null && value !== undefined) attributes[key] = value;
  }
  return attributes;
}
