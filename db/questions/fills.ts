/** The fill log: what was filled, by whom, to what, and what spoke against it. */
import { z } from 'zod';
import { describe as inWords } from '../../domain/describe.ts';
import type { AgainstFill } from '../../domain/supply/fill-against.ts';
import type { FillLine, FillLog, FillLogFilter } from '../api-supply.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { memberNames } from './notes.ts';
import { type Asking, question } from './types.ts';

/** What the log is narrowed by, for whoever prints it too. */
export const fillLogFields = {
  from: day.optional(),
  to: day.optional(),
  station: z.string().max(200).optional(),
  compressor: z.string().max(80).optional(),
  text: z.string().max(200).optional(),
  against: z.boolean().optional(),
};

export const fillsList = question({
  name: 'fills.list',
  title:
    'The fill log, the latest first: by days, station, compressor or words, or only what was told against',
  schema: z.strictObject({
    ...fillLogFields,
    limit: z.number().int().min(1).max(100_000).optional(),
  }) as unknown as z.ZodType<FillLogFilter>,
  answer(asking, args): FillLog {
    const to = args.to ?? (textOrNull(dayAsked(asking, undefined)) as string);
    const words = (args.text ?? '').toLowerCase().split(/\s+/).filter(Boolean);
    const compressors = compressorsOf(asking);
    const lines = linesOf(asking, args.from ?? '', to, compressors).filter(
      l =>
        (args.station === undefined || l.station === args.station) &&
        (args.compressor === undefined ||
          [l.compressor?.item, l.compressor?.number].includes(args.compressor)) &&
        (!args.against || l.against.some(a => a.effect !== 'note')) &&
        words.every(w => textOf(l).includes(w)),
    );
    return {
      from: args.from ?? null,
      to,
      total: lines.length,
      against: lines.filter(l => l.against.some(a => a.effect !== 'note')).length,
      pulled: lines.filter(l => l.pulled).length,
      rows: lines.slice(0, args.limit ?? 2000),
      compressors: compressors.filter(c => c.living === 1).map(({ living: _living, ...c }) => c),
    };
  },
  example: { from: '2026-11-01', to: '2026-11-25' },
});

const textOf = (l: FillLine) =>
  [
    l.number,
    l.what,
    l.filler,
    l.owner,
    l.compressor?.number,
    l.station,
    l.note,
    ...l.against.map(a => a.says),
  ]
    .join(' ')
    .toLowerCase();

interface Row {
  entry: string;
  kind: string;
  on: string;
  values: string;
  item: string | null;
  number: string | null;
  what: string | null;
  station: string | null;
  by: string | null;
}

/** What a fill says of itself, on a cylinder of ours and on one that is not. */
interface Told {
  number?: string;
  owner?: string;
  marking?: string;
  servicePressure_psi?: number;
  readings?: { gauge_psi?: number | string; from_psi?: number | string };
  by?: string;
  note?: string;
  fill?: { compressor: string | null; hydroDate: string | null; against: AgainstFill[]; pulled: boolean };
}

type Compressor = FillLog['compressors'][number] & { living: number };

function compressorsOf(asking: Asking): Compressor[] {
  return all<Compressor>(
    asking.db,
    `SELECT t.id AS item, i.number, i.what, s.name AS station,
       i.condition NOT IN ('retired', 'disposed') AS living
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key
     LEFT JOIN places s ON s.key = p.station WHERE i.family = 'compressor' ORDER BY i.number_sort`,
  );
}

/** Fills of days, and of partial dates that touch them; the latest first. */
function linesOf(asking: Asking, from: string, to: string, compressors: readonly Compressor[]): FillLine[] {
  const names = memberNames(asking);
  const byId = new Map(compressors.map(c => [c.item, c]));
  const inDays = `f.voided_at IS NULL AND substr(f.effective, 1, 10) <= :to
    AND f.effective >= substr(:from, 1, min(10, length(f.effective)))`;
  return all<Row>(
    asking.db,
    `SELECT f.entry, f.kind, f.effective AS "on", f."values", t.id AS item, i.number, i.what, s.name AS station, e.by
     FROM items i JOIN things t ON t.key = i.key JOIN facts f ON f.thing = i.key
     JOIN entries e ON e.device = f.device AND e.seq = f.seq
     LEFT JOIN places p ON p.key = i.place_key LEFT JOIN places s ON s.key = p.station
     WHERE i.family = 'cylinder' AND f.kind = 'record' AND ${inDays}
       AND f."values" ->> '$.activity' = 'recharge' AND f."values" ->> '$.outcome' = 'pass'
     UNION ALL
     SELECT f.entry, f.kind, f.effective, f."values", NULL, NULL, NULL, NULL, e.by
     FROM things t JOIN facts f ON f.thing = t.key JOIN entries e ON e.device = f.device AND e.seq = f.seq
     WHERE t.kind = 'fill' AND f.kind = 'identity' AND ${inDays}
     ORDER BY "on" DESC, f.entry DESC`,
    { from, to },
  ).map((row): FillLine => {
    const told = JSON.parse(row.values) as Told;
    const { fill, readings = {} } = told;
    const compressor = fill?.compressor ? byId.get(fill.compressor) : undefined;
    const toldBy = row.by === null ? '' : (names.get(row.by) ?? row.by);
    return {
      entry: row.entry,
      on: row.on,
      filler: told.by ?? toldBy,
      toldBy,
      item: row.item,
      number: row.number ?? told.number ?? '',
      what: row.what ?? inWords('cylinder', psiOf(told)),
      owner: told.owner ?? null,
      marking: told.marking ?? null,
      hydroDate: fill?.hydroDate ?? null,
      from_psi: numberOf(readings.from_psi),
      to_psi: numberOf(readings.gauge_psi),
      compressor: compressor ? { item: compressor.item, number: compressor.number } : null,
      station: compressor?.station ?? row.station,
      against: fill?.against ?? [],
      pulled: fill?.pulled ?? false,
      note: told.note ?? null,
      checked: fill !== undefined,
    };
  });
}

const psiOf = ({ servicePressure_psi }: Told) =>
  servicePressure_psi === undefined ? {} : { servicePressure_psi };

const numberOf = (value: number | string | undefined): number | null =>
  value === undefined ? null : Number(value);
