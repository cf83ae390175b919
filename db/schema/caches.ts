/**
 * Things, facts and everything derived: caches of the ledger that can be thrown away and rebuilt. They carry no
 * CHECK, FOREIGN KEY or uniqueness that another device's honest entry could break.
 */
import { index, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

/** Everything with an identity. The key joins and indexes; the id is its name outside. */
export const things = sqliteTable(
  'things',
  {
    key: integer('key').primaryKey(),
    id: text('id').notNull(),
    kind: text('kind').notNull(),
  },
  t => [index('things_id').on(t.id)],
);

/** One row a fact. `entry` and `batch` are what a void may name besides the fact itself. */
export const facts = sqliteTable(
  'facts',
  {
    key: integer('key').primaryKey(),
    id: text('id').notNull(),
    entry: text('entry').notNull(),
    batch: text('batch').notNull(),
    n: integer('n').notNull(),
    thing: integer('thing').notNull(),
    kind: text('kind').notNull(),
    effective: text('effective').notNull(),
    clock: integer('clock').notNull(),
    device: text('device').notNull(),
    seq: integer('seq').notNull(),
    recordedAt: integer('recorded_at').notNull(),
    voidedAt: integer('voided_at'),
    voidedBy: text('voided_by'),
    values: text('values').notNull(),
  },
  t => [
    index('facts_thing').on(t.thing),
    index('facts_id').on(t.id),
    index('facts_entry').on(t.entry),
    index('facts_batch').on(t.batch),
  ],
);

/** Which things a fact speaks of besides its own: a place, an agency. */
export const factRefs = sqliteTable(
  'fact_refs',
  {
    key: integer('key').primaryKey(),
    fact: integer('fact').notNull(),
    thing: text('thing').notNull(),
  },
  t => [index('fact_refs_thing').on(t.thing)],
);

/** Voids as given: each names a fact, an entry or a batch. */
export const voids = sqliteTable(
  'voids',
  {
    key: integer('key').primaryKey(),
    target: text('target').notNull(),
    entry: text('entry').notNull(),
    clock: integer('clock').notNull(),
    device: text('device').notNull(),
    seq: integer('seq').notNull(),
    recordedAt: integer('recorded_at').notNull(),
    why: text('why').notNull(),
  },
  t => [index('voids_target').on(t.target)],
);

/** Tracked things as they are now. `numberSort` orders numbers as people do: 9 before 10. */
export const items = sqliteTable(
  'items',
  {
    key: integer('key').primaryKey(),
    family: text('family').notNull(),
    number: text('number').notNull(),
    numberSort: text('number_sort').notNull(),
    serial: text('serial'),
    what: text('what').notNull(),
    attributes: text('attributes').notNull(),
    place: text('place'),
    placeKey: integer('place_key'),
    assignment: text('assignment'),
    condition: text('condition').notNull(),
    conditionSince: text('condition_since'),
    spec: text('spec'),
    seenOn: integer('seen_on'),
    /** The day it came to its place, of a partial date the last: what was looked over before did not see it there. */
    placedOn: integer('placed_on'),
  },
  t => [
    index('items_number').on(t.family, t.number),
    index('items_any_number').on(t.number),
    // With all that a count of what is where looks at.
    index('items_place').on(t.placeKey, t.condition, t.seenOn),
    index('items_spec').on(t.spec),
  ],
);

/** One row a thing and requirement version. Nothing in it depends on today: questions compare with a day. */
export const due = sqliteTable(
  'due',
  {
    key: integer('key').primaryKey(),
    item: integer('item').notNull(),
    family: text('family').notNull(),
    numberSort: text('number_sort').notNull(),
    placeKey: integer('place_key'),
    requirement: text('requirement').notNull(),
    basis: text('basis').notNull(),
    lastOn: integer('last_on'),
    dueOn: integer('due_on'),
    /** The latest a projection may fall; null for everything else. */
    dueTo: integer('due_to'),
    warnOn: integer('warn_on'),
    /** The last day on which it is not late: the due day and the department's days of grace. */
    lateOn: integer('late_on'),
    fromDay: integer('from_day'),
    toDay: integer('to_day'),
    late: text('late').notNull(),
    /** How the department's own version stands to the shipped one; null where it is as shipped. */
    own: text('own'),
  },
  t => [
    index('due_item').on(t.item),
    // In the order of the list, with all that its filters and counts look at: a page or a count reads no table row.
    index('due_order').on(
      t.dueOn,
      t.numberSort,
      t.basis,
      t.warnOn,
      t.lateOn,
      t.dueTo,
      t.family,
      t.placeKey,
      t.requirement,
      t.fromDay,
      t.toDay,
      t.item,
    ),
  ],
);

/** Stations, rigs and every place inside them, with the whole name and what they belong to. */
export const places = sqliteTable(
  'places',
  {
    key: integer('key').primaryKey(),
    kind: text('kind').notNull(),
    name: text('name').notNull(),
    path: text('path').notNull(),
    pathSort: text('path_sort').notNull(),
    parent: integer('parent'),
    rig: integer('rig'),
    /** The kit that it is, or lies in: what is in a kit is the kit's and moves with it. */
    kit: integer('kit'),
    unit: integer('unit'),
    /** 1 where a rig is ridden by the unit it began with. */
    own: integer('own'),
    station: integer('station'),
  },
  t => [index('places_parent').on(t.parent), index('places_unit').on(t.unit)],
);

export const units = sqliteTable('units', {
  key: integer('key').primaryKey(),
  name: text('name').notNull(),
  kind: text('kind'),
  station: text('station'),
});

export const members = sqliteTable('members', {
  key: integer('key').primaryKey(),
  number: text('number').notNull(),
  name: text('name').notNull(),
  position: text('position'),
  grants: text('grants').notNull(),
});

export const agencies = sqliteTable('agencies', {
  key: integer('key').primaryKey(),
  name: text('name').notNull(),
  rin: text('rin'),
  rinExpires: text('rin_expires'),
});

export const departments = sqliteTable('departments', {
  key: integer('key').primaryKey(),
  name: text('name').notNull(),
  zone: text('zone').notNull(),
  state: text('state'),
  demo: integer('demo').notNull(),
});

/** Check-offs of a unit or a reserve rig, drafts and signed ones. */
export const checkoffs = sqliteTable(
  'checkoffs',
  {
    key: integer('key').primaryKey(),
    /** The unit or the rig without a unit whose list was gone through, and the rig it was gone through on. */
    holder: text('holder').notNull(),
    rig: text('rig'),
    schedule: text('schedule'),
    /** The occurrence of the schedule that it is for. */
    occursOn: integer('occurs_on'),
    shift: integer('shift').notNull(),
    state: text('state').notNull(),
    startedAt: text('started_at').notNull(),
    finishedAt: text('finished_at'),
    signedOn: integer('signed_on'),
    signedBy: text('signed_by'),
    countersignedBy: text('countersigned_by'),
    lines: integer('lines'),
    exceptions: integer('exceptions').notNull(),
  },
  t => [index('checkoffs_holder').on(t.holder, t.signedOn), index('checkoffs_state').on(t.state)],
);

/** Places that a signed check-off went through: one row a place. */
export const looked = sqliteTable(
  'looked',
  {
    key: integer('key').primaryKey(),
    checkoff: integer('checkoff').notNull(),
    placeKey: integer('place_key').notNull(),
    on: integer('on_day').notNull(),
  },
  t => [index('looked_place').on(t.placeKey, t.on), index('looked_checkoff').on(t.checkoff)],
);

/** What was found wrong on a unit, until somebody settles it or the thing itself is back. */
export const defects = sqliteTable(
  'defects',
  {
    key: integer('key').primaryKey(),
    holder: text('holder').notNull(),
    checkoff: text('checkoff'),
    line: text('line'),
    what: text('what').notNull(),
    place: text('place'),
    item: integer('item'),
    kind: text('kind').notNull(),
    next: text('next').notNull(),
    short: integer('short'),
    note: text('note'),
    since: text('since').notNull(),
    foundBy: text('found_by'),
    closedOn: text('closed_on'),
    closedHow: text('closed_how'),
    closedNote: text('closed_note'),
  },
  t => [index('defects_holder').on(t.holder), index('defects_item').on(t.item)],
);

/** Kinds of counted stock. */
export const stocks = sqliteTable('stocks', {
  key: integer('key').primaryKey(),
  what: text('what').notNull(),
  /** How many are in a box; null where it is kept each by each. */
  perBox: integer('per_box'),
  twoCount: integer('two_count').notNull(),
  kept: integer('kept').notNull(),
});

/** What a place should hold of a stock, and when it was last counted there. */
export const stockPlaces = sqliteTable(
  'stock_places',
  {
    key: integer('key').primaryKey(),
    stock: integer('stock').notNull(),
    place: text('place').notNull(),
    par: integer('par'),
    min: integer('min'),
    countedOn: text('counted_on'),
  },
  t => [index('stock_places_stock').on(t.stock)],
);

/** What is on hand of a lot in a place, in each; under zero where a count is owed. */
export const stockLots = sqliteTable(
  'stock_lots',
  {
    key: integer('key').primaryKey(),
    stock: integer('stock').notNull(),
    place: text('place').notNull(),
    lot: text('lot'),
    expires: text('expires'),
    onHand: integer('on_hand').notNull(),
    since: text('since').notNull(),
  },
  t => [index('stock_lots_stock').on(t.stock)],
);

/** Kinds of kits: what such a kit holds is its list. */
export const kitTemplates = sqliteTable('kit_templates', {
  key: integer('key').primaryKey(),
  what: text('what').notNull(),
});

/** Kits, by their seals and last full counts. Nothing in it depends on today. */
export const kits = sqliteTable('kits', {
  key: integer('key').primaryKey(),
  state: text('state').notNull(),
  since: text('since'),
  seal: text('seal'),
  found: text('found'),
  why: text('why'),
  /** The last full count: JSON of line, amount and expiry. */
  counts: text('counts').notNull(),
  countedOn: text('counted_on'),
  seenOn: text('seen_on'),
});

/** Every table that a rebuild empties, in an order that needs no other. */
export const CACHES = [
  things,
  facts,
  factRefs,
  voids,
  items,
  due,
  places,
  units,
  members,
  agencies,
  departments,
  checkoffs,
  looked,
  defects,
  stocks,
  stockPlaces,
  stockLots,
  kitTemplates,
  kits,
] as const;
