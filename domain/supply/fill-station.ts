/** What speaks against filling anything here: the compressor's air, its filters, its alarm, its condition. */
import type { Day } from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import { stateOn } from '../derive/due.ts';
import { type Derived, inForce } from '../derive/thing.ts';
import type { Book, RuleVersion } from '../rulebook/book.ts';
import { profileOn } from '../rulebook/force.ts';
import type { Requirement } from '../rulebook/types.ts';
import { type AgainstFill, byClause, byGravity, byPractice } from './fill-against.ts';

const OUT = ['tagged out', 'at repair', 'held for investigation', 'missing', 'retired', 'disposed'];

/**
 * What speaks against filling at a compressor or fill station, the gravest first. Air that failed its sample, or that
 * owes one after a repair or a happening, pulls every bottle that is filled with it; a sample that is only late does not.
 * @source the book's own duties of compressors: 29 CFR 1910.134(i), NFPA 1989; that bottles filled since the last good
 *   sample are quarantined is their caution
 */
export function againstStation(derived: Derived, book: Book, on: Day): AgainstFill[] {
  const { number } = derived;
  const against: AgainstFill[] = [];
  const last = derived.conditions.at(-1);
  if (last && OUT.includes(last.value.condition))
    against.push(
      byPractice({
        what: 'fill station',
        says: `${number} is ${last.value.condition} since ${showWhen(last.from)}${last.value.reason ? `: ${last.value.reason.replace(/\.$/, '')}` : ''}.`,
        effect: 'do not fill',
        pulls: false,
      }),
    );
  const profile = profileOn(book.profiles, on);
  const versions = book.versions.get(derived.family) ?? [];
  for (const row of derived.due) {
    if (!inForce(row, on)) continue;
    const version = versions.find(v => v.requirement.id === row.requirement && sameSpan(v, row));
    const state = stateOn(row, on);
    if (!version || !['overdue', 'never done', 'retest owed', 'not judged', 'life ended'].includes(state))
      continue;
    const { requirement } = version;
    const isAir = requirement.activity === 'air sample';
    const isBad = isAir && state === 'retest owed';
    const [source] = requirement.sources;
    if (!source) continue;
    against.push(
      byClause(
        {
          what: isAir ? 'air' : 'fill station',
          says: `${number}: ${stateWords(requirement, state, row.dueOn)}.${isBad ? ' Stop filling; keep apart every bottle filled since the last good sample, and sample again.' : ''}`,
          effect: state === 'not judged' ? 'note' : row.late === 'blocks' ? 'do not fill' : 'note',
          pulls: isBad && row.late === 'blocks',
        },
        source,
        requirement,
        profile,
      ),
    );
  }
  return against.sort(byGravity);
}

const sameSpan = (version: RuleVersion, row: { from: Day | null; to: Day | null }) =>
  (version.from === null || row.from === null || version.from <= row.from) &&
  (version.to === null || row.to === null || row.to <= version.to);

function stateWords({ title }: Requirement, state: string, dueOn: Day | null): string {
  const said = title.charAt(0).toLowerCase() + title.slice(1);
  return `${said} ${state}${dueOn === null ? '' : ` since ${showDay(dueOn)}`}`;
}
