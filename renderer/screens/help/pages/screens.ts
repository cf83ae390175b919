/** A page for every screen: the question it answers, how to read it, what is done on it. */
import type { HelpPage } from './page.ts';

const GROUP = 'The screens';

export const SCREEN_PAGES: readonly HelpPage[] = [
  {
    id: 'readiness',
    title: 'Readiness',
    group: GROUP,
    path: '/readiness',
    opens: { hash: '#/readiness', says: 'Open Readiness' },
    lead: 'What is known against each unit, and how fresh is it? The screen for the start of a shift.',
    sections: [
      {
        heading: 'The verdict',
        says: [
          'Each unit is ready, ready with limits, not ready, or not known. The verdict comes from the things on the rig its crew rides now, by the department’s own rules for being late.',
          'It advises. It changes no dispatch status, and nobody has to agree with it.',
        ],
        terms: [
          {
            word: 'Ready',
            means:
              'nothing is known against it that limits or blocks, and no line of its list is under its least.',
          },
          {
            word: 'Ready with limits',
            means:
              'something is late whose rule limits, a line of its carry list is under its least, or a thing on it is tagged out, at repair, held, missing, or not judged.',
          },
          {
            word: 'Not ready',
            means:
              'something is late whose rule blocks, a retest is owed, a critical line of its carry list is under its least, or the rig itself is out of service.',
          },
          {
            word: 'Not known',
            means:
              'too little is known to say: no rig, or nothing on it that was ever seen. No news is not good news.',
          },
        ],
      },
      {
        heading: 'The shortest fix',
        says: [
          'Of a unit that is not ready it is told which spares, from where, make it so: from its own station’s shelf first, then from a reserve rig there, then from elsewhere.',
          'It is computed over the whole department at once: no thing is promised to two units, none is taken where another unit in service needs it, and the unit that lacks the least is served first. What cannot be had is said.',
        ],
      },
      {
        heading: 'Reasons and dates',
        list: [
          'Reasons stand in the order of their weight. Each opens to its why: the rule, the records and the arithmetic.',
          'The three figures say how many duties fall due within 7, 30 and 90 days.',
          '“Last seen” is the latest day anything on the rig was seen, tested or read. Old knowledge is told as old.',
        ],
      },
      {
        heading: 'Notes for the next shift',
        says: [
          'A pass-on note says what the next crew has to know. It stays until somebody closes it, with a word on how it ended.',
          'Changes since the last look lists what was entered since you were here, by whom.',
        ],
        keys: [
          { key: 'n', does: 'write a pass-on note' },
          { key: 'p', does: 'print the morning page of a station' },
        ],
      },
    ],
  },
  {
    id: 'rigs',
    title: 'Rigs',
    group: GROUP,
    path: '/rigs',
    opens: { hash: '#/rigs', says: 'Open Rigs' },
    lead: 'What rides where? Every rig, who rides it, and what is known on it.',
    sections: [
      {
        heading: 'Unit and rig',
        says: [
          'A unit is the radio identity and follows the crew. A rig is the chassis with its compartments. When the crew of Engine 31 rides a reserve rig, the unit goes with the crew and the compartments stay with the rig.',
          'A rig is first line where a unit rides it as its own, and reserve where it has none of its own.',
        ],
      },
      {
        heading: 'The list',
        list: [
          'Each rig shows its unit, its station, its condition, its meters, and how its things stand.',
          '“Not returned” counts things that came with a crew from another rig and were left here.',
        ],
      },
    ],
  },
  {
    id: 'rig',
    title: 'One rig',
    group: GROUP,
    path: '/rigs/$rig',
    lead: 'The places of one rig and what is in them, as a list and as a plain drawing.',
    sections: [
      {
        heading: 'The list and the drawing',
        says: [
          'The list comes first; the drawing is for finding a compartment. It is the same in ink and on paper, and can be arranged to look like the rig.',
          'Where a thing is, is a belief: beside it stands how it was known (by sight, by its number read, by a count, by its seal) and since when.',
        ],
        keys: [
          { key: 'm', does: 'move a thing' },
          { key: 'x', does: 'swap a thing for another' },
          { key: 'v', does: 'receive a thing here' },
        ],
      },
      {
        heading: 'When the crew changes rigs',
        steps: [
          'Change the whole rig: what moves is told by the carry list, and only what did not move is marked.',
          'Or say alone which rig the unit rides now, and move what goes along thing by thing.',
          'What was left behind shows under “not returned” until it is back home or has a new home.',
        ],
        keys: [
          { key: 'c', does: 'change the whole rig' },
          { key: 'y', does: 'who rides it' },
        ],
      },
    ],
  },
  {
    id: 'due',
    title: 'Coming due',
    group: GROUP,
    path: '/due',
    opens: { hash: '#/due', says: 'Open Coming due' },
    lead: 'What must be done, by when, and why? One row for each requirement of each thing.',
    sections: [
      {
        heading: 'Finding',
        says: [
          'The filter is a sentence; every part of it can be changed. Typing narrows it: part of a unit’s name, a state, a family. Several words can follow one another.',
          'The counts over the table are filters too. Back undoes the last change of the filter.',
        ],
        keys: [
          { key: 'f', does: 'filter by typing' },
          { key: 'c', does: 'clear the filter' },
          { key: 'g', does: 'group by month, unit or family' },
          { key: 's', does: 'sort' },
          { key: 'v', does: 'export what is shown' },
        ],
      },
      {
        heading: 'Why this date?',
        says: [
          'Enter opens the row: a paragraph that can be read to an inspector, how the date is reached step by step, which records count and which do not and why, and the rule with its source.',
          '“≈” and “likely” tell of a date reached from meter readings: a range, of which the first day is listed; the next reading decides. “Not judged” means that something is missing, or the rule is not confirmed: it is never taken for safe.',
          'LOOSER RULE marks a date by a rule that the department has made looser than the published one.',
        ],
        keys: [{ key: 'o', does: 'open the page of the thing' }],
      },
      {
        heading: 'Doing',
        says: [
          'Record what was done, move the thing, tag it out, bring it back. What the store refuses is told beside the field, with what to do.',
          'A failed test is tagged out in the same step. A repair then owes what its kind owes before the thing may return.',
        ],
        keys: [
          { key: 'r', does: 'record a test or inspection' },
          { key: 'm', does: 'move' },
          { key: 't', does: 'tag out' },
          { key: 'b', does: 'back in service' },
        ],
      },
    ],
  },
  {
    id: 'thing',
    title: 'One thing',
    group: GROUP,
    path: '/thing/$item',
    lead: 'What it is, how it stands, every date with its why, everything that was ever recorded of it, and where it has been.',
    sections: [
      {
        heading: 'Reading it',
        list: [
          'State is the heaviest of its dates. Condition is what it is now: serviceable, tagged out, at repair, missing, retired.',
          'Next is the date that comes first, and what gives it.',
          'A cylinder shows whether it may be filled and whether it may stay in service, by the law and by the department’s own setting, side by side.',
        ],
      },
      {
        heading: 'Mistakes',
        says: [
          'Nothing is overwritten. A mistake is voided in the open: it stays to be read, struck through, with the reason. Then the deed is done again as it should have been.',
          'Number, serial and details are mended by an amendment, which says from when it holds.',
        ],
        keys: [
          { key: 'v', does: 'void the last record, or the one that has the focus' },
          { key: 'o', does: 'its photos' },
          { key: 'a', does: 'all that can be done to it' },
        ],
      },
      {
        heading: 'Held for investigation',
        says: [
          'After an injury a thing can be held. Nothing is cleaned, filled, repaired or tested until it is released, and what it will owe then goes on counting.',
        ],
      },
    ],
  },
  {
    id: 'import',
    title: 'Import',
    group: GROUP,
    path: '/import',
    opens: { hash: '#/import', says: 'Open Import' },
    lead: 'What is in the sheet, and what will it become? Hose, ladders, cylinders and packs from a CSV or XLSX.',
    sections: [
      {
        heading: 'How it goes',
        steps: [
          'Bring a sheet with one row a thing and headings over the columns.',
          'Look at every row as what it would become. Nothing is written yet.',
          'Mend a column that was read wrongly; answer whether a date column has the day or the month first, where that cannot be known.',
          'Accept. All rows that can be read go in together, and the sheet is noted in the ledger by its name and hash.',
        ],
        keys: [
          { key: 'o', does: 'choose a file' },
          { key: 'y', does: 'accept' },
          { key: 'v', does: 'save the refused rows with their reasons, to mend and bring again' },
          { key: 'u', does: 'take the whole sheet back, once it is in' },
        ],
      },
      {
        heading: 'Good to know',
        list: [
          'The same sheet twice adds nothing. Next year’s sheet adds next year’s tests to the things it knows.',
          'A row that speaks against what is known is shown as a conflict, side by side, and is not taken silently.',
          'A permit on a cylinder that the department has not confirmed is listed; its cylinders show as not judged until it is.',
        ],
      },
    ],
  },
  {
    id: 'rules',
    title: 'Rule book',
    group: GROUP,
    path: '/rules',
    opens: { hash: '#/rules', says: 'Open the rule book' },
    lead: 'By what rule? Every requirement with its clock, its source and how sure it is; the settings; the permits; and a place to try it.',
    sections: [
      {
        heading: 'Requirements',
        says: [
          'Grouped by family, or by the documents they come from. Enter opens one in full.',
          '“Seen” says how the book came by it: read in the document itself, read second-hand, from memory, or common practice. What is not “read” stands out: check it against the document in hand.',
        ],
        keys: [
          { key: 'f', does: 'filter by typing' },
          { key: 'g', does: 'group by family or by source' },
          { key: 'n', does: 'the next family alone' },
          { key: 't', does: 'try the requirement on an imagined thing' },
          { key: 'o', does: 'the things it concerns, in Coming due' },
          { key: 'p', does: 'print the rule sheet of the family' },
        ],
      },
      {
        heading: 'Making it your own',
        says: [
          'The shipped book is an offer; only what the department has adopted judges anything. The department decides how a requirement counts, what being late does (blocks, limits, notes) and how early it shows as due soon, from a day on, with a reason and who orders it. Days before are judged as they were.',
          'Beside the form stands what it would do: which dates move, what becomes overdue, and what was decided for a later day and falls away.',
          'What is law here cannot be made looser, neither its interval nor its effect: the form names the clause. A standard can, with a written reason; from then on its dates are marked LOOSER RULE in every list and on every paper.',
          'A requirement that rests on memory alone is not judged until somebody confirms it from the document in hand. One of the department’s own, or of a maker for a make and model, is added beside the book: the stricter is listed and both are shown.',
          'Editions: the same rule under an older or newer document number. Taking the newer text changes what is asked from its day on; history stays under the rule of its day.',
        ],
        keys: [
          { key: 'e', does: 'change a requirement, or adopt one that is only offered' },
          { key: 'm', does: 'confirm one that rests on memory' },
          { key: 'u', does: 'take the newer text of the book' },
          { key: 'x', does: 'end it from a day on' },
          { key: 'a', does: 'add one of the department’s own' },
          { key: 'b', does: 'adopt or confirm all that is shown' },
          { key: 'v', does: 'editions' },
        ],
      },
      {
        heading: 'Settings and permits',
        list: [
          'Settings are questions on which the sources differ: the law beside the department’s choice.',
          'A composite cylinder follows its own special permit or exemption. Confirm it from the permit or the label in hand; until then its cylinders are not judged.',
        ],
        keys: [
          { key: 's', does: 'settings' },
          { key: 'q', does: 'permits' },
          { key: 'r', does: 'back to the requirements' },
        ],
      },
      {
        heading: 'Try it',
        says: [
          'Imagine a thing and what was done to it; beside it stands what the adopted book would say, at once. Nothing is written.',
        ],
        keys: [
          { key: 'i', does: 'into the fields' },
          { key: 'a', does: 'add a line of history' },
          { key: 'x', does: 'take the last line out' },
          { key: 'e', does: 'the example again' },
        ],
      },
    ],
  },
  {
    id: 'department',
    title: 'Department',
    group: GROUP,
    path: '/department',
    opens: { hash: '#/department', says: 'Open Department' },
    lead: 'Who and where? Stations, rigs and places; members and what each may do; agencies; settings; backup and export.',
    sections: [
      {
        heading: 'People',
        says: [
          'What a member may do is granted: to record, countersign, return to service, void, plan, adopt rules, administer, for all families or some. A position is a ready-made set of these.',
          'A member may be qualified for what a requirement asks for, until a day: the form of a record says who holds it. It advises and refuses nothing.',
          'Looking needs nobody. Signing asks for the PIN of members who have one.',
          'An outside agency that requalifies cylinders is kept with its RIN.',
        ],
      },
      {
        heading: 'What the department is',
        says: [
          'Under Settings: its state, whether it is career, volunteer, combination or a private brigade, and whether the workplace-safety rules bind it. The same rule is law for one department and a benchmark for another; intervals that differ for career and volunteer follow it too.',
          'What is not certain is said and taken as law until you have found out. Before you sign you see what comes into force and which dates move.',
          'Outside the United States the book starts empty.',
        ],
      },
      {
        heading: 'Backup and restore',
        steps: [
          'A backup is the whole department in one file, with the head of its ledger.',
          'A restore is shown before it is done: look at what the backup holds, then decide.',
          'A restored or copied file goes on as a new device; its ledger names the head it came from.',
        ],
      },
      {
        heading: 'Export',
        says: [
          'Each family as CSV, and the whole ledger as JSON Lines: one entry a line, the exact bytes that were hashed. Nothing is locked in.',
        ],
      },
    ],
  },
  {
    id: 'first-run',
    title: 'First run',
    group: GROUP,
    path: '/',
    lead: 'A new file asks whose equipment it is, and who begins.',
    sections: [
      {
        steps: [
          'Name the department and choose its time zone. Its days end at midnight there. The Department screen can amend it later.',
          'Give your member number and name. You begin as the administrator.',
          'Bring in a sheet, or add things by hand.',
          'Read the rule book and confirm the permits of your cylinders.',
        ],
        says: [
          'The demo department, Larkspur Valley Fire District, is invented. It lives in a file of its own; start yours beside it under Files.',
        ],
      },
    ],
  },
  {
    id: 'look',
    title: 'The marks and what they mean',
    group: GROUP,
    path: '/look',
    opens: { hash: '#/look', says: 'See every mark' },
    lead: 'A state is always told by a word, a shape and a color together. Good news is quiet.',
    sections: [
      {
        terms: [
          { word: 'Current', means: 'done, and the next date is not near.' },
          { word: 'Due soon', means: 'within the warning days of its requirement.' },
          { word: 'Overdue', means: 'its date has passed.' },
          { word: 'Never done', means: 'nothing is on record, and a first one is owed.' },
          {
            word: 'Retest owed',
            means: 'something happened or failed, and a test is owed whatever its date.',
          },
          { word: 'Life ended', means: 'it has reached the end of its life. Nothing restores it.' },
          {
            word: 'Not judged',
            means:
              'something is not known or not confirmed, such as a permit. It is not the same as current: nothing says it is good.',
          },
          { word: 'Tagged out', means: 'somebody took it out of service.' },
          { word: 'Missing', means: 'nobody knows where it is.' },
        ],
      },
    ],
  },
];
