/** Help with kits: what a kind of kit holds, its seal, its full count. */
import type { HelpPage } from './page.ts';

const GROUP = 'The screens';

export const KIT_PAGES: readonly HelpPage[] = [
  {
    id: 'kits',
    title: 'Kits',
    group: GROUP,
    path: '/kits',
    opens: { hash: '#/kits', says: 'Open Kits' },
    lead: 'Which kits are sealed, complete and in date? Those that do not serve stand first. From Check-offs, k.',
    sections: [
      {
        heading: 'What a kit is',
        says: [
          'A bag or set that moves whole and is sealed with a numbered tag: a trauma bag, a hydrant bag, a standpipe pack. It is tracked by its own number, and what is in it moves with it.',
          'A seal that is whole stands for the last full count, so that the crew reads a number each day and does not count. Once a kit was opened, or its seal is broken or another one, nothing stands for it: a full count and a new seal are owed.',
        ],
        terms: [
          {
            word: 'As ready as its worst critical content',
            means:
              'without the least of something critical it does not serve, and a line of the carry list that asks for it is short; without the least of something else its unit is ready with limits; under its par it is noted.',
          },
          {
            word: 'Earliest date',
            means:
              'a kit expires with the earliest of what is in it. What has expired does not count, from the day after; a date by the month is good through that month.',
          },
        ],
      },
      {
        heading: 'The first kit',
        steps: [
          'k: draw up what a kind of kit holds, from a list to begin from or from none. Such a list is common practice without a source; medical contents are for your medical direction to say.',
          'n: receive each kit of the kind, with the number that is marked on it.',
          'c: count it in full and put a numbered seal on it.',
          'Put it on the carry list of its unit: filled by kits, made sure of by its seal.',
        ],
        keys: [
          { key: 's', does: 'read the seal of a kit' },
          { key: 'o', does: 'it was opened' },
          { key: 'c', does: 'count it in full and seal it' },
          { key: 'n', does: 'receive a kit' },
          { key: 'k', does: 'a kind of kit: what it holds' },
          { key: 'l', does: 'the next table' },
        ],
      },
    ],
  },
  {
    id: 'kit',
    title: 'One kit',
    group: GROUP,
    path: '/kits/$item',
    lead: 'What is in it, line by line, by its last full count; and the count itself.',
    sections: [
      {
        heading: 'The full count',
        says: [
          'A line, an amount, a date. Enter takes the par and goes to the next line; an arrow goes up or down, Tab to the date. The date of the last count is kept: mend it where it is otherwise. Of several dates on one line enter the earliest.',
          'It is signed with the number of the new seal. A seal is used once: the number of the last one, or one that is on another kit, is refused. A defect that told of the old seal is settled by the new one.',
          'Tracked things that lie in the kit are not counted by hand: their numbers tell. Move them into the kit as into any other place.',
        ],
        keys: [
          { key: 'c', does: 'count it and seal it' },
          { key: 's', does: 'read its seal' },
          { key: 'o', does: 'it was opened' },
          { key: 'j', does: 'its own page: history, moves, tag-out' },
          { key: 'k', does: 'what its kind holds' },
        ],
      },
      {
        heading: 'Not a controlled-substance register',
        says: [
          'A second member can be named who counted along. Controlled substances are kept by their own rules, in their own book, and not here.',
        ],
      },
    ],
  },
  {
    id: 'kit-template',
    title: 'What a kind of kit holds',
    group: GROUP,
    path: '/kits/templates/$template',
    lead: 'The list that every kit of the kind is counted against.',
    sections: [
      {
        heading: 'The list',
        says: [
          'Enter changes a line: what, how many, the least with which the line still serves, in which pocket, and whether the kit serves without it. The list of an old day stays as it was.',
          'A line that is put on the list is not in the kits that were counted before: each of them is short of it until its next full count.',
        ],
        keys: [
          { key: 'n', does: 'a line more' },
          { key: 'Delete', does: 'take the line off' },
        ],
      },
    ],
  },
];
