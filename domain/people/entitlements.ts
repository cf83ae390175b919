/** What a member may do, each for all families or some; positions are templates of entitlements. */

export const ENTITLEMENTS = [
  'read',
  'record',
  'countersign',
  'return',
  'void',
  'plan',
  'adopt',
  'administer',
] as const;
export type Entitlement = (typeof ENTITLEMENTS)[number];

/** What an entitlement lets a member do, as it follows “may”. */
export const MAY: Readonly<Record<Entitlement, string>> = {
  read: 'look',
  record: 'record what was done',
  countersign: 'countersign',
  return: 'return to service',
  void: 'void a mistake',
  plan: 'plan and arrange',
  adopt: 'adopt rules',
  administer: 'administer the department',
};

/** An entitlement and the families it covers; `'all'` for every family. */
export interface Grant {
  entitlement: Entitlement;
  families: 'all' | readonly string[];
}

const all = (...list: Entitlement[]): Grant[] =>
  list.map(entitlement => ({ entitlement, families: 'all' as const }));

/** Positions a department may start from. Common practice, no source. */
export const POSITIONS: Readonly<Record<string, readonly Grant[]>> = {
  administrator: all(...ENTITLEMENTS),
  firefighter: all('read', 'record'),
  driver: all('read', 'record'),
  'company officer': all('read', 'record', 'countersign', 'return'),
  logistics: all('read', 'record', 'countersign', 'return', 'void', 'plan'),
  technician: all('read', 'record'),
  auditor: all('read'),
};

/** Whether the grants cover an entitlement for a family; `null` where the deed concerns no family. */
export function isEntitled(
  grants: readonly Grant[],
  entitlement: Entitlement,
  family: string | null,
): boolean {
  return grants.some(
    g =>
      g.entitlement === entitlement &&
      (g.families === 'all' || (family !== null && g.families.includes(family))),
  );
}
