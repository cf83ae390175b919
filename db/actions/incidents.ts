/**
 * After an incident at which several companies picked up together: who was there, and the numbers that were read on
 * each rig. Nothing takes effect before it is settled.
 */
import { z } from 'zod';
import type { When } from '../../domain/calendar/when.ts';
import { sameNumber } from '../../domain/incident/numbers.ts';
import { rideAt } from '../../domain/rigs/rides.ts';
import { clockTime } from './checkoff-forms.ts';
import { id, longWords, mustBe, mustHaveFamily, notFuture, when, words } from './fields.ts';
import { action, type Look, type Refusal, refuse } from './types.ts';

const units = z.array(id).min(1).max(60);
const agencies = z.array(words).max(40);
const families = z.array(z.string()).min(1).max(40);
/** Filled in by the store: the rig that each unit rode then. */
const rigs = z.array(z.strictObject({ unit: id, rig: id })).optional();

export const incidentOpen = action({
  name: 'incident.open',
  v: 1,
  title: 'Open an incident after which things were picked up together: who was there, and what was picked up',
  schema: z.strictObject({
    name: words,
    units,
    /** Other departments, by name. */
    agencies: agencies.default([]),
    families,
    note: longWords.optional(),
    rigs,
    on: clockTime,
  }),
  entitlement: 'record',
  refs: [],
  check: (look, body) => [
    ...notFuture(look, body.on),
    ...thereRefusals(look, body.units, body.on),
    ...body.families.flatMap(familyRefusals),
  ],
  complete: (look, body) => ({ ...body, rigs: rigsAt(look, body.units, body.on) }),
  apply: (entry, { on, name, agencies: others, families: picked, note, rigs: there }) => ({
    things: [{ id: entry.id, kind: 'incident' }],
    facts: [
      {
        thing: entry.id,
        kind: 'identity',
        effective: on,
        values: {
          name,
          at: on,
          agencies: others,
          families: picked,
          rigs: there ?? [],
          ...(note ? { note } : {}),
        },
        refs: (there ?? []).flatMap(r => [r.unit, r.rig]),
      },
    ],
  }),
  isDraft: true,
  example: {
    name: 'Two-alarm fire, Mill Road',
    units: ['<unit>'],
    agencies: ['Cottonwood Basin Fire'],
    families: ['hose'],
    on: '2026-11-24T22:40',
  },
});

export const incidentAmend = action({
  name: 'incident.amend',
  v: 1,
  title: 'Amend what is known of an incident: its name, who was there, what was picked up',
  schema: z.strictObject({
    incident: id,
    name: words.optional(),
    units: units.optional(),
    agencies: agencies.optional(),
    families: families.optional(),
    note: longWords.optional(),
    rigs,
    on: when,
  }),
  entitlement: 'record',
  refs: ['incident'],
  check(look, body) {
    const known = look.incident(body.incident);
    if (!known) return noIncident(body.incident);
    const { incident, on, rigs: _rigs, ...said } = body;
    return [
      ...notFuture(look, on),
      ...(known.told.rigs.some(r => r.settled)
        ? [
            refuse(
              'settled',
              'Some of it is settled: what that did was worked out by who was there.',
              'Void the settling first, and say why; or open another incident.',
              'incident',
            ),
          ]
        : []),
      ...(body.units ? thereRefusals(look, body.units, known.told.on) : []),
      ...(body.families ?? []).flatMap(familyRefusals),
      ...(Object.values(said).every(v => v === undefined)
        ? [refuse('nothing to amend', 'Nothing is amended.', 'Say what is otherwise.', 'name')]
        : []),
    ];
  },
  complete(look, body) {
    const known = look.incident(body.incident);
    return known && body.units ? { ...body, rigs: rigsAt(look, body.units, known.told.on) } : body;
  },
  apply: (_entry, { incident, on, units: _units, ...said }) => ({
    facts: [
      {
        thing: incident,
        kind: 'identity',
        effective: on,
        values: Object.fromEntries(Object.entries(said).filter(([, v]) => v !== undefined)),
        refs: (said.rigs ?? []).flatMap(r => [r.unit, r.rig]),
      },
    ],
  }),
  isDraft: true,
  example: { incident: '&0', agencies: ['Cottonwood Basin Fire', 'Juniper Flats Fire'] },
});

export const incidentFound = action({
  name: 'incident.found',
  v: 1,
  title: 'The numbers that were read on one rig after an incident; the latest list of a rig stands',
  schema: z.strictObject({
    incident: id,
    rig: id,
    reads: z
      .array(
        z.strictObject({
          number: words,
          /** The place of the rig it was read in. */
          at: id.nullable().default(null),
          used: z.boolean().default(false),
        }),
      )
      .max(1000),
    /** The list that was seen before (null: none): what somebody else read since is not overwritten. */
    saw: id.nullable().optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['incident', 'rig'],
  check(look, body) {
    const known = look.incident(body.incident);
    if (!known) return noIncident(body.incident);
    const there = known.told.rigs.find(r => r.rig === body.rig);
    if (!there)
      return [
        refuse('not there', 'This rig was not at the incident.', 'Say first that its unit was there.', 'rig'),
      ];
    return [
      ...notFuture(look, body.on),
      ...(body.saw !== undefined && body.saw !== (there.list?.fact ?? null)
        ? [
            refuse(
              'read since',
              'Somebody else has entered a list of this rig since.',
              'Look at it, and go on from there.',
              'reads',
            ),
          ]
        : []),
      ...body.reads.flatMap(({ number, at }, i): Refusal[] => [
        ...(body.reads.findIndex(r => sameNumber(r.number) === sameNumber(number)) < i
          ? [
              refuse(
                'twice',
                `${number} is in the list twice.`,
                'Enter it once. If two things of the rig bear it, settle that on their pages.',
                `reads.${i}.number`,
              ),
            ]
          : []),
        ...(at === null || isOn(look, at, body.rig)
          ? []
          : [
              refuse(
                'not found',
                `No place of this rig has the id ${at}.`,
                'Name a place of the rig.',
                `reads.${i}.at`,
              ),
            ]),
      ]),
    ];
  },
  apply: (entry, { incident, rig, reads, on }) => ({
    facts: [
      {
        thing: incident,
        kind: 'found',
        effective: on,
        values: { rig, reads, by: entry.by },
        refs: [rig],
      },
    ],
  }),
  isDraft: true,
  example: { incident: '&0', rig: '&1', reads: [{ number: '31-107', used: true }, { number: '33-124' }] },
});

export function noIncident(incident: string): Refusal[] {
  return [refuse('not found', `No incident has the id ${incident}.`, 'Find it in the list.', 'incident')];
}

const rigsAt = (look: Look, there: readonly string[], on: When) => {
  const rides = look.rides();
  return there.flatMap(unit => {
    const ride = rideAt(rides, unit, on);
    return ride ? [{ unit, rig: ride.rig }] : [];
  });
};

/** Every unit is one, is named once, and rode a rig then. */
function thereRefusals(look: Look, there: readonly string[], on: When): Refusal[] {
  const rides = look.rides();
  return there.flatMap((unit, i) => {
    const field = `units.${i}`;
    const unknown = mustBe(look, unit, 'unit', field);
    if (unknown.length > 0) return unknown;
    if (there.indexOf(unit) < i) return [refuse('twice', 'A unit is named twice.', 'Name it once.', field)];
    return rideAt(rides, unit, on)
      ? []
      : [
          refuse(
            'no rig',
            'A unit rode no rig at that time.',
            'Say first which rig its crew took, or correct the time.',
            field,
          ),
        ];
  });
}

function familyRefusals(family: string): Refusal[] {
  const known = mustHaveFamily(family);
  if ('problems' in known) return known.problems.map(p => ({ ...p, field: 'families' }));
  return family === 'apparatus'
    ? [refuse('a rig', 'A rig is not picked up.', 'Name what was picked up.', 'families')]
    : [];
}

/** Whether a place is the rig or lies in it; a circle that two devices made between them is cut. */
function isOn(look: Look, place: string, rig: string): boolean {
  const seen = new Set<string>();
  for (let at: string | null = place; at !== null && !seen.has(at); at = look.placeUnder(at)) {
    if (at === rig) return true;
    seen.add(at);
  }
  return false;
}
