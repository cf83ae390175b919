/** The rig as a plain line drawing of the department's own compartments: to find a place, and what is wrong in it. */
import type { ReactNode } from 'react';
import type { RigPage } from '../../../db/api-desk.ts';
import { heaviestWrong } from '../../../domain/derive/marks.ts';
import { type Box, GRID, type View } from '../../../domain/rigs/drawing.ts';
import { placeTree } from '../../../domain/rigs/tree.ts';
import { Action } from '../../parts/Action.tsx';
import { stateWord } from '../../parts/state/StateMark.tsx';
import { SHAPE_BOX, SHAPES } from '../../parts/state/shapes.tsx';
import styles from './rigs.module.css';
import { ViewFrame } from './ViewFrame.tsx';

interface DrawingProps {
  page: RigPage;
  place: string | undefined;
  onPlace: (place: string) => void;
  onArrange: () => void;
}

export function Drawing({ page, place, onPlace, onArrange }: DrawingProps) {
  return (
    <section aria-label="Drawing">
      <h2>
        Where it is
        <Action weight="quiet" hint="d" onClick={onArrange} disabled={page.places.length === 0}>
          Arrange
        </Action>
      </h2>
      {page.places.length === 0 ? (
        <p className={styles.soft}>
          {page.name} has no places yet. Add its compartments on the Department screen; they are drawn here.
        </p>
      ) : (
        <DrawnPlaces page={page} place={place} onPlace={onPlace} />
      )}
    </section>
  );
}

/**
 * The places of a rig in their views; what is wrong in one is marked by its shape.
 * @param isDone whether what is drawn in a box was gone through: it bears a tick
 */
export function DrawnPlaces({
  page,
  place,
  onPlace,
  isDone,
}: Pick<DrawingProps, 'page' | 'place' | 'onPlace'> & { isDone?: (box: string) => boolean }) {
  const nodes = new Map(placeTree(page.places, page.id).map(n => [n.place.id, n]));
  // A place inside a compartment is found in the compartment.
  const chosen = boxOf(page, place);
  const undrawn = page.places.filter(p => boxOf(page, p.id) === undefined);
  return (
    <>
      <Views>
        {view => (
          <ViewFrame view={view}>
            {page.drawing
              .filter(box => box.view === view)
              .map(box => {
                const node = nodes.get(box.place);
                if (!node) return null;
                const wrong = heaviestWrong(node.everything);
                const done = isDone?.(box.place) === true;
                return (
                  <button
                    key={box.place}
                    type="button"
                    tabIndex={-1}
                    className={`${styles.box} ${chosen === box.place ? styles.boxChosen : ''}`}
                    style={boxStyle(box)}
                    aria-pressed={chosen === box.place}
                    aria-label={`${node.place.name}: ${node.everything.length} things${
                      wrong ? `, ${stateWord(wrong).toLowerCase()}` : ''
                    }${done ? ', gone through' : ''}`}
                    onClick={() => onPlace(box.place)}
                  >
                    <span>
                      {done ? '✓ ' : ''}
                      {node.place.name}
                    </span>
                    {wrong ? (
                      <svg className={styles.shape} viewBox={SHAPE_BOX} aria-hidden="true" focusable="false">
                        {SHAPES[wrong]}
                      </svg>
                    ) : null}
                  </button>
                );
              })}
          </ViewFrame>
        )}
      </Views>
      {undrawn.length > 0 ? (
        <p className={styles.soft}>Not drawn: {undrawn.map(p => p.name).join(', ')}.</p>
      ) : null}
      {page.arranged ? null : (
        <p className={styles.soft}>Drawn by the names of the places, until the department arranges it.</p>
      )}
    </>
  );
}

/** The box a place is drawn in: its own, or that of the nearest place around it. */
export function boxOf(page: RigPage, place: string | undefined): string | undefined {
  const drawn = new Set(page.drawing.map(b => b.place));
  let at = page.places.find(p => p.id === place);
  // As many steps as there are places: a circle of parents ends too.
  for (let step = 0; at && step < page.places.length; step++) {
    if (drawn.has(at.id)) return at.id;
    const { parent } = at;
    at = page.places.find(p => p.id === parent);
  }
  return undefined;
}

/** Where a box lies in its view, in hundredths of it. */
export function boxStyle({ x, y, w, h }: Box) {
  return {
    left: `${(x / GRID.columns) * 100}%`,
    top: `${(y / GRID.rows) * 100}%`,
    width: `${(w / GRID.columns) * 100}%`,
    height: `${(h / GRID.rows) * 100}%`,
  };
}

/** As they are laid out: sides and top the whole width, rear and cab beside each other under them. */
const IN_ORDER: readonly View[] = ['driver side', 'officer side', 'top', 'rear', 'cab'];

export function Views({ children }: { children: (view: View) => ReactNode }) {
  return (
    <div className={styles.views}>
      {IN_ORDER.map(view => (
        <div key={view} className={view === 'rear' || view === 'cab' ? styles.halfView : styles.fullView}>
          {children(view)}
        </div>
      ))}
    </div>
  );
}
