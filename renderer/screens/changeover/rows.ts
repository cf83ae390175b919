/** The difference of two rigs as rows: what moves first, place by place, and the rest of the place after it. */
import type {
  ChangeoverLine,
  ChangeoverPage,
  ChangeoverPlace,
  ChangeoverThing,
} from '../../../db/api-changeovers.ts';

export interface Exception {
  /** Of a counted line, how many moved all the same. */
  moved: number | null;
  why: string;
}
/** What did not move, by the row's key: a thing's id, or a line's name. */
export type Exceptions = Readonly<Record<string, Exception>>;

export interface Row {
  key: string;
  place: string;
  kind: 'moves' | 'there' | 'lacking' | 'stays' | 'besides';
  /** The thing that moves, or null: a count, or several told in one row. */
  thing: ChangeoverThing | null;
  line: ChangeoverLine | null;
  number: string;
  what: string;
  from: string;
  to: string;
  why: string;
}

/** @param all also what is there already, stays or is there besides */
export function rowsOf(page: ChangeoverPage, all: boolean): Row[] {
  const rows = [
    ...page.places.flatMap(place => place.lines.flatMap(line => ofLine(place, line, page))),
    ...page.others.map((thing): Row => {
      const isLeft = thing.becomes === 'stays' || thing.becomes === 'moves';
      return {
        key: thing.item,
        place: thing.becomes === 'moves' ? thing.place : `${(isLeft ? page.from : page.to).name}`,
        kind: thing.becomes,
        thing,
        line: null,
        number: thing.number,
        what: thing.what,
        from: thing.place,
        to: thing.to,
        why: thing.why,
      };
    }),
  ];
  return all ? rows : rows.filter(r => r.kind === 'moves' || r.kind === 'lacking');
}

function ofLine(place: ChangeoverPlace, line: ChangeoverLine, page: ChangeoverPage): Row[] {
  const base = { place: place.name, line, thing: null, number: '', from: '', to: '', why: '' };
  const of = (n: number) => `${n} of ${line.qty} ${line.what}`;
  const moves = line.things.filter(t => t.becomes === 'moves');
  const there = line.things.filter(t => t.becomes === 'there');
  return [
    ...moves.map(
      (thing): Row => ({
        ...base,
        key: thing.item,
        kind: 'moves',
        thing,
        number: thing.number,
        what: thing.what,
        from: thing.place,
        to: thing.to,
        why: place.at === null ? `${page.to.name} has no place of this name` : '',
      }),
    ),
    ...(line.tracked || line.moves === 0
      ? []
      : [{ ...base, key: line.line, kind: 'moves' as const, what: of(line.moves), to: place.name }]),
    ...(line.there > 0
      ? [
          {
            ...base,
            key: `there ${line.line}`,
            kind: 'there' as const,
            number: there.length === 1 ? (there[0]?.number ?? '') : '',
            what: of(line.there),
            why: there.length > 1 ? there.map(t => t.number).join(', ') : '',
          },
        ]
      : []),
    ...(line.lacking > 0
      ? [
          {
            ...base,
            key: `lacking ${line.line}`,
            kind: 'lacking' as const,
            what: of(line.lacking),
            why: line.critical ? 'critical: the unit is not ready without it' : 'on neither rig',
          },
        ]
      : []),
  ];
}

/** How many of a row moved, by what was said of it; and how many were to. */
export function movedOf(row: Row, exceptions: Exceptions): { planned: number; moved: number } {
  const planned = row.kind !== 'moves' ? 0 : row.thing === null ? (row.line?.moves ?? 0) : 1;
  const said = exceptions[row.key];
  return { planned, moved: said === undefined ? planned : (said.moved ?? 0) };
}
