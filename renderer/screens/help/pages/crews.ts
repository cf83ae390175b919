/** Help with what crews do to each other's gear: a whole rig changed for another, and a mixed pick-up after an incident. */
import type { HelpPage } from './page.ts';

const GROUP = 'The screens';

export const CREW_PAGES: readonly HelpPage[] = [
  {
    id: 'changeover',
    title: 'Whole-rig swap',
    group: GROUP,
    path: '/rigs/$rig/changeover/$to',
    lead: 'A crew leaves one rig for another: what moves, what is there already, what stays, what neither rig has.',
    sections: [
      {
        heading: 'How it is told',
        says: [
          'The carry list goes with the crew. What the rig that is taken has of its own fills the lines first; only what is still needed moves. What is out of service stays where it is.',
          'Back on its own rig the crew takes home what it brought along, and of what was put on the reserve since only what is short at home. The reserve’s own stays with the reserve.',
        ],
        keys: [{ key: 'f', does: 'what moves alone, then everything' }],
      },
      {
        heading: 'Entering it',
        steps: [
          'Print the crew’s sheet, carry things over, tick them.',
          'Mark what did not move, and why; of a count, how many did.',
          'Sign with the clock time of the change. Each leg is signed by the crew that did it.',
        ],
        keys: [
          { key: 'x', does: 'it did not move, and why' },
          { key: 'Backspace', does: 'it moved after all' },
          { key: 'g', does: 'sign this leg' },
          { key: 'p', does: 'print the sheet' },
        ],
      },
      {
        heading: 'What it claims',
        says: [
          'That everything moved is kept as told: nobody looked at each thing, and none counts as seen by it. Where the sheet was ticked thing by thing, each counts as seen.',
          'What went out and did not come back stands under “not returned” on both rigs, with what the crew said of it, until it is back, moved elsewhere, or found.',
          'A full check of the rig that is taken is owed after a change (common practice): walk round it. It advises; it does not change dispatch status.',
        ],
      },
    ],
  },
  {
    id: 'incidents',
    title: 'Incidents',
    group: GROUP,
    path: '/incidents',
    opens: { hash: '#/incidents', says: 'Open Incidents' },
    lead: 'What went home on the wrong rig? Incidents after which several companies picked up together.',
    sections: [
      {
        says: [
          'Open one with the units that were there, the other departments and what was picked up. The rig that each unit rode at that time is known from its rides.',
          'It is no incident report: it holds only what is needed to know whose hose and bottles are where.',
        ],
        keys: [{ key: 'n', does: 'open one' }],
      },
    ],
  },
  {
    id: 'incident',
    title: 'One incident',
    group: GROUP,
    path: '/incidents/$incident',
    lead: 'The numbers read on each rig, what they come to, and who likely has what is missing.',
    sections: [
      {
        heading: 'Reading',
        says: [
          'One box for each rig, for a scanner or for typing: Enter after each number. The name of a place alone says where the next ones are read. A list is kept as you go and is free to mend until it is settled.',
        ],
        keys: [
          { key: 'c', does: 'into the box' },
          { key: 'u', does: 'it was used, or not' },
          { key: 'a', does: 'all of the rig was used' },
          { key: 'Backspace', does: 'take a number off' },
        ],
      },
      {
        heading: 'What a number comes to',
        terms: [
          { word: 'Its own', means: 'believed on this rig, and read there.' },
          { word: 'Another rig’s, from elsewhere', means: 'ours, and believed somewhere else.' },
          {
            word: 'Foreign',
            means:
              'no living thing of ours has it: another department’s, or misread. Missing numbers that differ by one character are offered.',
          },
          { word: 'In doubt', means: 'read on two rigs, or borne by two things: somebody says which.' },
          {
            word: 'Missing',
            means:
              'believed on a rig whose list is in, and read nowhere. Beside it stands who likely has it, and why. That is where to ask first, and no finding.',
          },
        ],
        keys: [{ key: 'd', does: 'decide what becomes of the row' }],
      },
      {
        heading: 'Settling',
        says: [
          'It shows first, in sentences, exactly what it will do: what lies where it was read, what is reported missing, what is foreign, what was used and owes its look by the adopted book. Nothing else is changed.',
          'A list that comes in later is settled by itself; what was settled is not judged again.',
        ],
        keys: [
          { key: 'g', does: 'settle' },
          { key: 'e', does: 'amend who was there' },
        ],
      },
    ],
  },
];
