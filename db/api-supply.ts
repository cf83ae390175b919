/** What counted stock asks and is told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { FillState } from '../domain/supply/fill.ts';
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

export interface SupplyQuestions {
  'supply.list': { takes: { text?: string; on?: string }; gives: SupplyList };
  'supply.reorder': {
    takes: { on?: string };
    gives: { on: string; rows: ReorderLine[]; better: BetterLine[] };
  };
  'supply.shelf': { takes: { on?: string }; gives: SupplyShelf };
  'supply.history': { takes: { stock: string }; gives: HistoryLine[] };
}
