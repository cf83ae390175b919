/** Whether a cylinder was filled to more than it may hold. */

import { cfr, everywhere } from '../rulebook/cylinder-table.ts';
import type { Profile } from '../rulebook/force.ts';
import type { Source } from '../rulebook/types.ts';
import { grouped } from '../units.ts';
import { type AgainstFill, byClause, byPractice } from './fill-against.ts';

/** Not seen: the limit at 70 °F stands in 173.301a as far as it is remembered. */
const SERVICE_PRESSURE: Source = {
  document: '49 CFR',
  section: '173.301a(c)',
  edition: '',
  confidence: 'memory',
  note: 'At 70 °F a cylinder holds no more than the service pressure it is marked for.',
};

/**
 * @param service_psi its service pressure as it is on file, whatever stands there
 * @param to_psi what it is filled to; null while nobody has said: then only that nothing can be judged is told
 * @source over the service pressure: 49 CFR 173.301a(c), from memory. Over 1.10 of it: 173.302a(b), read, the most
 *   that any mark (+ on 3A, 3AX, 3AA, 3AAX and 3T) allows. That a little over is let cool and bled is common practice.
 */
export function pressureAgainst(
  service_psi: unknown,
  to_psi: number | null,
  profile: Profile,
): AgainstFill[] {
  if (typeof service_psi !== 'number' || service_psi <= 0)
    return [
      byPractice({
        what: 'service pressure',
        says: 'Its service pressure is not on file, so the pressure is not judged: read it on the label.',
        effect: 'not judged',
        pulls: false,
      }),
    ];
  if (to_psi === null || to_psi <= service_psi) return [];
  const told = `${grouped(to_psi)} psi is over its service pressure of ${grouped(service_psi)} psi`;
  // Ten times the one and eleven times the other: 1.1 has no exact binary form.
  if (to_psi * 10 > service_psi * 11)
    return [
      byClause(
        {
          what: 'pressure',
          says: `${told} by more than a tenth, which no mark allows: bleed it down and have it looked at.`,
          effect: 'do not fill',
          pulls: true,
        },
        cfr('173.302a(b)'),
        { force: 'law', bindings: everywhere('173.302a(b)') },
        profile,
      ),
    ];
  return [
    byClause(
      {
        what: 'pressure',
        says: `${told}: let it cool, read it again at 70 °F and bleed it down. Only a steel bottle marked + may hold a tenth more.`,
        effect: 'do not fill',
        pulls: false,
      },
      SERVICE_PRESSURE,
      { force: 'law', bindings: everywhere('173.301a(c)') },
      profile,
    ),
  ];
}
