/** What the files about rigs share: the standard for rigs in service, and how a yearly duty of a rig is counted. */
import type { Requirement, Source } from './types.ts';
import { warnDaysFor } from './warnings.ts';

/** The in-service standard; its duties are now printed in NFPA 1910. */
export const nfpa1911 = (
  section: string,
  confidence: Source['confidence'],
  note: string,
  edition = '2017',
): Source => ({
  document: 'NFPA 1911',
  section,
  edition: `${edition}; carried into NFPA 1910 (2024)`,
  confidence,
  note,
});

export const practice = (note = 'Common practice, no source.'): Source =>
  nfpa1911('', 'common practice', note);

export const wac = (document: string, section: string, note: string): Source => ({
  document,
  section,
  edition: 'Washington State',
  confidence: 'read',
  note,
});

/** The maker's word has the force of law in Washington: maintained and tested as the maker recommends. */
export const WAC_MAINTENANCE = wac(
  'WAC 296-305-04507',
  '(3)',
  'A preventive maintenance program with records for each rig; maintained and tested as the manufacturer recommends.',
);

export const ADOPTED = 'Where the department has adopted NFPA 1911 or 1910.';
export const TECHNICIAN =
  'An emergency vehicle technician, or one certified or factory-qualified for the component: WAC 296-305-04507(3) asks for it in Washington.';
export const TECHNICIAN_ASKED = 'Emergency vehicle technician';

type Yearly = Pick<
  Requirement,
  'id' | 'title' | 'activity' | 'appliesTo' | 'sources' | 'late' | 'who' | 'cautions'
> &
  Partial<Requirement>;

/** A duty of a rig each 12 months; the first one 12 months after it was placed in service. What is told else wins. */
export function yearly(duty: Yearly): Requirement {
  return {
    family: 'apparatus',
    clock: {
      kind: 'since last',
      every: { months: 12 },
      first: { counts: 'in service', plus: { months: 12 } },
    },
    dueAt: 'day',
    warnDays: warnDaysFor({ months: 12 }),
    satisfiedBy: [duty.activity],
    countedOutcomes: ['pass'],
    force: 'standard',
    binds: ADOPTED,
    ...duty,
  };
}

type Limit = Pick<
  Requirement,
  'id' | 'title' | 'activity' | 'appliesTo' | 'clock' | 'sources' | 'late' | 'who'
> &
  Partial<Requirement>;

/** A reading beyond which something is owed on a rig; while the last reading is within it, nothing shows. */
export function limit(duty: Limit): Requirement {
  return {
    family: 'apparatus',
    dueAt: 'day',
    warnDays: 0,
    satisfiedBy: [duty.activity],
    countedOutcomes: ['pass'],
    force: 'standard',
    binds: ADOPTED,
    cautions: [],
    ...duty,
  };
}
