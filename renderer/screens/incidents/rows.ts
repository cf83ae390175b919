/** What one rig's list comes to, as rows: what is wrong first, what lies where it belongs last. */
import type { IncidentPage, IncidentRig } from '../../../db/api-incidents.ts';
import { likelyWhose } from '../../../domain/incident/likely.ts';
import type { BelievedThing, NumberIs, ReadNumber } from '../../../domain/incident/pickup.ts';
import type { Choices, MissingChoice } from '../../../domain/incident/settlement.ts';
import type { Read } from './useReads.ts';

export interface Row {
  key: string;
  /** `waiting`: it is not kept yet, and nobody knows what it is. */
  is: NumberIs | 'missing' | 'waiting';
  number: string;
  what: string;
  /** Where it is believed, or whose it likely is. */
  where: string;
  /** The place of the rig it was read in. */
  at: string;
  used: boolean;
  read: ReadNumber | null;
  lost: BelievedThing | null;
}

const ORDER: readonly Row['is'][] = [
  'waiting',
  'missing',
  'duplicated',
  'foreign',
  'other rig',
  'elsewhere',
  'own',
];

export function rowsOf(
  page: Pick<IncidentPage, 'pickup' | 'agencies'>,
  rig: IncidentRig,
  reads: readonly Read[],
  isKept: boolean,
): Row[] {
  const names = new Map(rig.places.map(p => [p.id, p.name]));
  const rows = reads.map((read): Row => {
    const told = isKept
      ? (page.pickup.numbers.find(n => n.rig === rig.rig && n.number === read.number) ?? null)
      : null;
    return {
      key: read.number,
      is: told?.is ?? 'waiting',
      number: read.number,
      what: told?.thing?.what ?? told?.could[0]?.what ?? '',
      where: told === null ? '' : whereWords(told, page.agencies, read.at),
      at: read.at === null ? '' : (names.get(read.at) ?? ''),
      used: read.used,
      read: told,
      lost: null,
    };
  });
  const lost = page.pickup.believed
    .filter(b => isKept && b.rig === rig.rig && b.is === 'missing')
    .map(
      (b): Row => ({
        key: `missing ${b.thing.item}`,
        is: 'missing',
        number: b.thing.number,
        what: b.thing.what,
        where:
          b.likely.length > 0
            ? `Perhaps with ${b.likely[0]?.name}: ${b.likely[0]?.reasons.join('; ')}`
            : 'nobody likely',
        at: '',
        used: false,
        read: null,
        lost: b,
      }),
    );
  return [...lost, ...rows].sort((a, b) => ORDER.indexOf(a.is) - ORDER.indexOf(b.is));
}

function whereWords(read: ReadNumber, agencies: readonly string[], at: string | null): string {
  switch (read.is) {
    case 'own':
      return at === null || at === read.thing?.place ? '' : `Believed in ${read.thing?.where}`;
    case 'foreign':
      return likelyWhose(read, agencies).join(', or ') || 'nobody knows whose';
    case 'duplicated':
      return read.could.length > 1
        ? read.could.map(t => t.where || 'place not known').join(', or ')
        : 'read on another rig too';
    default:
      return `Believed in ${read.thing?.where || 'no place'}`;
  }
}

/** What was chosen here, by what it was chosen for. */
export interface Chosen {
  missing: Readonly<Record<string, Omit<MissingChoice, 'item'>>>;
  which: Readonly<Record<string, string>>;
  whose: Readonly<Record<string, string>>;
}

export const NOTHING_CHOSEN: Chosen = { missing: {}, which: {}, whose: {} };
export const choiceKey = (rig: string, number: string): string => `${rig} ${number}`;

/**
 * The choices as the store takes them: what is missing is reported where nothing else was chosen, and what is foreign is
 * taken for the one other department that was there.
 */
export function choicesOf(page: Pick<IncidentPage, 'pickup' | 'agencies'>, chosen: Chosen): Choices {
  const { numbers, believed } = page.pickup;
  const [only, ...others] = page.agencies;
  return {
    missing: believed
      .filter(b => b.is === 'missing')
      .flatMap((b): MissingChoice[] => {
        const said = chosen.missing[b.thing.item];
        if (said) return [{ item: b.thing.item, ...said }];
        return b.thing.condition === 'missing' ? [] : [{ item: b.thing.item, as: 'missing' }];
      }),
    which: numbers.flatMap(({ rig, number, is, could }) => {
      const item = chosen.which[choiceKey(rig, number)];
      return is === 'duplicated' && could.some(t => t.item === item) && item !== undefined
        ? [{ rig, number, item }]
        : [];
    }),
    foreign: numbers.flatMap(({ rig, number, is }) => {
      const whose = chosen.whose[choiceKey(rig, number)] ?? (others.length === 0 ? only : undefined);
      return is === 'foreign' && whose ? [{ rig, number, whose }] : [];
    }),
  };
}
