/**
 * Random legal histories: every action on things, places and rules, with back-dating, coarse dates and voids of
 * facts, entries and batches. A step is a handful of numbers that are made into a deed against the department as
 * it then is, so that a failing history can be shrunk step by step; what is refused is passed over.
 */
import fc from 'fast-check';
import type { AttachmentSent, Deed } from '../../../db/api.ts';
import { all, type Db } from '../../../db/store/statements.ts';
import { type Day, dayOf, dayText } from '../../../domain/calendar/day.ts';
import { ASSIGNMENTS, HOW_KNOWN, OUTCOMES } from '../../../domain/facts.ts';
import { familyOf, SHIPPED_REQUIREMENTS } from '../../../domain/rulebook/index.ts';
import { checkDeedOf } from './check-histories.ts';
import { crewDeedOf } from './crew-histories.ts';
import type { TestDepartment } from './department.ts';
import { kitDeedOf } from './kit-histories.ts';
import { noticeDeedOf } from './notice-histories.ts';
import { TRACKED } from './opening.ts';
import { png, sent, sha256Of } from './pictures.ts';
import { stockDeedOf } from './stock-histories.ts';

/** Kinds of steps, each as often as it stands here. */
const KINDS = [
  ...Array(12).fill('receive'),
  ...Array(10).fill('receive'),
  ...Array(3).fill('amend'),
  ...Array(5).fill('move'),
  ...Array(2).fill('assign'),
  ...Array(8).fill('record'),
  ...Array(2).fill('tagOut'),
  'limit',
  'sendToRepair',
  ...Array(2).fill('repaired'),
  'oweRetest',
  ...Array(3).fill('return'),
  ...Array(2).fill('hold'),
  ...Array(6).fill('release'),
  ...Array(2).fill('missing'),
  ...Array(3).fill('found'),
  'retire',
  'dispose',
  'adopt',
  'policy',
  'permit',
  ...Array(2).fill('place'),
  'unit',
  'rig',
  'station',
  'agency',
  ...Array(4).fill('searched'),
  'handOver',
  ...Array(2).fill('photo'),
  ...Array(2).fill('fill'),
  ...Array(4).fill('carry'),
  ...Array(5).fill('checkoff'),
  ...Array(9).fill('mark'),
  ...Array(12).fill('sign'),
  'countersign',
  'setAside',
  'defect',
  ...Array(2).fill('closeDefect'),
  'notice',
  ...Array(2).fill('settle'),
  'expect',
  ...Array(3).fill('closeNotice'),
  ...Array(2).fill('stock'),
  ...Array(2).fill('stockIn'),
  'stockOut',
  'stockCount',
  'stockMove',
  'stockPar',
  'stockOff',
  ...Array(3).fill('changeover'),
  'incident',
  ...Array(3).fill('readAfter'),
  ...Array(3).fill('settleIncident'),
  'member',
  'entitle',
  ...Array(10).fill('void'),
] as const;

/** A history that is mostly of carry lists and of what is found against them. */
export const OF_CHECKS = [
  ...Array(6).fill('receive'),
  ...Array(2).fill('move'),
  'place',
  'unit',
  'rig',
  'tagOut',
  'missing',
  ...Array(2).fill('found'),
  'return',
  ...Array(3).fill('carry'),
  ...Array(4).fill('checkoff'),
  ...Array(6).fill('mark'),
  ...Array(6).fill('sign'),
  'countersign',
  'setAside',
  'defect',
  ...Array(2).fill('closeDefect'),
  ...Array(3).fill('void'),
] as const;

/** A history that is mostly of kits: mixed among everything else they would seldom meet. */
export const OF_KITS = [
  'receive',
  'move',
  'place',
  'retire',
  ...Array(2).fill('kit'),
  ...Array(4).fill('kitSeal'),
  ...Array(2).fill('kitOpen'),
  ...Array(3).fill('kitCheck'),
  ...Array(3).fill('intoKit'),
  ...Array(2).fill('void'),
] as const;

type StepKind = (typeof KINDS)[number] | (typeof OF_CHECKS)[number] | (typeof OF_KITS)[number];

export interface Step {
  kind: StepKind;
  a: number;
  b: number;
  c: number;
  /** Days after 1 January 2020; a few lie after today and are refused. */
  day: number;
}

const number = fc.nat({ max: 9999 });
const step = (kinds: readonly StepKind[]): fc.Arbitrary<Step> =>
  fc.record({
    kind: fc.constantFrom(...kinds),
    a: number,
    b: number,
    c: number,
    day: fc.nat({ max: 2530 }),
  });

/** One act: one to three deeds, after the clock has gone on by some minutes, or back. */
export interface Act {
  device: number;
  steps: Step[];
  minutes: number;
}

const oneAct = (devices: number, kinds: readonly StepKind[] = KINDS): fc.Arbitrary<Act> =>
  fc.record({
    device: fc.nat({ max: devices - 1 }),
    steps: fc.array(step(kinds), { minLength: 1, maxLength: 3 }),
    minutes: fc.integer({ min: -90, max: 3000 }),
  });

/** A history of one device. */
export const history = (acts: number, kinds?: readonly StepKind[]): fc.Arbitrary<Act[]> =>
  fc.array(oneAct(1, kinds), { minLength: 8, maxLength: acts, size: 'max' });

/** What happens among several devices: somebody acts, or one takes in what another has. */
export type Happening = { act: Act } | { from: number; to: number };

export const happenings = (
  devices: number,
  count: number,
  kinds?: readonly StepKind[],
): fc.Arbitrary<Happening[]> =>
  fc.array(
    fc.oneof(
      { weight: 4, arbitrary: oneAct(devices, kinds).map(act => ({ act })) },
      {
        weight: 1,
        arbitrary: fc.record({ from: fc.nat({ max: devices - 1 }), to: fc.nat({ max: devices - 1 }) }),
      },
    ),
    { minLength: 8, maxLength: count, size: 'max' },
  );

/** Do an act, as far as its deeds can be made and are not refused. */
export function perform(d: TestDepartment, act: Act): void {
  d.clock.ms += act.minutes * 60_000;
  const deeds: Deed[] = [];
  for (const s of act.steps) {
    const deed = deedOf(d.db, s, deeds);
    if (deed) deeds.push(deed);
  }
  // Without the deed that is refused, until the rest is taken; one that counted on it is then refused itself.
  while (deeds.length > 0) {
    const answer = d.act(deeds, { attachments: picturesIn(deeds) });
    if (answer.ok) return;
    deeds.splice(answer.error.deed ?? 0, 1);
  }
}

function deedOf(db: Db, s: Step, before: readonly Deed[]): Deed | null {
  const on = whenOf(s);
  const places = idsOf(db, 'place');
  const place = at(places, s.b);
  const items = idsOf(db, 'item');
  // Now and then the thing that the same act receives.
  const received = before.findIndex(b => b.action === 'item.receive');
  const item = received >= 0 && s.c % 2 === 0 ? `&${received}` : at(items, s.a);
  const family = familyOf(familyName(db, item, before)) ?? familyOf('hose');
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body });
  const onItem = (action: string, body: Record<string, unknown> = {}): Deed | null =>
    item === undefined ? null : deed(`item.${action}`, { item, on, ...body });
  switch (s.kind) {
    case 'receive': {
      // Mostly hose and cylinders: their rules have the most to say.
      const chosen = familyOf(TRACKED[at([0, 0, 0, 1, 2, 2, 3, 4], s.a) ?? 0] ?? '');
      return deed('item.receive', {
        family: chosen?.id,
        // Few numbers, so that they meet.
        number: `N-${s.b % 4}`,
        ...(s.c % 3 === 0 ? { serial: `S${s.c % 7}` } : {}),
        attributes: attributesOf(chosen?.id ?? '', s),
        ...(place !== undefined && s.c % 4 > 0 ? { place } : {}),
        ...(s.c % 5 === 0 ? { assignment: ASSIGNMENTS[s.a % ASSIGNMENTS.length] } : {}),
        ...(s.c % 7 === 0 ? { condition: 'received' } : {}),
        evenIfNumberInUse: s.c % 2 === 0,
        on,
      });
    }
    case 'amend':
      return item === undefined
        ? null
        : deed('item.amend', {
            item,
            ...(s.b % 3 === 0 ? { number: `N-${s.c % 4}` } : {}),
            ...(s.b % 4 === 0 ? { serial: s.c % 2 === 0 ? null : `S${s.c % 7}` } : {}),
            attributes: { ...attributesOf(family?.id ?? '', s), ...(s.b % 5 === 0 ? { made: null } : {}) },
            ...(s.c % 3 === 0 ? { from: on } : {}),
          });
    case 'move':
      return place === undefined
        ? null
        : onItem('move', { to: place, how: HOW_KNOWN[s.c % HOW_KNOWN.length] });
    case 'assign':
      return onItem('assign', { assignment: ASSIGNMENTS[s.b % ASSIGNMENTS.length] });
    case 'record':
      return item === undefined
        ? null
        : deed('record.add', {
            item,
            activity: at(family?.activities ?? [], s.b)?.id,
            outcome: s.c % 3 === 0 ? OUTCOMES[s.b % OUTCOMES.length] : 'pass',
            rin: 'A123',
            on,
          });
    case 'tagOut':
      return onItem(s.kind, {
        reason: `Reason ${s.b % 5}`,
        ...(s.c % 2 === 0 ? { photos: [sha256Of(pictureOf(s))] } : {}),
      });
    case 'limit':
    case 'hold':
    case 'retire':
      return onItem(s.kind, { reason: `Reason ${s.b % 5}` });
    case 'release': {
      const held = inCondition(db, 'held for investigation', s) ?? item;
      return held === undefined ? null : deed('item.release', { item: held, on, note: 'Investigator done' });
    }
    case 'return': {
      const tagged = inCondition(db, 'tagged out', s) ?? item;
      return tagged === undefined ? null : deed('item.return', { item: tagged, on });
    }
    case 'missing':
      return onItem('missing');
    case 'sendToRepair':
      return onItem('sendToRepair', s.c % 2 === 0 && place !== undefined ? { vendor: place } : {});
    case 'repaired':
      return onItem('repaired', { kind: at(family?.repairs ?? [], s.b)?.kind, note: 'Looked at' });
    case 'oweRetest':
      return onItem('oweRetest', { trigger: at(family?.triggers ?? [], s.b)?.id ?? 'none' });
    case 'found': {
      const missing = inCondition(db, 'missing', s);
      return missing === undefined || place === undefined
        ? null
        : deed('item.found', { item: missing, place, on });
    }
    case 'dispose':
      return onItem('dispose', { how: 'Cut up' });
    case 'adopt': {
      const requirement = at(
        SHIPPED_REQUIREMENTS.filter(r => TRACKED.includes(r.family) || r.family === 'apparatus'),
        s.a,
      );
      if (!requirement) return null;
      const { clock } = requirement;
      // What is law may be made stricter alone: every month is within every interval that ships as law, a week apart.
      const isLaw = requirement.force === 'law';
      const every = { months: isLaw ? 1 : 1 + (s.b % 24) };
      const isWeekly = clock.kind === 'since last' && 'days' in clock.every;
      const changed = clock.kind === 'since last' && !(isLaw && isWeekly) ? { ...clock, every } : clock;
      return deed('rulebook.adopt', {
        requirements: [{ ...requirement, clock: changed, warnDays: s.c % 90 }],
        from: s.c % 3 === 0 ? 'opening' : dayText(dayAt(s)),
        reason: 'The district has decided so.',
        authority: 'Fire chief',
      });
    }
    case 'policy':
      return deed('policy.choose', {
        policy: 'life ends',
        choice: s.b % 2 === 0 ? 'month start' : 'month end',
        from: s.c % 3 === 0 ? 'opening' : dayText(dayAt(s)),
      });
    case 'permit':
      return deed('permit.confirm', {
        permit: `DOT-SP ${10_915 + (s.a % 2)}`,
        construction: 'carbon',
        months: 36 + (s.b % 3) * 12,
        lifeMonths: s.c % 3 === 0 ? 'label' : 180,
        basis: 'the permit in hand',
      });
    case 'place':
      return deed('place.add', {
        name: `place ${s.a % 6}`,
        kind: 'compartment',
        ...(place !== undefined && s.c % 4 > 0 ? { under: place } : {}),
      });
    case 'unit':
      return deed('unit.add', {
        name: `Unit ${s.a % 4}`,
        ...(place !== undefined && s.b % 2 === 0 ? { station: place } : {}),
        ...(s.c % 2 === 0 ? { rig: { name: `Rig ${s.a % 4}` } } : {}),
      });
    case 'rig': {
      const unit = at(idsOf(db, 'unit'), s.b);
      return deed('rig.add', { name: `Rig ${s.a % 6}`, ...(unit === undefined ? {} : { unit }) });
    }
    case 'station':
      return deed('station.add', { name: `Station ${s.a % 5}` });
    case 'agency':
      return deed('agency.add', { name: `Agency ${s.a % 3}`, ...(s.b % 2 === 0 ? { rin: 'B456' } : {}) });
    case 'member':
      return deed('member.add', { number: `${s.a % 9}`, name: `Member ${s.a % 9}`, position: 'driver' });
    case 'entitle': {
      const member = at(idsOf(db, 'member').slice(1), s.a);
      return member === undefined ? null : deed('member.entitle', { member, position: 'logistics' });
    }
    case 'searched': {
      const missing = inCondition(db, 'missing', s);
      return missing === undefined ? null : deed('item.searched', { item: missing, where: 'Everywhere', on });
    }
    case 'handOver': {
      const held = inCondition(db, 'held for investigation', s);
      return held === undefined ? null : deed('item.handOver', { item: held, to: 'The chief', on });
    }
    case 'photo': {
      const of = s.c % 3 === 0 ? at(idsOf(db, 'defect'), s.a) : item;
      return of === undefined ? null : deed('photo.add', { of, on, photos: [sha256Of(pictureOf(s))] });
    }
    case 'fill': {
      const bottle = at(cylindersOf(db), s.a);
      return deed('cylinder.fill', {
        // Now and then one that is not ours.
        ...(bottle === undefined || s.c % 5 === 0
          ? { foreign: { number: `X-${s.b % 4}`, owner: 'Cottonwood Basin Fire' } }
          : { item: bottle }),
        to_psi: 2000 + (s.b % 3000),
        ...(s.b % 3 === 0 ? { from_psi: s.c % 2000 } : {}),
        ...(s.a % 4 === 0 ? { hydroDate: dayText(dayAt(s)).slice(0, 7) } : {}),
        on,
      });
    }
    case 'carry':
    case 'checkoff':
    case 'mark':
    case 'sign':
    case 'countersign':
    case 'setAside':
    case 'defect':
    case 'closeDefect':
      return checkDeedOf(db, s.kind, s, on);
    case 'notice':
    case 'settle':
    case 'expect':
    case 'closeNotice':
      return noticeDeedOf(db, s.kind, s, on);
    case 'changeover':
    case 'incident':
    case 'readAfter':
    case 'settleIncident':
      return crewDeedOf(db, s.kind, s, on);
    case 'stock':
    case 'stockIn':
    case 'stockOut':
    case 'stockCount':
    case 'stockMove':
    case 'stockPar':
    case 'stockOff':
      return stockDeedOf(db, s.kind, s, on);
    case 'kit':
    case 'kitSeal':
    case 'kitOpen':
    case 'kitCheck':
    case 'intoKit':
      return kitDeedOf(db, s.kind, s, on);
    case 'void':
      return voidOf(db, s);
  }
  return null;
}

/** Few pictures, so that one is named by several deeds. */
const PICTURES = [0, 1, 2, 3, 4].map(n => png(n));
const pictureOf = (s: Step): Buffer => at(PICTURES, s.b) ?? png(0);

/** The pictures that deeds name, as an act brings them: each once, whether the file has it already or not. */
function picturesIn(deeds: readonly Deed[]): AttachmentSent[] {
  const named = new Set(deeds.flatMap(d => (d.body.photos ?? []) as string[]));
  return PICTURES.filter(p => named.has(sha256Of(p))).map(p => sent(p));
}

/** Void a fact, an entry or a batch, mostly one of the last. */
function voidOf(db: Db, s: Step): Deed | null {
  const facts = all<{ id: string; entry: string; batch: string }>(
    db,
    'SELECT id, entry, batch FROM facts ORDER BY key DESC LIMIT ?',
    s.b % 4 === 0 ? 200 : 12,
  );
  const fact = at(facts, s.a);
  if (!fact) return null;
  return {
    action: 'void',
    body: { target: [fact.id, fact.entry, `batch:${fact.batch}`][s.c % 3], why: 'Mistake' },
  };
}

function inCondition(db: Db, condition: string, s: Step): string | undefined {
  const ids = all<{ id: string }>(
    db,
    'SELECT t.id FROM items i JOIN things t ON t.key = i.key WHERE i.condition = ? ORDER BY t.id',
    condition,
  );
  return at(ids, s.a)?.id;
}

function familyName(db: Db, item: string | undefined, before: readonly Deed[]): string {
  if (item?.startsWith('&')) return String(before[Number(item.slice(1))]?.body.family);
  return (
    all<{ family: string }>(
      db,
      'SELECT i.family FROM items i JOIN things t ON t.key = i.key WHERE t.id = ?',
      item ?? '',
    )[0]?.family ?? 'hose'
  );
}

function attributesOf(family: string, s: Step): Record<string, unknown> {
  const dates = {
    ...(s.a % 3 > 0 ? { made: whenOf({ ...s, day: s.day % 900, c: s.a }) } : {}),
    ...(s.b % 3 > 0 ? { inService: whenOf({ ...s, day: 900 + (s.day % 300), c: s.b }) } : {}),
  };
  if (family === 'hose') return { ...dates, use: at(['attack', 'supply', 'occupant'], s.c), length_ft: 50 };
  if (family === 'ladder')
    return {
      ...dates,
      type: at(['roof', 'extension'], s.c),
      ...(s.c % 2 ? { heatLabelExpires: '2027-05' } : {}),
    };
  if (family === 'cylinder')
    return {
      ...dates,
      ...(s.c % 4 > 0
        ? { spec: at(['DOT-3AL', 'DOT-SP 10915', 'DOT-SP 10916'], s.c) }
        : { construction: 'carbon' }),
      ...(s.b % 2 ? { lifeLabel_months: 180 } : {}),
    };
  return dates;
}

function dayAt(s: Step): Day {
  return (dayOf(2020, 1, 1) + s.day) as Day;
}

/** The step's day as precisely as it happens to be known. */
function whenOf(s: Pick<Step, 'day' | 'c'>): string {
  const text = dayText((dayOf(2020, 1, 1) + s.day) as Day);
  switch (s.c % 7) {
    case 0:
      return text.slice(0, 4);
    case 1:
      return text.slice(0, 7);
    case 2:
      return `${text}T${String(s.day % 24).padStart(2, '0')}:10`;
    default:
      return text;
  }
}

function idsOf(db: Db, kind: string): string[] {
  return all<{ id: string }>(db, 'SELECT id FROM things WHERE kind = ? ORDER BY id', kind).map(t => t.id);
}

function cylindersOf(db: Db): string[] {
  return all<{ id: string }>(
    db,
    "SELECT t.id FROM items i JOIN things t ON t.key = i.key WHERE i.family = 'cylinder' ORDER BY t.id",
  ).map(t => t.id);
}

function at<T>(list: readonly T[], n: number): T | undefined {
  return list[n % list.length];
}
