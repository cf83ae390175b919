/** What counted stock asks and is told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { Condition } from '../domain/facts.ts';
import type { FillState } from '../domain/supply/fill.ts';
import type { AgainstFill, FillVerdict } from '../domain/supply/fill-against.ts';
import type { LotState } from '../domain/supply/lots.ts';
import type { HistoryLine } from './api.ts';

/** A lot in a place. Its name is its expiry where it has no number of its own. */
export interface SupplyLot {
  lot: string | null;
  expires: string | null;
  onHand: number;
  state: LotState;
}

/** A stock in one place; one that is kept nowhere yet has a line without a place. Amounts are in each. */
export interface SupplyLine {
  stock: string;
  what: string;
  perBox: number | null;
  /** Its counts need a second member. */
  twoCount: boolean;
  place: string | null;
  /** The whole name of the place. */
  placeName: string | null;
  station: string | null;
  onHand: number;
  /** What of it has not expired. */
  usable: number;
  expired: number;
  par: number | null;
  min: number | null;
  /** What it lacks to its par, where it is under the minimum. */
  short: number;
  /** More was taken than was ever known to be there. */
  countOwed: boolean;
  counted: string | null;
  soonest: string | null;
  state: LotState | null;
  /** In the order in which they are to be used. */
  lots: SupplyLot[];
}

export interface SupplyList {
  on: string;
  /** How many kinds are kept. */
  kinds: number;
  rows: SupplyLine[];
}

export interface ReorderLine {
  stock: string;
  what: string;
  perBox: number | null;
  places: { place: string; name: string; usable: number; par: number; min: number; wants: number }[];
  /** Places that hold more than their par. */
  spare: { place: string; name: string; over: number }[];
  wanted: number;
  /** To order once what is spare elsewhere has been moved, in each and in whole boxes. */
  order: number;
  boxes: number | null;
}

/** A lot that would be used up sooner in another place. */
export interface BetterLine {
  stock: string;
  what: string;
  perBox: number | null;
  lot: string | null;
  expires: string;
  from: string;
  fromName: string;
  to: string;
  toName: string;
  amount: number;
  left: number;
}

export interface SupplyShelf {
  /** Ready spares of a family and size at a station, the thing itself tracked by number. */
  spares: {
    family: string;
    title: string;
    what: string;
    station: string;
    ready: number;
    /** Spares by name that something tells against: tagged out, or a date that blocks or limits. */
    not: number;
    numbers: string[];
  }[];
  /** Cylinders off the rigs, by what is known of their fill. */
  cylinders: { station: string; what: string; by: Record<FillState, number> }[];
}

/** A cylinder that a number or a scan may mean. */
export interface FillSubject {
  item: string;
  number: string;
  serial: string | null;
  what: string;
  place: string | null;
  condition: Condition;
}

/** May it be filled: told before the fill, to whoever stands at the fill station. */
export interface FillCheck {
  /** As it was typed or scanned. */
  number: string;
  /** Null where the number is not one of the department's cylinders, or is several of them. */
  cylinder: FillSubject | null;
  /** Where several living cylinders bear the number. */
  several: FillSubject[];
  /** What else bears the number, in words: a pack is no cylinder. */
  others: string[];
  verdict: FillVerdict;
  /** The gravest first. */
  against: AgainstFill[];
  /** The last examination on file, as its mark says it. */
  lastHydro: string | null;
  requalifyBy: string | null;
  lifeEndsOn: string | null;
  servicePressure_psi: number | null;
  lastFill: { on: string; to_psi: number | null } | null;
  fill: FillState;
  cautions: string[];
}

/** A fill that was done. */
export interface FillLine {
  entry: string;
  on: string;
  /** Who filled it, and who told of it. */
  filler: string;
  toldBy: string;
  /** Null for a bottle that is not ours. */
  item: string | null;
  number: string;
  what: string;
  /** Whose it is, where it is not ours. */
  owner: string | null;
  /** What was read on the label of one that is not ours. */
  marking: string | null;
  /** The hydro date that was read on the bottle. */
  hydroDate: string | null;
  from_psi: number | null;
  to_psi: number | null;
  compressor: { item: string; number: string } | null;
  station: string | null;
  against: AgainstFill[];
  /** Whether it was pulled for it, or set aside for its owner. */
  pulled: boolean;
  note: string | null;
  /** Whether what speaks against it was looked at: not where a fill was recorded as a service. */
  checked: boolean;
}

export interface FillLog {
  from: string | null;
  to: string;
  /** How many there are; `rows` holds the latest of them. */
  total: number;
  against: number;
  pulled: number;
  rows: FillLine[];
  /** Every compressor and fill station there is, to name one with the next fill. */
  compressors: { item: string; number: string; what: string; station: string | null }[];
}

export interface FillLogFilter {
  from?: string;
  to?: string;
  station?: string;
  /** The number or id of a compressor or fill station. */
  compressor?: string;
  text?: string;
  /** Only fills against which something spoke. */
  against?: boolean;
  limit?: number;
}

export interface SupplyQuestions {
  'fill.check': {
    takes: {
      number?: string;
      item?: string;
      to_psi?: number;
      hydroDate?: string;
      servicePressure_psi?: number;
      compressor?: string;
      on?: string;
    };
    gives: FillCheck;
  };
  'fills.list': { takes: FillLogFilter; gives: FillLog };
  'supply.list': { takes: { text?: string; on?: string }; gives: SupplyList };
  'supply.reorder': {
    takes: { on?: string };
    gives: { on: string; rows: ReorderLine[]; better: BetterLine[] };
  };
  'supply.shelf': { takes: { on?: string }; gives: SupplyShelf };
  'supply.history': { takes: { stock: string }; gives: HistoryLine[] };
}
