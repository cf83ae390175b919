/** Help with counted stock: what lies where, what to order, what stands ready. */
import type { HelpPage } from './page.ts';

export const SUPPLY_PAGES: readonly HelpPage[] = [
  {
    id: 'supply',
    title: 'Supply',
    group: 'The screens',
    path: '/supply',
    opens: { hash: '#/supply', says: 'Open Supply' },
    lead: 'What have we on the shelf? What is counted and not numbered, place by place; what to order; which spares stand ready.',
    sections: [
      {
        heading: 'Stock by place',
        says: [
          'A kind of stock is counted and not tracked one by one: gloves, absorbent, batteries. The list has a line for each place that holds some or should. Short ones stand first, then those that owe a count, then what has expired. Enter opens what lies there lot by lot, and everything that was told of it.',
          'What is on hand is the last count of a lot in its place, and what was received, issued, moved and written off after it. A lot that a count does not name was not counted. In the history, v voids the line that has the focus.',
        ],
        keys: [
          { key: 'n', does: 'a new kind of stock' },
          { key: 'r', does: 'receive some' },
          { key: 'i', does: 'issue some: it is used and counted no longer' },
          { key: 'm', does: 'move some to another place, where it goes on being counted' },
          { key: 't', does: 'count it' },
          { key: 'o', does: 'write some off, with the reason' },
          { key: 'y', does: 'set the par and the minimum of a place' },
          { key: 'e', does: 'amend the kind, or say that it is kept no longer' },
          { key: 'v', does: 'receive a thing that has a number of its own' },
          { key: 'f', does: 'short ones alone, expired ones, and so on' },
          { key: 'l', does: 'the next table' },
          { key: 'b', does: 'the fill log: may a bottle be filled, and what was filled' },
          { key: 'p', does: 'print the reorder list' },
        ],
      },
      {
        heading: 'Words',
        terms: [
          {
            word: 'Par and minimum',
            means:
              'what a place is filled up to, and under how many it is short. What has expired does not count.',
          },
          {
            word: 'Lot',
            means:
              'as printed, in capitals. One without a number of its own goes by its expiry. A lot has one date, wherever it lies.',
          },
          {
            word: 'Expired',
            means:
              'past the last day that its date can mean: one marked with a month is good to the end of that month. It is told as expiring soon from 60 days before (common practice, no source).',
          },
          {
            word: 'Count owed',
            means:
              'more was taken than was ever known to be there, so that what is on hand is under zero. It is shown so, and a count settles it.',
          },
          {
            word: 'Boxes',
            means:
              'amounts are kept in each. Where a stock comes in boxes, 3 boxes and 12 may be typed. A count that looks like boxes entered as each is asked about once.',
          },
        ],
      },
      {
        heading: 'What is taken first',
        says: [
          'Where no lot is named, the soonest expiry goes first, then the oldest lot. An expired one is never taken without its lot being named.',
          'A lot that its place will not use up in time is told with the place that would, by how many each issued in the last 180 days.',
        ],
      },
      {
        heading: 'Counted by two',
        says: [
          'A stock may need a second member for its counts: whoever signs names who counted along. That one is named and does not sign. This is no controlled-substance register: those drugs are kept by their own rules, in their own book, and not here.',
        ],
      },
      {
        heading: 'To order, and ready spares',
        says: [
          'What is under its minimum is ordered up to its par. What other places hold over their par is told first: it is moved before anything is bought. The order is in whole boxes where it comes in boxes.',
          'Ready spares are things with a number that are assigned so and lie at a station, by kind and size. One that is tagged out, or whose dates block or limit, is told as not ready.',
          'A cylinder is full or to be filled by the last word on it: its gauge at an inspection (to be filled at 90 percent or less), a fill, or a rack called full or empty. Where nobody said, it is not known.',
        ],
      },
    ],
  },
  {
    id: 'fills',
    title: 'Fill log',
    group: 'The screens',
    path: '/fills',
    opens: { hash: '#/fills', says: 'Open the fill log' },
    lead: 'May this bottle be filled? Told at once by its number, with the clause; then the fill is logged, whatever was told.',
    sections: [
      {
        heading: 'Filling',
        says: [
          'Type or scan the number on the bottle and press Enter: it is told whose it is, whether it may be filled, and what speaks against it. Type the pressure and press Enter: it is logged, and the box is ready for the next bottle. Compressor and signature stay as they are; a PIN is forgotten five minutes after it was typed.',
          'Where it says do not fill and it was filled all the same, Enter warns once and the second Enter logs it as what it was. Nothing is refused for being out of date: a fill has happened. What pulls the bottle tags it out in the same entry, with the reason and its clause, and a chain begins under Tag-outs; a void of the fill takes both back.',
          'A bottle that is held for investigation stays held, one that was missing has turned up and is tagged out until somebody returns it. A number that is not one of ours is logged with its owner and what its label says; the bottle is set aside where one of ours would be pulled.',
          'The hydro date that was read on the bottle is logged beside the fill. The mark governs: where it is another than the one on file, that is told.',
        ],
        keys: [
          { key: 'n', does: 'the next bottle: its number' },
          { key: 'Escape', does: 'out of the field, to the log' },
          { key: 'f', does: 'the log of today, 7 days, 31 days, a year' },
          { key: 'g', does: 'only what was told against, then all' },
          { key: 'v', does: 'void the fill under the cursor' },
          { key: 'b', does: 'back to Supply' },
          { key: 'p', does: 'print the log that is shown' },
        ],
      },
      {
        heading: 'What speaks against a fill',
        terms: [
          {
            word: 'Requalification',
            means:
              'a cylinder that is due for it is not filled, nor topped off: 49 CFR 180.205(c). One that was filled before may stay until it is used; most departments pull it.',
          },
          {
            word: 'Life ended',
            means: 'it is never filled again, whatever its test mark: 49 CFR 180.205(c).',
          },
          {
            word: 'Damage, heat, a failed test',
            means: 'it is not filled before it is requalified: 49 CFR 180.205(d).',
          },
          {
            word: 'Condition',
            means: 'held, tagged out, at repair, retired: common practice, no source.',
          },
          {
            word: 'Pressure',
            means:
              'over the service pressure it is let cool and bled down; over it by more than a tenth, which no mark allows (49 CFR 173.302a(b)), the bottle is pulled.',
          },
          {
            word: 'Air',
            means:
              'a compressor that is out of service, or whose air sample, filter or alarm test is late. Air that failed its sample pulls every bottle that is filled with it.',
          },
          {
            word: 'Not judged',
            means:
              'what it hangs on is not known: an unconfirmed permit, no service pressure, no mark read on another’s bottle.',
          },
        ],
      },
      {
        heading: 'Full cylinders against seats',
        says: [
          'Readiness counts the cylinders on a rig that serve and are in date: full, to be filled, or not known. A pressure counts for full for 31 days, for SCBA is inspected monthly: 29 CFR 1910.134(h)(3)(iii). It is told by a fill, an inspection, a check-off that named the bottle or its pack, or a rack called full or empty.',
          'Fewer that are full, or may be, than the seats of the rig: the unit is ready with limits. Where seats hang on bottles that nobody has read, that is to note. It is common practice, no source.',
        ],
      },
    ],
  },
];
