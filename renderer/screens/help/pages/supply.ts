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
];
