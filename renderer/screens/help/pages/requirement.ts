/** The page of a requirement, made from the requirement itself: help and rule book say the same words. */

import {
  clockWords,
  countsFromWords,
  onTimeWords,
  type PeriodLine,
  periodLines,
} from '../../../../domain/rulebook/clock-words.ts';
import type { Family, Requirement } from '../../../../domain/rulebook/types.ts';
import {
  cited,
  concernsWords,
  confidenceSentence,
  FORCE_WORDS,
  LATE_WORDS,
  midSentence,
  narrowerWords,
  settledWords,
  warnWords,
} from '../../../../domain/rulebook/words.ts';
import type { HelpPage } from './page.ts';

export const pageIdOf = (requirement: string) => `rule ${requirement}`;

interface Told {
  requirement: Requirement;
  /** False: the program offers it, the department has not adopted it. */
  adopted: boolean;
}

export function requirementPage(
  { requirement, adopted }: Told,
  family: Family | undefined,
  titleOf: (id: string) => string | undefined,
): HelpPage {
  const { sources, cautions, who } = requirement;
  const periods = periodLines(requirement.clock);
  return {
    id: pageIdOf(requirement.id),
    title: `${family?.title ?? requirement.family}: ${midSentence(requirement.title)}${narrowerWords(requirement, family)}`,
    group: 'The rules',
    lead: `${clockWords(requirement, family)}. ${concernsWords(requirement, family)}`,
    opens: { hash: `#/rules?rule=${encodeURIComponent(requirement.id)}`, says: 'Open it in the rule book' },
    sections: [
      ...(adopted ? [] : [{ unconfirmed: ['The department has not adopted it: nothing is judged by it.'] }]),
      ...(cautions.length > 0 ? [{ cautions: { cautions, who } }] : []),
      {
        heading: 'When',
        list: [...countsFromWords(requirement), onTimeWords(requirement), warnWords(requirement)],
      },
      ...(periods
        ? [
            { heading: 'By specification', terms: termsOf(periods.bySpec) },
            { heading: 'With none on file, by construction', terms: termsOf(periods.byConstruction) },
          ]
        : []),
      { heading: 'What settles it', says: settledWords(requirement, titleOf) },
      { heading: 'Who', says: [who] },
      { heading: 'Being late', says: [`It ${LATE_WORDS[requirement.late]}`] },
      {
        heading: 'By what authority',
        says: [`It has the force of ${FORCE_WORDS[requirement.force]}. ${requirement.binds}`],
        list: sources.map(s =>
          [`${cited(s)}${s.edition ? `, ${s.edition}` : ''}.`, s.note].filter(Boolean).join(' '),
        ),
        unconfirmed: sources
          .filter(s => s.confidence !== 'read')
          .map(s => `${cited(s)}: ${confidenceSentence(s)}`),
      },
    ],
  };
}

const termsOf = (lines: readonly PeriodLine[]) =>
  lines.map(l => ({ word: l.span, means: `${l.holdsFor.join(', ')}.` }));
