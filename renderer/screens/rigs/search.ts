/** What the address of a rig's page says. */
export interface RigSearch {
  /** The place that is shown. */
  place?: string;
}

export function readRigSearch(raw: Record<string, unknown>): RigSearch {
  return typeof raw.place === 'string' ? { place: raw.place } : {};
}
