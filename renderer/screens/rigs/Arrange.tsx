/** Arranging the drawing: boxes moved and sized by whole cells, kept as a whole or not at all. */
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { RigPage } from '../../../db/api-desk.ts';
import { type Box, inNextView, moved, overlaps, sized, VIEWS } from '../../../domain/rigs/drawing.ts';
import { Action } from '../../parts/Action.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { boxStyle, Views } from './Drawing.tsx';
import styles from './rigs.module.css';
import { useDrag } from './useDrag.ts';
import { ViewFrame } from './ViewFrame.tsx';

interface ArrangeProps {
  page: RigPage;
  onClose: () => void;
  onForm: (form: DeedForm) => void;
}

const STEPS: Readonly<Record<string, [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

export function Arrange({ page, onClose, onForm }: ArrangeProps) {
  const [boxes, setBoxes] = useState<readonly Box[]>(page.drawing);
  const [chosen, setChosen] = useState(page.drawing[0]?.place ?? null);
  const frame = useRef<HTMLElement>(null);
  const name = (place: string) => page.places.find(p => p.id === place)?.name ?? place;
  const undrawn = page.places.filter(p => !boxes.some(b => b.place === p.id));
  const clashes = overlaps(boxes);

  // The chosen box has the focus, wherever it is drawn now.
  // biome-ignore lint/correctness/useExhaustiveDependencies: where the box is drawn changes which element it is.
  useEffect(() => {
    frame.current?.querySelector<HTMLElement>('[aria-pressed="true"]')?.focus({ preventScroll: false });
  }, [chosen, boxes]);

  const change = (how: (box: Box) => Box) =>
    setBoxes(now => now.map(box => (box.place === chosen ? how(box) : box)));
  const next = (step: 1 | -1) => {
    const order = VIEWS.flatMap(view => boxes.filter(b => b.view === view)).map(b => b.place);
    const at = order.indexOf(chosen ?? '');
    setChosen(order[(at + step + order.length) % order.length] ?? null);
  };
  const keep = () => onForm(arrangeForm(page, boxes));
  const putIn = () => {
    const [place] = undrawn;
    if (!place) return;
    setBoxes([...boxes, { place: place.id, view: 'driver side', x: 0, y: 0, w: 2, h: 1 }]);
    setChosen(place.id);
  };
  const leaveOut = () => {
    setBoxes(boxes.filter(b => b.place !== chosen));
    setChosen(boxes.find(b => b.place !== chosen)?.place ?? null);
  };
  const drag = useDrag(dragged => {
    setChosen(dragged.place);
    setBoxes(now => now.map(box => (box.place === dragged.place ? dragged : box)));
  });
  const arrow = (event: KeyboardEvent) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      keep();
      return;
    }
    const step = STEPS[event.key];
    if (!step) return;
    event.preventDefault();
    const [x, y] = step;
    change(box => (event.shiftKey ? sized(box, x, y) : moved(box, x, y)));
  };
  useKeys('Arranging', [
    { key: 'n', label: 'Next box', run: () => next(1) },
    { key: 'k', label: 'Box before', run: () => next(-1) },
    ...Object.entries(STEPS).map(([key, [x, y]]) => ({
      key,
      label: key === 'ArrowLeft' ? 'Arrows move the box; with Shift they size it' : '',
      run: () => change(box => moved(box, x, y)),
    })),
    { key: 'v', label: 'To the next view', run: () => change(inNextView) },
    { key: 'i', label: 'Put in a place that is not drawn', run: putIn },
    { key: 'Delete', label: 'Leave the place out of the drawing', run: leaveOut },
    { key: 'Enter', label: 'Keep it so', run: keep },
    { key: 's', label: 'Keep it so', run: keep },
    { key: 'Escape', label: 'Leave it as it was', run: onClose },
  ]);
  return (
    <section aria-label="Arranging the drawing" ref={frame}>
      <h2>Arranging the drawing</h2>
      <p className={styles.soft}>
        Arrows move <b>{chosen ? name(chosen) : 'the box'}</b>, Shift with them sizes it. Or drag it; its
        lower right corner sizes it.
      </p>
      <p className={styles.arrangeKeys}>
        <Action weight="quiet" hint="n" onClick={() => next(1)}>
          Next box
        </Action>
        <Action weight="quiet" hint="v" onClick={() => change(inNextView)}>
          Next view
        </Action>
        <Action weight="quiet" hint="i" onClick={putIn} disabled={undrawn.length === 0}>
          Put in{undrawn[0] ? ` ${undrawn[0].name}` : ''}
        </Action>
        <Action weight="quiet" hint="Escape" onClick={onClose}>
          As it was
        </Action>
        <Action weight="main" hint="Enter" onClick={keep}>
          Keep it so
        </Action>
      </p>
      <p role="status" className={styles.clashes}>
        {clashes.length > 0
          ? `${clashes.map(([a, b]) => `${name(a)} lies over ${name(b)}`).join('; ')}.`
          : null}
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the boxes in it are buttons; the arrows of whichever has the focus are heard here. */}
      <div onKeyDown={arrow}>
        <Views>
          {view => (
            <ViewFrame view={view}>
              {boxes
                .filter(box => box.view === view)
                .map(box => (
                  <button
                    key={box.place}
                    type="button"
                    className={`${styles.box} ${styles.boxLoose} ${chosen === box.place ? styles.boxChosen : ''}`}
                    style={boxStyle(box)}
                    {...drag(box)}
                    aria-pressed={chosen === box.place}
                    onClick={() => setChosen(box.place)}
                    onFocus={() => setChosen(box.place)}
                  >
                    <span>{name(box.place)}</span>
                  </button>
                ))}
            </ViewFrame>
          )}
        </Views>
      </div>
    </section>
  );
}

function arrangeForm(page: RigPage, boxes: readonly Box[]): DeedForm {
  return {
    title: `Keep the drawing of ${page.name}`,
    verb: 'Keep it',
    initial: {},
    rows: () => [],
    deeds: () => [{ action: 'rig.arrange', body: { rig: page.id, boxes } }],
    done: () => `The drawing of ${page.name} is kept.`,
  };
}
