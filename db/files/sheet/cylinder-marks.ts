/** The specification or permit stamped on a cylinder, in one spelling; the service pressure where the mark has it. */
import { PERMIT_OFFERS, SPEC_PERIODS } from '../../../domain/rulebook/cylinder.ts';

export interface CylinderMark {
  /** `3AA`, `DOT-SP 10915`, `DOT-E 7277`; an unknown mark as it stands. */
  spec: string;
  /** The pressure that follows the specification in the mark, psi: 2216 of `3AL2216`. */
  servicePressure_psi: number | null;
  /** Whether the mark is one of the law's or of a permit, and not just words. */
  known: boolean;
}

const PERMIT = /\b(?:DOT|US)?[\s.-]*(SP|EX|E)[\s.#-]*(\d{4,5})(?!\d)(?:\s*[-/ ]\s*(\d{4})(?!\d))?/i;
const EXEMPTION = /\b(?:EXEMPTION|SPECIAL PERMIT|PERMIT)[\s.#-]*(?:NO\.?|NUMBER)?\s*(\d{4,5})\b/i;
const BARE_NUMBER = /^(?:DOT)?[\s.#-]*(\d{4,5})$/i;
const LONGEST_FIRST = SPEC_PERIODS.map(s => s.spec)
  .filter(spec => /^\d/.test(spec))
  .sort((a, b) => b.length - a.length);
const SPEC_HEAD = /^(?:(?:US[\s-]*)?(?:DOT|ICC)[\s.:-]*)/i;
const AFTER_SPEC = /^[\s.-]*(\d{3,5})?(?![\dA-Z])/i;

/** Read a cylinder's mark. Marks of the ICC, the DOT's forerunner, are read as DOT's (from memory; common practice). */
export function readMark(text: string): CylinderMark {
  const mark = text.trim();
  const permit = PERMIT.exec(mark);
  if (permit) {
    const kind = (permit[1] ?? '').toUpperCase() === 'SP' ? 'SP' : 'E';
    return {
      spec: `DOT-${kind} ${Number(permit[2])}`,
      servicePressure_psi: permit[3] ? Number(permit[3]) : null,
      known: true,
    };
  }
  const number = EXEMPTION.exec(mark)?.[1] ?? BARE_NUMBER.exec(mark)?.[1];
  // A bare 4500 or 2216 is a pressure in the wrong column, not a permit.
  if (number !== undefined && (number.length === 5 || Number(number) > 6000)) {
    return { spec: permitNumbered(Number(number), mark), servicePressure_psi: null, known: true };
  }
  const un = unMark(mark);
  if (un) return { spec: un, servicePressure_psi: null, known: true };
  // A cylinder for two countries carries both marks; the DOT's counts here.
  const parts = mark.split(/[\s/,;]+/).filter(part => /^(DOT|ICC)/i.test(part));
  return (
    [mark, ...parts].map(specMark).find(found => found !== null) ?? {
      spec: mark,
      servicePressure_psi: null,
      known: false,
    }
  );
}

/** The number alone: as the book knows it, else a special permit, which is what exemptions have been since 2005. */
function permitNumbered(number: number, mark: string): string {
  if (/exemption/i.test(mark)) return `DOT-E ${number}`;
  return PERMIT_OFFERS.find(p => p.permit.endsWith(` ${number}`))?.permit ?? `DOT-SP ${number}`;
}

/** UN cylinders by their ISO design standard: 11119 and 11515 composite; 9809 and 7866 seamless. */
function unMark(mark: string): string | null {
  if (!/\bUN\b|\bISO\b/i.test(mark)) return null;
  if (/11119|11515|composite/i.test(mark)) return 'UN composite';
  return /9809|7866|seamless/i.test(mark) ? 'UN seamless' : null;
}

function specMark(mark: string): CylinderMark | null {
  const bare = mark.replace(SPEC_HEAD, '').trim().toUpperCase();
  for (const spec of LONGEST_FIRST) {
    if (!bare.startsWith(spec)) continue;
    const after = AFTER_SPEC.exec(bare.slice(spec.length));
    if (!after) continue;
    return { spec, servicePressure_psi: after[1] ? Number(after[1]) : null, known: true };
  }
  return null;
}
