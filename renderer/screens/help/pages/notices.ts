/** Help with recalls and stop-use notices. */
import type { HelpPage } from './page.ts';

const GROUP = 'The screens';

export const NOTICE_PAGES: readonly HelpPage[] = [
  {
    id: 'notices',
    title: 'Recalls and stop-use notices',
    group: GROUP,
    path: '/notices',
    opens: { hash: '#/notices', says: 'Open the notices' },
    lead: 'What has been recalled, and is any of it in use? Every notice with what it concerns and how far it is settled. It is reached from Tag-outs.',
    sections: [
      {
        heading: 'Entering a notice',
        says: [
          'Write down what it names: the family, and the maker, model, serials from and to, dates of manufacture as far as they are given. Leave out what it does not name. What is to be done is copied in its own words.',
          'Entering it takes nothing out of service. Its page opens with everything that it concerns.',
          'Whoever may record can enter a notice: it must not wait for somebody. A range of serials with another prefix is a notice of its own.',
        ],
        keys: [{ key: 'n', does: 'enter a notice' }],
      },
      {
        terms: [
          { word: 'Concerned', means: 'things of which all is known that it names, and that fit it.' },
          {
            word: 'Perhaps',
            means: 'things of which something it names is not known, or is written so that it may fit.',
          },
          { word: 'In use', means: 'concerned, not settled and not out of service.' },
          {
            word: 'Not found',
            means: 'missing things, and serials that the maker names and that are not among the things here.',
          },
          { word: 'Open', means: 'what nobody has settled yet. A notice is closed when nothing is.' },
        ],
      },
    ],
  },
  {
    id: 'notice',
    title: 'One notice',
    group: GROUP,
    path: '/notices/$notice',
    lead: 'Which of our things does it mean, where are they, and what became of each? One by one, until nothing is open.',
    sections: [
      {
        heading: 'Whom it concerns',
        says: [
          'Serials are compared as people number things: the same prefix, and the figures as a number, however they are joined or padded. A serial without its prefix, with a letter more, or with an O for a 0 is perhaps one of them.',
          'What is not known of a thing never clears it. Look at it: write its serial, model or date on its page, and it is judged anew; or settle it as not concerned, and say what you read.',
          'Things that are received later are held against every notice as well, and a closed one is open again where it concerns them.',
        ],
      },
      {
        heading: 'Settling it',
        says: [
          'Everything that is surely concerned and still in service is tagged out in one act, after you have seen how many. What is perhaps concerned stays until somebody has looked.',
          'Each thing is then settled by itself: replaced, inspected and kept, repaired, returned to the maker, not concerned, or cannot be found. A thing that is still in service was not returned to the maker, and one that is missing was not inspected. What is retired or disposed of is settled by its end.',
          'That something cannot be found is said with where it was looked for, and it is reported missing with it. When it turns up, it is open again.',
          'To close a notice is for whoever plans, with a word on how it ended. It is refused while anything is open.',
        ],
        keys: [
          { key: 't', does: 'tag out everything it concerns that is still in service' },
          { key: 's', does: 'settle the thing or serial under the cursor' },
          { key: 'e', does: 'keep a serial open that it names and that is not here' },
          { key: 'c', does: 'close the notice' },
          { key: 'f', does: 'open ones alone, then all again' },
        ],
      },
    ],
  },
];
