/** The states, and which of them run a workplace-safety plan of their own that covers public employers. */
import type { Source } from './types.ts';

export const STATES: Readonly<Record<string, string>> = {
  AL: 'Alabama',
  AK: 'Alaska',
  AZ: 'Arizona',
  AR: 'Arkansas',
  CA: 'California',
  CO: 'Colorado',
  CT: 'Connecticut',
  DE: 'Delaware',
  DC: 'District of Columbia',
  FL: 'Florida',
  GA: 'Georgia',
  GU: 'Guam',
  HI: 'Hawaii',
  ID: 'Idaho',
  IL: 'Illinois',
  IN: 'Indiana',
  IA: 'Iowa',
  KS: 'Kansas',
  KY: 'Kentucky',
  LA: 'Louisiana',
  ME: 'Maine',
  MD: 'Maryland',
  MA: 'Massachusetts',
  MI: 'Michigan',
  MN: 'Minnesota',
  MS: 'Mississippi',
  MO: 'Missouri',
  MT: 'Montana',
  NE: 'Nebraska',
  NV: 'Nevada',
  NH: 'New Hampshire',
  NJ: 'New Jersey',
  NM: 'New Mexico',
  NY: 'New York',
  NC: 'North Carolina',
  ND: 'North Dakota',
  OH: 'Ohio',
  OK: 'Oklahoma',
  OR: 'Oregon',
  PA: 'Pennsylvania',
  PR: 'Puerto Rico',
  RI: 'Rhode Island',
  SC: 'South Carolina',
  SD: 'South Dakota',
  TN: 'Tennessee',
  TX: 'Texas',
  UT: 'Utah',
  VT: 'Vermont',
  VI: 'Virgin Islands',
  VA: 'Virginia',
  WA: 'Washington',
  WV: 'West Virginia',
  WI: 'Wisconsin',
  WY: 'Wyoming',
};

/** Where the list of plans was seen. */
export const STATE_PLAN_SOURCE: Source = {
  document: 'OSHA, State Plans',
  section: '22 plans for private and public employers, 7 for public employers alone',
  edition: 'public list',
  confidence: 'read',
  note: 'A plan may be approved or withdrawn: the department confirms its own.',
};

/** Plans that cover private employers and state and local government. */
export const PLANS_FOR_ALL: ReadonlySet<string> = new Set(
  'AK AZ CA HI IN IA KY MD MI MN NV NM NC OR PR SC TN UT VT VA WA WY'.split(' '),
);
/** Plans that cover state and local government alone. */
export const PLANS_FOR_PUBLIC: ReadonlySet<string> = new Set('CT IL ME MA NJ NY VI'.split(' '));

/** Whether a state's own plan covers public employers. */
export function planCoversPublic(state: string): boolean {
  return PLANS_FOR_ALL.has(state) || PLANS_FOR_PUBLIC.has(state);
}
