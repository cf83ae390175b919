/** A rig as a plain line drawing of the department's own compartments: which view each place is drawn in, and where. */

export const VIEWS = ['driver side', 'officer side', 'rear', 'top', 'cab'] as const;
export type View = (typeof VIEWS)[number];

/** The drawing's grid: every view is this many columns by this many rows; a box takes whole cells. */
export const GRID = { columns: 12, rows: 4 } as const;

/** A place as a box in one view, in grid cells from the upper left. */
export interface Box {
  place: string;
  view: View;
  x: number;
  y: number;
  w: number;
  h: number;
}

/** Whether a box lies inside its view. */
export function fits(box: Pick<Box, 'x' | 'y' | 'w' | 'h'>): boolean {
  return (
    box.x >= 0 &&
    box.y >= 0 &&
    box.w >= 1 &&
    box.h >= 1 &&
    box.x + box.w <= GRID.columns &&
    box.y + box.h <= GRID.rows
  );
}

/** Words in a place's name that say where it is. Common practice, no source. */
const SAYS: readonly (readonly [RegExp, View])[] = [
  [/\b(cab|seat|dash|console|front bumper)\b/i, 'cab'],
  [/\b(rear|tailboard|back step)\b/i, 'rear'],
  [/\b(officer|right|curb|R-?\d+)\b/i, 'officer side'],
  [/\b(hose ?bed|crosslay|dunnage|roof|top|ladder rack|deck)\b/i, 'top'],
  [/\b(driver|left|street|L-?\d+)\b/i, 'driver side'],
];

/** The view a place belongs to by its name; the driver's side where its name says nothing. */
export function viewOf(name: string): View {
  // A hosebed's own side is told within the top view, not the side of the rig.
  if (/\bhose ?bed\b/i.test(name)) return 'top';
  return SAYS.find(([word]) => word.test(name))?.[1] ?? 'driver side';
}

/** A first arrangement by the names of the places, side by side, for the department to change. */
export function firstDrawing(places: readonly { id: string; name: string }[]): Box[] {
  return VIEWS.flatMap(view => {
    const inView = places.filter(p => viewOf(p.name) === view);
    const perRow = Math.max(
      1,
      Math.min(GRID.columns, inView.length > 6 ? Math.ceil(inView.length / 2) : inView.length),
    );
    const rows = Math.max(1, Math.ceil(inView.length / perRow));
    const h = Math.max(1, Math.floor(GRID.rows / rows));
    return inView.slice(0, perRow * GRID.rows).map((place, i): Box => {
      const column = i % perRow;
      const x = Math.floor((column * GRID.columns) / perRow);
      const next = Math.floor(((column + 1) * GRID.columns) / perRow);
      return { place: place.id, view, x, y: Math.floor(i / perRow) * h, w: Math.max(1, next - x), h };
    });
  });
}

/** A box moved by whole cells; at the edge of its view it stays. */
export function moved(box: Box, dx: number, dy: number): Box {
  const next = { ...box, x: box.x + dx, y: box.y + dy };
  return fits(next) ? next : box;
}

/** A box made wider or higher by whole cells, never smaller than one and never past the edge of its view. */
export function sized(box: Box, dw: number, dh: number): Box {
  const next = { ...box, w: box.w + dw, h: box.h + dh };
  return fits(next) ? next : box;
}

/** A box moved as far as it goes: dragged past the edge of its view, it lies at the edge. */
export function movedWithin(box: Box, dx: number, dy: number): Box {
  return {
    ...box,
    x: between(0, box.x + dx, GRID.columns - box.w),
    y: between(0, box.y + dy, GRID.rows - box.h),
  };
}

/** A box sized as far as it goes. */
export function sizedWithin(box: Box, dw: number, dh: number): Box {
  return {
    ...box,
    w: between(1, box.w + dw, GRID.columns - box.x),
    h: between(1, box.h + dh, GRID.rows - box.y),
  };
}

const between = (least: number, n: number, most: number): number => Math.min(Math.max(n, least), most);

/** The same box in the next view, in the order of the views. */
export function inNextView(box: Box): Box {
  return { ...box, view: VIEWS[(VIEWS.indexOf(box.view) + 1) % VIEWS.length] ?? box.view };
}

/** Pairs of places whose boxes cover a cell of one view together: one of them could not be read. */
export function overlaps(boxes: readonly Box[]): [string, string][] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        b => a.view === b.view && a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h,
      )
      .map((b): [string, string] => [a.place, b.place]),
  );
}
