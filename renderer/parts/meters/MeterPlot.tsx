import type { MeterPage } from '../../../db/api-rules.ts';
import { firstDay, parseWhen } from '../../../domain/calendar/when.ts';
import { dateText } from '../words/dates.tsx';
import styles from './meters.module.css';

const W = 420;
const H = 120;
const LEFT = 58;
const BOTTOM = 20;
const TOP = 8;

/** What a thing has done in all, by the readings: each a mark on the line, with the figures of its ends. */
export function MeterPlot({ page }: { page: MeterPage }) {
  const points = page.points.flatMap(p => {
    const when = parseWhen(p.on);
    return when === null ? [] : [{ day: firstDay(when), total: p.total, replaced: p.replaced, on: p.on }];
  });
  const [first] = points;
  const last = points.at(-1);
  if (!first || !last || points.length < 2 || last.day === first.day) return null;
  const low = Math.min(...points.map(p => p.total));
  const high = Math.max(...points.map(p => p.total), low + 1);
  const x = (day: number) => LEFT + ((day - first.day) / (last.day - first.day)) * (W - LEFT - 10);
  const y = (total: number) => TOP + (1 - (total - low) / (high - low)) * (H - TOP - BOTTOM);
  const line = points.map(p => `${x(p.day).toFixed(1)},${y(p.total).toFixed(1)}`).join(' ');
  return (
    <svg
      className={styles.plot}
      viewBox={`0 0 ${W} ${H}`}
      role="img"
      aria-label={`${page.meter}, in all: ${low.toLocaleString('en-US')} on ${dateText(first.on)} to ${high.toLocaleString('en-US')} on ${dateText(last.on)}`}
    >
      <line x1={LEFT} y1={H - BOTTOM} x2={W - 4} y2={H - BOTTOM} className={styles.axis} />
      <line x1={LEFT} y1={TOP} x2={LEFT} y2={H - BOTTOM} className={styles.axis} />
      <text x={LEFT - 6} y={TOP + 8} textAnchor="end">
        {high.toLocaleString('en-US')}
      </text>
      <text x={LEFT - 6} y={H - BOTTOM} textAnchor="end">
        {low.toLocaleString('en-US')}
      </text>
      <text x={LEFT} y={H - 5}>
        {dateText(first.on)}
      </text>
      <text x={W - 4} y={H - 5} textAnchor="end">
        {dateText(last.on)}
      </text>
      <polyline points={line} className={styles.line} />
      {points.map(p =>
        p.replaced ? (
          <rect
            key={`${p.on} ${p.total}`}
            x={x(p.day) - 4}
            y={y(p.total) - 4}
            width={8}
            height={8}
            className={styles.replaced}
          />
        ) : (
          <circle key={`${p.on} ${p.total}`} cx={x(p.day)} cy={y(p.total)} r={2.6} className={styles.point} />
        ),
      )}
    </svg>
  );
}
