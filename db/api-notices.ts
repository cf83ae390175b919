/** What recall and stop-use notices ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { Notice } from '../domain/chains/notice.ts';
import type { SettledHow, Standing } from '../domain/chains/settled.ts';
import type { Condition } from '../domain/facts.ts';

export interface NoticeCounts {
  /** Things it concerns by all that it names, and things of which that is not known. */
  concerned: number;
  perhaps: number;
  /** Concerned, not settled and still in service: what may be put to use this minute. */
  inUse: number;
  /** Out of service, for whatever reason, and still here. */
  tagged: number;
  settled: number;
  /** Missing things and serials the maker names, settled as such or not. */
  notFound: number;
  /** What nobody has settled yet: things and expected serials. */
  open: number;
}

export interface NoticeLine extends Notice, NoticeCounts {
  id: string;
  familyTitle: string;
  /** When it was issued. */
  on: string;
  byName: string | null;
  /** A notice that is closed may have open things again: one turned up, or was entered since. */
  closed: { on: string; note: string; byName: string | null } | null;
}

/** How something was settled, by whom; the condition alone where its end settled it. */
export interface SettledLine {
  how: NonNullable<Standing['how']>;
  note: string | null;
  on: string | null;
  byName: string | null;
}

/** A thing that a notice concerns or perhaps does, or that was settled under it. */
export interface NoticeThing {
  item: string;
  number: string;
  family: string;
  isRig: boolean;
  serial: string | null;
  what: string;
  /** `no` where it was settled and turned out to be another. */
  concerns: 'yes' | 'perhaps' | 'no';
  /** What has to be looked at, where it is only perhaps. */
  look: string[];
  place: string | null;
  unit: string | null;
  condition: Condition;
  since: string | null;
  open: boolean;
  settled: SettledLine | null;
}

/** A serial that the maker names and nobody could find. */
export interface NoticeSerial {
  serial: string;
  note: string | null;
  on: string;
  byName: string | null;
  /** The thing that has turned up as it. */
  found: { item: string; number: string } | null;
  open: boolean;
  settled: (SettledLine & { how: SettledHow }) | null;
}

export interface NoticePage extends NoticeLine {
  /** Open ones first, and of those the certain before the doubtful. */
  things: NoticeThing[];
  expected: NoticeSerial[];
}

export interface NoticeQuestions {
  'notices.list': { takes: { open?: boolean }; gives: { total: number; rows: NoticeLine[] } };
  'notice.page': { takes: { notice: string }; gives: NoticePage };
}
