/** The form that swaps a ready spare in: it goes where the other one is, and the other one goes where the spare was. */
import type { Deed, ItemPage } from '../../../db/api.ts';
import { HOW_KNOWN } from '../../../domain/facts.ts';
import { body, type DeedForm, dateOf } from '../../parts/deeds/deedForm.ts';

/** What is missing or held stays where it is known to be: the spare goes in alone. */
const canMove = (thing: ItemPage) =>
  thing.condition !== 'missing' && thing.condition !== 'held for investigation';

/** @returns null where one of the two has no known place */
export function swapForm(spare: ItemPage, out: ItemPage): DeedForm | null {
  const { placeId: shelf } = spare;
  const { placeId: seat } = out;
  if (shelf === null || seat === null) return null;
  return {
    title: `Swap ${spare.number} in for ${out.number}`,
    verb: 'Swap',
    initial: { how: 'sight', on: '', off: canMove(out) ? 'yes' : '' },
    rows: () => [
      canMove(out)
        ? [
            {
              kind: 'tick',
              key: 'off',
              title: `Take ${out.number} to ${spare.place}`,
              note: `${spare.number} goes to ${out.place}. Look it over first: this says where it is, not that it works.`,
            },
          ]
        : [],
      [
        {
          kind: 'one of',
          key: 'how',
          title: 'How it is known',
          choices: HOW_KNOWN.filter(h => h !== 'sheet').map(h => ({ value: h, title: capital(h) })),
        },
      ],
      [{ kind: 'date', key: 'on', title: 'Date' }],
    ],
    deeds(filled, today) {
      const on = dateOf(filled, today);
      const deeds: Deed[] = [
        { action: 'item.move', body: body({ item: spare.item, to: seat, how: filled.how, on }) },
        { action: 'item.assign', body: { item: spare.item, assignment: out.assignment ?? 'first line', on } },
      ];
      if (filled.off === 'yes')
        deeds.push({ action: 'item.move', body: body({ item: out.item, to: shelf, how: filled.how, on }) });
      return deeds;
    },
    done: () => `${spare.number} is at ${out.place} in place of ${out.number}.`,
  };
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
