/** A bottle that is not the department's: all that is known of it is what its label says. */
import type { Day } from '../calendar/day.ts';
import type { When } from '../calendar/when.ts';
import type { Profile } from '../rulebook/force.ts';
import { type AgainstFill, byGravity, byPractice } from './fill-against.ts';
import { foreignMarkAgainst } from './fill-mark.ts';
import { pressureAgainst } from './fill-pressure.ts';

/** What was read on it. */
export interface ForeignLabel {
  hydroDate: When | null;
  servicePressure_psi: number | null;
}

/**
 * What speaks against filling another agency's bottle, the gravest first. What pulls one of ours sets this one aside
 * for its owner: it is no thing of the department's, so it has no tag and no chain here.
 */
export function againstForeign(
  label: ForeignLabel,
  { on, to_psi }: { on: Day; to_psi: number | null },
  profile: Profile,
): AgainstFill[] {
  return [
    ...foreignMarkAgainst(label.hydroDate, on, profile),
    ...pressureAgainst(label.servicePressure_psi, to_psi, profile),
    byPractice({
      what: 'not ours',
      says: 'It is not one of ours: its life and its condition are not known here. Read the label, and look it over.',
      effect: 'note',
      pulls: false,
    }),
  ].sort(byGravity);
}
