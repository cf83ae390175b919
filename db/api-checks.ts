/** What carry lists, check-offs and defects ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { CarryLine, LineBody } from '../domain/carry/types.ts';
import type { Stage } from '../domain/chains/chain.ts';
import type { ClosedHow } from '../domain/checkoffs/defect.ts';
import type { Haste } from '../domain/checkoffs/haste.ts';
import type { ExceptionKind, NextStep, PlaceMark, Unfinished } from '../domain/checkoffs/marks.ts';
import type { Schedule } from '../domain/checkoffs/schedule.ts';
import type { CheckoffState as CheckoffDue } from '../domain/checkoffs/settle.ts';
import type { DueState } from '../domain/derive/due.ts';
import type { Condition } from '../domain/facts.ts';
import type { Photo } from '../domain/photos.ts';
import type { Source } from '../domain/rulebook/types.ts';
import type { Deed, RowProblem } from './api.ts';
import type { KitBrief } from './api-kits.ts';

/** A tracked thing as a carry list sees it. */
export interface CarriedThing {
  item: string;
  number: string;
  what: string;
  /** Where on the rig, by the names of the places below it; empty where only the rig is known. */
  place: string;
  condition: Condition;
  /** The heaviest of its states. */
  state: DueState;
  /** A kit's seal and contents; absent for everything else. */
  kit?: KitBrief;
}

/** A line with what is known of it now. */
export interface CarryLineNow extends CarryLine {
  /** A short code for paper and quick typing: the letter of its place and its number there: `C4`. */
  code: string;
  /** Tracked things that fill it in its place, and elsewhere on the rig. */
  here: CarriedThing[];
  elsewhere: CarriedThing[];
  /** Of a tracked line, how many serve: serviceable, owing no retest. Null where it is only counted. */
  serving: number | null;
  /** How many are lacking of the quantity, by what is known: tracked things that serve, or a count that was short. */
  lacking: number;
  /** The last signed check-off that went through its place on this rig. */
  checked: { on: string; checkoff: string } | null;
  defects: DefectLine[];
}

/** A place of a carry list, and the place of the rig that it is. */
export interface CarryPlace {
  name: string;
  /** The letter of its codes. */
  letter: string;
  /** Null where the rig has no place of that name. */
  at: string | null;
}

export interface CarryPage {
  of: string;
  name: string;
  /** The kind of the unit: engine, rescue; null where it has none or is a reserve rig. */
  kind: string | null;
  station: string | null;
  rig: { id: string; name: string } | null;
  on: string;
  places: CarryPlace[];
  lines: CarryLineNow[];
  /** Tracked things on the rig that no line asks for. */
  extra: CarriedThing[];
  /** The schedules in force on the day. */
  schedules: Schedule[];
  /** What the published lists ask of such a rig, and what the list has of it; nothing where none is published. */
  published: PublishedLine[];
}

/** A published minimum held against a list. */
export interface PublishedLine {
  id: string;
  title: string;
  unit: string;
  atLeast: number;
  /** Null where it cannot be told; then why. */
  has: number | null;
  why: string | null;
  met: boolean;
  source: Source;
}

/** One time that a check-off fell or falls due. */
export interface OwedLine {
  of: string;
  name: string;
  schedule: string;
  title: string;
  /** The position that does it; null: whoever is there. */
  by: string | null;
  places: string[] | null;
  scope: 'whole' | 'operated only';
  on: string;
  shift: number;
  /** `YYYY-MM-DDTHH:MM`, on the department's clock. */
  dueAt: string;
  state: CheckoffDue;
  checkoff: string | null;
  reason: string | null;
}

/** Who has a carry list, or could have: every unit, and every rig without one of its own. */
export interface CarryHolder {
  of: string;
  name: string;
  kind: string | null;
  station: string | null;
  rig: { id: string; name: string } | null;
  lines: number;
  critical: number;
  openDefects: number;
  /** The last signed check-off, and the draft that waits. */
  last: CheckoffLine | null;
  draft: CheckoffLine | null;
  /** Owed now or late, and what was late or missed of late. */
  owed: OwedLine[];
}

export type CheckoffState = 'draft' | 'signed' | 'countersigned' | 'set aside';

export interface CheckoffLine {
  id: string;
  of: string;
  name: string;
  rig: string | null;
  state: CheckoffState;
  started: string;
  finished: string | null;
  signedOn: string | null;
  signedBy: string | null;
  countersignedBy: string | null;
  lines: number | null;
  exceptions: number;
  /** A note where it was signed and gone through faster than the department asks for; else null, as where it asks for nothing. */
  haste: Haste | null;
}

export interface CheckoffPlace extends CarryPlace {
  lines: CarryLineNow[];
  /** What stands for this place, with the fact that says it and who told it. */
  mark: (PlaceMark & { fact: string; byName: string | null }) | null;
}

export interface CheckoffPage extends CheckoffLine {
  rigId: string | null;
  station: string | null;
  places: CheckoffPlace[];
  /** What keeps it from being signed; nothing once it is. */
  unfinished: Unfinished[];
  /** Tracked things on the rig that no line asks for. */
  extra: CarriedThing[];
}

export interface DefectLine {
  id: string;
  of: string;
  name: string;
  checkoff: string | null;
  line: string | null;
  what: string;
  place: string | null;
  item: string | null;
  number: string | null;
  kind: ExceptionKind;
  next: NextStep;
  short: number | null;
  note: string | null;
  since: string;
  foundBy: string | null;
  /** Null while it is open. A defect that followed its thing is closed by the thing's return. */
  closed: {
    on: string | null;
    how: ClosedHow | 'back in service' | 'gone' | 'noted';
    note: string | null;
  } | null;
  /** The condition of its thing now. */
  condition: Condition | null;
  /** As it was found, still so, and added since. */
  photos: readonly Photo[];
}

/** A row of a carry-list sheet, and the line it would become. */
export interface CarryRow {
  /** 1 is the first row under the headings; blank rows are not counted. */
  row: number;
  /** The line of the sheet as a person sees it, from 1. */
  line: number;
  ok: boolean;
  /** As the sheet has it. */
  becomes: { place: string; title: string; qty: number; min: number; tracked: boolean } | null;
  body: LineBody | null;
  /** How many the sheet has fewer than its minimum. */
  short: number;
  problems: RowProblem[];
  notes: string[];
  /** Place, item, quantity, minimum and tracked as written. */
  cells: string[];
}

export interface CarrySheet {
  headingLine: number;
  rows: CarryRow[];
  accepted: number;
  refused: number;
  /** Refused rows as CSV with a reason column, to mend and bring again. */
  refusedCsv: string;
}

/** Many of a kind that were swapped without their numbers being read. */
export interface SwapLine {
  id: string;
  of: string;
  name: string;
  /** The rig that the unit rides now, by id. */
  rig: string | null;
  family: string;
  down: number;
  up: number;
  rack: string;
  note: string | null;
  on: string;
  byName: string | null;
  /** How many numbers are still to be read of each way. */
  owed: { down: number; up: number };
  giveUp: string | null;
}

/** A thing out of service, and where its chain stands. */
export interface ChainLine {
  item: string;
  number: string;
  family: string;
  what: string;
  condition: Condition;
  place: string | null;
  /** The unit on whose rig it lies. */
  unit: string | null;
  stage: Stage;
  /** When it went out, and since when it stands at its stage. */
  from: string;
  stageSince: string | null;
  /** Days at its stage, and whether that is too long or a promised day has passed. */
  days: number;
  stuck: boolean;
  reason: string | null;
  tag: string | null;
  promised: string | null;
  /** What comes next, in words. */
  next: string;
  owed: string[];
  steps: { on: string; what: string; photos: readonly Photo[]; byName: string | null }[];
}

export interface CheckQuestions {
  'carry.holders': { takes: { on?: string }; gives: CarryHolder[] };
  'carry.page': { takes: { of: string; on?: string }; gives: CarryPage };
  'carry.preview': {
    /** The file’s name, its bytes as base64, and whose list it is. */
    takes: { name: string; bytes: string; of: string; on?: string };
    /** With the deeds that bring the rows that are right: new lines, and what the sheet has too few of. */
    gives: CarrySheet & { of: string; replaces: number; deeds: Deed[] };
  };
  'checkoff.page': { takes: { checkoff: string }; gives: CheckoffPage };
  'checkoffs.list': {
    takes: { of?: string; state?: CheckoffState; limit?: number };
    gives: { total: number; rows: CheckoffLine[] };
  };
  'swaps.list': { takes: { open?: boolean }; gives: SwapLine[] };
  'chains.list': { takes: { stage?: Stage; text?: string }; gives: { total: number; rows: ChainLine[] } };
  'defects.list': {
    takes: { of?: string; open?: boolean; limit?: number };
    gives: { total: number; rows: DefectLine[] };
  };
}
