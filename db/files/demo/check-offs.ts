/** Ten weeks of check-offs: weekly inventories of every rig, with what was found, what was missed and why. */
import { addDays, type Day, dayText } from '../../../domain/calendar/day.ts';
import { holderOf, type PlannedLine } from './carry.ts';
import type { World } from './deeds.ts';
import type { Label, Planned } from './diary.ts';
import { BATTALION_OFFICER, CHIEF, crewOf, memberLabel } from './people.ts';
import { at, RIGS } from './places.ts';
import { KITS } from './stories.ts';

/** The district took up inventories by schedule so many weeks ago. */
const WEEKS = 10;
const SATURDAY = 6;

/** What was found at an inventory: the rig, how many weeks ago, the line, and what was done. */
interface Found {
  rig: string;
  weeks: number;
  what: string;
  kind: 'short' | 'low' | 'damaged';
  short: number | null;
  note: string | null;
  /** How and after how many days it was settled; null: it is open. */
  settled: readonly [how: string, days: number] | null;
}

const FOUND: readonly Found[] = [
  found('Engine 31', 6, 'Absorbent, bag', 'short', 2, 'Used on Mill Road', ['restocked', 3]),
  found('Engine 31', 1, 'Foam concentrate 5 gal', 'short', 1, 'One pail open', null),
  found('Engine 32', 4, 'Door wedge', 'short', 3, null, ['restocked', 2]),
  found('Engine 33', 2, 'Salvage sheeting, roll', 'damaged', null, 'Torn along the fold', null),
  found('Engine 34', 3, 'Extension cord 50 ft', 'damaged', null, 'Jacket cut near the plug', ['replaced', 9]),
  found('Reserve R-1', 1, 'Double male 2½', 'short', 1, 'Lent to Engine 32', null),
];

function found(
  rig: string,
  weeks: number,
  what: string,
  kind: Found['kind'],
  short: number | null,
  note: string | null,
  settled: Found['settled'],
): Found {
  return { rig, weeks, what, kind, short, note, settled };
}

/** Inventories that nobody did: the rig and how many weeks ago; with a reason, or none yet. */
const MISSED: readonly (readonly [rig: string, weeks: number, reason: string | null])[] = [
  ['Reserve R-2', 3, null],
  ['Brush 32', 5, 'On a strike team from Thursday to Tuesday'],
];

/** Put down when each rig is gone through, and go through it. */
export function planCheckOffs(
  world: World,
  lists: ReadonlyMap<string, readonly PlannedLine[]>,
  sealOf: SealOf,
): void {
  const { on, diary } = world;
  const lastSaturday = saturdayBefore(on);
  const begun = addDays(lastSaturday, -7 * WEEKS);
  diary.at(
    addDays(begun, -2),
    '10:00',
    memberLabel(CHIEF),
    RIGS.map(rig => weeklySchedule(rig, dayText(addDays(begun, -1)))),
  );
  diary.at(addDays(on, -1), '16:10', memberLabel(CHIEF), [morningCheck(on)]);
  for (const rig of RIGS) {
    const lines = lists.get(rig.name) ?? [];
    for (let weeks = WEEKS; weeks >= 0; weeks--) {
      const day = addDays(lastSaturday, -7 * weeks);
      const missed = MISSED.find(([name, w]) => name === rig.name && w === weeks);
      if (missed) {
        if (missed[2] !== null) sayWhy(world, rig, day, missed[2]);
        continue;
      }
      inventory(world, rig, lines, day, weeks, sealOf);
    }
  }
}

/** The seal that a kit bore on the morning of a day. */
type SealOf = (kit: Label, day: Day) => string | null;
type Rig = (typeof RIGS)[number];
const scheduleLabel = (rig: Rig): Label => `@weekly ${rig.name}`;

function weeklySchedule(rig: Rig, from: string): Planned {
  return {
    action: 'checkoff.schedule',
    body: {
      of: holderOf(rig),
      title: 'Weekly inventory',
      every: { kind: 'weekly', weekday: SATURDAY },
      by: 'driver',
      dueBy: '12:00',
      graceHours: 6,
      on: from,
    },
    as: scheduleLabel(rig),
  };
}

/** The tower's crew has begun to run its saws and read its packs every morning. */
function morningCheck(on: Day): Planned {
  return {
    action: 'checkoff.schedule',
    body: {
      of: '@unit Tower 33',
      title: 'Morning check',
      every: { kind: 'daily' },
      scope: 'operated only',
      by: 'driver',
      dueBy: '09:00',
      graceHours: 2,
      on: dayText(on),
    },
  };
}

function sayWhy({ diary }: World, rig: Rig, day: Day, reason: string): void {
  diary.at(addDays(day, 9), '08:10', memberLabel(crewOf(rig.station, 'company officer', 0)), [
    {
      action: 'checkoff.missed',
      body: {
        of: holderOf(rig),
        schedule: scheduleLabel(rig),
        for: { on: dayText(day) },
        reason,
        on: dayText(addDays(day, 9)),
      },
    },
  ]);
}

/** One Saturday morning: gone through place by place, signed by the driver, countersigned by the officer. */
function inventory(
  world: World,
  rig: Rig,
  lines: readonly PlannedLine[],
  day: Day,
  weeks: number,
  sealOf: SealOf,
): void {
  const { diary, chance } = world;
  const on = dayText(day);
  const label: Label = `@check-off ${rig.name} ${on}`;
  const luck = chance(`check-off ${rig.name} ${weeks}`);
  const began = luck.whole(10, 40);
  const here = FOUND.filter(f => f.rig === rig.name && f.weeks === weeks);
  const places = [...new Set(lines.map(l => l.place))];
  const driver = memberLabel(crewOf(rig.station, 'driver', weeks));
  const isLast = weeks === 0;
  const seals = sealsOf(lines, day, isLast, sealOf);
  const signed: Planned = {
    action: 'checkoff.sign',
    body: { checkoff: label, finished: `${on}T08:${began + 12}`, on },
    also: Object.fromEntries(here.map((f, i) => [`.${i.toString(36)}`, defectLabel(f)])),
  };
  diary.at(day, `07:${began}`, driver, [
    {
      action: 'checkoff.start',
      body: {
        of: holderOf(rig),
        rig: at(rig.name),
        schedule: scheduleLabel(rig),
        for: { on },
        started: `${on}T07:${began}`,
        on,
      },
      as: label,
    },
  ]);
  diary.at(day, `08:${began}`, driver, [
    {
      action: 'checkoff.mark',
      body: {
        checkoff: label,
        marks: places.map(p => markOf(rig, p, lines, here, luck.whole(91, 100), seals)),
        on,
      },
    },
    signed,
  ]);
  const officer =
    rig.kind === 'command car' ? BATTALION_OFFICER : crewOf(rig.station, 'company officer', weeks);
  if (memberLabel(officer) !== driver && luck.happens(5, 6))
    diary.at(day, `09:${began}`, memberLabel(officer), [
      { action: 'checkoff.countersign', body: { checkoff: label, on } },
    ]);
  for (const f of here) settle(world, rig, f, day);
}

const defectLabel = (f: Found): Label => `@defect ${f.rig} ${f.weeks} ${f.what}`;

function settle({ diary }: World, rig: Rig, f: Found, day: Day): void {
  if (f.settled === null) return;
  const [how, days] = f.settled;
  const on = addDays(day, days);
  diary.at(on, '10:20', memberLabel(crewOf(rig.station, 'driver', days)), [
    { action: 'defect.close', body: { defect: defectLabel(f), how, on: dayText(on) } },
  ]);
}

function markOf(
  rig: Rig,
  place: string,
  lines: readonly PlannedLine[],
  here: readonly Found[],
  percent: number,
  seals: readonly SealRead[],
): Record<string, unknown> {
  const inPlace = lines.filter(l => l.place === place);
  const wrong = here.filter(f => inPlace.some(l => l.what === f.what));
  const lineOf = (what: string) => inPlace.find(l => l.what === what)?.label ?? null;
  return {
    place,
    at: at(rig.name, place),
    present: true,
    exceptions: [
      ...inPlace.flatMap(l => seals.filter(s => s.line === l.label && !s.whole)).map(brokenSeal),
      ...wrong.map(({ what, kind, short, note }) => ({
        line: lineOf(what),
        kind,
        short,
        reading: null,
        note,
        next: 'defect',
      })),
    ],
    operated: [
      ...inPlace
        .filter(l => l.verify === 'operated' || l.isRead)
        .map(l => ({ line: l.label, works: true, reading: l.isRead ? String(percent) : null })),
      ...inPlace
        .flatMap(l => seals.filter(s => s.line === l.label && s.whole))
        .map(({ line, kit, seal }) => ({ line, item: kit, works: true, reading: seal })),
    ],
  };
}

/** What was read of a kit's seal. */
interface SealRead {
  line: Label;
  kit: Label;
  seal: string | null;
  whole: boolean;
}

function sealsOf(lines: readonly PlannedLine[], day: Day, isLast: boolean, sealOf: SealOf): SealRead[] {
  return lines.flatMap(l =>
    l.kits.map(kit => ({
      line: l.label,
      kit,
      seal: sealOf(kit, day),
      whole: !(isLast && kit === `@kit ${KITS.broken}`),
    })),
  );
}

const brokenSeal = ({ line, kit }: SealRead) => ({
  line,
  item: kit,
  kind: 'damaged',
  reading: null,
  note: 'Seal broken, the bag half zipped',
  next: 'defect',
});

/** The last Saturday before a day. */
function saturdayBefore(day: Day): Day {
  const weekday = new Date(`${dayText(day)}T12:00:00Z`).getUTCDay();
  return addDays(day, -(((weekday - SATURDAY + 6) % 7) + 1));
}
