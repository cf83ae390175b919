/** The walk-round of a rig: what was looked at and read, judged by the criteria, and what that does to the rig. */
import { z } from 'zod';
import { afterTold } from '../../domain/calendar/when.ts';
import { CRITERIA } from '../../domain/checkoffs/criteria.ts';
import { judgeRig } from '../../domain/checkoffs/walk-round.ts';
import { id, longWords, when, words } from './fields.ts';
import { mustBeRig } from './rigs.ts';
import { action, type FactDraft, refuse } from './types.ts';

/** What the answers came to on that day, by the criteria of that day. */
const judged = z.strictObject({
  out: z.array(z.string()),
  limited: z.array(z.string()),
  notes: z.array(z.string()),
  notJudged: z.array(z.string()),
  unanswered: z.number().int(),
  /** What the rig is put into by it; null where it is so already, or nothing puts it there. */
  takes: z.enum(['out of service', 'limited']).nullable(),
});

export const rigWalkRound = action({
  name: 'rig.walkRound',
  v: 1,
  title: 'Walk round a rig and check it; a criterion that puts it out does so with this signature',
  schema: z.strictObject({
    rig: id,
    /** By criterion: a value of its choice, a figure as text, or `not fitted`. */
    answers: z.record(z.string(), words),
    note: longWords.optional(),
    /** Filled in by the store. */
    judged: judged.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['rig'],
  check(look, body) {
    const { notJudged, unanswered } = judgeRig(body.answers);
    return [
      ...mustBeRig(look, body.rig, body.on),
      ...(unanswered.length === CRITERIA.length
        ? [refuse('nothing', 'Nothing was looked at.', 'Answer what you have seen.', 'answers')]
        : []),
      ...notJudged
        .filter(f => !f.isRead)
        .map(f =>
          refuse('bad answer', `${f.text}.`, 'Choose one of its answers, or write a figure.', f.criterion),
        ),
    ];
  },
  complete(look, body) {
    const { out, limited, notes, notJudged, unanswered } = judgeRig(body.answers);
    const now = look.rigCondition(body.rig);
    const texts = (findings: readonly { text: string }[]) => findings.map(f => f.text);
    const takes =
      out.length > 0 && now?.condition !== 'out of service'
        ? ('out of service' as const)
        : out.length === 0 && limited.length > 0 && (now === null || now.condition === 'in service')
          ? ('limited' as const)
          : null;
    return {
      ...body,
      on: afterTold(body.on, now?.effective ?? null) as typeof body.on,
      judged: {
        out: texts(out),
        limited: texts(limited),
        notes: texts(notes),
        notJudged: texts(notJudged),
        unanswered: unanswered.length,
        takes,
      },
    };
  },
  apply(_entry, { rig, answers, note, judged: said, on }) {
    const at = { thing: rig, effective: on };
    const facts: FactDraft[] = [
      { ...at, kind: 'walk-round', values: { answers, ...(note ? { note } : {}), ...said } },
      {
        ...at,
        kind: 'record',
        values: {
          activity: 'operational check',
          // What was not looked at was not checked; a rig that goes on with limits has been.
          outcome: said && said.out.length > 0 ? 'fail' : said?.unanswered === 0 ? 'pass' : 'not completed',
          ...(note ? { note } : {}),
        },
      },
    ];
    if (said?.takes)
      facts.push({
        ...at,
        kind: 'rig condition',
        values: {
          condition: said.takes,
          reason: (said.takes === 'limited' ? said.limited : said.out).join('; '),
        },
      });
    return { facts };
  },
  example: { rig: '&1', answers: { 'leak.fuel': 'none', 'tires.steering-tread': '7' } },
});
