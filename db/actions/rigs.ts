/** Rigs: who rides them, what state they are in, their meters, and how they are drawn. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { afterTold, lastDay, type When } from '../../domain/calendar/when.ts';
import { capital } from '../../domain/capital.ts';
import { roseTooFast } from '../../domain/derive/meters.ts';
import { fits, GRID, VIEWS } from '../../domain/rigs/drawing.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { METERS } from '../../domain/rulebook/types.ts';
import { id, longWords, mustBe, notFuture, when } from './fields.ts';
import { deedOnItem, familyOfItem, gone } from './items.ts';
import { action, type FactDraft, type Look, type Refusal, refuse } from './types.ts';

/** The meters of a rig, in the order in which they are read. */
export const RIG_METERS = ['miles', 'engine hours', 'pump hours', 'aerial hours'] as const;

export function mustBeRig(look: Look, rig: string, on?: When): Refusal[] {
  const problems = on === undefined ? [] : notFuture(look, on);
  return look.rig(rig)
    ? problems
    : [...problems, refuse('not found', `No rig has the id ${rig}.`, 'Name a rig of the department.', 'rig')];
}

/** A crew takes a rig, or (null) leaves it without one. */
export const rideFact = (rig: string, unit: string | null, on: When, note?: string): FactDraft => ({
  thing: rig,
  kind: 'ride',
  effective: on,
  values: { unit, ...(note ? { note } : {}) },
  refs: unit === null ? [] : [unit],
});

export const rigRide = action({
  name: 'rig.ride',
  v: 1,
  title: 'A unit’s crew takes a rig, or leaves it without a unit (null)',
  schema: z.strictObject({ rig: id, unit: id.nullable(), note: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['rig', 'unit'],
  complete: (look, body) => ({ ...body, on: afterTold(body.on, look.lastRide(body.rig, body.unit)) as When }),
  check: (look, body) => [
    ...mustBeRig(look, body.rig, body.on),
    ...(body.unit === null ? [] : mustBe(look, body.unit, 'unit', 'unit')),
  ],
  apply: (_entry, body) => ({ facts: [rideFact(body.rig, body.unit, body.on, body.note)] }),
  example: { rig: '&1', unit: '&0', on: '2026-11-25T07:10' },
});

export const rigTakeOut = action({
  name: 'rig.takeOut',
  v: 1,
  title: 'Take a rig out of service, or limit its use; a driver or officer may at once',
  schema: z.strictObject({
    rig: id,
    condition: z.enum(['limited', 'out of service']),
    reason: longWords,
    on: when,
  }),
  entitlement: 'record',
  refs: ['rig'],
  complete: (look, body) => ({
    ...body,
    on: afterTold(body.on, look.rigCondition(body.rig)?.effective ?? null) as When,
  }),
  check: (look, body) => [
    ...mustBeRig(look, body.rig, body.on),
    // From out of service to limited is half a return, and that needs who may return it.
    ...(body.condition === 'limited' && look.rigCondition(body.rig)?.condition === 'out of service'
      ? [
          refuse(
            'out of service',
            'The rig is out of service.',
            'Let someone entitled return it to service first; it can be limited then.',
            'condition',
          ),
        ]
      : []),
  ],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.rig,
        kind: 'rig condition',
        effective: body.on,
        values: { condition: body.condition, reason: body.reason },
      },
    ],
  }),
  example: { rig: '&1', condition: 'out of service', reason: 'Transmission leak, drops falling' },
});

export const rigReturn = action({
  name: 'rig.return',
  v: 1,
  title: 'Return a rig to service',
  schema: z.strictObject({ rig: id, note: longWords.optional(), on: when }),
  entitlement: 'return',
  refs: ['rig'],
  complete: (look, body) => ({
    ...body,
    on: afterTold(body.on, look.rigCondition(body.rig)?.effective ?? null) as When,
  }),
  check: (look, body) => mustBeRig(look, body.rig, body.on),
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.rig,
        kind: 'rig condition',
        effective: body.on,
        values: { condition: 'in service', ...(body.note ? { reason: body.note } : {}) },
      },
    ],
  }),
  example: { rig: '&1' },
});

export const rigRead = action({
  name: 'rig.read',
  v: 1,
  title: 'Read a meter of a rig; a reading below the last one needs the word that the meter was replaced',
  schema: z.strictObject({
    rig: id,
    meter: z.enum(RIG_METERS),
    reading: z.number().int().min(0),
    meterReplaced: z.boolean().default(false),
    /** Said where it rose by more than its meter can; of no weight afterwards. */
    readTwice: z.boolean().optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['rig'],
  check: (look, body) => [...mustBeRig(look, body.rig, body.on), ...unlikely(look, body.rig, body)],
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.rig,
        kind: 'meter',
        effective: body.on,
        values: { meter: body.meter, reading: body.reading, meterReplaced: body.meterReplaced },
      },
    ],
  }),
  example: { rig: '&1', meter: 'engine hours', reading: 4120 },
});

interface Told {
  meter: string;
  reading: number;
  meterReplaced: boolean;
  readTwice?: boolean | undefined;
  on: When;
}

const figure = (n: number) => n.toLocaleString('en-US');

/**
 * A meter that runs backward is refused, against the reading before and the one after, unless it was replaced; one
 * that rose by more than it can, unless it was read twice.
 */
function unlikely(
  look: Look,
  thing: string,
  { meter, reading, meterReplaced, readTwice, on }: Told,
): Refusal[] {
  const { before, after } = look.readingsAround(thing, meter, on);
  if (before && reading < before.reading && !meterReplaced)
    return [
      refuse(
        'meter backward',
        `${capital(meter)} read ${figure(before.reading)} on ${showWhen(before.on)}; ${figure(reading)} is less.`,
        'Read it again, or say that the meter was replaced.',
        'reading',
      ),
    ];
  if (after && reading > after.reading && !after.replaced)
    return [
      refuse(
        'meter backward',
        `${capital(meter)} read ${figure(after.reading)} on ${showWhen(after.on)}, later; ${figure(reading)} is more.`,
        'Read it again, or void the later reading if that one is wrong.',
        'reading',
      ),
    ];
  if (before && !meterReplaced && !readTwice) {
    const days = lastDay(on) - lastDay(before.on);
    const risen = reading - before.reading;
    if (roseTooFast(meter, risen, days))
      return [
        refuse(
          'meter leaps',
          `${capital(meter)} read ${figure(before.reading)} on ${showWhen(before.on)}; ${figure(reading)} is ${figure(risen)} more in ${days} ${days === 1 ? 'day' : 'days'}.`,
          'Read it again; if it is right, say that it was read twice, or void the earlier reading if that one is wrong.',
          'reading',
        ),
      ];
  }
  return [];
}

export const itemRead = action({
  name: 'item.read',
  v: 1,
  title:
    'Read a meter of a tool: hours, cycles, fills, uses; a lower reading needs the word that it was replaced',
  schema: z.strictObject({
    item: id,
    meter: z.enum(METERS),
    reading: z.number().int().min(0),
    meterReplaced: z.boolean().default(false),
    /** Said where it rose by more than its meter can; of no weight afterwards. */
    readTwice: z.boolean().optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item'],
  family: familyOfItem,
  check(look, body) {
    const early = deedOnItem(look, body.item, body.on);
    const item = look.item(body.item);
    if (!item || early.length > 0) return early;
    const meters = familyOf(item.family)?.meters ?? [];
    if (!meters.includes(body.meter))
      return [
        refuse(
          'no such meter',
          `${item.number} has no meter of ${body.meter}.`,
          meters.length > 0 ? `Use one of: ${meters.join(', ')}.` : 'Things of this family have no meter.',
          'meter',
        ),
      ];
    return [...gone(look, body.item, 'read'), ...unlikely(look, body.item, body)];
  },
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'meter',
        effective: body.on,
        values: { meter: body.meter, reading: body.reading, meterReplaced: body.meterReplaced },
      },
    ],
  }),
  example: { item: '&3', meter: 'hours', reading: 41 },
});

export const rigArrange = action({
  name: 'rig.arrange',
  v: 1,
  title: 'Arrange the line drawing of a rig: each place as a box in one view',
  schema: z.strictObject({
    rig: id,
    boxes: z
      .array(
        z.strictObject({
          place: id,
          view: z.enum(VIEWS),
          x: z.number().int(),
          y: z.number().int(),
          w: z.number().int(),
          h: z.number().int(),
        }),
      )
      .max(200),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['rig'],
  check: (look, body) => [
    ...mustBeRig(look, body.rig),
    ...body.boxes.flatMap((box, i) =>
      fits(box)
        ? mustBe(look, box.place, 'place', `boxes.${i}.place`)
        : [
            refuse(
              'outside the drawing',
              `Box ${i + 1} does not lie inside its view of ${GRID.columns} by ${GRID.rows}.`,
              'Move it or make it smaller.',
              `boxes.${i}`,
            ),
          ],
    ),
  ],
  apply: (_entry, body) => ({
    facts: [{ thing: body.rig, kind: 'drawing', effective: body.on, values: { boxes: body.boxes } }],
  }),
  example: { rig: '&1', boxes: [{ place: '&2', view: 'top', x: 0, y: 0, w: 6, h: 2 }] },
});
