/** May a cylinder be filled, and may it stay in service: by the law, and by what the department has chosen. */
import { type Day, lastDayOfMonth, type Month, monthOf } from '../calendar/day.ts';
import { showDay } from '../calendar/show.ts';
import { CONDEMNATION } from '../rulebook/cylinder.ts';
import { withArticle } from '../rulebook/words.ts';

export interface Verdict {
  /** null: cannot be judged. */
  allowed: boolean | null;
  because: string;
}

export interface CylinderDates {
  /** The last day on time for the earliest examination that law asks for, or null where none is known or owed. */
  requalifyBy: Day | null;
  /** Which one that is: `requalification`, or the `crack examination` of 6351-T6. */
  examination: string;
  /** The last day of its life, or null where it has no fixed one. */
  lifeEnds: Day | null;
  /** Whether either could not be judged: an unconfirmed permit, a missing date. */
  unjudged: boolean;
  /** What is owed whatever the date: a requalification after damage or a failure, an inspection after a repair, condemnation. */
  owed: readonly string[];
}

export interface CylinderPolicies {
  fillInDueMonth: 'to month end' | 'not in due month';
  chargedPastDue: 'pull' | 'until emptied';
}

/**
 * May it be filled on a day? A top-off counts as filling (PHMSA interpretation 09-0148).
 * @source 49 CFR 180.205(c): not filled after it becomes due; never past its authorized life (interpretation
 *   11-0131); after damage or heat only once requalified, 180.205(d). Filling inside the due month is the
 *   department's policy: the text reads both ways.
 */
export function judgeFill(
  dates: CylinderDates,
  on: Day,
  policies: CylinderPolicies,
): { law: Verdict; policy: Verdict } {
  const law = fillByLaw(dates, on);
  const [other] = dates.owed;
  if (law.allowed === true && other !== undefined)
    return {
      law,
      policy: { allowed: false, because: `It owes ${withArticle(other)} before it may be returned.` },
    };
  if (law.allowed !== true || dates.requalifyBy === null) return { law, policy: law };
  const beforeDueMonth = lastDayOfMonth((monthOf(dates.requalifyBy) - 1) as Month);
  if (policies.fillInDueMonth === 'not in due month' && on > beforeDueMonth)
    return {
      law,
      policy: {
        allowed: false,
        because: `Policy: not filled inside the month it falls due; the last day was ${showDay(beforeDueMonth)}.`,
      },
    };
  return { law, policy: law };
}

function fillByLaw(dates: CylinderDates, on: Day): Verdict {
  const out = outByLaw(dates);
  if (out) return out;
  if (dates.lifeEnds !== null && on > dates.lifeEnds)
    return {
      allowed: false,
      because: `Its life ended ${showDay(dates.lifeEnds)}; it is never refilled, whatever its test mark: 49 CFR 180.205(c).`,
    };
  if (dates.requalifyBy !== null && on > dates.requalifyBy)
    return {
      allowed: false,
      because: `Its ${dates.examination} was due by ${showDay(dates.requalifyBy)}; it is not filled until that is done: 49 CFR 180.205(c).`,
    };
  if (dates.unjudged) return { allowed: null, because: 'Not judged: a value is not confirmed.' };
  return { allowed: true, because: 'Inside its requalification period and its life.' };
}

/** Out whatever its dates: condemned, or to be tested and inspected before further use. */
function outByLaw(dates: CylinderDates): Verdict | null {
  if (dates.owed.includes(CONDEMNATION))
    return {
      allowed: false,
      because: 'Over-heated aluminum is condemned, not tested: 49 CFR 180.205(i)(1)(viii).',
    };
  if (dates.owed.some(activity => EXAMINATIONS.includes(activity)))
    return { allowed: false, because: 'It must be requalified before further use: 49 CFR 180.205(d).' };
  return null;
}

/** The examinations without which a cylinder is not filled. */
export const EXAMINATIONS: readonly string[] = ['requalification', 'crack examination'];

/**
 * May a cylinder that is charged stay in service on a day?
 * @source 49 CFR 180.205(c) and PHMSA interpretation 09-0148: filled before it became due, it may stay until
 *   emptied, if sound. Many departments pull it all the same (common practice).
 */
export function judgeStay(
  dates: CylinderDates,
  on: Day,
  policies: CylinderPolicies,
): { law: Verdict; policy: Verdict } {
  const out = outByLaw(dates);
  if (out) return { law: out, policy: out };
  const pastDue = dates.requalifyBy !== null && on > dates.requalifyBy;
  const pastLife = dates.lifeEnds !== null && on > dates.lifeEnds;
  if (!pastDue && !pastLife) {
    const verdict = dates.unjudged
      ? { allowed: null, because: 'Not judged: a value is not confirmed.' }
      : { allowed: true, because: 'Inside its requalification period and its life.' };
    return { law: verdict, policy: verdict };
  }
  const law: Verdict = {
    allowed: true,
    because: 'Charged before it became due, it may stay until emptied, if sound; it is not topped off.',
  };
  return policies.chargedPastDue === 'pull'
    ? { law, policy: { allowed: false, because: 'Policy: a charged cylinder past its date is pulled.' } }
    : { law, policy: law };
}

/**
 * The pressure at or under which an SCBA cylinder is recharged: 90 % of its rated pressure.
 * @param service_psi rated pressure, whole psi, above 0
 * @returns psi as decimal text with at most one decimal: 2216 gives "1994.4"
 * @throws RangeError for a pressure that is not a whole number above 0
 * @source 29 CFR 1910.134(h)(3)(iii): recharged when the pressure falls to 90 %
 */
export function rechargeAt_psi(service_psi: number): string {
  if (!Number.isSafeInteger(service_psi) || service_psi <= 0)
    throw new RangeError(`A service pressure of ${service_psi} psi cannot be.`);
  // In tenths, whole: 2216 * 0.9 is 1994.4000000000001.
  const tenths = service_psi * 9;
  return tenths % 10 === 0 ? String(tenths / 10) : `${Math.floor(tenths / 10)}.${tenths % 10}`;
}
