/** Everything out, in open formats: a family as CSV, the ledger as JSON Lines. */

import Papa from 'papaparse';
import { z } from 'zod';
import { dayText } from '../../domain/calendar/day.ts';
import type { Values } from '../../domain/facts.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { readBook } from '../caches/book.ts';
import { headsOf } from '../ledger/verify.ts';
import { all } from '../store/statements.ts';
import { dueRowsOf } from './due.ts';
import { day, dayAsked } from './fields.ts';
import { CannotAnswer, question } from './types.ts';

export const exportItems = question({
  name: 'export.items',
  title: 'Every thing of a family with its attributes, place, condition and dates, as CSV',
  schema: z.strictObject({ family: z.string(), on: day.optional() }) as unknown as z.ZodType<{
    family: string;
    on?: string;
  }>,
  answer(asking, args) {
    const family = familyOf(args.family);
    if (!family)
      throw new CannotAnswer(
        'unknown family',
        `There is no family ${args.family}.`,
        'Use a family of the rule book.',
        'family',
      );
    const on = dayAsked(asking, args.on);
    const rules = (readBook(asking.db).versions.get(family.id) ?? []).map(v => v.requirement);
    const adopted = [...new Map(rules.map(r => [r.id, r])).values()];
    const shared = new Set(adopted.map(r => r.title).filter((t, i, all) => all.indexOf(t) !== i));
    const headed = adopted.map(r => ({
      id: r.id,
      title: shared.has(r.title) ? `${r.title} (${r.id})` : r.title,
    }));
    const heading = [
      'Number',
      'Serial',
      ...family.attributes.map(a => (a.unit ? `${a.title} (${a.unit})` : a.title)),
      'Place',
      'Assignment',
      'Condition',
      ...headed.flatMap(({ title }) => [`${title}: last`, `${title}: due`, `${title}: state`]),
    ];
    const rows = all<{
      key: number;
      number: string;
      serial: string | null;
      attributes: string;
      place: string | null;
      assignment: string | null;
      condition: string;
    }>(
      asking.db,
      `SELECT i.key, i.number, i.serial, i.attributes, p.path AS place, i.assignment, i.condition
       FROM items i LEFT JOIN places p ON p.key = i.place_key WHERE i.family = ? ORDER BY i.number_sort`,
      family.id,
    ).map(row => {
      const attributes = JSON.parse(row.attributes) as Values;
      const due = dueRowsOf(asking, row.key, on);
      return [
        row.number,
        row.serial ?? '',
        ...family.attributes.map(a => attributes[a.key] ?? ''),
        row.place ?? '',
        row.assignment ?? '',
        row.condition,
        ...headed.flatMap(({ id }) => {
          const d = due.find(r => r.requirement === id);
          return [d?.lastOn ?? '', d?.dueOn ?? '', d?.state ?? ''];
        }),
      ];
    });
    // Cells that a spreadsheet would take for a formula are kept as text.
    const text = Papa.unparse([heading, ...rows], { newline: '\r\n', escapeFormulae: true });
    return { name: `${family.id}-${dayText(on)}.csv`, text: `\ufeff${text}\r\n` };
  },
  example: { family: 'hose' },
});

export const exportLedger = question({
  name: 'export.ledger',
  title: 'The ledger as JSON Lines: each line is an entry’s exact stored text',
  schema: z.strictObject({}) as unknown as z.ZodType<Record<string, never>>,
  answer(asking) {
    const texts = all<{ text: string }>(asking.db, 'SELECT text FROM entries ORDER BY clock, device').map(
      e => e.text,
    );
    return { name: `ledger-${dayText(asking.today)}.jsonl`, text: `${texts.join('\n')}\n` };
  },
  example: {},
});

export const ledgerHeads = question({
  name: 'ledger.heads',
  title: 'The newest entry of each device: an anchor to keep on paper or with a backup',
  schema: z.strictObject({}) as unknown as z.ZodType<Record<string, never>>,
  answer(asking) {
    const devices = headsOf(asking.db);
    return { entries: devices.reduce((sum, d) => sum + d.seq, 0), devices };
  },
  example: {},
});
