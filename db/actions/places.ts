/** Where, and who comes from outside: stations, units, rigs, the places inside them, agencies. */
import { z } from 'zod';
import { id, mustBe, mustHold, when, words } from './fields.ts';
import { action, type FactDraft, refuse } from './types.ts';

export const stationAdd = action({
  name: 'station.add',
  v: 1,
  title: 'Add a station',
  schema: z.strictObject({ name: words, on: when }),
  entitlement: 'plan',
  refs: [],
  check: (look, body) => nameTaken(look.placeNamed(null, body.name), body.name),
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'place' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: { kind: 'station', name: body.name },
      },
    ],
  }),
  example: { name: 'Station 31' },
});

export const unitAdd = action({
  name: 'unit.add',
  v: 1,
  title: 'Add a unit (the radio identity that follows the crew), with a rig of its own where one is named',
  schema: z.strictObject({
    name: words,
    kind: words.optional(),
    station: id.optional(),
    rig: z.strictObject({ name: words, chassis: words.optional() }).optional(),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['station'],
  check: (look, body) => [
    ...mustBe(look, body.station, 'place', 'station'),
    ...(body.rig ? nameTaken(look.placeNamed(null, body.rig.name), body.rig.name, 'rig.name') : []),
  ],
  apply(entry, body) {
    const station = body.station ?? null;
    const unit: FactDraft = {
      thing: entry.id,
      kind: 'identity',
      effective: body.on,
      values: { name: body.name, kind: body.kind ?? null, station },
      refs: station ? [station] : [],
    };
    if (!body.rig) return { things: [{ id: entry.id, kind: 'unit' }], facts: [unit] };
    return {
      things: [
        { id: entry.id, kind: 'unit' },
        { id: `${entry.id}.r`, kind: 'place' },
      ],
      facts: [
        unit,
        {
          thing: `${entry.id}.r`,
          kind: 'identity',
          effective: body.on,
          values: {
            kind: 'rig',
            name: body.rig.name,
            chassis: body.rig.chassis ?? null,
            under: station,
            unit: entry.id,
          },
          // Its own unit is no dependant of itself: both come and go with this entry.
          refs: station ? [station] : [],
        },
      ],
    };
  },
  example: { name: 'Engine 31', kind: 'engine', station: '&0', rig: { name: 'Engine 31' } },
});

export const rigAdd = action({
  name: 'rig.add',
  v: 1,
  title: 'Add a rig (a chassis with its compartments); a reserve rig has no unit of its own',
  schema: z.strictObject({
    name: words,
    chassis: words.optional(),
    unit: id.optional(),
    station: id.optional(),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['unit', 'station'],
  check: (look, body) => [
    ...mustBe(look, body.unit, 'unit', 'unit'),
    ...mustBe(look, body.station, 'place', 'station'),
    ...nameTaken(look.placeNamed(null, body.name), body.name),
  ],
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'place' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: {
          kind: 'rig',
          name: body.name,
          chassis: body.chassis ?? null,
          under: body.station ?? null,
          unit: body.unit ?? null,
        },
        refs: [body.station, body.unit].filter(r => r !== undefined),
      },
    ],
  }),
  example: { name: 'Reserve R-1', station: '&0' },
});

export const PLACE_KINDS = [
  'compartment',
  'tray',
  'board',
  'pocket',
  'seat',
  'kit',
  'rack',
  'storeroom',
  'member',
  'vendor',
  'other agency',
] as const;

export const placeAdd = action({
  name: 'place.add',
  v: 1,
  title: 'Add a place: a compartment of a rig, a rack of a station, a storeroom, a vendor, another agency',
  schema: z.strictObject({ name: words, kind: z.enum(PLACE_KINDS), under: id.optional(), on: when }),
  entitlement: 'plan',
  refs: ['under'],
  check: (look, body) => [
    ...mustHold(look, body.under, 'under'),
    ...nameTaken(look.placeNamed(body.under ?? null, body.name), body.name),
  ],
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'place' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: { kind: body.kind, name: body.name, under: body.under ?? null },
        refs: body.under ? [body.under] : [],
      },
    ],
  }),
  example: { name: 'hosebed driver side', kind: 'compartment', under: '&1.r' },
});

export const agencyAdd = action({
  name: 'agency.add',
  v: 1,
  title: 'Add an outside agency; a requalifier with its identification number (RIN) and when that expires',
  schema: z.strictObject({
    name: words,
    rin: z
      .string()
      .regex(/^[A-Z]\d{3}$/, { error: 'is not a RIN: one letter and three digits, as A123.' })
      .optional(),
    rinExpires: when.optional(),
    on: when,
  }),
  entitlement: 'plan',
  refs: [],
  check: () => [],
  apply: (entry, body) => ({
    things: [{ id: entry.id, kind: 'agency' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: body.on,
        values: { name: body.name, rin: body.rin ?? null, rinExpires: body.rinExpires ?? null },
      },
    ],
  }),
  example: { name: 'Juniper Cylinder Testing', rin: 'A123', rinExpires: '2029-04-30' },
});

function nameTaken(known: string | null, name: string, field = 'name') {
  return known === null
    ? []
    : [
        refuse(
          'name in use',
          `There is a place called ${name} here.`,
          'Give another name, or use that place.',
          field,
        ),
      ];
}
