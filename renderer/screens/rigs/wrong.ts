/** What is wrong with a thing or a place, as the mark it is shown by. */
import type { RigItem, RigPlace } from '../../../db/api-desk.ts';
import { MARK_STATES, type MarkState } from '../../parts/state/shapes.tsx';

/** Marks that tell of something wrong; what is merely due soon, current or does not apply is quiet. */
const WRONG: readonly MarkState[] = MARK_STATES.slice(0, MARK_STATES.indexOf('due soon'));

/** The heaviest mark of a thing: its condition where that has a mark of its own, or its dates. */
export function markOf({ condition, state }: Pick<RigItem, 'condition' | 'state'>): MarkState {
  const marks: MarkState[] = [state];
  if (condition === 'tagged out' || condition === 'missing' || condition === 'retest owed')
    marks.push(condition);
  return MARK_STATES.find(mark => marks.includes(mark)) ?? state;
}

/** The heaviest thing wrong among these, or null. */
export function heaviestWrong(items: readonly RigItem[]): MarkState | null {
  const marks = items.map(markOf);
  return WRONG.find(mark => marks.includes(mark)) ?? null;
}

/** How many things have something wrong with them. */
export const countWrong = (items: readonly RigItem[]): number =>
  items.filter(item => WRONG.includes(markOf(item))).length;

/** A place of the rig as it stands in the list: how deep it lies, and all that is in it and in what it holds. */
export interface PlaceNode {
  place: RigPlace;
  depth: number;
  everything: RigItem[];
}

/** Places with those that lie in them after them, each with all it holds. A place whose parent is gone stands on the rig itself. */
export function placeTree(places: readonly RigPlace[], rig: string): PlaceNode[] {
  const known = new Set(places.map(p => p.id));
  const parentOf = (p: RigPlace) => (p.parent !== null && known.has(p.parent) ? p.parent : rig);
  const walk = (under: string, depth: number): PlaceNode[] =>
    places
      .filter(p => parentOf(p) === under)
      .flatMap(place => {
        const inside = walk(place.id, depth + 1);
        const nearest = inside.filter(n => n.depth === depth + 1);
        return [
          { place, depth, everything: [...place.items, ...nearest.flatMap(n => n.everything)] },
          ...inside,
        ];
      });
  return walk(rig, 0);
}
