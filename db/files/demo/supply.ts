/** Half a year of counted stock: delivered, issued, moved between houses, counted each month; and what is wrong now. */
import { addDays, addMonths, type Day, dayText } from '../../../domain/calendar/day.ts';
import type { World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { monthText } from './instants.ts';
import { crewOf, LOGISTICS, memberLabel } from './people.ts';
import { AA, CHAIN_OIL, GLOVES_L, type Home, KINDS, type Kind, PADS, SALINE } from './supply-kinds.ts';

/** So many days ago the district began to keep its stock here. */
const SINCE = 210;
const EVERY = 14;
/** Filled up every so many rounds of issuing, the last time some weeks ago. */
const FILLED_EACH = 4;

const labelOf = (kind: Pick<Kind, 'what'>): Label => `@stock ${kind.what}`;

/** Places that were not filled up the last times: nobody passed the list on. */
const FORGOTTEN: readonly string[] = [
  `${GLOVES_L} 33`,
  `${AA} 33`,
  'Absorbent, bag 32',
  'Drinking water, 24-pack 31',
  'N95 respirator 33',
  'Saline, 500 mL 33',
  'Two-stroke fuel, 1 qt can 32',
];

/** Plan the stock of the whole district. */
export function planSupply(world: World): void {
  const { diary, on } = world;
  const began = addDays(on, -SINCE);
  const logistics = memberLabel(LOGISTICS);
  diary.at(
    began,
    '10:15',
    logistics,
    KINDS.map(k => ({
      action: 'stock.add',
      body: {
        what: k.what,
        ...(k.perBox === null ? {} : { unit: 'box', perBox: k.perBox }),
        ...(k.twoCount ? { twoCount: true } : {}),
      },
      as: labelOf(k),
    })),
  );
  diary.at(
    began,
    '10:40',
    logistics,
    KINDS.flatMap(k =>
      k.homes.map(({ place, par, min }) => ({
        action: 'stock.par',
        body: { stock: labelOf(k), place, par, min },
      })),
    ),
  );
  for (const [i, k] of KINDS.entries()) for (const h of k.homes) runOf(world, k, h, i, began);
  whatIsWrong(world);
}

/** What came and went in one place. The plan keeps its own lots, so that none goes that is not there. */
function runOf(world: World, kind: Kind, home: Home, nth: number, began: Day): void {
  const { diary, on } = world;
  const { place, station, par, uses } = home;
  const stock = labelOf(kind);
  const chance = world.chance(`stock ${kind.what} ${place}`);
  const isForgotten = FORGOTTEN.includes(`${kind.what} ${station}`);
  // Somebody goes easy on what runs low: a rest of it is still there.
  const rest = isForgotten ? Math.ceil((home.min * chance.whole(25, 75)) / 100) : 0;
  const lots: { lot: string | null; amount: number }[] = [];
  const held = () => lots.reduce((sum, l) => sum + l.amount, 0);
  const deliver = (day: Day, amount: number, round: number) => {
    const lot = lotOf(kind, nth, round);
    lots.push({ lot, amount });
    const made = addDays(began, round * EVERY);
    diary.at(day, '11:20', memberLabel(LOGISTICS), [received(kind, place, amount, day, made, lot)]);
  };
  const count = (day: Day, round: number) => {
    const counts = lots
      .filter(l => l.amount > 0)
      .map(l => ({ ...(l.lot === null ? {} : { lot: l.lot }), amount: l.amount }));
    if (counts.length === 0) return;
    const who = crewOf(station, 'company officer', round);
    const witness = kind.twoCount ? { witness: memberLabel(crewOf(station, 'driver', round)) } : {};
    diary.at(day, '19:10', memberLabel(who), [
      { action: 'stock.count', body: { stock, place, counts: merged(counts), ...witness, on: dayText(day) } },
    ]);
  };
  deliver(began, par, 0);
  for (let round = 1; addDays(began, round * EVERY) < on; round++) {
    const day = addDays(began, round * EVERY - chance.whole(0, 3));
    const left = Math.max(0, held() - rest);
    const amount = uses === 0 ? 0 : Math.min(left, chance.whole(Math.ceil(uses / 2), Math.ceil(uses * 1.4)));
    if (amount > 0) {
      take(lots, amount);
      const who = crewOf(station, chance.happens(1, 3) ? 'driver' : 'firefighter', round + nth);
      const unit: Label = `@unit Engine ${station}`;
      diary.at(day, '08:35', memberLabel(who), [
        { action: 'stock.issue', body: { stock, place, amount, to: unit, on: dayText(day) } },
      ]);
    }
    const filled = round % FILLED_EACH === 0 && !(isForgotten && round > FILLED_EACH);
    if (filled && held() < par) deliver(addDays(day, 2), roundUp(par - held(), kind.perBox), round);
    // Counted between two deliveries; what went to the saws in the brush season was not.
    if (round % FILLED_EACH === 2 && kind.what !== CHAIN_OIL) count(addDays(day, 3), round);
  }
}

/** The oldest lot goes first. */
function take(lots: { amount: number }[], amount: number): void {
  let left = amount;
  for (const lot of lots) {
    const some = Math.min(lot.amount, left);
    lot.amount -= some;
    left -= some;
  }
}

/** What has no lot is one heap, however often it was delivered. */
function merged(counts: readonly { lot?: string; amount: number }[]): { lot?: string; amount: number }[] {
  const plain = counts.filter(c => c.lot === undefined).reduce((sum, c) => sum + c.amount, 0);
  return [...counts.filter(c => c.lot !== undefined), ...(plain > 0 ? [{ amount: plain }] : [])];
}

/** Whole boxes are delivered. */
const roundUp = (amount: number, perBox: number | null) =>
  perBox === null ? amount : Math.ceil(amount / perBox) * perBox;

/** Kinds whose first lot ran out or runs out about now, with the months from the day of the demo to its date. */
const DATED: Readonly<Record<string, number>> = { [PADS]: -1, [SALINE]: 1, 'Burn dressing, sterile': 2 };

const lotOf = (kind: Kind, nth: number, delivery: number) =>
  kind.months === null ? null : `${String.fromCharCode(65 + (nth % 26))}${delivery + 3}-${100 + nth * 7}`;

/** @param made a delivery bears one date, in whichever house and on whichever day it is received */
function received(
  kind: Kind,
  place: Label,
  amount: number,
  day: Day,
  made: Day,
  lot: string | null,
): Planned {
  return {
    action: 'stock.receive',
    body: {
      stock: labelOf(kind),
      place,
      amount,
      ...(lot === null || kind.months === null
        ? {}
        : { lot, expires: monthText(addMonths(made, kind.months)) }),
      on: dayText(day),
    },
  };
}

/** The first lot of three kinds is at its date, as a count of the first week read it; and one count is owed. */
function whatIsWrong({ diary, on }: World): void {
  const byName = (what: string): Kind => {
    const kind = KINDS.find(k => k.what === what);
    if (!kind) throw new Error(`The demo keeps no ${what}.`);
    return kind;
  };
  const counted = addDays(on, -SINCE + 3);
  for (const [what, months] of Object.entries(DATED)) {
    const kind = byName(what);
    const nth = KINDS.indexOf(kind);
    for (const { place, par } of kind.homes)
      diary.at(counted, '15:05', memberLabel(LOGISTICS), [
        {
          action: 'stock.count',
          body: {
            stock: labelOf(kind),
            place,
            counts: [{ lot: lotOf(kind, nth, 0), expires: monthText(on, months), amount: par }],
            on: dayText(counted),
          },
        },
      ]);
  }
  // More than was ever there went to the brush season: nobody wrote down what came.
  const oil = byName(CHAIN_OIL);
  const cache = oil.homes[1];
  const late = addDays(on, -4);
  if (cache)
    diary.at(late, '17:25', memberLabel(crewOf(32, 'driver', 1)), [
      {
        action: 'stock.issue',
        body: {
          stock: labelOf(oil),
          place: cache.place,
          amount: 16,
          to: '@unit Brush 32',
          note: 'Saw work on the Saltgrass break',
          on: dayText(late),
        },
      },
    ]);
}
