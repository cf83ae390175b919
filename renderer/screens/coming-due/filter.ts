/** The filter of Coming due: what it holds, how it reads as a sentence, how it is changed, and how it is asked. */
import type { DueFilter, Questions } from '../../../db/api.ts';
import type { DueState } from '../../../domain/derive/due.ts';

export type GroupBy = 'month' | 'unit' | 'family';
export type SortBy = 'due' | 'number' | 'place' | 'title';

/** As it stands in the address, so that Back undoes the last change. */
export interface DueSearch {
  /** Absent: whatever is to be done. `all`: every state. */
  state?: DueState[] | 'all' | undefined;
  family?: string | undefined;
  unit?: string | undefined;
  station?: string | undefined;
  requirement?: string | undefined;
  within?: number | undefined;
  text?: string | undefined;
  by?: GroupBy | undefined;
  sort?: SortBy | undefined;
  descending?: true | undefined;
  /** The duty that is open in the panel: thing and requirement. */
  item?: string | undefined;
  duty?: string | undefined;
}

/** The parts of the sentence that can be set. */
export type Slot = 'state' | 'family' | 'unit' | 'station' | 'requirement' | 'within' | 'text';

/** What is to be done or settled: everything but what is current. */
export const TO_DO: readonly DueState[] = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'not judged',
  'due soon',
];

export const WITHIN_DAYS: readonly { days: number; words: string }[] = [
  { days: 0, words: 'already' },
  { days: 7, words: 'within 7 days' },
  { days: 30, words: 'within 30 days' },
  { days: 60, words: 'within 60 days' },
  { days: 90, words: 'within 90 days' },
  { days: 180, words: 'within 180 days' },
  { days: 365, words: 'within a year' },
];

/** The words a filter's ids stand for. */
export interface FilterNames {
  families: readonly { id: string; title: string; plural: string }[];
  units: readonly { id: string; name: string }[];
  /** A rig is filtered like a unit where its own name was searched for. */
  rigs: readonly { id: string; name: string }[];
  stations: readonly { id: string; name: string }[];
  requirements: readonly { id: string; title: string; family: string }[];
}

const nameIn = (list: readonly { id: string; name: string }[], id: string) =>
  list.find(x => x.id === id)?.name ?? id;

/** How each part of the filter reads in the sentence. */
export function slotWords(search: DueSearch, names: FilterNames): Record<Exclude<Slot, 'text'>, string> {
  const { state, family, unit, station, requirement, within } = search;
  return {
    state:
      state === undefined
        ? 'what is to be done'
        : state === 'all'
          ? 'every duty'
          : `what is ${orList(state.map(asIs))}`,
    family:
      family === undefined
        ? 'everything'
        : (names.families.find(f => f.id === family)?.plural.toLowerCase() ?? family),
    unit:
      unit === undefined
        ? 'any unit'
        : unit === 'none'
          ? 'no unit'
          : nameIn([...names.units, ...names.rigs], unit),
    station: station === undefined ? 'any station' : nameIn(names.stations, station),
    requirement:
      requirement === undefined
        ? 'any requirement'
        : (names.requirements.find(r => r.id === requirement)?.title.toLowerCase() ?? requirement),
    within:
      within === undefined
        ? 'at any time'
        : (WITHIN_DAYS.find(w => w.days === within)?.words ?? `within ${within} days`),
  };
}

/** The filter as one sentence, as it is read out and written on an export. */
export function sentence(search: DueSearch, names: FilterNames): string {
  const w = slotWords(search, names);
  const parts = [`Show ${w.state} for ${w.family} on ${w.unit} at ${w.station}`];
  if (search.requirement !== undefined) parts.push(`by ${w.requirement}`);
  parts.push(`due ${w.within}`);
  if (search.text) parts.push(`with “${search.text}”`);
  return `${parts.join(', ')}.`;
}

const asIs = (state: DueState) => (state === 'life ended' ? 'past its life' : state);

function orList(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? 'nothing';
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** One state in or out of the filter; taking out the last one leaves what is to be done. */
export function toggleState(search: DueSearch, state: DueState): DueSearch {
  const now = Array.isArray(search.state) ? search.state : [];
  const next = now.includes(state) ? now.filter(s => s !== state) : [...now, state];
  return { ...search, state: next.length > 0 ? next : undefined };
}

/** Take out what was set last in the order of the sentence: the Backspace of the filter. */
export function withoutLast(search: DueSearch): DueSearch {
  const last = (['text', 'within', 'requirement', 'station', 'unit', 'family', 'state'] as const).find(
    slot => search[slot] !== undefined,
  );
  return last ? { ...search, [last]: undefined } : search;
}

export function isFiltered(search: DueSearch): boolean {
  const { state, family, unit, station, requirement, within, text } = search;
  return [state, family, unit, station, requirement, within, text].some(v => v !== undefined);
}

/** What the store is asked with, without its state: the counts behind the heading are over all states. */
export function countsArgs({ family, unit, station, requirement, within, text }: DueSearch): DueFilter {
  return defined({ family, unit, station, requirement, within, text });
}

export function filterArgs(search: DueSearch): DueFilter {
  const { state } = search;
  return { ...countsArgs(search), ...(state === 'all' ? {} : { state: state ?? [...TO_DO] }) };
}

export function listArgs(search: DueSearch): Omit<Questions['due.list']['takes'], 'limit' | 'offset'> {
  const { sort, descending, by } = search;
  // Grouped by month it can only be in the order of its dates.
  return {
    ...filterArgs(search),
    sort: by === 'month' ? 'due' : (sort ?? 'due'),
    ...(descending ? { descending } : {}),
  };
}

/** The next order when a head is chosen: ascending, descending, then as it comes. */
export function sortedBy(search: DueSearch, sort: SortBy): DueSearch {
  const now = search.sort ?? 'due';
  if (now !== sort) return { ...search, sort, descending: undefined };
  if (!search.descending) return { ...search, sort, descending: true };
  return { ...search, sort: undefined, descending: undefined };
}

const STATES: readonly string[] = [...TO_DO, 'current', 'not applicable'];

/** Read the filter from the address; what is not understood is left out. */
export function readSearch(raw: Record<string, unknown>): DueSearch {
  const text = (key: string) =>
    typeof raw[key] === 'string' && raw[key] !== '' ? String(raw[key]) : undefined;
  const one = <T extends string>(key: string, of: readonly T[]) => of.find(x => x === raw[key]);
  const states = Array.isArray(raw.state)
    ? raw.state.filter((s): s is DueState => STATES.includes(String(s)))
    : [];
  return defined({
    state: raw.state === 'all' ? ('all' as const) : states.length > 0 ? states : undefined,
    family: text('family'),
    unit: text('unit'),
    station: text('station'),
    requirement: text('requirement'),
    within: typeof raw.within === 'number' && raw.within >= 0 ? raw.within : undefined,
    text: text('text'),
    by: one<GroupBy>('by', ['month', 'unit', 'family']),
    sort: one<SortBy>('sort', ['due', 'number', 'place', 'title']),
    descending: raw.descending === true ? (true as const) : undefined,
    item: text('item'),
    duty: text('duty'),
  });
}

/** Without the fields that are undefined: the address stays short and the contract's exact options hold. */
function defined<T extends Record<string, unknown>>(
  fields: T,
): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
