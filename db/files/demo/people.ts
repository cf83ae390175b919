/** Who works in the district: invented names, each with a position and most with a station. */
import { addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Label, Planned } from './diary.ts';

export const STATIONS = [31, 32, 33, 34] as const;
export type Station = (typeof STATIONS)[number];

interface Person {
  number: string;
  name: string;
  position: string;
  station: Station | null;
}

const person = (number: string, name: string, position: string, station: Station | null = null): Person => ({
  number,
  name,
  position,
  station,
});

export const CHIEF = person('100', 'R. Alder', 'administrator');
export const LOGISTICS = person('110', 'M. Quist', 'logistics', 31);
/** Keeps the packs: trained by their maker. */
export const PACK_TECHNICIAN = person('501', 'N. Hollis', 'technician', 31);
/** Repairs ladders and tools, and was given the right to return them. */
export const SHOP_TECHNICIAN = person('502', 'G. Prewitt', 'technician', 33);
export const BATTALION_OFFICER = person('209', 'B. Whitlow', 'company officer', 33);

export const PEOPLE: readonly Person[] = [
  CHIEF,
  LOGISTICS,
  person('111', 'E. Sandoval', 'logistics', 31),
  person('201', 'J. Okafor', 'company officer', 31),
  person('202', 'S. Lindqvist', 'company officer', 31),
  person('203', 'T. Marsh', 'company officer', 32),
  person('204', 'P. Novak', 'company officer', 32),
  person('205', 'L. Abara', 'company officer', 33),
  person('206', 'C. Dunn', 'company officer', 33),
  person('207', 'H. Ruiz', 'company officer', 34),
  person('208', 'K. Tanaka', 'company officer', 34),
  BATTALION_OFFICER,
  person('301', 'A. Brandt', 'driver', 31),
  person('302', 'V. Petrov', 'driver', 31),
  person('303', 'D. Oyelaran', 'driver', 32),
  person('304', 'R. Castillo', 'driver', 32),
  person('305', 'W. Haskell', 'driver', 33),
  person('306', 'I. Moreau', 'driver', 33),
  person('307', 'F. Delgado', 'driver', 34),
  person('308', 'O. Lund', 'driver', 34),
  person('401', 'Y. Chen', 'firefighter', 31),
  person('402', 'M. Farrow', 'firefighter', 31),
  person('403', 'S. Ibarra', 'firefighter', 31),
  person('404', 'T. Keane', 'firefighter', 31),
  person('405', 'B. Adeyemi', 'firefighter', 32),
  person('406', 'L. Vance', 'firefighter', 32),
  person('407', 'J. Rusk', 'firefighter', 32),
  person('408', 'N. Calder', 'firefighter', 33),
  person('409', 'P. Singh', 'firefighter', 33),
  person('410', 'C. Bellamy', 'firefighter', 33),
  person('411', 'A. Thorne', 'firefighter', 33),
  person('412', 'D. Yazzie', 'firefighter', 34),
  person('413', 'E. Kowal', 'firefighter', 34),
  person('414', 'H. Pruitt', 'firefighter', 34),
  PACK_TECHNICIAN,
  SHOP_TECHNICIAN,
  person('601', 'Q. Castellan', 'auditor'),
];

/** How deeds call a member. */
export function memberLabel(who: Person): Label {
  return `@member ${who.number}`;
}

/** One of those of a position at a station, in turn. */
export function crewOf(station: Station, position: string, turn: number): Person {
  const crew = PEOPLE.filter(p => p.station === station && p.position === position);
  const found = crew[Math.abs(turn) % crew.length];
  if (!found) throw new Error(`Station ${station} has no ${position}.`);
  return found;
}

/** The deeds that bring in everyone but the chief, who comes with the department. */
export function peopleDeeds(): Planned[] {
  return PEOPLE.filter(p => p !== CHIEF).map(p => ({
    action: 'member.add',
    body: { number: p.number, name: p.name, position: p.position },
    as: memberLabel(p),
  }));
}

/** What the shop technician is qualified for: what rig inspections ask for. */
export function shopQualification(on: Day): Planned {
  return {
    action: 'member.amend',
    body: {
      member: memberLabel(SHOP_TECHNICIAN),
      qualifications: [{ title: 'Emergency vehicle technician', expires: dayText(addMonths(on, 7)) }],
    },
  };
}

/** What the shop technician was given beyond the position: to return what he has repaired. */
export function shopEntitlement(): Planned {
  const grant = (entitlement: string, families: 'all' | string[]) => ({ entitlement, families });
  return {
    action: 'member.entitle',
    body: {
      member: memberLabel(SHOP_TECHNICIAN),
      position: 'technician',
      grants: [grant('read', 'all'), grant('record', 'all'), grant('return', 'all')],
    },
  };
}
