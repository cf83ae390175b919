/** What kits ask and are told; part of the contract in `api.ts`. Imports nothing that runs. */
import type { LineBody } from '../domain/carry/types.ts';
import type { Condition } from '../domain/facts.ts';
import type { SealState } from '../domain/kits/kit.ts';
import type { WhenLate } from '../domain/rulebook/types.ts';

/** A kit as whoever goes through a rig sees it. */
export interface KitBrief {
  state: SealState;
  /** The number of the last seal that was put on. */
  seal: string | null;
  /** The earliest date of what lies in it. */
  expires: string | null;
  /** `blocks`: it does not serve as it is. */
  effect: WhenLate | null;
  /** In words, the heaviest first. */
  reasons: string[];
}

export interface KitLine extends KitBrief {
  item: string;
  number: string;
  kind: string | null;
  /** The template of its kind; null where there is none. */
  template: string | null;
  condition: Condition;
  assignment: string | null;
  place: string | null;
  unit: string | null;
  station: string | null;
  since: string | null;
  /** The number found in its place, where that differs. */
  found: string | null;
  countedOn: string | null;
  /** When its seal was last seen whole. */
  seenOn: string | null;
}

/** A line of a template with what is in the kit of it. */
export interface KitContent extends LineBody {
  line: string;
  there: number;
  expired: number;
  lacking: number;
  /** The earliest date on what is there. */
  soonest: string | null;
  isCounted: boolean;
  effect: WhenLate | null;
  /** Tracked things that fill it, by their numbers. */
  things: { item: string; number: string }[];
}

export interface KitPage extends KitLine {
  contents: KitContent[];
  /** Tracked things in it that no line asks for. */
  extra: { item: string; number: string; what: string }[];
}

export interface KitTemplateLine {
  id: string;
  what: string;
  lines: number;
  critical: number;
  /** How many kits are of its kind. */
  kits: number;
}

export interface KitTemplatePage {
  id: string;
  what: string;
  lines: (LineBody & { line: string })[];
  kits: { item: string; number: string }[];
}

export interface KitQuestions {
  'kits.list': {
    takes: { on?: string };
    gives: { on: string; rows: KitLine[]; templates: KitTemplateLine[] };
  };
  'kit.page': { takes: { item: string; on?: string }; gives: KitPage };
  'kit.template': { takes: { template: string; on?: string }; gives: KitTemplatePage };
}
