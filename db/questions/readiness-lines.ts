/** What a unit lacks of its carry list, as its readiness tells it. */
import type { Day } from '../../domain/calendar/day.ts';
import { capital } from '../../domain/capital.ts';
import { lackingOf, servingOf, toServe } from '../../domain/carry/lacking.ts';
import { fill } from '../../domain/carry/match.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { lineEffect } from '../../domain/coverage/readiness.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { Reason } from '../api-desk.ts';
import { thingsCarried } from './carry-known.ts';
import { linesOn } from './carry-lines.ts';
import { openByLine } from './defects.ts';
import { type KitNow, unreadyKits } from './kits-known.ts';
import type { Asking } from './types.ts';

/** A line of which fewer serve than it asks for. */
export interface Shortage {
  line: CarryLine;
  effect: WhenLate;
  lacking: number;
  /** How many more would make it serve; 0 where it is only under its quantity. */
  toServe: number;
  /** What keeps the kits that lie there from serving, in words. */
  kits: string[];
}

/** What a unit lacks, and which line each thing on its rig fills, by the thing's key. */
export interface UnitLines {
  shortages: Shortage[];
  /** What is said against kits on its rig, as reasons of their own: those alone that no shortage tells of. */
  kits: Reason[];
  lineOf: ReadonlyMap<number, CarryLine>;
}

export const NO_LINES: UnitLines = { shortages: [], kits: [], lineOf: new Map() };

/** What each unit lacks on the rig that its crew rides, by the unit's id. */
export function linesOfUnits(
  asking: Asking,
  units: readonly { key: number; id: string; rig: { key: number } | null }[],
  kits: readonly KitNow[],
  on: Day,
): Map<string, UnitLines> {
  const open = openByLine(asking);
  const lists = new Map(units.map(u => [u.id, u.rig === null ? [] : linesOn(asking, u.key, on)]));
  const carried = thingsCarried(asking, [...lists.values()].flat(), kits);
  const unready = unreadyKits(kits);
  return new Map(
    units.map(({ id, rig }) => {
      const lines = lists.get(id) ?? [];
      const filled = fill(lines, lines.length === 0 || rig === null ? [] : (carried.get(rig.key) ?? []));
      const short = filled.lines.flatMap((of): Shortage[] => {
        const { line } = of;
        const lacking = lackingOf(line, servingOf(of), open.get(line.line) ?? []);
        const effect = lineEffect(line, lacking);
        if (effect === null) return [];
        const out = [...of.here, ...of.elsewhere].flatMap(t => unready.get(t.key) ?? []);
        return [{ line, effect, lacking, toServe: toServe(line, lacking), kits: out.map(k => kitWords(k)) }];
      });
      const lineOf = new Map(
        filled.lines.flatMap(({ line, here, elsewhere }) =>
          [...here, ...elsewhere].map(t => [t.key, line] as const),
        ),
      );
      const told = new Set(short.flatMap(s => s.kits));
      const others = kits.filter(
        k => rig !== null && k.rig === rig.key && k.standing.effect !== null && !told.has(kitWords(k)),
      );
      return [id, { shortages: short, kits: others.map(kitReason), lineOf }];
    }),
  );
}

const kitWords = ({ number, standing }: KitNow): string => `${number}: ${standing.reasons[0] ?? ''}`;

/** What is said against a kit that a line does not tell of: one that no line asks for holds nobody up. */
function kitReason({ item, number, kind, condition, place, standing, known }: KitNow): Reason {
  const [first = '', ...more] = standing.reasons;
  return {
    ...OF_NO_THING,
    effect: standing.effect === 'blocks' ? 'limits' : (standing.effect ?? 'notes'),
    what: `${capital(first)}${more.length > 0 ? `, and ${more.length} more` : ''}: ${kind ?? 'kit'}`,
    item,
    number,
    condition,
    since: known.since,
    place,
  };
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
export function shortageReason({ line, effect, lacking, kits }: Shortage, rig: string | null): Reason {
  const there = line.qty - lacking;
  const least = line.min < line.qty ? `, at least ${line.min}` : '';
  return {
    ...OF_NO_THING,
    effect,
    what: `${line.what}: ${there} of ${line.qty}${least}${line.critical ? ', critical' : ''}${kits.map(k => `; ${k}`).join('')}`,
    line: line.line,
    place: rig === null ? line.place : `${rig}, ${line.place}`,
  };
}
