/** The rig on paper: its drawing, and every place with what is in it, a box before each thing to tick. */
import { useEffect, useState } from 'react';
import { createPortal, flushSync } from 'react-dom';
import type { RigPage } from '../../../db/api-desk.ts';
import { Action } from '../../parts/Action.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { StateMark, stateWord } from '../../parts/state/StateMark.tsx';
import { SHAPE_BOX, SHAPES } from '../../parts/state/shapes.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { boxStyle, Views } from './Drawing.tsx';
import { type Line, linesOf } from './lines.ts';
import viewStyles from './rigs.module.css';
import styles from './sheet.module.css';
import { ViewFrame } from './ViewFrame.tsx';
import { heaviestWrong, markOf, placeTree } from './wrong.ts';

interface SheetProps {
  page: RigPage;
  department: string;
  today: string;
}

/** The button that prints; the sheet itself is there only while the page is printed, however that was asked for. */
export function PrintSheet(props: SheetProps) {
  const [printing, setPrinting] = useState(false);
  useEffect(() => {
    // The browser takes the page as it is when this returns.
    const begin = () => flushSync(() => setPrinting(true));
    const end = () => setPrinting(false);
    window.addEventListener('beforeprint', begin);
    window.addEventListener('afterprint', end);
    return () => {
      window.removeEventListener('beforeprint', begin);
      window.removeEventListener('afterprint', end);
    };
  }, []);
  const print = () => window.print();
  useKeys('Paper', [{ key: 'p', label: 'Print the sheet of this rig', run: print }]);
  return (
    <>
      <Action weight="quiet" hint="p" onClick={print}>
        Print the sheet
      </Action>
      {printing ? createPortal(<Sheet {...props} />, document.body) : null}
    </>
  );
}

export function Sheet({ page, department, today }: SheetProps) {
  const everything = [...page.loose, ...page.places.flatMap(p => p.items)];
  const facts = [
    page.unit ? `ridden by ${page.unit}` : 'nobody rides it',
    page.station,
    page.chassis,
    page.condition,
    ...page.meters.map(m => `${m.reading.toLocaleString('en-US')} ${m.meter} (${dateText(m.on)})`),
  ];
  return (
    <article className={styles.sheet}>
      <header>
        <h1>What rides on {page.name}, and where?</h1>
        <p>
          {department}, {dateText(today)}: {everything.length.toLocaleString('en-US')} things in{' '}
          {page.places.length} places
        </p>
        <p>{facts.filter(f => f !== null).join(' · ')}</p>
      </header>
      <SheetDrawing page={page} />
      <div className={styles.columns}>
        {byPlace(linesOf(page)).map(([heading, ...things]) => (
          <section key={heading?.place ?? 'loose'} className={styles.place}>
            <h2 style={{ paddingLeft: `${(heading?.heading?.depth ?? 0) * 10}pt` }}>
              {heading?.heading?.name} <span>{heading?.heading?.count || 'empty'}</span>
            </h2>
            <ul>
              {things.map(({ item }) =>
                item ? (
                  <li key={item.item}>
                    <span className={styles.tick} />
                    <b className="mono">{item.number}</b>
                    <span className={styles.what}>{item.what}</span>
                    {heaviestWrong([item]) ? <StateMark state={markOf(item)} /> : null}
                  </li>
                ) : null,
              )}
            </ul>
          </section>
        ))}
      </div>
    </article>
  );
}

function SheetDrawing({ page }: { page: RigPage }) {
  const nodes = new Map(placeTree(page.places, page.id).map(n => [n.place.id, n]));
  if (page.drawing.length === 0) return null;
  return (
    <Views>
      {view => (
        <ViewFrame view={view}>
          {page.drawing
            .filter(box => box.view === view)
            .map(box => {
              const node = nodes.get(box.place);
              const wrong = heaviestWrong(node?.everything ?? []);
              return (
                <div key={box.place} className={viewStyles.box} style={boxStyle(box)}>
                  <span>{node?.place.name}</span>
                  {wrong ? (
                    <svg
                      className={viewStyles.shape}
                      viewBox={SHAPE_BOX}
                      role="img"
                      aria-label={stateWord(wrong)}
                    >
                      {SHAPES[wrong]}
                    </svg>
                  ) : null}
                </div>
              );
            })}
        </ViewFrame>
      )}
    </Views>
  );
}

/** Lines cut before every heading. */
function byPlace(lines: readonly Line[]): Line[][] {
  const places: Line[][] = [];
  for (const line of lines)
    if (line.heading) places.push([line]);
    else places.at(-1)?.push(line);
  return places;
}
