import { useEffect, useState } from 'react';
import { focusHome } from '../../parts/focusHome.ts';

/** The row of a table that has, or last had, the focus: what the keys of the screen are about. */
export function useActiveRow<R>(rows: readonly R[]) {
  const [at, setAt] = useState(0);
  return {
    row: rows[Math.min(Math.max(at, 0), Math.max(rows.length - 1, 0))],
    onActive: (row: R) => setAt(rows.indexOf(row)),
  };
}

/** A part that has just come to be shown takes the focus on its table, so that its keys work at once. */
export function useFocusWhen(ready: boolean): void {
  useEffect(() => {
    if (!ready) return;
    const held = document.activeElement;
    // Whoever types, or looks at a dialog, is not disturbed.
    const free = held === null || held === document.body || held.closest('nav, header') !== null;
    if (free) focusHome();
  }, [ready]);
}
