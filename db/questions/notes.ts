/** Pass-on notes, and what was done since somebody last looked. */
import { z } from 'zod';
import { capital } from '../../domain/capital.ts';
import { ACTIONS } from '../actions/index.ts';
import type { ChangeLine, NoteLine } from '../api-desk.ts';
import { identityOf, RIG_FAMILY, tellerOf, textOf } from '../caches/facts.ts';
import { factsByThing, factsOfThings } from '../caches/many.ts';
import { entryId } from '../ledger/entry.ts';
import { all, one } from '../store/statements.ts';
import { placeNamer, stockFactInWords } from './supply-words.ts';
import { type Asking, question } from './types.ts';
import { factInWords } from './words.ts';

export const notesList = question({
  name: 'notes.list',
  title: 'Pass-on notes between shifts; open ones only where asked',
  schema: z.strictObject({ open: z.boolean().optional() }) as unknown as z.ZodType<{ open?: boolean }>,
  answer: (asking, args) => notesOf(asking, args.open === true),
  example: { open: true },
});

/** Notes that nobody has closed: they are few, while closed ones only grow. */
const OPEN = `t.kind = 'note' AND NOT EXISTS (
  SELECT 1 FROM facts c WHERE c.thing = t.key AND c.kind = 'closed' AND c.voided_at IS NULL)`;

/** The notes, the newest first. */
export function notesOf(asking: Asking, openOnly: boolean): NoteLine[] {
  const name = namer(asking);
  const named = (id: unknown, table: 'units' | 'places') =>
    typeof id === 'string'
      ? (one<{ name: string }>(
          asking.db,
          `SELECT n.name FROM ${table} n JOIN things t ON t.key = n.key WHERE t.id = ?`,
          id,
        )?.name ?? null)
      : null;
  const notes = openOnly ? factsOfThings(asking.db, OPEN) : factsByThing(asking.db, 'note');
  return notes
    .flatMap(({ id, facts }): NoteLine[] => {
      const note = identityOf(facts);
      const written = facts.find(f => f.kind === 'identity');
      if (!note || !written) return [];
      const closing = facts.find(f => f.kind === 'closed');
      return [
        {
          id,
          text: String(note.text),
          unit: named(note.unit, 'units'),
          station: named(note.station, 'places'),
          on: written.effective,
          byName: name(written.id),
          recordedAt: new Date(written.recordedAt).toISOString(),
          closed: closing
            ? {
                on: closing.effective,
                byName: name(closing.id),
                why: textOf(closing.values.why),
              }
            : null,
        },
      ];
    })
    .sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : -1));
}

/** Who told a fact, by the fact's id. */
export function namer(asking: Asking): (fact: string) => string | null {
  return fact => {
    const teller = tellerOf(asking.db, fact);
    return teller && (teller.name ?? teller.by);
  };
}

export function memberNames(asking: Asking): Map<string, string> {
  return new Map(
    all<{ id: string; name: string }>(
      asking.db,
      'SELECT t.id, m.name FROM members m JOIN things t ON t.key = m.key',
    ).map(m => [m.id, m.name]),
  );
}

export const changesSince = question({
  name: 'changes.since',
  title: 'What was done since an instant, the newest first',
  schema: z.strictObject({
    since: z.iso.datetime(),
    limit: z.number().int().min(1).max(1000).optional(),
  }) as unknown as z.ZodType<{ since: string; limit?: number }>,
  answer(asking, args) {
    const since = Date.parse(args.since);
    const names = memberNames(asking);
    const total =
      one<{ n: number }>(asking.db, 'SELECT count(*) AS n FROM entries WHERE recorded_at > ?', since)?.n ?? 0;
    const entries = all<EntryRow>(
      asking.db,
      `SELECT device, seq, recorded_at AS recordedAt, by, action FROM entries WHERE recorded_at > ?
       ORDER BY key DESC LIMIT ?`,
      since,
      args.limit ?? 200,
    );
    return {
      total,
      lines: entries.map((e): ChangeLine => {
        const entry = entryId(e.device, e.seq);
        const fact = firstFact(asking, entry);
        return {
          entry,
          recordedAt: new Date(e.recordedAt).toISOString(),
          byName: e.by === null ? null : (names.get(e.by) ?? e.by),
          what: inWords(asking, e.action, fact),
          item: fact?.number == null ? null : fact.thing,
          number: fact?.number ?? null,
          thing: fact?.what ?? null,
        };
      }),
    };
  },
  example: { since: '2026-11-24T07:00:00Z' },
});

interface EntryRow {
  device: string;
  seq: number;
  recordedAt: number;
  by: string | null;
  action: string;
}

/** What an entry says first, and of what. Family and number are null where that is not a thing tracked by number. */
interface FirstFact {
  kind: string;
  values: string;
  thing: string;
  family: string | null;
  number: string | null;
  what: string | null;
  /** Set where it is of a kind of counted stock. */
  stock: number | null;
  perBox: number | null;
}

function firstFact(asking: Asking, entry: string): FirstFact | undefined {
  return one<FirstFact>(
    asking.db,
    `SELECT f.kind, f."values", t.id AS thing, i.family, i.number, coalesce(i.what, p.path, u.name, s.what) AS what,
       s.key AS stock, s.per_box AS perBox
     FROM facts f JOIN things t ON t.key = f.thing LEFT JOIN items i ON i.key = f.thing AND (i.family <> '${RIG_FAMILY}' OR f.kind IN ('record', 'owed'))
     LEFT JOIN places p ON p.key = f.thing LEFT JOIN units u ON u.key = f.thing
     LEFT JOIN stocks s ON s.key = f.thing
     WHERE f.entry = ? AND f.n = 0`,
    entry,
  );
}

/** A deed on a thing in the words of its history; another one by what it does, in short. */
function inWords(asking: Asking, action: string, fact: FirstFact | undefined): string {
  const values = fact ? (JSON.parse(fact.values) as Record<string, unknown>) : {};
  if (action === 'note.write') return `Pass-on note: ${values.text}`;
  if (action === 'note.close') return 'Pass-on note closed';
  if (action === 'notice.issue')
    return `${capital(String(values.kind))}${values.kind === 'recall' ? '' : ' notice'}: ${values.title}`;
  // What a thing was received with is on its page; here many of them stand under one line.
  if (action === 'item.receive') return 'Received';
  if (fact?.kind === 'ride') return ridden(asking, values.unit);
  if (fact?.kind === 'rig condition')
    return `${capital(String(values.condition))}${values.reason ? `: ${values.reason}` : ''}`;
  if (fact?.stock != null) return stockFactInWords(placeNamer(asking), fact.perBox, fact.kind, values);
  if (fact?.family != null) return factInWords(asking, fact.family, fact.kind, values);
  const title = ACTIONS.get(action)?.title ?? action;
  return title.split(/\s*[,:;(]/)[0] ?? title;
}

function ridden(asking: Asking, unit: unknown): string {
  const name =
    typeof unit === 'string'
      ? one<{ name: string }>(
          asking.db,
          'SELECT u.name FROM units u JOIN things t ON t.key = u.key WHERE t.id = ?',
          unit,
        )?.name
      : undefined;
  return name === undefined ? 'Ridden by no unit' : `Ridden by ${name}`;
}
