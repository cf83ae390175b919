/** The form of a swap: both things are moved in one act, or neither. */
import type { Deed } from '../../../db/api.ts';
import type { SpareLine } from '../../../db/api-desk.ts';
import type { Assignment } from '../../../domain/facts.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from './deedForm.ts';

/** Either side of a swap as it is now. */
export type SwapSide = Pick<
  SpareLine,
  'item' | 'number' | 'condition' | 'assignment' | 'state' | 'place' | 'placeId'
>;

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

/** What is missing or held for investigation stays where it is known to be: the spare goes in alone. */
const staysPut = ({ condition }: SwapSide) =>
  condition === 'missing' || condition === 'held for investigation';

/**
 * @param current the thing that leaves its place
 * @param spare the thing that comes in for it
 * @param forGood whether it is taken to be for good until somebody says otherwise
 */
export function swapForm(current: SwapSide, spare: SwapSide, forGood = false): DeedForm {
  const after = assignmentsAfter(current, spare);
  const leaves = !staysPut(current);
  return {
    title: `Swap ${current.number} with ${spare.number}`,
    verb: 'Swap',
    initial: {
      where: spare.placeId ? THERE : 'elsewhere',
      to: '',
      how: 'number read',
      on: '',
      forGood: after && forGood ? 'yes' : '',
    },
    rows: filled => [
      leaves && spare.placeId
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
      !leaves || filled.where === THERE
        ? []
        : [{ kind: 'place', key: 'to', title: `Where ${current.number} goes`, required: true }],
      [HOW, { kind: 'date', key: 'on', title: 'Date' }],
      after ? [{ kind: 'tick', key: 'forGood', title: 'For good', note: noteOf(current, spare, after) }] : [],
    ],
    deeds: (filled, today) => swapDeeds(current, spare, filled, today),
    done: () => `${spare.number} is in for ${current.number}.`,
  };
}

/** The spare to this place, the thing to where the spare was or another place; and for good, their assignments. */
function swapDeeds(current: SwapSide, spare: SwapSide, filled: Filled, today: string): Deed[] {
  const on = dateOf(filled, today);
  const move = (item: string, to: string | null | undefined, other: string): Deed => ({
    action: 'item.move',
    body: body({ item, to: to ?? undefined, how: filled.how, note: `Swapped with ${other}`, on }),
  });
  const assign = (item: string, assignment: Assignment): Deed => ({
    action: 'item.assign',
    body: { item, assignment, on },
  });
  const after = filled.forGood === 'yes' ? assignmentsAfter(current, spare) : null;
  return [
    move(spare.item, current.placeId, current.number),
    ...(staysPut(current)
      ? []
      : [move(current.item, filled.where === THERE ? spare.placeId : filled.to, spare.number)]),
    ...(after ? [assign(spare.item, after.spare)] : []),
    ...(after?.current ? [assign(current.item, after.current)] : []),
  ];
}

interface After {
  spare: Assignment;
  /** Null where it stays what it is. */
  current: Assignment | null;
}

/**
 * What both become where the swap is for good; null where that changes nothing. The thing becomes what the spare was
 * only where nothing is wrong with it: what is overdue or tagged out is no ready spare, and goes into storage.
 */
function assignmentsAfter(current: SwapSide, spare: SwapSide): After | null {
  if (!current.assignment || current.assignment === spare.assignment) return null;
  if (staysPut(current)) return { spare: current.assignment, current: null };
  return { spare: current.assignment, current: isSound(current) ? spare.assignment : 'storage' };
}

const isSound = ({ condition, state }: SwapSide) =>
  condition === 'serviceable' && (state === 'current' || state === 'due soon' || state === 'not applicable');

function noteOf(current: SwapSide, spare: SwapSide, after: After): string {
  const goes = after.current ? `, ${current.number} ${after.current}` : '';
  return `${spare.number} becomes ${after.spare}${goes}. Without it both stay what they are.`;
}
