/**
 * The contract of the two doors, as types: `act` does things (entries), `ask` answers a question (never writes).
 * Hosts carry it, screens and scripts speak it. Days are `YYYY-MM-DD` text and null where there is none; ids are
 * those of the ledger. Imports nothing that runs.
 */
import type { DueState } from '../domain/derive/due.ts';
import type { Assignment, Condition, HowKnown, Outcome, Values } from '../domain/facts.ts';
import type { Grant } from '../domain/people/entitlements.ts';
import type { Photo, PhotoType } from '../domain/photos.ts';
import type { BoundForce } from '../domain/rulebook/force.ts';
import type {
  Family,
  Meter,
  OwnVersion,
  PermitOffer,
  Requirement,
  WhenLate,
} from '../domain/rulebook/types.ts';
import type { UnitSystem } from '../domain/units.ts';
import type { ChangeoverQuestions } from './api-changeovers.ts';
import type { CheckQuestions } from './api-checks.ts';
import type { DeskQuestions } from './api-desk.ts';
import type { IncidentQuestions } from './api-incidents.ts';
import type { KitQuestions } from './api-kits.ts';
import type { NoticeQuestions } from './api-notices.ts';
import type { RuleQuestions } from './api-rules.ts';
import type { SupplyQuestions } from './api-supply.ts';

/** What was wrong, where, and what to do about it. */
export interface Problem {
  code: string;
  message: string;
  todo: string;
  /** The field of the deed or question it concerns, or null. */
  field: string | null;
  /** Which deed of the list, where there is one. */
  deed?: number;
}

export type Answer<T> = { ok: true; value: T } | { ok: false; error: Problem; errors?: Problem[] };

/** How the identity of who acts was shown. */
export type Via = 'PIN' | 'claimed' | 'terminal' | 'import';

/**
 * One deed: an action by name and its body. A field that names a thing may be `&N` (or `&N.suffix`): what the
 * deed at place N of the same list brings into being. `secret` never enters the ledger (a new PIN).
 */
export interface Deed {
  action: string;
  body: Record<string, unknown>;
  secret?: string;
}

export interface ActRequest {
  /** The member who acts (id); null only for opening a department. */
  by: string | null;
  pin?: string;
  via?: Via;
  deeds: Deed[];
  /** Photos that the deeds name by their place here, `#0` in a field `photos`; written with them or not at all. */
  attachments?: AttachmentSent[];
}

/** A photo on its way into the file. */
export interface AttachmentSent {
  /** What its file is called, for saying which one is refused; it is not kept. */
  name: string;
  /** What it is said to be. The bytes themselves decide what it is. */
  mime: string;
  /** Base64. */
  bytes: string;
}

export interface ActAnswer {
  /** The whole act as a void names it: `batch:<first entry>`; empty where a sheet brought nothing new. */
  batch: string;
  /** Ids of the entries, in the order of the deeds as written. */
  entries: string[];
  /** What the act touched, as cache keys for screens: `due`, `items`, `item:<id>`, `places`, `members`, `rulebook`. */
  touched: string[];
}

export interface Page {
  limit?: number;
  offset?: number;
}

export interface DueFilter {
  on?: string;
  /** Due within so many days of `on`, or already past. */
  within?: number;
  family?: string;
  station?: string;
  /** A unit's id, or `none`: on no unit. */
  unit?: string;
  state?: DueState | DueState[];
  requirement?: string;
  /** Due in this month (`2026-11`), or `none`: with no date. */
  month?: string;
  /** Only things whose number, serial, place or title holds these words. */
  text?: string;
}

export interface DueListRow {
  item: string;
  number: string;
  family: string;
  requirement: string;
  title: string;
  lastOn: string | null;
  /** Null where there is no date: never done, retest owed, not judged. */
  dueOn: string | null;
  state: DueState;
  daysLeft: number | null;
  place: string | null;
  unit: string | null;
  station: string | null;
  condition: Condition;
  late: WhenLate;
  /** Since when a first one that was never done has been owed, where that day is known. */
  owedSince: string | null;
  /** Of a projection the latest day; `dueOn` is then its earliest. Null for everything else. */
  dueTo: string | null;
  /** How the department's own version stands to the shipped one; null where it is as shipped. */
  own: OwnVersion['change'] | null;
}

export interface DueList {
  total: number;
  rows: DueListRow[];
}

/** Counts behind the heading: rows by state, for the filter without its `state`. */
export interface DueCounts {
  on: string;
  things: number;
  byState: Partial<Record<DueState, number>>;
}

export interface DueGroup {
  /** What the filter of the same name takes: `month`, `unit` (both may be `none`) or `family`. */
  key: string;
  title: string;
  total: number;
  byState: Partial<Record<DueState, number>>;
}

export interface Explanation {
  item: string;
  number: string;
  title: string;
  requirement: string;
  on: string;
  state: DueState;
  dueOn: string | null;
  lastOn: string | null;
  /** As a captain could read it to an inspector. */
  paragraph: string;
  rule: Requirement;
  inForce: { from: string | null; to: string | null };
  steps: string[];
  counted: ExplainedRecord[];
  notCounted: (ExplainedRecord & { why: string })[];
  /** Every clock on this thing on that day, the earliest first; `wins` marks the one or the tie that governs. */
  clocks: {
    requirement: string;
    title: string;
    state: DueState;
    dueOn: string | null;
    wins: boolean;
    /** False where another clock settles it, or is the stricter of the same duty: it is shown here alone. */
    listed: boolean;
  }[];
  wouldChange: string[];
  /** The force that the rule has in this department on that day. */
  force: BoundForce;
  /** Of a projection the latest day. */
  dueTo: string | null;
}

export interface ExplainedRecord {
  fact: string;
  activity: string;
  on: string;
  outcome: Outcome;
  by: string | null;
}

export interface ItemSummary {
  item: string;
  family: string;
  number: string;
  serial: string | null;
  /** In words: `1¾ in attack hose, 50 ft`. */
  what: string;
  place: string | null;
  placeId: string | null;
  unit: string | null;
  station: string | null;
  assignment: Assignment | null;
  condition: Condition;
  /** The heaviest state over its requirements on the day asked for. */
  state: DueState;
}

export interface ItemPage extends ItemSummary {
  attributes: Values;
  conditionSince: string | null;
  known: { how: HowKnown; since: string } | null;
  owed: { activity: string; since: string; because: string }[];
  due: DueListRow[];
  /** The earliest date over all clocks and every requirement that gives it. */
  next: { dueOn: string; titles: string[] } | null;
  lifeEndsOn: string | null;
  /** In storage: titles of what waits there and is owed before it comes back; empty for everything else. */
  beforeReturn: string[];
  /** Other living things of the family with the same number. */
  clashes: string[];
  /** For a cylinder: may it be filled, may it stay, by the law and by the department's policy. */
  cylinder: CylinderJudgment | null;
}

export interface Verdict {
  allowed: boolean | null;
  because: string;
}

export interface CylinderJudgment {
  fill: { law: Verdict; policy: Verdict };
  stayInService: { law: Verdict; policy: Verdict };
  /** Recharge when pressure has fallen to this or under. */
  rechargeAt_psi: string | null;
}

export interface HistoryLine {
  /** The fact or entry that can be named in a void. */
  fact: string;
  entry: string;
  batch: string;
  kind: string;
  /** In words: `Service test, passed`. */
  what: string;
  effective: string;
  recordedAt: string;
  by: string | null;
  byName: string | null;
  via: Via;
  voided: { on: string; why: string; by: string | null } | null;
  photos: readonly Photo[];
  details: Record<string, unknown>;
}

export interface PlaceLine {
  id: string;
  name: string;
  kind: string;
  /** The whole name, outermost first: `Engine 31, hosebed driver side`. */
  path: string;
  parent: string | null;
  unit: string | null;
  rig: string | null;
  station: string | null;
  items: number;
}

export interface MemberLine {
  id: string;
  number: string;
  name: string;
  position: string | null;
  grants: Grant[];
  hasPin: boolean;
  /** What they are qualified for, and until when; null: without an end. */
  qualifications: Qualification[];
}

export interface Qualification {
  title: string;
  expires: string | null;
}

export interface DepartmentSummary {
  id: string;
  name: string;
  zone: string;
  state: string | null;
  /** The units it reads measures in. */
  measures: UnitSystem;
  today: string;
  entries: number;
  things: number;
  stations: { id: string; name: string }[];
  units: { id: string; name: string; station: string | null }[];
  rigs: { id: string; name: string; unit: string | null; station: string | null }[];
  agencies: { id: string; name: string; rin: string | null }[];
  isDemo: boolean;
}

export interface SearchHit {
  kind: 'item' | 'place' | 'member' | 'requirement' | 'unit' | 'station' | 'rig';
  id: string;
  label: string;
  detail: string;
}

export interface TrialRow {
  requirement: string;
  title: string;
  dueOn: string | null;
  state: DueState;
  why: string;
}

export interface Trial {
  rows: TrialRow[];
  lifeEndsOn: string | null;
}

export interface LedgerHead {
  device: string;
  seq: number;
  hash: string;
}

export interface Verification {
  ok: boolean;
  entries: number;
  devices: LedgerHead[];
  firstBad?: { device: string; seq: number; what: string };
}

/** How the photos that entries name are kept. */
export interface PhotosKept {
  kept: number;
  /** Names of those whose bytes are not what was named any more. */
  damaged: string[];
  /** Names of those whose bytes are not here: an entry of another device may have come without them. */
  missing: string[];
}

/** One cell problem of a sheet: where it is, what is wrong, what to do. */
export interface RowProblem {
  column: string | null;
  wrong: string;
  todo: string;
}

export interface SheetColumn {
  index: number;
  heading: string;
  /** The field it is read as, or null where it is left aside. */
  field: string | null;
  examples: string[];
}

/** What a row of a sheet will become, and whether it is new, known, or in conflict. */
export interface ImportRow {
  /** 1 is the first row under the headings; blank rows are not counted. */
  row: number;
  /** The line of the sheet as a person sees it, from 1. */
  line: number;
  ok: boolean;
  number: string | null;
  becomes: Record<string, string | number | null> | null;
  /** The other fields that are read: serial, maker, use, place. */
  details: Record<string, string | number | boolean | null> | null;
  /** `new`: a thing not known yet. `known`: adds `adds` records. `same`: adds nothing. */
  meets: 'new' | 'known' | 'same' | null;
  adds: number;
  /** A conflict with the thing already known, side by side. */
  conflict: { field: string; sheet: string; known: string }[];
  problems: RowProblem[];
  /** What a person should know and that does not refuse the row. */
  notes: { column: string | null; note: string }[];
}

export interface ImportOffer {
  kind: 'place' | 'permit';
  name: string;
  /** In words: `New place under Engine 31`. */
  what: string;
  rows: number;
  permit?: PermitOffer;
}

export interface ImportPreview {
  family: string;
  headingLine: number;
  columns: SheetColumn[];
  /** The fields a column may be read as. */
  fields: { field: string; title: string }[];
  /** What only a person can answer: a date column that reads day-first or month-first. */
  questions: { kind: 'day order'; column: number; heading: string; examples: string[] }[];
  rows: ImportRow[];
  /** Lines that are no rows: titles between rows, totals, notes, headings printed again. */
  leftOut: { line: number; text: string; why: string }[];
  /** The date above the headings that the results were taken to be of, where no column gives one. */
  titleDate: { line: number; text: string } | null;
  offers: ImportOffer[];
  accepted: number;
  refused: number;
  /** Refused rows as CSV with a reason column, to mend and bring again. */
  refusedCsv: string;
}

export interface ImportRequest {
  /** The file's name, for the ledger. */
  name: string;
  /** The file's bytes, base64. */
  bytes: string;
  family: string;
  /** Field by column index where a person has corrected the guess (null: leave aside). */
  mapping?: Record<string, string | null>;
  /** Day order by column index where a person has answered. */
  dayOrder?: Record<string, 'day first' | 'month first'>;
  on?: string;
}

/** Every question: what it takes and what it answers. */
export interface Questions
  extends ChangeoverQuestions,
    CheckQuestions,
    DeskQuestions,
    KitQuestions,
    IncidentQuestions,
    NoticeQuestions,
    RuleQuestions,
    SupplyQuestions {
  'department.summary': { takes: { on?: string }; gives: DepartmentSummary | null };
  'due.list': {
    takes: DueFilter & Page & { sort?: 'due' | 'number' | 'place' | 'title'; descending?: boolean };
    gives: DueList;
  };
  'due.counts': { takes: DueFilter; gives: DueCounts };
  'due.groups': { takes: DueFilter & { by: 'month' | 'unit' | 'family' }; gives: DueGroup[] };
  'due.explain': {
    takes: { number?: string; item?: string; family?: string; requirement: string; on?: string };
    gives: Explanation;
  };
  'item.find': { takes: { number: string; family?: string; on?: string }; gives: ItemSummary[] };
  'item.page': { takes: { item: string; on?: string }; gives: ItemPage };
  'item.history': { takes: { number?: string; item?: string; family?: string }; gives: HistoryLine[] };
  'search.all': { takes: { text: string; limit?: number }; gives: SearchHit[] };
  'places.list': { takes: { text?: string } & Page; gives: PlaceLine[] };
  'members.list': { takes: Record<string, never>; gives: MemberLine[] };
  'rulebook.trial': {
    takes: {
      family: string;
      attributes: Values;
      history: { activity: string; on: string; outcome: Outcome; readings?: Values }[];
      meters?: { meter: Meter; reading: number; on: string }[];
      happenings?: { trigger: string; on: string }[];
      assignment?: Assignment;
      on: string;
    };
    gives: Trial;
  };
  'ledger.verify': {
    takes: { anchor?: LedgerHead };
    /** Not ok either where a photo is damaged; one that is missing is only told. */
    gives: Verification & { photos: PhotosKept };
  };
  'photo.get': { takes: { sha256: string }; gives: { mime: PhotoType; size_bytes: number; bytes: string } };
  'import.preview': { takes: ImportRequest; gives: ImportPreview };
  'vocabulary.list': {
    takes: Record<string, never>;
    gives: { families: Family[]; assignments: string[]; conditions: string[]; outcomes: string[] };
  };
}

export type QuestionName = keyof Questions;

/** The two doors as a host or a screen sees them. */
export interface Doors {
  act(request: ActRequest): Promise<Answer<ActAnswer>>;
  ask<K extends QuestionName>(
    question: K,
    args: Questions[K]['takes'],
  ): Promise<Answer<Questions[K]['gives']>>;
}

/**
 * What screens ask a host about the department files of its data folder. `name`: with or without its ending.
 * `backup` copies the open file into the folder of backups; `preview` and `restore` name one of those.
 */
export interface HostRequest {
  command: 'files' | 'new' | 'demo' | 'open' | 'backups' | 'backup' | 'preview' | 'restore';
  name?: string;
}

/** What the menu of a host asks of the screens; a host without a menu never does. */
export type HostCommand =
  | { do: 'screen'; screen: ScreenName }
  | { do: 'dialog'; dialog: 'files' | 'display' | 'keys' | 'who' | 'help' }
  | { do: 'search' }
  | { do: 'light'; scheme: 'auto' | 'light' | 'dark' }
  /** A sheet that was chosen in the host's own dialog: shown, not yet taken in. */
  | { do: 'sheet'; name: string; bytes: Uint8Array<ArrayBuffer> };

export type ScreenName =
  | 'readiness'
  | 'rigs'
  | 'checks'
  | 'due'
  | 'tagouts'
  | 'supply'
  | 'import'
  | 'rules'
  | 'department';

export interface DepartmentFiles {
  folder: string;
  /** The file that is open, or null. */
  open: string | null;
  files: DepartmentFile[];
  /** Of Baybook itself. */
  version?: string;
  /** Told to every command about backups. */
  backups?: { folder: string; files: DepartmentFile[] };
  /** What `backup` has made, checked after it was written. */
  made?: BackupMade;
  /** What `preview` has found. */
  preview?: BackupPreview & { name: string };
}

/** What a backup holds. */
export interface BackupContents {
  department: string | null;
  entries: number;
  things: number;
  members: number;
  /** When its last entry was recorded, ISO; null where it has none. */
  lastAt: string | null;
  heads: LedgerHead[];
  /** Whether an anchor lay beside it, which it was checked against. */
  anchored: boolean;
}

/** What a backup is to the open file, by their entries. */
export interface BackupRelation {
  /** `older`: the open file holds all of it and more. `newer`: the other way round. */
  is: 'same' | 'older' | 'newer' | 'diverged' | 'unrelated';
  onlyHere: number;
  onlyInBackup: number;
}

export interface BackupPreview extends BackupContents {
  /** Null where no file is open. */
  relation: BackupRelation | null;
}

export interface BackupMade extends BackupContents {
  name: string;
  bytes: number;
  /** The name of the anchor beside it. */
  anchor: string;
}

export interface DepartmentFile {
  name: string;
  bytes: number;
  /** UTC milliseconds. */
  changedAt: number;
}
