/** Help with what a crew must carry and how it is gone through: check-offs, carry lists, tag-outs. */
import type { HelpPage } from './page.ts';

const GROUP = 'The screens';

export const CHECK_PAGES: readonly HelpPage[] = [
  {
    id: 'checks',
    title: 'Check-offs',
    group: GROUP,
    path: '/checks',
    opens: { hash: '#/checks', says: 'Open Check-offs' },
    lead: 'Is it all there and does it work? Every unit and reserve rig with its list, its last check-off and what was found wrong.',
    sections: [
      {
        heading: 'The list of units',
        says: [
          'A unit has a carry list: what it must carry, line by line. A check-off goes through the rig its crew rides now, against that list. A reserve rig that stands by has a list of its own. Enter begins one, or goes on with the draft that waits.',
          'Where a schedule says when the rig is gone through, the list tells what is owed today and what is late. What was late or missed stands under it until somebody says why: it is a fact with a reason, not a gap.',
          'Under it stands what was found wrong and is not settled. What took a thing out of service is settled when that thing is back or gone for good; everything else when somebody says how.',
        ],
        keys: [
          { key: 'l', does: 'its carry list' },
          { key: 't', does: 'its last signed check-off' },
          { key: 'k', does: 'kits: seals, contents, dates' },
          { key: 'c', does: 'a photo of what was found wrong: the one chosen below, else the oldest' },
          {
            key: 'x',
            does: 'many swapped at once: twelve down, twelve up, numbers owed until they are read',
          },
          { key: 'p', does: 'print a sheet for the compartment floor' },
          { key: 'i', does: 'incidents: numbers read after a mixed pick-up' },
        ],
      },
    ],
  },
  {
    id: 'check',
    title: 'One check-off',
    group: GROUP,
    path: '/checks/$checkoff',
    lead: 'Compartment by compartment, exceptions only. It is a draft until it is signed.',
    sections: [
      {
        heading: 'Going through it',
        says: [
          'One key says that everything in a place is present, and it claims no more than that. A saw that was run, a pressure that was read are entries of their own: the key takes you to each of them.',
          'Of a kit the seal is read: its number, against the one that was put on. Another number, or a broken seal, is a defect, and a full count and a new seal are owed.',
          'What is wrong takes a few keys: which thing, a word, and what to do next. Tag it out, swap in a spare, report it missing, write where it is, write a defect, or only note it. It takes effect when the check-off is signed, all of it at once.',
          'An open defect of before is shown on its line; say that it is that one, and it is not reported twice.',
        ],
        keys: [
          { key: 'a', does: 'all present in the place' },
          { key: 'Enter', does: 'into its lines' },
          { key: 'o', does: 'operated or read: it works' },
          { key: 'm', does: 'missing' },
          { key: 'd', does: 'damaged' },
          { key: 's', does: 'short' },
          { key: 'l', does: 'low' },
          { key: 'e', does: 'expired' },
          { key: 'x', does: 'in the wrong place' },
          { key: 'z', does: 'leave a place out, and say why' },
          { key: 'v', does: 'the drawing of the rig, with a tick where it was gone through' },
          { key: 'r', does: 'the rest is present' },
          { key: 'g', does: 'sign; then countersign' },
        ],
      },
      {
        heading: 'From paper, and by scanner',
        says: [
          'The box over the list takes what is written on a sheet: the code of the line and a letter. C4 m is missing, C4 s2 two short, C4 d cracked is damaged with a word, B1 o 95 was operated and read 95. Then one key says that the rest is present.',
          'A number typed or scanned there marks that thing as seen in the open place, and says so where it was believed elsewhere.',
        ],
        keys: [{ key: 'c', does: 'into the box' }],
      },
      {
        heading: 'Drafts and signatures',
        list: [
          'A draft is kept as you go, place by place, and can be gone on with on another day or at another seat. Two people at two places do not overwrite each other; of one place nobody overwrites what he has not seen.',
          'Marking a draft asks no PIN, for nothing takes effect; signing does. Whoever signed does not countersign.',
          'Under Department, Settings, haste can be noted: a check-off gone through in fewer seconds a line than the department has set, by the start and finish on its sheet, is told to whoever countersigns. It is off until it is set; it is never a finding and does not touch readiness.',
          'After the signature nothing of it is changed: a mistake is corrected in the open.',
        ],
      },
    ],
  },
  {
    id: 'walk',
    title: 'Walk-round',
    group: GROUP,
    path: '/rigs/$rig/walk',
    lead: 'Is the rig fit to go out? What is looked at and read, and what it does to the rig, each with its source.',
    sections: [
      {
        says: [
          'Each question is answered as it should be, or otherwise; what is read is entered in figures. One key says that everything else that is only looked at is as it should be: readings stay open until they are read.',
          'What puts the rig out of service says so with its source, and does so with the signature of whoever found it: a driver may, at once, and the criterion is not waived at the station. Only somebody entitled returns the rig.',
          'What rests on memory alone is not judged until the department has confirmed it; what was not looked at is not taken as good, and the day’s operational check is then not completed.',
        ],
        keys: [
          { key: 'a', does: 'as it should be' },
          { key: 'n', does: 'the rig has no such thing' },
          { key: 'r', does: 'the rest is as it should be' },
          { key: 'g', does: 'sign' },
        ],
      },
    ],
  },
  {
    id: 'carry',
    title: 'Carry list',
    group: GROUP,
    path: '/carry/$of',
    lead: 'What must a unit carry? Line by line, against what is known to ride there.',
    sections: [
      {
        terms: [
          {
            word: 'Carried and least',
            means: 'how many the unit carries, and with how many the line still serves.',
          },
          {
            word: 'Critical',
            means: 'without the least of it the unit is not ready. The department decides.',
          },
          {
            word: 'Known here',
            means:
              'tracked things that fill the line and serve: serviceable, owing no retest. A counted line knows only what was found.',
          },
          { word: 'Last gone through', means: 'the last signed check-off of its place.' },
        ],
      },
      {
        says: [
          'The list goes with the crew and the compartments with the rig: on a reserve rig the lines look for the places of the same name there.',
          'Under the list stands what the published lists ask of such a rig, with source and edition, and what the list has of it. It is an advice; what is not stated is not counted.',
          'Enter changes a line. A line that is changed or taken off changes from its day on. The list of an old day stays as it was, and so does a check-off that was signed by it.',
        ],
        keys: [
          { key: 'n', does: 'a line more' },
          { key: 'k', does: 'a list to begin from, by kind of rig' },
          { key: 'v', does: 'bring a sheet: every row is shown as the line it becomes, before any is taken' },
          { key: 'y', does: 'when it is gone through: each shift, daily, weekly, monthly' },
          { key: 'j', does: 'the rig it rides on' },
        ],
      },
    ],
  },
  {
    id: 'tagouts',
    title: 'Tag-outs',
    group: GROUP,
    path: '/tagouts',
    opens: { hash: '#/tagouts', says: 'Open Tag-outs' },
    lead: 'What is broken, and where is it stuck? Everything out of service with its chain, the stuck ones first.',
    sections: [
      {
        heading: 'The chain',
        says: [
          'A chain runs from the day a thing went out to the day it is back in service, or gone: tagged, at repair, repaired, retest owed, passed, returned. One thing has one open chain.',
          'Beside the list stands every step with its day and who told it, and what comes next. What a repair owes depends on its kind; no fault found closes with a reason.',
        ],
        terms: [
          {
            word: 'Stuck',
            means:
              'longer at its stage than is usual (tagged 14 days, at repair 30, retest owed 14, to be returned 3, missing 7; common practice, no source), or past the day a repair was promised for.',
          },
          {
            word: 'Held for investigation',
            means:
              'nothing is done to it: no cleaning, filling, repair or test. Who has it is written down; somebody entitled releases it.',
          },
          { word: 'Missing', means: 'searched for, then found, or retired as written off.' },
        ],
        keys: [
          { key: 'f', does: 'one stage after the other, then all again' },
          { key: 'o', does: 'the photos of the one that is chosen' },
          { key: 'p', does: 'print its tag, to be hung on it' },
          { key: 'n', does: 'recalls and stop-use notices' },
        ],
      },
    ],
  },
];
