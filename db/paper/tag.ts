/** The tag of a thing out of service: hung on it, read from a few steps away, and taken off by whoever may. */
import type { Content } from 'pdfmake/interfaces.js';
import { capital } from '../../domain/capital.ts';
import type { Condition } from '../../domain/facts.ts';
import type { ChainLine } from '../api-checks.ts';
import { openChains } from '../questions/chains.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { dateText } from './dates.ts';
import { fieldList, ruled, type Sheet, SIDE_PT } from './frame.ts';
import { isMark, markAt } from './marks.ts';

/** What the tag says first, by what the thing is in. A thing for limited use has a tag of its own. */
const SAYS: Readonly<Partial<Record<Condition, string>>> = {
  'limited use': 'Limited use',
  'held for investigation': 'Do not touch',
  missing: 'Missing',
};
const DO_NOT_USE = 'Do not use';

/** Its mark, so many times as wide as it stands in a list. */
const LARGE = 5;
const WIDTH_PT = 612 - 2 * SIDE_PT;

/** @throws CannotAnswer where the thing is in service, or no thing has the id */
export function tagSheet(asking: Asking, item: string, on: string): Sheet {
  const chain = openChains(asking).find(c => c.item === item);
  if (!chain)
    throw new CannotAnswer(
      'in service',
      'Nothing with this id is out of service.',
      'A tag is printed for what is tagged out, limited, held or owes a test.',
      'item',
    );
  return {
    name: 'Tag',
    about: chain.number,
    on,
    orientation: 'portrait',
    rows: 8,
    content: [head(chain), ruled(WIDTH_PT, 1.2, 4), facts(chain), byHand(chain)],
  };
}

function head({ number, what, condition }: ChainLine): Content {
  const mark = isMark(condition) ? condition : 'tagged out';
  return {
    columns: [
      { canvas: markAt(mark, LARGE), width: 96, margin: [0, 10, 0, 0] },
      {
        stack: [
          { text: SAYS[condition] ?? DO_NOT_USE, font: 'Narrow', bold: true, fontSize: 44, lineHeight: 1 },
          { text: capital(condition), fontSize: 14 },
        ],
      },
      {
        stack: [
          { text: number, font: 'Mono', fontSize: 28, alignment: 'right' },
          { text: what, fontSize: 12, alignment: 'right' },
        ],
        width: 200,
      },
    ],
    columnGap: 10,
    margin: [0, 6, 0, 8],
  };
}

function facts(chain: ChainLine): Content {
  const { reason, tag, from, steps, place, unit, next, owed, condition } = chain;
  const put = steps.find(s => s.byName !== null);
  const large = (text: string): Content => ({ text, fontSize: 14 });
  const held = condition === 'held for investigation';
  return {
    ...(fieldList(
      [
        ['Why', large(reason ?? 'not said')],
        ...(tag ? [['Tag number', large(tag)] as const] : []),
        ['Since', large(from === '' ? 'not known' : dateText(from))],
        ['By', large(put?.byName ?? 'not said')],
        ['From', large([place ?? 'place not known', unit].filter(w => w !== null).join(', '))],
        ['Next', large(next)],
        ...(owed.length > 0 ? [['Owed before it is used', large(capital(owed.join('; ')))] as const] : []),
        [
          'Off',
          large(
            held
              ? 'Taken off by whoever the department names, and by nobody else: no cleaning, filling, repair or test.'
              : 'Taken off by somebody entitled to return it, and by nobody else.',
          ),
        ],
      ],
      132,
    ) as object),
    margin: [0, 8, 0, 0],
  } as Content;
}

/** What is written on it on the way, to be entered afterwards. */
function byHand({ condition }: ChainLine): Content {
  const line = (word: string, more = '') => `${word} ${'_'.repeat(26)}${more}`;
  const rows =
    condition === 'held for investigation'
      ? [line('Handed to'), line('Handed to'), line('Released by')]
      : [line('Sent to'), line('What was done'), line('Tested, result'), line('Returned by')];
  return {
    stack: rows.map(text => ({
      columns: [{ text }, { text: line('On'), alignment: 'right', width: 220 }],
      margin: [0, 14, 0, 0],
    })),
    margin: [0, 12, 0, 0],
  };
}
