/** A cylinder was filled. What spoke against it is recorded beside it and refuses nothing: it was filled. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { lastDay, type When } from '../../domain/calendar/when.ts';
import { profileOn } from '../../domain/rulebook/force.ts';
import {
  type AgainstFill,
  byGravity,
  FILL_EFFECTS,
  FILL_MATTERS,
  pullWords,
} from '../../domain/supply/fill-against.ts';
import { againstFilling, STAYS } from '../../domain/supply/fill-check.ts';
import { againstForeign } from '../../domain/supply/fill-foreign.ts';
import { againstStation } from '../../domain/supply/fill-station.ts';
import { id, longWords, notFuture, when, words } from './fields.ts';
import { deedOnItem } from './items.ts';
import { action, type Look, type Refusal, refuse } from './types.ts';

/** No breathing-air bottle holds more than 5500 psi (common practice); twice that is a slip of the finger. */
const MOST_psi = 10_000;
const psi = z
  .number()
  .int()
  .min(0)
  .max(MOST_psi, {
    error: `is over ${MOST_psi} psi, which nothing is filled to. Enter what the gauge read.`,
  });

const against = z.strictObject({
  what: z.enum(FILL_MATTERS),
  says: longWords,
  clause: z.string().nullable(),
  confidence: z.enum(['read', 'read second-hand', 'memory', 'common practice']),
  force: z.enum(['law', 'standard', 'manufacturer', 'practice']),
  effect: z.enum(FILL_EFFECTS),
  pulls: z.boolean(),
});

export const cylinderFill = action({
  name: 'cylinder.fill',
  v: 1,
  title: 'Record that a cylinder was filled, with what spoke against it; one filled out of date is pulled',
  schema: z.strictObject({
    /** One of ours; or `foreign`, one that is not. */
    item: id.optional(),
    foreign: z
      .strictObject({
        number: words,
        owner: words,
        /** What its label says: specification or permit, pressure. */
        marking: words.optional(),
        servicePressure_psi: psi.min(1).optional(),
      })
      .optional(),
    compressor: id.optional(),
    from_psi: psi.optional(),
    to_psi: psi.min(1, { error: 'is nothing. Enter what the gauge read when it was filled.' }),
    /** The last hydro date, as it was read on the bottle itself. */
    hydroDate: when.optional(),
    /** Who filled it, where another tells of it. */
    performedBy: words.optional(),
    note: longWords.optional(),
    /** Filled in by the store: what spoke against it by the book of that day, and why it is pulled. */
    against: z.array(against).optional(),
    pull: longWords.nullable().optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'compressor'],
  family: () => 'cylinder',
  check(look, body) {
    const problems: Refusal[] = [];
    if ((body.item === undefined) === (body.foreign === undefined))
      problems.push(
        refuse(
          'which one',
          body.item === undefined ? 'No bottle is named.' : 'Two bottles are named.',
          'Name one of ours as item, or what was read on another as foreign.',
          'item',
        ),
      );
    if (body.item === undefined) problems.push(...notFuture(look, body.on));
    else {
      problems.push(...deedOnItem(look, body.item, body.on, 'rigs too'));
      const known = look.item(body.item);
      if (known && known.family !== 'cylinder')
        problems.push(
          refuse(
            'not a cylinder',
            `${known.number} is no cylinder.`,
            'Name the bottle by its own number.',
            'item',
          ),
        );
    }
    if (body.compressor !== undefined && look.item(body.compressor)?.family !== 'compressor')
      problems.push(
        refuse(
          'not found',
          `No compressor or fill station has the id ${body.compressor}.`,
          'Name one that is in the department, or leave it out.',
          'compressor',
        ),
      );
    if (body.from_psi !== undefined && body.from_psi > body.to_psi)
      problems.push(
        refuse(
          'pressure fell',
          `It went from ${body.from_psi} to ${body.to_psi} psi: that is no fill.`,
          'Enter what the gauge read before and after.',
          'from_psi',
        ),
      );
    if (body.hydroDate !== undefined)
      problems.push(...notFuture(look, body.hydroDate, 'hydroDate', 'The hydro date'));
    return problems;
  },
  complete(look, body) {
    const told = spokeAgainst(look, body);
    const last = body.item === undefined ? null : look.itemAsOf(body.item, body.on)?.conditions.at(-1);
    // What is not ours has no tag here; what is out already stays as it is, above all a hold.
    const stays = body.item === undefined || (last != null && STAYS.has(last.value.condition));
    return { ...body, against: told, pull: stays ? null : pullWords(told, body.on) };
  },
  apply(entry, body) {
    const { item, foreign, compressor, from_psi, to_psi, hydroDate, performedBy, note, pull } = body;
    const fill = {
      compressor: compressor ?? null,
      hydroDate: hydroDate ?? null,
      against: body.against ?? [],
      pulled: foreign === undefined ? pull != null : (body.against ?? []).some(a => a.pulls),
    };
    const at = { effective: body.on, refs: compressor === undefined ? [] : [compressor] };
    const by = performedBy === undefined ? {} : { by: performedBy };
    const said = note === undefined ? {} : { note };
    const readings = { gauge_psi: to_psi, ...(from_psi === undefined ? {} : { from_psi }) };
    if (foreign !== undefined)
      return {
        things: [{ id: entry.id, kind: 'fill' }],
        facts: [
          {
            ...at,
            thing: entry.id,
            kind: 'identity',
            values: { ...foreign, readings, ...by, ...said, fill },
          },
        ],
      };
    if (item === undefined) return {};
    return {
      facts: [
        {
          ...at,
          thing: item,
          kind: 'record',
          values: { activity: 'recharge', outcome: 'pass', readings, ...by, ...said, fill },
        },
        ...(pull
          ? [
              {
                thing: item,
                kind: 'condition',
                effective: body.on,
                values: { condition: 'tagged out', reason: pull },
              },
            ]
          : []),
      ],
    };
  },
  example: {
    foreign: { number: 'CB-207', owner: 'Cottonwood Basin Fire', servicePressure_psi: 4500 },
    from_psi: 1200,
    to_psi: 4500,
    hydroDate: '2025-02',
    on: '2026-11-25T03:10',
  },
});

interface Filled {
  item?: string | undefined;
  foreign?: { servicePressure_psi?: number | undefined } | undefined;
  compressor?: string | undefined;
  to_psi: number;
  hydroDate?: When | undefined;
  on: When;
}

/** What spoke against it then: the bottle and the compressor as they were, by the book of that day. */
function spokeAgainst(
  look: Look,
  { item, foreign, compressor, to_psi, hydroDate, on }: Filled,
): AgainstFill[] {
  const day = Math.min(lastDay(on), look.today) as Day;
  const bottle = item === undefined ? null : look.itemAsOf(item, on);
  const station = compressor === undefined ? null : look.itemAsOf(compressor, on);
  const filling = { on: day, to_psi, hydroDate: hydroDate ?? null };
  return [
    ...(bottle ? againstFilling(bottle, look.book, { ...filling, isAir: compressor !== undefined }) : []),
    ...(foreign
      ? againstForeign(
          { hydroDate: hydroDate ?? null, servicePressure_psi: foreign.servicePressure_psi ?? null },
          filling,
          profileOn(look.book.profiles, day),
        )
      : []),
    ...(station ? againstStation(station, look.book, day) : []),
  ].sort(byGravity);
}
