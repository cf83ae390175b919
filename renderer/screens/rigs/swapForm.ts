/** The form of a swap: both things are moved in one act, or neither. */
import type { Deed } from '../../../db/api.ts';
import type { SpareLine } from '../../../db/api-desk.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';

const THERE = 'there';
const HOW: FormField = {
  kind: 'one of',
  key: 'how',
  title: 'How it is known',
  choices: [
    { value: 'sight', title: 'Sight' },
    { value: 'number read', title: 'Number read' },
    { value: 'told', title: 'Told' },
  ],
};

/**
 * @param current the thing that leaves its place on the rig
 * @param spare the thing that comes in for it
 */
export function swapForm(current: SpareLine, spare: SpareLine): DeedForm {
  const assignments = assignmentsAfter(current, spare);
  return {
    title: `Swap ${current.number} with ${spare.number}`,
    verb: 'Swap',
    initial: { where: spare.placeId ? THERE : 'elsewhere', to: '', how: 'number read', on: '', forGood: '' },
    rows: filled => [
      spare.placeId
        ? [
            {
              kind: 'one of',
              key: 'where',
              title: `${spare.number} goes to ${current.place ?? 'its place'}; ${current.number} goes to`,
              choices: [
                { value: THERE, title: spare.place ?? 'where it was' },
                { value: 'elsewhere', title: 'Another place' },
              ],
            },
          ]
        : [],
      filled.where === THERE
        ? []
        : [{ kind: 'place', key: 'to', title: `Where ${current.number} goes`, required: true }],
      [HOW, { kind: 'date', key: 'on', title: 'Date' }],
      assignments
        ? [
            {
              kind: 'tick',
              key: 'forGood',
              title: 'For good',
              note: `${spare.number} becomes ${assignments.spare}, ${current.number} ${assignments.current}. Without it both stay what they are.`,
            },
          ]
        : [],
    ],
    deeds: (filled, today) => swapDeeds(current, spare, filled, today),
    done: () => `${spare.number} is in for ${current.number}.`,
  };
}

/** The spare to this place, the thing to where the spare was or another place; and for good, their assignments. */
function swapDeeds(current: SpareLine, spare: SpareLine, filled: Filled, today: string): Deed[] {
  const on = dateOf(filled, today);
  const move = (item: string, to: string | null | undefined, other: string): Deed => ({
    action: 'item.move',
    body: body({ item, to: to ?? undefined, how: filled.how, note: `Swapped with ${other}`, on }),
  });
  const assignments = filled.forGood === 'yes' ? assignmentsAfter(current, spare) : null;
  return [
    move(spare.item, current.placeId, current.number),
    move(current.item, filled.where === THERE ? spare.placeId : filled.to, spare.number),
    ...(assignments
      ? [
          { action: 'item.assign', body: { item: spare.item, assignment: assignments.spare, on } },
          { action: 'item.assign', body: { item: current.item, assignment: assignments.current, on } },
        ]
      : []),
  ];
}

/** What both become where the swap is for good; null where that changes nothing or one of them is not known. */
function assignmentsAfter(current: SpareLine, spare: SpareLine) {
  if (!current.assignment || !spare.assignment || current.assignment === spare.assignment) return null;
  return { spare: current.assignment, current: spare.assignment };
}
