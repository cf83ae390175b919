/** Whole-rig swaps: what moves now, the legs that were signed, and what was not brought back. */
import { z } from 'zod';
import { dayText } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import { capital } from '../../domain/capital.ts';
import { placesOf } from '../../domain/checkoffs/marks.ts';
import type { Condition } from '../../domain/facts.ts';
import type { Changed } from '../../domain/rigs/changeover.ts';
import type { NotReturned } from '../../domain/rigs/rides.ts';
import type { ChangeoverLeg, ChangeoverPage, ChangeoverThing } from '../api-changeovers.ts';
import type { LeftThing, RigLine } from '../api-desk.ts';
import { differenceOf, type LegTold, legsOf, type RigThing } from '../caches/changeovers.ts';
import { all, one } from '../store/statements.ts';
import { memberNames } from './notes.ts';
import { rigLines } from './rigs.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const rigChangeover = question({
  name: 'rig.changeover',
  title:
    'The difference of two rigs for the crew that changes: what moves, is there already, stays, is lacking',
  schema: z.strictObject({ from: z.string(), to: z.string() }) as unknown as z.ZodType<{
    from: string;
    to: string;
  }>,
  answer(asking, args): ChangeoverPage {
    const { lines: rigs, rides } = rigLines(asking, asking.today);
    const from = rigAsked(rigs, args.from, 'from');
    const to = rigAsked(rigs, args.to, 'to');
    if (from.unitId === null || from.unit === null)
      throw new CannotAnswer(
        'not ridden',
        `Nobody rides ${from.name}.`,
        'Name the rig that a crew leaves.',
        'from',
      );
    if (from.id === to.id)
      throw new CannotAnswer('same rig', 'It is the same rig.', 'Name the rig that is taken.', 'to');
    const on = `${dayText(asking.today)}T23:59` as When;
    const { things, lines, back, goesTo, named } = differenceOf(
      asking.db,
      { unit: from.unitId, from: from.id, to: to.id, on },
      rides,
    );
    const names = new Map([...named].map(([name, id]) => [id, name]));
    const told = ({ thing, becomes, why, to: wished }: Changed<RigThing>): ChangeoverThing => {
      const { item, number, what, condition, place } = thing;
      const at = names.get(goesTo.get(item) ?? '');
      // As people write it where the name is the same, and else the place around it that is there.
      const goes = at === undefined ? '' : at === wished.toLowerCase() ? wished : at;
      return { item, number, what, condition, becomes, why, place, to: goes };
    };
    const count = (becomes: ChangeoverThing['becomes']) => things.filter(t => t.becomes === becomes).length;
    const counted = lines.filter(l => l.line.family === null);
    return {
      unit: { id: from.unitId, name: from.unit },
      from: { id: from.id, name: from.name },
      to: { id: to.id, name: to.name },
      back,
      toCondition: to.condition,
      toReason: to.conditionReason,
      toRiddenBy: to.unit,
      places: placesOf(lines.map(l => l.line)).map(name => ({
        name,
        at: named.get(name.toLowerCase()) ?? null,
        lines: lines
          .filter(l => l.line.place.toLowerCase() === name.toLowerCase())
          .map(({ line, ...rest }) => ({
            line: line.line,
            what: line.what,
            qty: line.qty,
            min: line.min,
            critical: line.critical,
            tracked: line.family !== null,
            ...rest,
            things: things.filter(t => t.line === line.line).map(told),
          })),
      })),
      others: things.filter(t => t.line === null).map(told),
      counts: {
        moves: count('moves') + counted.reduce((n, l) => n + l.moves, 0),
        there: count('there') + counted.reduce((n, l) => n + l.there, 0),
        stays: count('stays') + counted.reduce((n, l) => n + l.stays, 0),
        besides: count('besides'),
        lacking: lines.reduce((n, l) => n + l.lacking, 0),
      },
    };
  },
  example: { from: 'Engine 31', to: 'Reserve R-1' },
});

/** A rig by its id or name, or by the unit that rides it. */
function rigAsked(rigs: readonly RigLine[], asked: string, field: 'from' | 'to'): RigLine {
  const wanted = asked.trim().toLowerCase();
  const rig =
    rigs.find(r => r.id === asked) ??
    rigs.find(r => r.name.toLowerCase() === wanted) ??
    rigs.find(r => r.unit?.toLowerCase() === wanted);
  if (rig) return rig;
  throw new CannotAnswer('not found', `There is no rig ${asked}.`, 'Name a rig of the department.', field);
}

export const changeoversList = question({
  name: 'changeovers.list',
  title: 'Whole-rig swaps leg by leg, the latest first, with what was not brought back; of one rig or of all',
  schema: z.strictObject({ rig: z.string().optional() }) as unknown as z.ZodType<{ rig?: string }>,
  answer(asking, args) {
    const { lines: rigs, open } = rigLines(asking, asking.today);
    const rig = args.rig === undefined ? null : rigAsked(rigs, args.rig, 'from').id;
    const legs = legsOf(asking.db);
    const left = open
      .filter(o => rig === null || o.on === rig || o.home === rig)
      .flatMap(o => toldOpen(asking, legs, o));
    return {
      legs: legs
        .filter(l => rig === null || l.from === rig || l.to === rig)
        .reverse()
        .map(leg => toldLeg(asking, leg, left)),
      notReturned: left,
    };
  },
  example: {},
});

function toldLeg(asking: Asking, leg: LegTold, left: readonly LeftThing[]): ChangeoverLeg {
  const named = (id: string) => ({ id, name: nameOf(asking, id) });
  const { id, back, on, how, note, by } = leg;
  const moved = new Set(leg.moved.map(m => m.item));
  return {
    id,
    unit: named(leg.unit),
    from: named(leg.from),
    to: named(leg.to),
    back,
    on,
    byName: by === null ? null : (memberNames(asking).get(by) ?? by),
    how: how === 'sight' ? 'sight' : 'told',
    note,
    moved: moved.size,
    there: leg.there.length,
    excepted: leg.excepted.flatMap(({ item, why }) => {
      const thing = thingOf(asking, item);
      return thing ? [{ item, ...thing, why }] : [];
    }),
    counted: leg.counted
      .filter(c => c.moved !== c.planned)
      .map(({ what, planned, moved: went, why }) => ({ what, planned, moved: went, why })),
    notReturned: left.filter(l => l.on === leg.to && moved.has(l.item)),
  };
}

const thingOf = (asking: Asking, item: string) =>
  one<{ number: string; what: string; condition: Condition }>(
    asking.db,
    'SELECT i.number, i.what, i.condition FROM items i JOIN things t ON t.key = i.key WHERE t.id = ?',
    item,
  );

/** A place or a unit by its name; its id where nothing is known by that. */
export function nameOf(asking: Asking, id: string): string {
  return (
    all<{ name: string }>(
      asking.db,
      `SELECT coalesce(p.name, u.name) AS name FROM things t LEFT JOIN places p ON p.key = t.key
       LEFT JOIN units u ON u.key = t.key WHERE t.id = ?`,
      id,
    )[0]?.name ?? id
  );
}

/** A thing that was not brought back, with what the crew said of it when it went back. */
export function toldOpen(asking: Asking, legs: readonly LegTold[], open: NotReturned): LeftThing[] {
  const item = thingOf(asking, open.item);
  if (!item) return [];
  const { home, on, since } = open;
  const wayBack = legs.findLast(l => l.from === on && l.on >= since);
  const said = wayBack?.excepted.find(e => e.item === open.item);
  const why = said ? (said.why === null ? 'left out on the way back' : capital(said.why)) : null;
  return [
    {
      item: open.item,
      ...item,
      home: nameOf(asking, home),
      homeRig: home,
      here: nameOf(asking, on),
      on,
      since,
      why,
    },
  ];
}
