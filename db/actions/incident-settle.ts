/** Settling an incident: what was read takes effect as a whole, in one entry. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { firstDay, type When } from '../../domain/calendar/when.ts';
import { USED } from '../../domain/incident/afterUse.ts';
import { choiceProblems, type Effects, effectsOf, MISSING_AS } from '../../domain/incident/settlement.ts';
import type { IncidentSeen } from '../caches/incidents.ts';
import { id, longWords, notFuture, when, words } from './fields.ts';
import { noIncident } from './incidents.ts';
import { action, type FactDraft, refuse } from './types.ts';

const where = { rig: id, number: words };
const effects = z.strictObject({
  lies: z.array(z.strictObject({ item: id, ...where, place: id, again: z.boolean(), moved: z.boolean() })),
  missing: z.array(
    z.strictObject({
      item: id,
      ...where,
      where: words.nullable(),
      reported: z.boolean(),
      likely: z.string().nullable(),
    }),
  ),
  left: z.array(z.strictObject({ item: id, ...where })),
  foreign: z.array(z.strictObject({ ...where, whose: words.nullable() })),
  undecided: z.array(z.strictObject(where)),
  used: z.array(z.strictObject({ item: id, number: words, owes: z.string().nullable() })),
});

export const incidentSettle = action({
  name: 'incident.settle',
  v: 1,
  title:
    'Settle an incident: found things lie where their numbers were read, what is missing is reported, what was used owes its look',
  schema: z.strictObject({
    incident: id,
    /** What becomes of each thing that was found nowhere. */
    missing: z
      .array(z.strictObject({ item: id, as: z.enum(MISSING_AS), where: words.optional() }))
      .max(1000)
      .default([]),
    /** Of doubtful numbers, which thing each is. */
    which: z
      .array(z.strictObject({ ...where, item: id }))
      .max(1000)
      .default([]),
    /** Whose foreign numbers are taken for. */
    foreign: z
      .array(z.strictObject({ ...where, whose: words }))
      .max(1000)
      .default([]),
    note: longWords.optional(),
    /** The lists that were seen (null: none of that rig): what was read since is not settled unseen. */
    saw: z.record(z.string(), id.nullable()).optional(),
    /** Filled in by the store: what it does, and by which lists. */
    does: z
      .strictObject({
        name: words,
        effects,
        lists: z.record(z.string(), id),
        /** When of the day it was so of each thing of which something was told that day with a time. */
        after: z.record(z.string(), when),
      })
      .optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['incident'],
  check(look, body) {
    const known = look.incident(body.incident);
    if (!known) return noIncident(body.incident);
    const { told, pickup } = known;
    const isChanged = told.rigs.some(
      r => body.saw !== undefined && (body.saw[r.rig] ?? null) !== (r.list?.fact ?? null),
    );
    return [
      ...notFuture(look, body.on),
      ...(firstDay(body.on) < firstDay(told.on)
        ? [
            refuse(
              'before it',
              `The incident was on ${showWhen(told.on)}.`,
              'Enter the day the numbers were read.',
              'on',
            ),
          ]
        : []),
      ...(told.rigs.some(r => r.list !== null && !r.settled)
        ? []
        : [
            refuse(
              'nothing read',
              'No list has come in that is not settled.',
              'Enter the numbers that were read on a rig first.',
              'incident',
            ),
          ]),
      ...(isChanged
        ? [
            refuse(
              'read since',
              'Another list has come in since.',
              'Look again at what it comes to, then settle.',
              'incident',
            ),
          ]
        : []),
      ...choiceProblems(pickup, body).map(p => refuse(p.code, p.wrong, p.todo, p.field)),
    ];
  },
  complete(look, body) {
    const known = look.incident(body.incident);
    if (!known) return body;
    const { told, pickup, readings, owes } = known;
    const does = effectsOf(pickup, readings, body, thing => owes(thing, body.on));
    const things = [...does.lies, ...does.missing, ...does.used].map(t => t.item);
    // Each after whatever was told of it that day with a time.
    const after = Object.fromEntries(
      things.flatMap(item => {
        const last = body.on.length === 10 ? look.lastToldOn(item, body.on) : null;
        return last === null ? [] : [[item, last]];
      }),
    );
    return { ...body, does: { name: told.name, effects: does, lists: listsOf(known), after } };
  },
  apply(entry, { incident, on, note, does }) {
    if (!does) return {};
    const { name, effects: done, lists, after } = does;
    const at = (item: string) => after[item] ?? on;
    const settled: FactDraft = {
      thing: incident,
      kind: 'settled',
      effective: on,
      values: { ...done, saw: lists, note: note ?? null, by: entry.by },
    };
    return {
      facts: [
        settled,
        ...done.lies.flatMap(l => lieFacts(l, name, at(l.item))),
        ...done.missing.flatMap(m => missingFacts(m, name, at(m.item))),
        ...done.used.flatMap(({ item, owes }): FactDraft[] => [
          { thing: item, kind: 'used', effective: at(item), values: { at: name } },
          ...(owes === null
            ? []
            : [
                {
                  thing: item,
                  kind: 'owed',
                  effective: at(item),
                  values: { activities: [owes], because: USED, note: name },
                },
              ]),
        ]),
      ],
    };
  },
  example: {
    incident: '&0',
    missing: [{ item: '&3', as: 'searched', where: 'Both beds of Engine 31' }],
  },
});

/** The lists that are settled by it, by rig. */
function listsOf({ told }: IncidentSeen): Record<string, string> {
  return Object.fromEntries(
    told.rigs.flatMap(r => (r.list === null || r.settled ? [] : [[r.rig, r.list.fact]])),
  );
}

function lieFacts({ item, place, again }: Effects['lies'][number], name: string, on: When): FactDraft[] {
  const lies: FactDraft = {
    thing: item,
    kind: 'place',
    effective: on,
    values: { place, how: 'number read', note: name },
    refs: [place],
  };
  // As whatever is found again: nobody knows yet what it went through.
  return again
    ? [
        {
          thing: item,
          kind: 'condition',
          effective: on,
          values: { condition: 'tagged out', reason: `Found again after it was missing: ${name}` },
        },
        lies,
      ]
    : [lies];
}

function missingFacts(
  { item, where: searched, reported, likely }: Effects['missing'][number],
  name: string,
  on: When,
): FactDraft[] {
  const report: FactDraft = {
    thing: item,
    kind: 'condition',
    effective: on,
    values: {
      condition: 'missing',
      reason: `Not found after ${name}${likely === null ? '' : `; perhaps with ${likely}`}`,
    },
  };
  return [
    ...(reported ? [] : [report]),
    ...(searched === null
      ? []
      : [{ thing: item, kind: 'searched', effective: on, values: { where: searched, note: name } }]),
  ];
}
