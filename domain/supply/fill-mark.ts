/** The hydro date that was read on a bottle, held against the file and against the periods. */
import type { CylinderDates } from '../acceptance/cylinder.ts';
import { type Day, lastDayOfMonth, type Month, monthOf } from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import { lastDay, parseWhen, type When } from '../calendar/when.ts';
import type { Derived } from '../derive/thing.ts';
import { CONSTRUCTION_PERIODS, cfr, everywhere } from '../rulebook/cylinder-table.ts';
import type { Profile } from '../rulebook/force.ts';
import type { Source } from '../rulebook/types.ts';
import { type AgainstFill, byClause, byPractice } from './fill-against.ts';
import type { Filling } from './fill-check.ts';

/** The requalifier's mark stands even where its papers are lost. */
const MARK_GOVERNS: Source = {
  document: 'PHMSA interpretation',
  section: '19-0079',
  edition: '',
  confidence: 'read',
};

/**
 * The mark that was read on one of the department's own bottles. Where it is another than the last test on file, the
 * mark governs: an older one may have run out, a newer one means that a test was never entered.
 */
export function markAgainst(
  derived: Derived,
  dates: CylinderDates,
  { on, hydroDate }: Pick<Filling, 'on' | 'hydroDate'>,
  profile: Profile,
): { against: AgainstFill[]; newer: boolean } {
  const told = lastTest(derived);
  if (hydroDate === null || told === null || sameMark(hydroDate, told)) return { against: [], newer: false };
  const read = showWhen(hydroDate);
  if (hydroDate.slice(0, 7) > told.slice(0, 7))
    return {
      newer: true,
      against: [
        byClause(
          {
            what: 'mark read',
            says: `The mark read is of ${read}; the last test on file is of ${showWhen(told)}. Record the newer one.`,
            effect: 'note',
            pulls: false,
          },
          MARK_GOVERNS,
          { force: 'law', bindings: everywhere('180.205(c)') },
          profile,
        ),
      ],
    };
  const until = untilByMark(hydroDate, told, dates.requalifyBy);
  const runOut = until !== null && on > until && !(dates.requalifyBy !== null && on > dates.requalifyBy);
  return {
    newer: false,
    against: [
      byClause(
        {
          what: 'mark read',
          says: runOut
            ? `The mark read is of ${read} and has run out ${showDay(until)}; the file has a test of ${showWhen(told)}. The mark on the bottle governs.`
            : `The mark read is of ${read}; the file has a newer test, of ${showWhen(told)}. Read it again: the mark on the bottle governs.`,
          effect: runOut ? 'do not fill' : 'not judged',
          pulls: runOut,
        },
        runOut ? cfr('180.205(c)') : MARK_GOVERNS,
        { force: 'law', bindings: everywhere('180.205(c)') },
        profile,
      ),
    ],
  };
}

/** The last examination that passed, as its mark says it; the manufacture month where there is none; or null. */
export function lastTest(derived: Pick<Derived, 'records' | 'attributes'>): When | null {
  const last = derived.records.findLast(
    r => r.values.activity === 'requalification' && r.values.outcome === 'pass',
  );
  const made = derived.attributes.made;
  return last?.effective ?? (typeof made === 'string' ? parseWhen(made) : null);
}

/** Marks bear month and year; where one is known to the year alone, the year is compared. */
function sameMark(a: When, b: When): boolean {
  const known = Math.min(a.length, b.length, 7);
  return a.slice(0, known) === b.slice(0, known);
}

/** The last day by the mark that was read: the period that the file's own date runs, counted from the mark. */
function untilByMark(mark: When, told: When, requalifyBy: Day | null): Day | null {
  if (requalifyBy === null) return null;
  const months = monthOf(requalifyBy) - monthOf(lastDay(told));
  return months <= 0 ? null : lastDayOfMonth((monthOf(lastDay(mark)) + months) as Month);
}

const PERIODS = CONSTRUCTION_PERIODS.map(c => c.months);
const SHORTEST_months = Math.min(...PERIODS);
const LONGEST_months = Math.max(...PERIODS);

/**
 * The mark read on a bottle that is not ours, of which nothing is on file but its label.
 * @source 49 CFR 180.205(c); the periods are those by construction of the book's table: three years for hoop,
 *   fiberglass and aramid, five for carbon and metal. A steel bottle with a star mark goes longer: 180.209(b).
 */
export function foreignMarkAgainst(hydroDate: When | null, on: Day, profile: Profile): AgainstFill[] {
  if (hydroDate === null)
    return [
      byPractice({
        what: 'mark read',
        says: 'No hydro date was read on it, so it is not judged: read the last mark.',
        effect: 'not judged',
        pulls: false,
      }),
    ];
  const end = (months: number) => lastDayOfMonth((monthOf(lastDay(hydroDate)) + months) as Month);
  if (on > end(LONGEST_months))
    return [
      byClause(
        {
          what: 'examination overdue',
          says: `Its last mark is of ${showWhen(hydroDate)}, more than ${LONGEST_months / 12} years ago: no SCBA bottle goes longer, but steel with a star mark (180.209(b)).`,
          effect: 'do not fill',
          pulls: true,
        },
        cfr('180.205(c)'),
        { force: 'law', bindings: everywhere('180.205(c)') },
        profile,
      ),
    ];
  if (on > end(SHORTEST_months))
    return [
      byPractice({
        what: 'mark read',
        says: `Its last mark is of ${showWhen(hydroDate)}: in date for carbon and metal (${LONGEST_months / 12} years), out of date for hoop, fiberglass and aramid (${SHORTEST_months / 12}). Read the construction on the label.`,
        effect: 'not judged',
        pulls: false,
      }),
    ];
  return [];
}
