/** What was done: an inspection, test or service with its outcome and readings; and the void of anything. */
import { z } from 'zod';
import { OUTCOMES } from '../../domain/facts.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { FULL_COUNT } from '../../domain/rulebook/kit.ts';
import { frozen } from './condition.ts';
import { id, longWords, mustBe, photos, valueProblem, values, when, words } from './fields.ts';
import { deedOnItem, familyOfItem, gone } from './items.ts';
import { action, type Refusal, refuse } from './types.ts';

export const recordAdd = action({
  name: 'record.add',
  v: 1,
  title: 'Record an inspection, test or service that was done',
  schema: z.strictObject({
    item: id,
    activity: z.string(),
    outcome: z.enum(OUTCOMES),
    readings: values.optional(),
    performedBy: words.optional(),
    agency: id.optional(),
    /** A requalifier's identification number where the agency itself is not on file. */
    rin: words.optional(),
    note: longWords.optional(),
    photos: photos.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['item', 'agency'],
  family: familyOfItem,
  check(look, body, { fromSheet }) {
    const item = look.item(body.item);
    const early = deedOnItem(look, body.item, body.on, 'rigs too');
    if (!item) return early;
    const family = familyOf(item.family);
    const activity = family?.activities.find(a => a.id === body.activity);
    if (!family || !activity)
      return [
        ...early,
        refuse(
          'unknown activity',
          `${body.activity} is not done to a ${family?.title.toLowerCase() ?? 'thing'}.`,
          `Use one of: ${family?.activities.map(a => a.id).join(', ')}.`,
          'activity',
        ),
      ];
    const problems: Refusal[] = [
      ...early,
      ...(body.activity === FULL_COUNT && body.outcome === 'pass'
        ? [
            refuse(
              'not counted',
              'A full count is told by what was counted.',
              'Count the kit and put a new seal on it (kit.seal).',
              'activity',
            ),
          ]
        : []),
      ...gone(look, body.item, 'tested'),
      ...frozen(look, body.item, 'record.add'),
      ...mustBe(look, body.agency, 'agency', 'agency'),
    ];
    for (const [key, v] of Object.entries(body.readings ?? {})) {
      const reading = activity.readings.find(r => r.key === key);
      const wrong = reading ? valueProblem(reading, v, look.today) : null;
      if (!reading || wrong)
        problems.push(
          refuse(
            'bad reading',
            reading ? `${reading.title} ${wrong?.wrong}` : `${activity.title} has no reading ${key}.`,
            wrong?.todo ?? `Use one of: ${activity.readings.map(r => r.key).join(', ') || 'none'}.`,
            `readings.${key}`,
          ),
        );
    }
    const rin = body.rin ?? (body.agency ? look.agency(body.agency)?.rin : null);
    // What an old sheet says was done is taken as it stands; who did it may not be on the sheet.
    if (activity.outside && !rin && !fromSheet)
      problems.push(
        refuse(
          'RIN owed',
          `A ${activity.id} counts only from a requalifier with a RIN (49 CFR 180.205(b)).`,
          'Name the agency that did it, or its RIN.',
          'agency',
        ),
      );
    return problems;
  },
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.item,
        kind: 'record',
        effective: body.on,
        values: {
          activity: body.activity,
          outcome: body.outcome,
          ...(body.readings ? { readings: body.readings } : {}),
          ...(body.performedBy ? { by: body.performedBy } : {}),
          ...(body.agency ? { agency: body.agency } : {}),
          ...(body.rin ? { rin: body.rin } : {}),
          ...(body.note ? { note: body.note } : {}),
          ...(body.photos ? { photos: body.photos } : {}),
        },
        refs: body.agency ? [body.agency] : [],
      },
    ],
  }),
  example: {
    item: '&3',
    activity: 'service test',
    outcome: 'pass',
    readings: { testPressure_psi: 300 },
    on: '2026-11-25',
  },
});

export const voidDeed = action({
  name: 'void',
  v: 1,
  title:
    'Void a fact (entry:n), an entry, or a whole act (batch:entry), and say why; it stays readable in the ledger',
  schema: z.strictObject({ target: id, why: longWords }),
  entitlement: 'void',
  refs: ['target'],
  family: (look, body) => look.familyOfTarget(body.target),
  check(look, body) {
    const { facts, already, isVoid, dependants } = look.voiding(body.target);
    if (isVoid)
      return [refuse('void of a void', 'A void is not voided.', 'Do the deed again instead.', 'target')];
    if (already)
      return [refuse('already void', 'It was voided before.', 'Nothing is left to void.', 'target')];
    if (facts === 0)
      return [
        refuse(
          'not found',
          `Nothing has the id ${body.target}.`,
          'Name a fact, an entry or a batch from a history.',
          'target',
        ),
      ];
    if (dependants.length > 0)
      return [
        refuse(
          'depended on',
          `Later facts depend on it: ${dependants.join('; ')}.`,
          'Void those first, the latest before the earlier.',
          'target',
        ),
      ];
    return [];
  },
  apply: (_entry, body) => ({ voids: [{ target: body.target, why: body.why }] }),
  example: { target: '&4', why: 'Entered on the wrong hose' },
});
