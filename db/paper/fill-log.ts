/** The fill log, for an inspector's file: who filled which bottle when, the hydro date that was checked, the pressure. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { againstWords } from '../../domain/supply/fill-against.ts';
import { fillCautions } from '../../domain/supply/fill-cautions.ts';
import type { FillLine, FillLogFilter } from '../api-supply.ts';
import { fillsList } from '../questions/fills.ts';
import type { Asking } from '../questions/types.ts';
import { counted, dateText, figure } from './dates.ts';
import { beforeYouStart, type Sheet, titled } from './frame.ts';
import { figureCell, type Head, listTable, monoCell } from './tables.ts';

const HEADS: readonly Head[] = [
  { head: 'Filled', width: 82, figure: true },
  { head: 'Filler', width: 76 },
  { head: 'Cylinder', width: 58 },
  { head: 'Hydro checked', width: 66, figure: true },
  { head: 'From, psi', width: 42, figure: true },
  { head: 'To, psi', width: 40, figure: true },
  { head: 'Filled at', width: 46 },
  { head: 'What spoke against it', width: '*' },
];

/** The most lines that one paper holds. */
const MOST = 5000;

/** The log of some days, the oldest fill first, as a log is kept. */
export async function fillLog(asking: Asking, filter: FillLogFilter, on: string): Promise<Sheet> {
  const log = await fillsList.answer(asking, { limit: MOST, ...filter });
  const days =
    log.from === null
      ? `through ${dateText(log.to)}`
      : log.from === log.to
        ? dateText(log.to)
        : `${dateText(log.from)} to ${dateText(log.to)}`;
  const left = log.total - log.rows.length;
  return {
    name: 'Fill log',
    about: days,
    on,
    orientation: 'landscape',
    rows: log.rows.length,
    content: [
      titled('What was filled?', {
        text: `${counted(log.total, 'fill')}, ${days}${narrowed(filter)}. Something spoke against ${log.against}; ${counted(log.pulled, 'bottle was', 'bottles were')} pulled or set aside for it.${left > 0 ? ` The latest ${figure(log.rows.length)} are printed.` : ''}`,
      }),
      beforeYouStart(fillCautions({})),
      ...(log.rows.length === 0
        ? [{ text: 'Nothing was filled.', margin: [0, 8, 0, 0] } satisfies Content]
        : [listTable(HEADS, [...log.rows].reverse().map(cells))]),
    ],
  };
}

function narrowed({ station, compressor, text, against }: FillLogFilter): string {
  const said = [
    ...(station ? [station] : []),
    ...(compressor ? [`at ${compressor}`] : []),
    ...(text ? [`with “${text}”`] : []),
    ...(against ? ['only what was told against'] : []),
  ];
  return said.length === 0 ? '' : `, ${said.join(', ')}`;
}

const cells = (line: FillLine): TableCell[] => [
  figureCell(dateText(line.on)),
  { text: line.filler },
  { stack: [monoCell(line.number) as Content, ...(line.owner ? [{ text: line.owner, fontSize: 10 }] : [])] },
  figureCell(dateText(line.hydroDate)),
  figureCell(line.from_psi === null ? '–' : figure(line.from_psi)),
  figureCell(line.to_psi === null ? '–' : figure(line.to_psi)),
  { text: line.compressor?.number ?? '–' },
  { text: said(line) },
];

function said({ against, pulled, owner, checked, note }: FillLine): string {
  const told = against.filter(a => a.effect !== 'note').map(againstWords);
  const pull = pulled ? [owner === null ? 'Pulled and tagged out.' : 'Set aside for its owner.'] : [];
  const looked = checked ? [] : ['Recorded as a service; nothing was looked at then.'];
  const words = [...told, ...pull, ...looked, ...(note === null ? [] : [`Note: ${note}`])];
  return words.length === 0 ? '–' : words.join(' ');
}
