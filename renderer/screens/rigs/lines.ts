/** The list of a rig as lines: a place, the things in it, the next place. */
import type { RigItem, RigPage } from '../../../db/api-desk.ts';
import { heaviestWrong, type MarkState } from '../../../domain/derive/marks.ts';
import { placeTree } from '../../../domain/rigs/tree.ts';

export interface Line {
  /** The place the line belongs to; null for the rig itself. */
  place: string | null;
  heading?: { name: string; depth: number; count: number; wrong: MarkState | null };
  item?: RigItem;
}

/** What is in no place of the rig comes first: it is what somebody has to put somewhere. */
export function linesOf(page: Pick<RigPage, 'id' | 'name' | 'places' | 'loose'>): Line[] {
  const loose: Line[] =
    page.loose.length === 0
      ? []
      : [
          {
            place: null,
            heading: {
              name: `On ${page.name}, in no place of it`,
              depth: 0,
              count: page.loose.length,
              wrong: heaviestWrong(page.loose),
            },
          },
          ...page.loose.map(item => ({ place: null, item })),
        ];
  return [
    ...loose,
    ...placeTree(page.places, page.id).flatMap(({ place, depth, everything }): Line[] => [
      {
        place: place.id,
        heading: {
          name: place.name,
          depth,
          count: everything.length,
          wrong: heaviestWrong(everything),
        },
      },
      ...place.items.map(item => ({ place: place.id, item })),
    ]),
  ];
}
