/** The rules of one family on paper: each with its clock, its sources and how far to trust them, and its cautions. */
import type { Content } from 'pdfmake/interfaces.js';
import { parseDay } from '../../domain/calendar/day.ts';
import { capital } from '../../domain/capital.ts';
import {
  clockWords,
  countsFromWords,
  onTimeWords,
  type PeriodLine,
  periodLines,
} from '../../domain/rulebook/clock-words.ts';
import { FAMILIES, familyOf } from '../../domain/rulebook/index.ts';
import type { Family, Requirement, Source } from '../../domain/rulebook/types.ts';
import {
  cited,
  concernsWords,
  confidenceSentence,
  FORCE_WORDS,
  LATE_WORDS,
  narrowerWords,
  OWN_WORDS,
  settledWords,
  warnWords,
} from '../../domain/rulebook/words.ts';
import type { RuleLine } from '../api-rules.ts';
import { rulebookList } from '../questions/rulebook.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { counted, dateText } from './dates.ts';
import { beforeYouStart, fieldList, type Sheet, section, titled, together } from './frame.ts';

/** @throws CannotAnswer where there is no such family */
export async function ruleSheet(asking: Asking, id: string, on: string): Promise<Sheet> {
  const family = familyOf(id);
  if (family === undefined)
    throw new CannotAnswer(
      'unknown family',
      `There is no family ${id}.`,
      `Use one of: ${FAMILIES.map(f => f.id).join(', ')}.`,
      'family',
    );
  const { rules } = await rulebookList.answer(asking, { family: id });
  const adopted = rules.filter(r => r.adopted && !isOver(r, on));
  const offered = rules.filter(r => !r.adopted);
  const titleOf = (requirement: string) =>
    rules.find(r => r.requirement.id === requirement)?.requirement.title;
  return {
    name: 'Rule sheet',
    about: family.plural,
    on,
    orientation: 'portrait',
    rows: adopted.length * 8,
    content: [
      titled(`${family.plural}: by what rule?`, {
        text: `${counted(adopted.length, 'requirement')} that the department has adopted. Late is not the same as unsafe: what being late does is the department’s choice, law apart.`,
      }),
      ...adopted.map(rule => requirementBlock(rule, family, on, titleOf)),
      ...(adopted.length === 0 ? ['Nothing is owed on this family by any adopted rule.'] : []),
      ...(offered.length > 0
        ? [
            section('Offered by the shipped book, not adopted: nothing is judged by these'),
            { ul: offered.map(({ requirement: r }) => `${titleIn(r, family)}: ${clockWords(r, family)}`) },
          ]
        : []),
    ],
  };
}

const isOver = ({ to }: RuleLine, on: string) => to !== null && to <= on;

/** A title, with what tells it from another of the same: `Service test, occupant use`. */
const titleIn = (r: Requirement, family: Family) => `${r.title}${narrowerWords(r, family)}`;

function requirementBlock(
  { requirement: r, from, to, force }: RuleLine,
  family: Family,
  on: string,
  titleOf: (id: string) => string | undefined,
): Content {
  const coming = from !== null && (parseDay(from) ?? 0) > (parseDay(on) ?? 0);
  const when = [
    `${clockWords(r, family)}. ${countsFromWords(r).join(' ')}`,
    ...periodWords(r),
    `${onTimeWords(r)} ${warnWords(r)}`,
  ];
  const fields = fieldList(
    [
      ['When', { stack: when }],
      ['Which things', concernsWords(r, family)],
      ['Settled by', settledWords(r, titleOf).join(' ')],
      ['By', { stack: r.sources.map(sourceWords) }],
      ['Force', `${capital(FORCE_WORDS[force.force])} here. ${force.says}`],
      ['Binds', r.binds],
      ...ownFields(r),
      ['Being late', capital(LATE_WORDS[r.late])],
      ['Who', r.who],
      ...(from !== null || to !== null ? [['In force', forceText(from, to)] as const] : []),
    ],
    70,
  );
  const head = section(`${titleIn(r, family)}${coming ? ', from a day to come' : ''}`);
  return together([head, fields, ...(r.cautions.length > 0 ? [beforeYouStart(r.cautions)] : [])]);
}

/** What the department made of it, and on what it was confirmed. */
function ownFields({ own, confirmed }: Requirement): (readonly [string, string])[] {
  return [
    ...(own
      ? [
          [
            'Own rule',
            `${OWN_WORDS[own.change]} ${own.authority ? `${own.authority}: ` : ''}${own.reason}`,
          ] as const,
        ]
      : []),
    ...(confirmed ? [['Confirmed', `From ${confirmed}.`] as const] : []),
  ];
}

/** The table behind a cylinder's clock, a line for each of its halves. */
function periodWords({ clock }: Requirement): string[] {
  const lines = periodLines(clock);
  if (lines === null) return [];
  const said = (list: readonly PeriodLine[]) =>
    list.map(({ span, holdsFor }) => `${span}: ${holdsFor.join(', ')}`).join('. ');
  return [`By specification. ${said(lines.bySpec)}.`, `By construction. ${said(lines.byConstruction)}.`];
}

/** `NFPA 1962 (4.8), 2018.`, and how far to trust it. */
function sourceWords(source: Source): string {
  const { edition, confidence, note } = source;
  const named = [cited(source), edition].filter(part => part !== '').join(', ');
  return [
    named === '' ? '' : `${named}.`,
    confidence === 'read' ? 'The source was read.' : confidenceSentence(source),
    note ?? '',
  ]
    .filter(part => part !== '')
    .join(' ');
}

function forceText(from: string | null, to: string | null): string {
  const begins = from === null ? 'from the start' : `from ${dateText(from)}`;
  return to === null ? begins : `${begins}, until ${dateText(to)}`;
}
