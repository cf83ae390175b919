/** The rules of one family on paper: each with its clock, its sources and how far to trust them, and its cautions. */
import type { Content } from 'pdfmake/interfaces.js';
import { parseDay } from '../../domain/calendar/day.ts';
import { FAMILIES, familyOf } from '../../domain/rulebook/index.ts';
import type { RuleLine } from '../api.ts';
import { rulebookList } from '../questions/rulebook.ts';
import { type Asking, CannotAnswer } from '../questions/types.ts';
import { counted, dateText } from './dates.ts';
import { beforeYouStart, fieldList, type Sheet, section, titled, together } from './frame.ts';
import { clockWords, concernsWords, FORCE_WORDS, LATE_WORDS, sourceWords } from './rules-in-words.ts';

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
  return {
    name: 'Rule sheet',
    about: family.plural.toLowerCase(),
    on,
    orientation: 'portrait',
    rows: adopted.length * 7,
    content: [
      titled(`${family.plural}: by what rule?`, {
        text: `${counted(adopted.length, 'requirement')} that the department has adopted. Late is not the same as unsafe: what being late does is the department’s choice, law apart.`,
      }),
      ...adopted.map(rule => requirement(rule, on)),
      ...(adopted.length === 0 ? ['Nothing is owed on this family by any adopted rule.'] : []),
      ...(offered.length > 0
        ? [
            section('Offered by the shipped book, not adopted: nothing is judged by these'),
            { ul: offered.map(({ requirement: r }) => `${r.title}: ${clockWords(r)[0] ?? ''}`) },
          ]
        : []),
    ],
  };
}

const isOver = ({ to }: RuleLine, on: string) => to !== null && to <= on;

function requirement({ requirement: r, from, to }: RuleLine, on: string): Content {
  const concerns = concernsWords(r);
  const coming = from !== null && (parseDay(from) ?? 0) > (parseDay(on) ?? 0);
  const fields = fieldList(
    [
      ['When', { stack: clockWords(r) }],
      ...(concerns === null ? [] : [['Which things', concerns] as const]),
      ['By', { stack: r.sources.map(sourceWords) }],
      ['Force', `${FORCE_WORDS[r.force]}. ${r.binds}`],
      ['Being late', LATE_WORDS[r.late]],
      ['Who', r.who],
      ['Due soon', `from ${counted(r.warnDays, 'day')} before`],
      ...(from !== null || to !== null ? [['In force', forceText(from, to)] as const] : []),
    ],
    74,
  );
  const head: Content = section(`${r.title}${coming ? ', from a day to come' : ''}`);
  return together([head, fields, ...(r.cautions.length > 0 ? [beforeYouStart(r.cautions)] : [])]);
}

function forceText(from: string | null, to: string | null): string {
  const begins = from === null ? 'from the start' : `from ${dateText(from)}`;
  return to === null ? begins : `${begins}, until ${dateText(to)}`;
}
