/** The stories of the demo as data: what happened, where it shows, and the numbers of the things it is about. */

const range = (prefix: string, from: number, to: number): string[] =>
  Array.from({ length: to - from + 1 }, (_, i) => `${prefix}${from + i}`);

const latest = range('32-', 401, 406);
const buried = range('34-', 293, 298);
const failedStill = ['31-133', '32-107', '33-106', '34-268'];

/** Lengths of hose that something is told of. `kept`: nothing happens to them by chance. */
export const HOSE = {
  /** Engine 33's, in Engine 31's bed. */
  found: '33-124',
  /** Missed its test because it was in Engine 33's bed that day. */
  overdue: '31-107',
  /** The number that two lengths bear. */
  clash: '32-118',
  /** Failed this season's test and neither retested nor retired. */
  failedStill,
  /** At the bottom of Station 34's rack when the others were tested. */
  buried,
  latest,
  /** Missing since a barn fire that is not settled, and the neighbor's length that lies in its place. */
  afterBarn: '34-102',
  neighbors: 'CW-31',
  notTested: ['31-107', ...buried, ...latest],
  madeBefore1987: ['33-12', '33-15'],
  kept: ['33-124', '31-107', '32-118', ...failedStill, ...buried],
} as const satisfies Record<string, string | readonly string[]>;

const labelExpired = ['A-10-5', 'C-12-1'];
const labelExpires = ['R-14-1', 'E-24-2', 'R-14-4', 'E-28-4'];
const notLookedAt = ['S-16-2', 'A-10-13'];

export const LADDERS = {
  /** Repaired as a halyard, corrected to a rung: a load test is owed since the repair. */
  repaired: 'E-28-2',
  /** Days before the demo's day of that repair. */
  repairedAgo: 41,
  /** Came days ago and was never tested. */
  untested: 'E-28-8',
  /** Stood in flame contact last week. */
  flame: 'E-35-2',
  labelExpired,
  labelExpires,
  notLookedAt,
  kept: ['E-28-2', 'E-35-2', ...labelExpired, ...labelExpires, ...notLookedAt] as readonly string[],
};

const flowEarly = range('P-', 61, 65);
const flowMissed = ['P-88', 'P-89'];

export const PACKS = {
  /** Held for investigation since an injury. */
  held: 'P-17',
  /** Days before the demo's day of the injury. */
  heldSince: 23,
  /** Repaired, and owed a flow test. */
  owesFlowTest: 'P-31',
  flowEarly,
  flowMissed,
  /** In their boxes: received, not yet placed in service. */
  new: ['P-109', 'P-110'] as readonly string[],
  /** On the reserve rig that was passed over. */
  passedOver: range('P-', 46, 50),
  kept: ['P-17', 'P-31', ...flowEarly, ...flowMissed] as readonly string[],
};

const chargedPastDue = ['C-112', 'C-127', 'C-139'];

export const CYLINDERS = {
  /** Fifteen years old in the quarter after the demo's day. */
  cliff: range('C-', 101, 150),
  /** Three of them, on the full rack and past due for requalification. */
  chargedPastDue,
  /** The three of the 3 am swap. */
  foreign: 'CB-207',
  missing: 'C-187',
  filledPastDue: 'C-208',
  /** Gouged, and owed a requalification whatever its date. */
  damaged: 'C-244',
  /** Of a permit that nobody has confirmed. */
  notJudged: range('C-', 331, 335),
  oxygenLate: ['O-21', 'O-27'],
  oxygenSoon: ['O-5', 'O-9', 'O-14', 'O-22'],
  hoopGone: range('C-', 61, 64),
  /** Hoop-wrapped bottles past their life, found in the training shed. */
  hoopFound: ['C-65', 'C-66'],
  kept: [...chargedPastDue, 'C-187', 'C-208', 'C-244'] as readonly string[],
};

const stopUse = range('FP-', 31, 41);

export const EQUIPMENT = {
  /** Left on the reserve rig when the crew went back to its own. */
  imagerLeft: 'TIC-4',
  /** The reserve rig's own, which was in the shop when the crew took it. */
  imagerOfReserve: 'TIC-9',
  /** What went over to the reserve rig with it and came back. */
  cameBack: ['FAN-4', 'GEN-4', 'LGT-16'] as readonly string[],
  stopUse,
  stopUseMissing: ['FP-36', 'FP-40'],
  stopUseReplaced: ['FP-31', 'FP-32', 'FP-33'],
  kept: ['TIC-4', 'MTR-4', 'RAD-13', 'RAD-14', 'LGT-13', 'LGT-14', ...stopUse] as readonly string[],
};

export const KITS = {
  /** Its seal was found broken on the last Saturday. */
  broken: 'MED-3',
  /** Its aspirin ran out of date last month, and nobody has packed another since. */
  expired: 'MED-5',
} as const;

export interface Story {
  title: string;
  /** The screen, and what to set or look for there. */
  where: string;
  what: string;
  /** Numbers of the things it is about. */
  numbers: readonly string[];
}

/** Every story of the demo that a screen can show. */
export const STORIES: readonly Story[] = [
  {
    title: 'A bag whose seal is broken',
    where: 'Check-offs, k; Readiness, Engine 33',
    what: 'Read at Saturday’s inventory: the medical bag of Engine 33 stands for nothing until it is counted and sealed anew. On Tower 33 another one’s aspirin has run out of date.',
    numbers: [KITS.broken, KITS.expired],
  },
  {
    title: 'Engine 33’s hose in Engine 31’s bed',
    where: 'Search 33-124; Rigs, Engine 31, hosebed driver side; Check-offs, Incidents',
    what: 'Since a two-alarm fire; found when the numbers were read on Station 31’s test day.',
    numbers: [HOSE.found],
  },
  {
    title: 'The overdue hose of Engine 31',
    where: 'Coming due: family hose, unit Engine 31, state overdue',
    what: 'Missing from its crosslay on test day, found in Engine 33’s, looked over and put back; not tested since.',
    numbers: [HOSE.overdue],
  },
  {
    title: 'A cylinder cliff',
    where: 'Coming due: family cylinder, requirement End of life, by month',
    what: 'Fifty bottles reach fifteen years in the next quarter.',
    numbers: CYLINDERS.cliff,
  },
  {
    title: 'Charged and past due',
    where: 'Coming due: family cylinder, state overdue; Station 31, fill room, full rack',
    what: 'Three of the fifty are on the full rack past their requalification.',
    numbers: CYLINDERS.chargedPastDue,
  },
  {
    title: 'A ladder back on its rig, untested for 41 days',
    where: 'Coming due: state retest owed; the ladder’s history',
    what: 'Repaired as a halyard and signed back by its repairer; corrected to a rung, so a load test is owed since that day.',
    numbers: [LADDERS.repaired],
  },
  {
    title: 'A pack held after an injury',
    where: 'Search P-17; its history, recorded beside effective',
    what: 'Its flow test was entered, for a day weeks before, on the morning after the injury, before the hold.',
    numbers: [PACKS.held],
  },
  {
    title: 'A bottle swap at 3 am',
    where:
      'Check-offs, Incidents; Supply, fill log, told against; Rigs, Engine 32; Search CB-207, C-187, C-208',
    what: 'One bottle of a neighbor’s, one missing, one filled past its date and tagged out.',
    numbers: [CYLINDERS.foreign, CYLINDERS.missing, CYLINDERS.filledPastDue],
  },
  {
    title: 'A thermal imager left behind',
    where: 'Search TIC-4; Rigs, Reserve R-2',
    what: 'Went over to Reserve R-2 with Engine 34’s crew, was not found when they went back, and is missing.',
    numbers: [EQUIPMENT.imagerLeft],
  },
  {
    title: 'A barn fire that is not settled',
    where: 'Check-offs, Incidents',
    what: 'Engine 34’s list has a neighbor’s length and lacks one of its own; the tender’s has not come in.',
    numbers: [HOSE.afterBarn],
  },
  {
    title: 'A stop-use notice on facepieces',
    where: 'Tag-outs, Notices; Search VB-404 (their serials) or FP-31',
    what: 'Eleven by model and serial range: nine tagged out, three of them replaced, two cannot be found.',
    numbers: EQUIPMENT.stopUse,
  },
  {
    title: 'Two lengths with one number',
    where: 'Search 32-118',
    what: 'A second length stenciled 32-118 turned up in Station 34’s rack.',
    numbers: [HOSE.clash],
  },
  {
    title: 'Failed and not retested',
    where: 'Coming due: family hose, state retest owed',
    what: 'Four lengths failed this season’s test and lie on out-of-service racks.',
    numbers: HOSE.failedStill,
  },
  {
    title: 'A make and year that fails more than chance',
    where: 'Evidence: failed service tests; attack hose of Maker C, seven years old',
    what: 'A dozen failures in three seasons from one lot, eight from all other hose.',
    numbers: ['32-107', '33-106'],
  },
  {
    title: 'Hose made before July 1987',
    where: 'Coming due: state life ended; Station 33, storeroom',
    what: 'Two lengths found behind a shelf: no test restores them.',
    numbers: HOSE.madeBefore1987,
  },
  {
    title: 'Hoop-wrapped bottles past their life',
    where: 'Coming due: family cylinder, state life ended',
    what: 'Found in the training shed; their sisters were retired three years ago.',
    numbers: CYLINDERS.hoopFound,
  },
  {
    title: 'A permit nobody has read',
    where: 'Coming due: state not judged; Rule book, permits',
    what: 'Five bottles of DOT-SP 14232: nothing is judged until the permit is confirmed.',
    numbers: CYLINDERS.notJudged,
  },
  {
    title: 'Heat labels',
    where: 'Coming due: family ladder, requirement Heat label',
    what: 'Two labels have expired, four expire within two months.',
    numbers: [...LADDERS.labelExpired, ...LADDERS.labelExpires],
  },
  {
    title: 'A reserve rig passed over',
    where: 'Coming due: requirement Operational check, state overdue',
    what: 'Reserve R-2’s packs were left out of the last two weekly checks.',
    numbers: PACKS.passedOver,
  },
  {
    title: 'At the bottom of the rack',
    where: 'Coming due: family hose, station Station 34, state overdue',
    what: 'Six supply lengths were not tested with the others.',
    numbers: HOSE.buried,
  },
];
