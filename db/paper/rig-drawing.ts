/** A rig's line drawing on paper: five views in black, a box for every place, marked where something in it is wrong. */
import type { CanvasElement, Content } from 'pdfmake/interfaces.js';
import { heaviestWrong } from '../../domain/derive/marks.ts';
import { type Box, GRID, type View } from '../../domain/rigs/drawing.ts';
import { placeTree } from '../../domain/rigs/tree.ts';
import type { RigPage } from '../api-desk.ts';
import { MARK_WIDTH_PT, markOf } from './marks.ts';

const TITLES: Readonly<Record<View, string>> = {
  'driver side': 'Driver side',
  'officer side': 'Officer side',
  top: 'Top',
  rear: 'Rear',
  cab: 'Cab',
};

/** As they stand on the page: two beside each other, the top alone. */
const ROWS: readonly (readonly View[])[] = [['driver side', 'officer side'], ['top'], ['cab', 'rear']];

const GAP_PT = 14;
/** The body of the rig, and under it the wheels. */
const BODY_PT = 54;
const WHEELS_PT = 10;
/** What of the width is the cab, where the rig is seen from a side or from above. */
const CAB_SHARE = 0.16;
const CAB_MOST_PT = 44;
const LINE_PT = 0.7;
const LABEL_PT = 11;

interface Frame {
  /** Where the boxes lie. */
  x: number;
  width: number;
  outline: CanvasElement[];
}

const line = (...points: [x: number, y: number][]): CanvasElement => ({
  type: 'polyline',
  points: points.map(([x, y]) => ({ x, y })),
  lineWidth: LINE_PT,
  lineColor: 'black',
});
const wheel = (x: number): CanvasElement => ({
  type: 'ellipse',
  x,
  y: BODY_PT + 1,
  r1: 7,
  r2: 7,
  lineWidth: LINE_PT,
  lineColor: 'black',
});

/** The front is on the left of the driver's side and of the top, on the right of the officer's. */
function frameOf(view: View, width: number): Frame {
  const cab = Math.min(width * CAB_SHARE, CAB_MOST_PT);
  const h = BODY_PT;
  if (view === 'rear' || view === 'cab')
    return {
      x: 0,
      width,
      outline: [
        line([18, h], [18, h + WHEELS_PT], [40, h + WHEELS_PT], [40, h]),
        line([width - 40, h], [width - 40, h + WHEELS_PT], [width - 18, h + WHEELS_PT], [width - 18, h]),
      ],
    };
  const from = (x: number) => (view === 'officer side' ? width - x : x);
  const front: CanvasElement[] =
    view === 'top'
      ? [line([from(cab), 4], [from(4), 8], [from(2), h / 2], [from(4), h - 8], [from(cab), h - 4])]
      : [
          line(
            [from(2), h],
            [from(2), h * 0.45],
            [from(cab * 0.25), 3],
            [from(cab - 2), 3],
            [from(cab - 2), h],
          ),
          wheel(from(cab * 0.5)),
          wheel(from(width * 0.78)),
          wheel(from(width * 0.78 + 16)),
          line([0, h], [width, h]),
        ];
  return { x: view === 'officer side' ? 0 : cab, width: width - cab, outline: front };
}

/** The drawing, as wide as the page. */
export function rigDrawing(page: RigPage, width: number): Content[] {
  const wrongIn = new Map(
    placeTree(page.places, page.id).map(n => [n.place.id, heaviestWrong(n.everything)] as const),
  );
  const nameOf = (place: string) => page.places.find(p => p.id === place)?.name ?? '';
  const half = (width - GAP_PT) / 2;
  return ROWS.map(
    (views): Content => ({
      columns: views.map(view => ({
        width: views.length === 1 ? width : half,
        stack: viewOf(
          view,
          views.length === 1 ? width : half,
          page.drawing.filter(box => box.view === view),
          box => ({ name: nameOf(box.place), wrong: wrongIn.get(box.place) ?? null }),
        ),
      })),
      columnGap: GAP_PT,
      margin: [0, 0, 0, 4],
    }),
  );
}

function viewOf(
  view: View,
  width: number,
  boxes: readonly Box[],
  told: (box: Box) => { name: string; wrong: ReturnType<typeof heaviestWrong> },
): Content[] {
  const frame = frameOf(view, width);
  const high = BODY_PT + WHEELS_PT;
  const body: CanvasElement = {
    type: 'rect',
    x: frame.x,
    y: 0,
    w: frame.width,
    h: BODY_PT,
    lineWidth: 1.1,
    color: 'white',
    lineColor: 'black',
  };
  const drawn = boxes.map(box => {
    const at = {
      x: frame.x + (box.x / GRID.columns) * frame.width,
      y: (box.y / GRID.rows) * BODY_PT,
      w: (box.w / GRID.columns) * frame.width,
      h: (box.h / GRID.rows) * BODY_PT,
    };
    const { name, wrong } = told(box);
    const rect: CanvasElement = { type: 'rect', ...at, lineWidth: LINE_PT, lineColor: 'black' };
    const mark = wrong
      ? markOf(wrong).map(part => moved(part, at.x + at.w - MARK_WIDTH_PT - 2, at.y + at.h - 11))
      : [];
    // The text stands after the canvas: up from there to its box.
    const label: Content = {
      columns: [{ width: at.w - 4, text: name, alignment: 'center' }],
      font: 'Narrow',
      relativePosition: { x: at.x + 2, y: at.y + 2 - high },
    };
    return { parts: [rect, ...mark], label };
  });
  return [
    { text: TITLES[view], font: 'Narrow', lineHeight: LABEL_PT / 10 },
    { canvas: [...frame.outline, body, ...drawn.flatMap(d => d.parts), bottom(high)] },
    ...drawn.map(d => d.label),
  ];
}

/** Keeps every view as high as the next, wheels or not. */
const bottom = (y: number): CanvasElement => ({
  type: 'line',
  x1: 0,
  y1: y,
  x2: 0,
  y2: y,
  lineWidth: 0,
  lineColor: 'white',
});

function moved(part: CanvasElement, dx: number, dy: number): CanvasElement {
  if (part.type === 'polyline')
    return { ...part, points: part.points.map(({ x, y }) => ({ x: x + dx, y: y + dy })) };
  return part.type === 'ellipse' ? { ...part, x: part.x + dx, y: part.y + dy } : part;
}
