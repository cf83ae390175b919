/** Row heights of tables, in pixels: as in the tokens, here for the arithmetic of the window. */
import { useSyncExternalStore } from 'react';
import { remembered } from '../remembered.ts';

export type Density = 'comfortable' | 'dense';

const HEIGHTS: Readonly<Record<Density, number>> = { comfortable: 27, dense: 23 };
export const rowHeight = (density: Density): number => HEIGHTS[density];

const listeners = new Set<() => void>();
let density: Density = remembered('density') === 'dense' ? 'dense' : 'comfortable';

export function setDensity(next: Density): void {
  density = next;
  remembered('density', next);
  document.documentElement.dataset.density = next;
  for (const listener of listeners) listener();
}

/** The density of tables, as chosen on this computer. */
export function useDensity(): Density {
  return useSyncExternalStore(
    listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => density,
  );
}
