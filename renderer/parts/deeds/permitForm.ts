/** The form that confirms a special permit from the paper or the label in hand; then its cylinders are judged by it. */
import type { DeedForm, ThingRef, Vocabulary } from './deedForm.ts';
import type { DeedOptions } from './deeds.ts';

const BASES = [
  { value: 'the permit in hand', title: 'The permit in hand' },
  { value: 'the label on the cylinder', title: 'The label on the cylinder' },
];

const LIVES = [
  { value: '180', title: '15 years' },
  { value: '360', title: '30 years' },
  { value: 'label', title: 'What its label says' },
  { value: 'none', title: 'No fixed life' },
];

const INTERVALS = [
  { value: '36', title: '3 years' },
  { value: '60', title: '5 years' },
  { value: '120', title: '10 years' },
];

/** The permit of a cylinder that the department has not confirmed, or undefined. */
export function unconfirmedPermit(now: DeedOptions['now'], vocabulary: Vocabulary) {
  return vocabulary.permits.find(p => p.permit === now?.attributes.spec && p.confirmed === null);
}

export function permitForm(thing: ThingRef, vocabulary: Vocabulary, now: DeedOptions['now']): DeedForm {
  const line = unconfirmedPermit(now, vocabulary);
  const permit = line?.permit ?? '';
  const constructions = vocabulary.families
    .find(f => f.id === thing.family)
    ?.attributes.find(a => a.key === 'construction')?.choices;
  const cylinders = line?.cylinders ?? 0;
  return {
    title: `Confirm ${permit}`,
    verb: 'Confirm it',
    // The offer fills nothing in: what is confirmed is what was read.
    initial: {},
    rows: () => [
      [
        {
          kind: 'pick',
          key: 'construction',
          title: 'Construction',
          required: true,
          choices: constructions ?? [],
          note: offerNote(line?.offer ?? null),
        },
      ],
      [{ kind: 'one of', required: true, key: 'months', title: 'Requalified every', choices: INTERVALS }],
      [{ kind: 'one of', required: true, key: 'lifeMonths', title: 'Life', choices: LIVES }],
      [{ kind: 'one of', required: true, key: 'basis', title: 'Read from', choices: BASES }],
    ],
    deeds: filled => [
      {
        action: 'permit.confirm',
        body: {
          permit,
          construction: filled.construction,
          months: Number(filled.months),
          lifeMonths: lifeOf(filled.lifeMonths),
          basis: filled.basis,
        },
      },
    ],
    done: () =>
      `${permit} is confirmed; ${cylinders === 1 ? 'one cylinder is' : `${cylinders} cylinders are`} judged by it.`,
  };
}

function lifeOf(said: string | undefined): number | 'label' | null {
  if (said === 'label') return 'label';
  return said === 'none' ? null : Number(said);
}

function offerNote(
  offer: { months: number; construction: string; note: string; confidence: string } | null,
): string {
  if (!offer) return 'The book has not heard of this permit: enter what it says.';
  return `The book expects ${offer.construction}, every ${offer.months / 12} years (${offer.confidence}): ${offer.note}`;
}
