/** A check-off side by side: its places, the lines of one, and the drawing of the rig where it is asked for. */
import type { CheckoffPage, CheckoffPlace } from '../../../db/api-checks.ts';
import type { PlaceMark, Unfinished } from '../../../domain/checkoffs/marks.ts';
import { useAsk } from '../../api/ask.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { boxOf, DrawnPlaces } from '../rigs/Drawing.tsx';
import styles from './checks.module.css';
import { lineColumns, placeColumns } from './columns.tsx';

interface PanesProps {
  page: CheckoffPage;
  place: CheckoffPlace | undefined;
  markOf: (place: string) => PlaceMark;
  left: readonly Unfinished[];
  isDrawn: boolean;
  onPane: (pane: 'places' | 'lines') => void;
  /** The place that has the focus, by its index. */
  onPlace: (index: number) => void;
  onLine: (line: string) => void;
  /** The drawing has chosen a place. */
  onGoTo: (index: number) => void;
}

export function Panes({ page, place, markOf, left, isDrawn, ...on }: PanesProps) {
  const isDraft = page.state === 'draft';
  const asked = useAsk('rig.page', { rig: page.rigId ?? '' }, { when: isDrawn && page.rigId !== null });
  const rig = isDrawn ? asked.data : undefined;
  const inBox = (box: string) =>
    page.places.filter(p => rig !== undefined && boxOf(rig, p.at ?? undefined) === box);
  return (
    <div className={`${styles.going} ${rig ? styles.drawn : ''}`}>
      <section
        aria-label="Places"
        data-pane="places"
        className={styles.pane}
        onFocusCapture={() => on.onPane('places')}
      >
        <RowTable
          label="Places to go through"
          columns={placeColumns(markOf, left, isDraft)}
          rows={page.places}
          keyOf={p => p.name}
          onActive={p => on.onPlace(page.places.indexOf(p))}
          isOpen={p => p === place}
        />
      </section>
      <section
        aria-label={place ? `Lines of ${place.name}` : 'Lines'}
        data-pane="lines"
        className={styles.pane}
        onFocusCapture={() => on.onPane('lines')}
      >
        {place ? (
          <RowTable
            key={place.name}
            label={`Lines of ${place.name}`}
            columns={lineColumns(markOf(place.name), isDraft)}
            rows={place.lines}
            keyOf={l => l.line}
            onActive={l => on.onLine(l.line)}
          />
        ) : null}
        {place && place.at === null ? (
          <p className={styles.soft}>{page.rig ?? 'The rig'} has no place of this name.</p>
        ) : null}
      </section>
      {rig ? (
        <section aria-label="Drawing of the rig" className={styles.pane}>
          <DrawnPlaces
            page={rig}
            place={place?.at ?? undefined}
            onPlace={box => {
              const [first] = inBox(box);
              if (first) on.onGoTo(page.places.indexOf(first));
            }}
            isDone={box => {
              const inside = inBox(box);
              return inside.length > 0 && inside.every(p => !left.some(u => u.place === p.name));
            }}
          />
        </section>
      ) : null}
    </div>
  );
}
