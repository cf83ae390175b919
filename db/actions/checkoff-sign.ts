/** Signing a check-off: what was found takes effect as a whole, in one entry. */
import { z } from 'zod';
import type { When } from '../../domain/calendar/when.ts';
import {
  type Exception,
  isBySeal,
  markOf,
  type PlaceMark,
  placesOf,
  unfinished,
} from '../../domain/checkoffs/marks.ts';
import { clockTime, linesOf, noCheckoff, placeMark, stillDraft } from './checkoff-forms.ts';
import { type Gauge, gauge, gaugesOf } from './checkoff-gauges.ts';
import { id, notFuture, when } from './fields.ts';
import { sealSeen } from './kits.ts';
import { action, type FactDraft, refuse } from './types.ts';

/** What a signed check-off says, filled in from its marks when it is signed. */
const sheet = z.strictObject({
  of: id,
  rig: id.nullable(),
  lines: z.number().int(),
  /** What the lines that something was found wrong with were called, by their names in the ledger. */
  called: z.record(z.string(), z.string()),
  /** Lines that are made sure of by the seals of their kits. */
  bySeal: z.array(z.string()).optional(),
  marks: z.array(placeMark),
  /** Pressures of packs and cylinders that were named with them. */
  gauges: z.array(gauge),
  /** When what was found was so: the end of the sheet. */
  at: when,
});

interface SheetBody {
  of: string;
  rig: string | null;
  lines: number;
  called: Readonly<Record<string, string>>;
  bySeal?: readonly string[];
  marks: readonly PlaceMark[];
  gauges: readonly Gauge[];
  at: When;
}

export const checkoffSign = action({
  name: 'checkoff.sign',
  v: 2,
  title:
    'Sign a check-off: what was found takes effect, and nothing of it is changed afterwards but in the open',
  schema: z.strictObject({
    checkoff: id,
    finished: clockTime,
    /** Filled in by the store from the marks. */
    sheet: sheet.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['checkoff'],
  check(look, body) {
    const known = look.checkoff(body.checkoff);
    if (!known) return noCheckoff(body.checkoff);
    const left = unfinished(linesOf(look, known), known.marks);
    return [
      ...notFuture(look, body.on),
      ...notFuture(look, body.finished, 'finished', 'The end,'),
      ...stillDraft(known),
      ...(body.finished < known.started
        ? [
            refuse(
              'ends before it begins',
              `It ended ${body.finished.slice(11)} and began ${known.started.slice(11)}.`,
              'Enter the times from the sheet.',
              'finished',
            ),
          ]
        : []),
      ...left
        .slice(0, 20)
        .map(u =>
          refuse(
            'unfinished',
            `${u.place}: ${u.what}.`,
            u.line === null
              ? 'Go through it, or say why it was left out.'
              : 'Enter it, or write what is wrong with it.',
            u.place,
          ),
        ),
    ];
  },
  complete(look, body) {
    const known = look.checkoff(body.checkoff);
    if (!known) return body;
    const lines = linesOf(look, known);
    // As they stand, without who told them: the ledger knows.
    const marks = placesOf(lines).flatMap((place): PlaceMark[] => {
      const told = markOf(known.marks, place);
      if (!told) return [];
      const { fact: _fact, byName: _by, ...mark } = told;
      return [mark];
    });
    const named = new Set(marks.flatMap(m => m.exceptions.map(e => e.line)));
    const called = Object.fromEntries(lines.filter(l => named.has(l.line)).map(l => [l.line, l.what]));
    const bySeal = lines.filter(isBySeal).map(l => l.line);
    const sheet: SheetBody = {
      of: known.of,
      rig: known.rig,
      lines: lines.length,
      called,
      ...(bySeal.length > 0 ? { bySeal } : {}),
      marks,
      gauges: gaugesOf(look, lines, marks),
      at: body.finished,
    };
    return { ...body, sheet: sheet as unknown as typeof body.sheet };
  },
  apply(entry, body) {
    if (!body.sheet) return {};
    const { gauges, at, ...sheet } = body.sheet;
    const facts: FactDraft[] = [
      {
        thing: body.checkoff,
        kind: 'signed',
        effective: body.on,
        values: { finished: body.finished, by: entry.by, ...sheet },
      },
    ];
    const things: { id: string; kind: string }[] = [];
    const bySeal = new Set(sheet.bySeal);
    for (const mark of sheet.marks) {
      facts.push(...seenThings(mark, bySeal, at), ...sealsSeen(mark, bySeal, at));
      for (const e of mark.exceptions) {
        if (e.defect !== null) {
          facts.push({
            thing: e.defect,
            kind: 'still so',
            effective: body.on,
            values: { checkoff: body.checkoff, note: e.note, ...withPhotos(e) },
          });
          continue;
        }
        const defect = `${entry.id}.${things.length.toString(36)}`;
        things.push({ id: defect, kind: 'defect' });
        facts.push(
          ...defectFacts(
            defect,
            { ...e, place: mark.place, isSeal: e.kind === 'damaged' && bySeal.has(e.line ?? '') },
            sheet,
            body,
            entry.by,
          ),
        );
        facts.push(...deedsOf(e, mark, at));
      }
    }
    // Last, so that what the entry said before is named as it always was.
    for (const { item, reading, unit } of gauges)
      facts.push({ thing: item, kind: 'gauge', effective: at, values: { reading, unit } });
    return { things, facts };
  },
  // What was signed before pressures and times were told of the things says of them what it said.
  upgrade: (_v, body) => (body.sheet ? { ...body, sheet: { ...body.sheet, gauges: [], at: body.on } } : body),
  example: { checkoff: '&4', finished: '2026-11-25T07:40' },
});

/** What was read by its number or operated was seen, there and then. */
function seenThings(mark: PlaceMark, bySeal: ReadonlySet<string>, on: When): FactDraft[] {
  const { at } = mark;
  if (at === null) return [];
  const worked = mark.operated.flatMap(({ item, works, line }) =>
    item !== null && works ? [[item, bySeal.has(line) ? 'seal intact' : 'operated'] as const] : [],
  );
  const how = new Map([...mark.seen.map(item => [item, 'number read'] as const), ...worked]);
  return [...how].map(([item, known]) => ({
    thing: item,
    kind: 'place',
    effective: on,
    values: { place: at, how: known },
    refs: [at],
  }));
}

/** What was seen of the seals of kits. A seal that is not as it was left stands against its kit as damaged. */
function sealsSeen(mark: PlaceMark, bySeal: ReadonlySet<string>, on: When): FactDraft[] {
  return [
    ...mark.operated.flatMap(({ line, item, works, reading }) =>
      item !== null && bySeal.has(line) ? [sealSeen(item, reading, works, on)] : [],
    ),
    ...mark.exceptions.flatMap(({ line, item, kind, reading }) =>
      item !== null && line !== null && kind === 'damaged' && bySeal.has(line)
        ? [sealSeen(item, reading, reading !== null, on)]
        : [],
    ),
  ];
}

export interface DefectFound
  extends Pick<Exception, 'line' | 'item' | 'kind' | 'short' | 'reading' | 'note' | 'next' | 'photos'> {
  place: string | null;
  /** The seal of a kit that was not as it was left: a new seal settles it. */
  isSeal: boolean;
}

function defectFacts(
  defect: string,
  found: DefectFound,
  sheet: { of: string; rig: string | null; called: Readonly<Record<string, string>> },
  body: { checkoff: string; on: When },
  by: string | null,
): FactDraft[] {
  const { line, item, kind, short, reading, note, next, place, isSeal } = found;
  return [
    {
      thing: defect,
      kind: 'identity',
      effective: body.on,
      values: {
        of: sheet.of,
        rig: sheet.rig,
        checkoff: body.checkoff,
        line,
        what: line === null ? '' : (sheet.called[line] ?? ''),
        item,
        kind,
        short,
        reading,
        note,
        next,
        place,
        by,
        ...(isSeal ? { seal: true } : {}),
        ...withPhotos(found),
      },
      refs: [sheet.of, body.checkoff, ...(item === null ? [] : [item])],
    },
  ];
}

const withPhotos = ({ photos }: Pick<Exception, 'photos'>) => (photos ? { photos } : {});

/** What the step that was chosen does to the things themselves. */
function deedsOf(e: Exception, mark: PlaceMark, on: When): FactDraft[] {
  if (e.item === null) return [];
  const said = e.note ?? `${e.kind} at a check-off of ${mark.place}`;
  const state = (condition: string): FactDraft => ({
    thing: e.item as string,
    kind: 'condition',
    effective: on,
    values: { condition, reason: said, ...withPhotos(e) },
  });
  const lies = (item: string, place: string): FactDraft => ({
    thing: item,
    kind: 'place',
    effective: on,
    values: { place, how: 'sight' },
    refs: [place],
  });
  switch (e.next) {
    case 'tag out':
      return [state('tagged out')];
    case 'report missing':
      return [state('missing')];
    case 'move':
      return e.to === null ? [] : [lies(e.item, e.to)];
    case 'swap':
      return [
        state(e.kind === 'missing' ? 'missing' : 'tagged out'),
        ...(e.to === null ? [] : [lies(e.item, e.to)]),
        ...(e.with === null || mark.at === null ? [] : [lies(e.with, mark.at)]),
      ];
    default:
      return [];
  }
}
