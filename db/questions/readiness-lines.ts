/** What a unit lacks of its carry list, as its readiness tells it. */
import type { Day } from '../../domain/calendar/day.ts';
import { lackingOf, servingOf, toServe } from '../../domain/carry/lacking.ts';
import { fill } from '../../domain/carry/match.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { lineEffect } from '../../domain/coverage/readiness.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { Reason } from '../api-desk.ts';
import { thingsCarried } from './carry-known.ts';
import { linesOn } from './carry-lines.ts';
import { openByLine } from './defects.ts';
import type { Asking } from './types.ts';

/** A line of which fewer serve than it asks for. */
export interface Shortage {
  line: CarryLine;
  effect: WhenLate;
  lacking: number;
  /** How many more would make it serve; 0 where it is only under its quantity. */
  toServe: number;
}

/** What a unit lacks, and which line each thing on its rig fills, by the thing's key. */
export interface UnitLines {
  shortages: Shortage[];
  lineOf: ReadonlyMap<number, CarryLine>;
}

export const NO_LINES: UnitLines = { shortages: [], lineOf: new Map() };

/** What each unit lacks on the rig that its crew rides, by the unit's id. */
export function linesOfUnits(
  asking: Asking,
  units: readonly { key: number; id: string; rig: { key: number } | null }[],
  on: Day,
): Map<string, UnitLines> {
  const open = openByLine(asking);
  const lists = new Map(units.map(u => [u.id, u.rig === null ? [] : linesOn(asking, u.key, on)]));
  const carried = thingsCarried(asking, [...lists.values()].flat());
  return new Map(
    units.map(({ id, rig }) => {
      const lines = lists.get(id) ?? [];
      const filled = fill(lines, lines.length === 0 || rig === null ? [] : (carried.get(rig.key) ?? []));
      const short = filled.lines.flatMap((of): Shortage[] => {
        const { line } = of;
        const lacking = lackingOf(line, servingOf(of), open.get(line.line) ?? []);
        const effect = lineEffect(line, lacking);
        return effect === null ? [] : [{ line, effect, lacking, toServe: toServe(line, lacking) }];
      });
      const lineOf = new Map(
        filled.lines.flatMap(({ line, here, elsewhere }) =>
          [...here, ...elsewhere].map(t => [t.key, line] as const),
        ),
      );
      return [id, { shortages: short, lineOf }];
    }),
  );
}

/** A reason that is of no one thing. */
export const OF_NO_THING = {
  item: null,
  line: null,
  number: null,
  requirement: null,
  state: null,
  condition: null,
  dueOn: null,
  own: null,
  since: null,
  fix: null,
} as const satisfies Partial<Reason>;

/** A shortage as a reason. */
export function shortageReason({ line, effect, lacking }: Shortage, rig: string | null): Reason {
  const there = line.qty - lacking;
  const least = line.min < line.qty ? `, at least ${line.min}` : '';
  return {
    ...OF_NO_THING,
    effect,
    what: `${line.what}: ${there} of ${line.qty}${least}${line.critical ? ', critical' : ''}`,
    line: line.line,
    place: rig === null ? line.place : `${rig}, ${line.place}`,
  };
}
