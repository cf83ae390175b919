/**
 * Editions: the same rule under two document numbers. The standards were merged and renumbered from 2022 on; what a
 * department has adopted stays what it was judged by, and a new edition is adopted from a day on.
 */
import { isConfirmed } from './force.ts';
import type { Confidence, Requirement, Source } from './types.ts';

export interface Edition {
  id: string;
  document: string;
  edition: string;
  title: string;
  /** The documents whose duties it takes in. */
  takesIn: readonly string[];
  confidence: Confidence;
  note: string;
}

const SECTIONS =
  'Its clauses carry other numbers, which were not seen: check each against the edition in hand.';

export const EDITIONS: readonly Edition[] = [
  {
    id: 'nfpa-1930-2025',
    document: 'NFPA 1930',
    edition: '2025',
    title: 'Ground ladders, rescue tools, fire hose and their use and test',
    takesIn: ['NFPA 1932', 'NFPA 1937', 'NFPA 1962'],
    confidence: 'read second-hand',
    note: SECTIONS,
  },
  {
    id: 'nfpa-1910-2024',
    document: 'NFPA 1910',
    edition: '2024',
    title: 'Inspection, maintenance and testing of in-service emergency vehicles',
    takesIn: ['NFPA 1911', 'NFPA 1912'],
    confidence: 'read second-hand',
    note: SECTIONS,
  },
  {
    id: 'nfpa-1850-2025',
    document: 'NFPA 1850',
    edition: '2025',
    title: 'Care of protective clothing and of SCBA',
    takesIn: ['NFPA 1851', 'NFPA 1852'],
    confidence: 'read second-hand',
    note: `Its issue was expected in 2025. ${SECTIONS}`,
  },
  {
    id: 'nfpa-2500-2022',
    document: 'NFPA 2500',
    edition: '2022',
    title: 'Technical search and rescue: life-safety rope and equipment',
    takesIn: ['NFPA 1670', 'NFPA 1858', 'NFPA 1983'],
    confidence: 'memory',
    note: SECTIONS,
  },
];

/**
 * A requirement under another edition: the same duty with its sources renumbered; where the old one stood is kept in
 * the note. @returns null where none of its sources is of a document that the edition takes in
 */
export function underEdition(requirement: Requirement, edition: Edition): Requirement | null {
  if (!requirement.sources.some(s => edition.takesIn.includes(s.document))) return null;
  const renumbered = (source: Source): Source =>
    edition.takesIn.includes(source.document)
      ? {
          document: edition.document,
          section: '',
          edition: edition.edition,
          // A clause is no surer than the one it was read in, nor than the renumbering itself.
          confidence: lessSure(source.confidence, edition.confidence),
          note: [
            `Formerly ${source.document}${source.section === '' ? '' : ` ${source.section}`} (${source.edition}).`,
            source.note,
          ]
            .filter(Boolean)
            .join(' '),
        }
      : source;
  const [{ document } = { document: '' }] = requirement.sources.filter(s =>
    edition.takesIn.includes(s.document),
  );
  const sources = requirement.sources.map(renumbered);
  // The duty was seen, and only its new number is from memory: it stays judged by.
  const isSeen = isConfirmed(requirement) && !isConfirmed({ ...requirement, sources });
  return {
    ...requirement,
    sources,
    ...(isSeen ? { confirmed: `As it stood in ${document}; its new number is from memory.` } : {}),
    binds: requirement.binds.replaceAll(document, `${edition.document} (${edition.edition})`),
  };
}

const SURENESS: readonly Confidence[] = ['read', 'read second-hand', 'memory', 'common practice'];

function lessSure(a: Confidence, b: Confidence): Confidence {
  return SURENESS.indexOf(a) >= SURENESS.indexOf(b) ? a : b;
}
