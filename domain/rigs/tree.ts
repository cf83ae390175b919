/** The places of a rig as they lie in each other. */

/** A place with what is right in it. */
export interface Holding<I> {
  id: string;
  parent: string | null;
  items: readonly I[];
}

/** A place of the rig as it stands in a list: how deep it lies, and all that is in it and in what it holds. */
export interface PlaceNode<P extends Holding<unknown>> {
  place: P;
  depth: number;
  everything: P['items'][number][];
}

/** Places with those that lie in them after them, each with all it holds. A place whose parent is gone stands on the rig itself. */
export function placeTree<P extends Holding<unknown>>(places: readonly P[], rig: string): PlaceNode<P>[] {
  const known = new Set(places.map(p => p.id));
  const parentOf = (p: P) => (p.parent !== null && known.has(p.parent) ? p.parent : rig);
  const walk = (under: string, depth: number): PlaceNode<P>[] =>
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
