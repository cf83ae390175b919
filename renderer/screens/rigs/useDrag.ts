/** Moving and sizing a box of the drawing by pointer, by whole cells. */
import { type PointerEvent, useRef } from 'react';
import { type Box, GRID, movedWithin, sizedWithin } from '../../../domain/rigs/drawing.ts';

/** How near to a box's lower right corner a pointer takes hold of the corner, in px. */
const CORNER = 12;

/** Handlers for the button of a box; `onBox` is told of the box as the pointer has it. */
export function useDrag(onBox: (box: Box) => void) {
  const held = useRef<{ box: Box; x: number; y: number; cell: { w: number; h: number }; corner: boolean }>(
    null,
  );
  return (box: Box) => ({
    onPointerDown(event: PointerEvent<HTMLElement>) {
      const view = event.currentTarget.parentElement?.getBoundingClientRect();
      if (!view || event.button !== 0) return;
      const own = event.currentTarget.getBoundingClientRect();
      held.current = {
        box,
        x: event.clientX,
        y: event.clientY,
        cell: { w: view.width / GRID.columns, h: view.height / GRID.rows },
        corner: own.right - event.clientX < CORNER && own.bottom - event.clientY < CORNER,
      };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const now = held.current;
      if (now?.box.place !== box.place) return;
      const dx = Math.round((event.clientX - now.x) / now.cell.w);
      const dy = Math.round((event.clientY - now.y) / now.cell.h);
      onBox((now.corner ? sizedWithin : movedWithin)(now.box, dx, dy));
    },
    onPointerUp() {
      held.current = null;
    },
    onPointerCancel() {
      held.current = null;
    },
  });
}
