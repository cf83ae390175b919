/**
 * A whole rig changed for another, entered as "everything moved except …": one leg, signed by the crew that did it. The
 * way back is a leg of its own.
 */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { rideAt } from '../../domain/rigs/rides.ts';
import type { Difference } from '../caches/changeovers.ts';
import { clockTime } from './checkoff-forms.ts';
import { id, longWords, mustBe, words } from './fields.ts';
import { mustBeRig, rideFact } from './rigs.ts';
import { action, type FactDraft, type Look, type Refusal, refuse } from './types.ts';

/** What the statement came to when it was made: filled in by the store. */
const went = z.strictObject({
  /** To the unit's own rig. */
  back: z.boolean(),
  moved: z.array(z.strictObject({ item: id, to: id })),
  there: z.array(id),
  counted: z.array(
    z.strictObject({
      line: id,
      what: words,
      planned: z.number().int(),
      moved: z.number().int(),
      why: words.nullable(),
    }),
  ),
});

export const rigChangeover = action({
  name: 'rig.changeover',
  v: 1,
  title: 'A crew changes its whole rig for another, or back: everything moved except what is named',
  schema: z.strictObject({
    unit: id,
    from: id,
    to: id,
    /** Tracked things that were to move and did not. */
    except: z
      .array(z.strictObject({ item: id, why: words.optional() }))
      .max(500)
      .default([]),
    /** Counted lines of which not all moved that was to: how many did. */
    counted: z
      .array(z.strictObject({ line: id, moved: z.number().int().min(0), why: words.optional() }))
      .max(500)
      .default([]),
    /**
     * How the places are known: that everything moved is said, and nobody looked at each of them; or a sheet was ticked
     * thing by thing, and each was seen.
     */
    how: z.enum(['told', 'sight']).default('told'),
    note: longWords.optional(),
    /** The things that were shown as moving: one that has come to the rig since is not moved unseen. */
    saw: z.array(id).max(2000).optional(),
    went: went.optional(),
    on: clockTime,
  }),
  entitlement: 'record',
  refs: ['unit', 'from', 'to'],
  check(look, body) {
    const problems = [
      ...mustBe(look, body.unit, 'unit', 'unit'),
      ...mustBeRig(look, body.from, body.on),
      ...mustBeRig(look, body.to).map(p => ({ ...p, field: 'to' })),
    ];
    if (problems.length > 0) return problems;
    if (body.from === body.to)
      return [refuse('same rig', 'It is the same rig.', 'Name the rig that is taken.', 'to')];
    const difference = look.difference(body);
    return [
      ...rideRefusals(look, body),
      ...exceptRefusals(look, body, difference),
      ...unseen(difference, body.saw),
    ];
  },
  complete(look, body) {
    const difference = look.difference(body);
    const excepted = new Set(body.except.map(e => e.item));
    const ofLine = new Map(body.counted.map(c => [c.line, c]));
    const things = (becomes: 'moves' | 'there') =>
      difference.things.filter(t => t.becomes === becomes).map(t => t.thing.item);
    return {
      ...body,
      went: {
        back: difference.back,
        moved: things('moves').flatMap(item => {
          const to = difference.goesTo.get(item);
          return to === undefined || excepted.has(item) ? [] : [{ item, to }];
        }),
        there: things('there'),
        counted: difference.lines.flatMap(({ line, moves }) => {
          if (line.family !== null || moves === 0) return [];
          const said = ofLine.get(line.line);
          const { what } = line;
          return [
            { line: line.line, what, planned: moves, moved: said?.moved ?? moves, why: said?.why ?? null },
          ];
        }),
      },
    };
  },
  apply(entry, body) {
    const { unit, from, to, on, how, note, went: came } = body;
    if (!came) return {};
    const facts: FactDraft[] = [
      rideFact(to, unit, on, note),
      {
        thing: entry.id,
        kind: 'identity',
        effective: on,
        values: {
          unit,
          from,
          to,
          how,
          note: note ?? null,
          by: entry.by,
          ...came,
          excepted: body.except.map(({ item, why }) => ({ item, why: why ?? null })),
        },
        refs: [unit, from, to],
      },
      ...came.moved.map(({ item, to: place }) => ({
        thing: item,
        kind: 'place',
        effective: on,
        values: { place, how },
        refs: [place],
      })),
    ];
    return { things: [{ id: entry.id, kind: 'changeover' }], facts };
  },
  example: {
    unit: '&0',
    from: '&1',
    to: '&2',
    except: [{ item: '&3', why: 'On the charger at the station' }],
    on: '2026-11-25T09:10',
  },
});

interface Body {
  unit: string;
  from: string;
  to: string;
  except: readonly { item: string }[];
  counted: readonly { line: string; moved: number }[];
  on: Parameters<typeof showWhen>[0];
}

/** A crew leaves only what it rides, and takes only what no other crew rides. */
function rideRefusals(look: Look, { unit, from, to, on }: Body): Refusal[] {
  const rides = look.rides();
  const mine = rideAt(rides, unit, on);
  const theirs = rides.find(r => r.rig === to && r.unit !== unit && r.from <= on && (r.until ?? '9999') > on);
  return [
    ...(mine?.rig === from
      ? []
      : [
          refuse(
            'not ridden',
            `The unit did not ride this rig at ${showWhen(on)}.`,
            'Name the rig that the crew left, or the true time.',
            'from',
          ),
        ]),
    ...(theirs
      ? [
          refuse(
            'ridden',
            `Another crew rode that rig at ${showWhen(on)}.`,
            'Say first that it left it, on the page of the rig.',
            'to',
          ),
        ]
      : []),
  ];
}

/** What would move and was not shown as moving. */
function unseen(difference: Difference, saw: readonly string[] | undefined): Refusal[] {
  const shown = new Set(saw);
  const more = difference.things.filter(t => t.becomes === 'moves' && !shown.has(t.thing.item));
  return saw === undefined || more.length === 0
    ? []
    : [
        refuse(
          'changed since',
          `Since you looked, this is to move as well: ${more.map(t => t.thing.number).join(', ')}.`,
          'Look again at what moves, then sign.',
          'saw',
        ),
      ];
}

function exceptRefusals(look: Look, body: Body, difference: Difference): Refusal[] {
  const seen = new Set<string>();
  const things = body.except.flatMap(({ item }, i): Refusal[] => {
    const field = `except.${i}.item`;
    const known = difference.things.find(t => t.thing.item === item);
    const number = known?.thing.number ?? look.item(item)?.number ?? item;
    if (seen.has(item)) return [refuse('twice', `${number} is named twice.`, 'Name it once.', field)];
    seen.add(item);
    if (known?.becomes === 'moves') return [];
    return known?.becomes === 'stays'
      ? [refuse('stays', `${number} stays anyway: ${known.why}.`, 'Leave it out.', field)]
      : [
          refuse(
            'not on the rig',
            `${number} was not on the rig that is left.`,
            'Leave it out; say where it is on its own page.',
            field,
          ),
        ];
  });
  const counts = body.counted.flatMap(({ line, moved }, i): Refusal[] => {
    const field = `counted.${i}.moved`;
    const known = difference.lines.find(l => l.line.line === line && l.line.family === null);
    if (!known || known.moves === 0)
      return [
        refuse('nothing moves', 'Nothing of this line was to move.', 'Leave it out.', `counted.${i}.line`),
      ];
    return moved <= known.moves
      ? []
      : [
          refuse(
            'too many',
            `${moved} moved of ${known.line.what}, and ${known.moves} were to.`,
            'Say how many moved of those.',
            field,
          ),
        ];
  });
  return [...things, ...counts];
}
