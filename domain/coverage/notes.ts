/** Whom a pass-on note is for. */

/** A note by the names of the unit and the station it is about; with neither it is for everybody. */
export interface Addressed {
  unit: string | null;
  station: string | null;
}

/** Whether a note concerns any of these units, or their station. */
export function isNoteFor(
  { unit, station }: Addressed,
  about: { units: readonly string[]; station: string | null },
): boolean {
  if (unit !== null) return about.units.includes(unit);
  return station === null || station === about.station;
}
