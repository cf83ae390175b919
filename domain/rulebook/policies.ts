/** Settings where the sources differ: what the law says is shown beside what the department has chosen. */
import type { Choice, Source } from './types.ts';

export interface Policy {
  id: string;
  title: string;
  choices: readonly Choice[];
  /** The shipped offer, which the department adopts or changes. */
  offer: string;
  law: string;
  source: Source;
}

const cfr = (section: string, confidence: Source['confidence'], note?: string): Source => ({
  document: '49 CFR',
  section,
  edition: '2015 annual edition',
  confidence,
  ...(note ? { note } : {}),
});

export const POLICIES: readonly Policy[] = [
  {
    id: 'fill in due month',
    title: 'May a cylinder be filled inside the month it falls due?',
    choices: [
      { value: 'to month end', title: 'Yes, through the last day of the due month' },
      { value: 'not in due month', title: 'No, only before the due month begins' },
    ],
    offer: 'to month end',
    law: 'Not filled after it becomes due; requalified on any day in or before the due month.',
    source: cfr(
      '180.205(c); interpretation 19-0079',
      'common practice',
      'Interpretation 17-0094 answers this and was not seen.',
    ),
  },
  {
    id: 'charged past due',
    title: 'Is a charged cylinder that has passed its date pulled?',
    choices: [
      { value: 'pull', title: 'Yes, pull it' },
      { value: 'until emptied', title: 'No, it may stay until emptied' },
    ],
    offer: 'pull',
    law: 'A cylinder filled before it became due may stay in service until emptied, if sound; it may not be topped off.',
    source: cfr('180.205(c); interpretation 09-0148', 'read', 'Pulling it is common practice.'),
  },
  {
    id: 'life ends',
    title: 'Does a cylinder’s life end with the start or the end of its month?',
    choices: [
      { value: 'month end', title: 'At the end of the month' },
      { value: 'month start', title: 'Before the month begins' },
    ],
    offer: 'month end',
    law: 'The life counts in years from the manufacture date; the day is not stated. Choose with the AHJ.',
    source: cfr('180.205(c); interpretation 11-0131', 'common practice'),
  },
  {
    id: 'return after repair',
    title: 'May whoever repaired a thing return it to service?',
    choices: [
      { value: 'anyone entitled', title: 'Yes, as anyone who is entitled' },
      { value: 'another member', title: 'No, another member who is entitled does' },
    ],
    offer: 'anyone entitled',
    law: 'No text that was read asks for another member. What the repair owes must have passed in either case.',
    source: { document: 'common practice', section: '', edition: '', confidence: 'common practice' },
  },
];
