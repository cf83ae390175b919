/** What incidents with a mixed pick-up ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { Pickup } from '../domain/incident/pickup.ts';
import type { Effects, Reading } from '../domain/incident/settlement.ts';

/** `open` while a list that came in is not settled, or none ever was; else `settled`. */
export type IncidentState = 'open' | 'settled';

export interface IncidentCounts {
  /** Numbers of open lists: what lies where it belongs, and what of ours does not. */
  own: number;
  ours: number;
  foreign: number;
  doubtful: number;
  missing: number;
}

export interface IncidentLine extends IncidentCounts {
  id: string;
  name: string;
  on: string;
  byName: string | null;
  /** The units that were there, by name, and other departments. */
  units: string[];
  agencies: string[];
  /** What was picked up, by title. */
  families: string[];
  state: IncidentState;
  /** Rigs that were there, and how many of their lists have come in. */
  rigs: number;
  listsIn: number;
}

export interface IncidentRig {
  rig: string;
  name: string;
  unit: string;
  unitName: string;
  /** The list that stands, or null while none has come in. */
  list: { fact: string; on: string; byName: string | null } | null;
  settled: boolean;
  reads: { number: string; at: string | null; atName: string | null; used: boolean }[];
  /** How many things of the families picked up are believed on it. */
  believed: number;
  /** Its places, to say in which a number is read. */
  places: { id: string; name: string }[];
}

export interface IncidentSettled extends Effects {
  fact: string;
  on: string;
  byName: string | null;
  note: string | null;
}

export interface IncidentPage extends Omit<IncidentLine, 'rigs'> {
  note: string | null;
  familyIds: string[];
  unitIds: string[];
  rigs: IncidentRig[];
  /** What the open lists come to, and the readings it was told from. */
  pickup: Pickup;
  readings: Reading[];
  /** By thing: the activity that it owes if it was used. */
  owes: Readonly<Record<string, string>>;
  /** The latest first. */
  settlements: IncidentSettled[];
}

export interface IncidentQuestions {
  'incidents.list': { takes: { open?: boolean }; gives: { total: number; rows: IncidentLine[] } };
  'incident.page': { takes: { incident: string }; gives: IncidentPage };
}
