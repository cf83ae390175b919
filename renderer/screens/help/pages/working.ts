/** Pages on what all screens share: keys, paper, words, and how the evidence is kept. */
import type { HelpPage } from './page.ts';

const GROUP = 'Working with it';

export const WORKING_PAGES: readonly HelpPage[] = [
  {
    id: 'keys',
    title: 'Keys',
    group: GROUP,
    lead: 'Everything can be done without a mouse. A key stands beside what it does.',
    sections: [
      {
        keys: [
          { key: '?', does: 'all keys that answer now' },
          { key: 'F1', does: 'this help, on the page of where you are' },
          { key: '/', does: 'search: a number, serial, place, member or requirement' },
          { key: 'w', does: 'who acts' },
          { key: '0', does: 'department files' },
          { key: 'F2', does: 'light and dark, row height, letter keys' },
        ],
      },
      {
        list: [
          'The figures of the rail lead to the screens.',
          'In tables the arrows move, Enter opens, Page Up and Page Down, Home and End go far.',
          'Esc closes what is open, the last opened first.',
          'While you type in a field, letters are letters. Esc or Tab leads out of it.',
          'Letter keys can be switched off under Display, for those who speak to the computer or stumble onto keys.',
        ],
      },
    ],
  },
  {
    id: 'printing',
    title: 'Printing',
    group: GROUP,
    lead: 'What a screen shows can be put on paper: a PDF that any printer takes.',
    sections: [
      {
        terms: [
          {
            word: 'Morning page',
            means: 'from Readiness: one station’s units and what is known against them.',
          },
          { word: 'Coming due', means: 'the list as it is filtered.' },
          { word: 'History of one thing', means: 'every record and every date.' },
          {
            word: 'Rig sheet',
            means: 'from a rig’s page: its drawing, and every place with what is in it and a box to tick.',
          },
          {
            word: 'Check-off sheet',
            means: 'from Check-offs: a code and a box before each line, what is open, what to look at.',
          },
          { word: 'Rule sheet', means: 'from the rule book: a family’s requirements with their sources.' },
        ],
        keys: [{ key: 'p', does: 'print, where a screen has paper' }],
      },
      {
        says: [
          'Every page says when and by whom it was printed, page x of y, and the head of the ledger at that time. Paper that is kept can so be held against the ledger later.',
          'Ours is a test record. A certificate is what an outside agency issues.',
        ],
      },
    ],
  },
  {
    id: 'photos',
    title: 'Photos',
    group: GROUP,
    lead: 'A picture says what a crack looked like. Photos go with the deed that tells of it, and stay with it.',
    sections: [
      {
        heading: 'Putting them in',
        says: [
          'Forms that tell of what is wrong or what was done have a field for photos: a tag-out, a limit, a report that something is missing, a record, an exception of a check-off. Under All on a thing, and beside what a check-off found wrong, photos are added afterwards.',
          'Tab leads to the field and Enter chooses files; a picture can also be dropped or pasted while the form is open. JPEG, PNG and WebP are read, twenty with one deed.',
        ],
      },
      {
        heading: 'What is kept',
        says: [
          'Before it is sent, a picture is drawn anew, at most 1600 pixels long. What the camera wrote into its file is thereby dropped: where it was taken, when, and with which phone. What is in the picture stays: look for faces, names and plates before you choose it.',
          'The bytes lie in the department’s file, so a backup holds them. The ledger names each photo by the hash of its bytes: one that was changed is found by the check, and is not shown.',
          'A photo is never taken out again. Where it stands with the wrong thing, void the record: it stays there struck through, and counts no more.',
        ],
      },
      {
        heading: 'Seeing them',
        says: [
          'They stand small in a thing’s records, in the steps of its tag-out and beside what a check-off found. Enter opens one large, the arrows lead to the others, Esc closes it. A printed history has them at its end.',
          'An entry that came from another device may have come without its photo; then it says so in its place.',
        ],
        keys: [{ key: 'o', does: 'its photos, on a thing’s page and in Tag-outs' }],
      },
    ],
  },
  {
    id: 'words',
    title: 'Words we use',
    group: GROUP,
    lead: 'One word for one thing, as it is said in the trade.',
    sections: [
      {
        heading: 'Where things are',
        terms: [
          { word: 'Unit', means: 'the radio identity, such as Engine 31. It follows the crew.' },
          { word: 'Rig', means: 'the chassis with its compartments.' },
          {
            word: 'Place',
            means:
              'a station, rig, compartment, tray, seat, rack, storeroom, member, vendor, another agency, or disposed.',
          },
          { word: 'Belief', means: 'where a thing is, as last known, with how and when it was known.' },
          { word: 'Carry list', means: 'what a unit must carry, line by line, and where it rides.' },
        ],
      },
      {
        heading: 'Things',
        terms: [
          { word: 'Thing or item', means: 'one piece, tracked by its number.' },
          {
            word: 'Number',
            means: 'the label on it. Two living things with one number are shown as a clash to settle.',
          },
          { word: 'Family', means: 'what kind of thing it is; its rules and fields go by it.' },
          {
            word: 'Assignment',
            means:
              'what it is for: first line, reserve, ready spare, training only, issued, loaned, storage.',
          },
          {
            word: 'Condition',
            means:
              'how it is: received, serviceable, limited use, tagged out, at repair, retest owed, held for investigation, missing, retired, disposed.',
          },
        ],
      },
      {
        heading: 'Rules and records',
        terms: [
          {
            word: 'Requirement',
            means:
              'one rule: what is owed, how often, counted from what, by what source, and what being late does.',
          },
          { word: 'Adopt', means: 'make a requirement the department’s own, in full, from a day on.' },
          { word: 'Force', means: 'what stands behind it: law, a standard, the manufacturer, or practice.' },
          {
            word: 'Record',
            means: 'an inspection, test, service or repair that was done, with its outcome.',
          },
          {
            word: 'Tag-out',
            means: 'taken out of service. Anyone at work may do it; only someone entitled returns it.',
          },
          {
            word: 'Retest owed',
            means: 'a test that must pass before the thing returns, whatever its date.',
          },
          {
            word: 'Blocks, limits, notes',
            means: 'what being late does to the unit that carries the thing.',
          },
          { word: 'AHJ', means: 'the authority having jurisdiction: whoever decides which rules bind here.' },
          {
            word: 'RIN',
            means: 'the identification number of an agency that may requalify cylinders.',
          },
          {
            word: 'Special permit, exemption',
            means: 'the paper a composite cylinder is made and tested under, marked DOT-SP or DOT-E.',
          },
        ],
      },
      {
        heading: 'The book',
        terms: [
          { word: 'Ledger', means: 'everything that was ever entered, in order, only added to.' },
          { word: 'Entry', means: 'one line of it: one deed, by one person, at one moment.' },
          { word: 'Void', means: 'an entry that says another was wrong, and why. Both stay.' },
        ],
      },
    ],
  },
  {
    id: 'evidence',
    title: 'How Baybook keeps its evidence',
    group: GROUP,
    lead: 'So that an inspector can be shown what was known, when, and by whom, and can trust that it was not changed since.',
    sections: [
      {
        heading: 'Only added to',
        says: [
          'Every deed is an entry in the ledger: who, when, what, and how identity was shown. No entry is changed or removed, by anyone. The database itself refuses it.',
          'A mistake is voided by a further entry with the reason, and the deed is done again. What depends on a record has to be voided before it.',
          'Two times are kept: when it was so on the floor, and when the file was told. A record entered late shows both.',
        ],
      },
      {
        heading: 'A chain that can be checked',
        says: [
          'Each entry carries a hash of its exact bytes, and names the hash of the one before. A changed byte, a missing entry, a broken order is found by the check and named.',
          'Opening a file checks the last entries at once and the whole chain in the background. Photos are checked with Verify.',
        ],
      },
      {
        heading: 'Anchors',
        says: [
          'A chain cannot see its own end cut off. That is what anchors are for: the number of entries and the last hash, printed on paper and kept with backups. A kept anchor shows whether anything up to it was taken away or changed. The digits on paper are the first sixteen of the hash; they are enough to check by.',
        ],
      },
      {
        heading: 'Old days by old rules',
        says: [
          'A requirement is adopted in full, with the day it holds from. A new version of Baybook does not change what an old day is judged by.',
          'The lists and dates you see are worked out from the ledger. They can be thrown away and built again, and come out the same.',
        ],
      },
      {
        heading: 'Backups',
        says: [
          'Make one before a big change and at the end of each month, and keep it away from the station. What was acknowledged on the screen survives a power cut; a lost computer needs the backup.',
          'Keep the file on a disk of this computer. A folder on a network is refused, because it can damage a database that is in use.',
        ],
      },
    ],
  },
];
