/**
 * May this cylinder be filled, here and now? Everything that speaks against it is told before; a fill that was done
 * all the same is recorded with the same words. Nothing here refuses.
 */
import { type CylinderDates, judgeFill } from '../acceptance/cylinder.ts';
import { cylinderDates, cylinderPolicies } from '../acceptance/cylinder-dates.ts';
import type { Day } from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import type { When } from '../calendar/when.ts';
import type { Derived } from '../derive/thing.ts';
import type { Condition } from '../facts.ts';
import type { Book } from '../rulebook/book.ts';
import { CONDEMNATION } from '../rulebook/cylinder.ts';
import { cfr, everywhere } from '../rulebook/cylinder-table.ts';
import { type Profile, profileOn } from '../rulebook/force.ts';
import { withArticle } from '../rulebook/words.ts';
import { type AgainstFill, byClause, byGravity, byPractice } from './fill-against.ts';
import { markAgainst } from './fill-mark.ts';
import { pressureAgainst } from './fill-pressure.ts';

/** What is known of a fill that is about to be done, or was. */
export interface Filling {
  on: Day;
  /** What it is filled to; null while nobody has said. */
  to_psi: number | null;
  /** The hydro date that was read on the bottle; null where none was. */
  hydroDate: When | null;
  /** Whether what fills it is a breathing-air compressor or its bank, so that only air comes out of it. */
  isAir: boolean;
}

/**
 * What speaks against filling one of the department's own cylinders, the gravest first.
 * @param derived the cylinder as it was when it was filled
 * @source 49 CFR 180.205(c) and (d), 180.203, 173.302a; 29 CFR 1910.134(h)(3)(iii). Conditions: the department's own
 *   word, common practice.
 */
export function againstFilling(derived: Derived, book: Book, filling: Filling): AgainstFill[] {
  const { on } = filling;
  const profile = profileOn(book.profiles, on);
  const dates = cylinderDates(derived, book, on);
  const mark = markAgainst(derived, dates, filling, profile);
  return [
    ...datesAgainst(derived, dates, book, on, profile, mark.newer),
    ...mark.against,
    ...conditionAgainst(derived),
    ...pressureAgainst(derived.attributes.servicePressure_psi, filling.to_psi, profile),
    ...gasAgainst(derived, filling),
  ].sort(byGravity);
}

/** What its dates and its tests say: the cases of `judgeFill`, each by its own clause. */
function datesAgainst(
  derived: Derived,
  dates: CylinderDates,
  book: Book,
  on: Day,
  profile: Profile,
  hasNewerMark: boolean,
): AgainstFill[] {
  const law = (section: string) =>
    [cfr(section), { force: 'law', bindings: everywhere(section) }, profile] as const;
  const { law: byLaw, policy } = judgeFill(dates, on, cylinderPolicies(book, on));
  const against: AgainstFill[] = [];
  for (const owed of derived.owed) {
    const since = showWhen(owed.since);
    if (owed.activity === CONDEMNATION)
      against.push(
        byClause(
          {
            what: 'condemned',
            says: 'It is condemned and not tested: over-heated aluminum.',
            effect: 'do not fill',
            pulls: true,
          },
          ...law('180.205(i)(1)(viii)'),
        ),
      );
    else if (owed.activity === 'requalification' || owed.activity === 'crack examination')
      against.push(
        byClause(
          {
            what: 'examination owed',
            says: `It owes ${withArticle(owed.activity)} since ${since}, ${owed.because === 'failed' ? 'which it failed' : owed.because}: it is not filled before that is passed.`,
            effect: 'do not fill',
            pulls: true,
          },
          ...law('180.205(d)'),
        ),
      );
    else
      against.push(
        byPractice({
          what: 'test owed',
          says: `It owes ${withArticle(owed.activity)} since ${since} before it may be returned: ${owed.because}.`,
          effect: 'do not fill',
          pulls: true,
        }),
      );
  }
  if (dates.lifeEnds !== null && on > dates.lifeEnds)
    against.push(
      byClause(
        {
          what: 'life ended',
          says: `Its life ended ${showDay(dates.lifeEnds)}: it is never filled again, whatever its test mark.`,
          effect: 'do not fill',
          pulls: true,
        },
        ...law('180.205(c)'),
      ),
    );
  if (dates.requalifyBy !== null && on > dates.requalifyBy)
    // The mark on the bottle governs; a newer one was read, so the file is what is behind.
    against.push(
      byClause(
        {
          what: 'examination overdue',
          says: hasNewerMark
            ? `On file its ${dates.examination} was due by ${showDay(dates.requalifyBy)}; a newer mark was read on it. Record that test.`
            : `Its ${dates.examination} was due by ${showDay(dates.requalifyBy)}: it is not filled, nor topped off, until that is done.`,
          effect: hasNewerMark ? 'not judged' : 'do not fill',
          pulls: !hasNewerMark,
        },
        ...law('180.205(c)'),
      ),
    );
  if (byLaw.allowed === null)
    against.push(
      byPractice({
        what: 'not confirmed',
        says: 'What it is judged by is not confirmed or not on file: its permit, its manufacture month or its last test. Read the label.',
        effect: 'not judged',
        pulls: false,
      }),
    );
  // By the department's own choice; what is owed is told above.
  if (byLaw.allowed === true && policy.allowed === false && dates.owed.length === 0)
    against.push(
      byPractice({ what: 'due month', says: policy.because, effect: 'do not fill', pulls: false }),
    );
  return against;
}

/** Conditions in which nothing is filled. A thing that owes a test is told by what it owes. */
const NOT_FILLED: Partial<Record<Condition, string>> = {
  'held for investigation': 'nothing is done to it, no cleaning, filling or test, until it is released',
  'tagged out': 'it is not filled until it is returned to service',
  'at repair': 'it is not filled until it is back and returned to service',
  missing: 'if this is it, it is found; nobody knows what it went through',
  retired: 'it is not filled again',
  disposed: 'it is not filled again',
  'on order': 'receive it first',
};

/** Already out, and so not pulled again: a hold stays a hold. A bottle that was missing has turned up, and is pulled. */
function conditionAgainst({ conditions }: Derived): AgainstFill[] {
  const last = conditions.at(-1);
  const why = last && NOT_FILLED[last.value.condition];
  if (!last) return [];
  const { condition, reason } = last.value;
  const said = `It is ${condition} since ${showWhen(last.from)}${reason ? ` (${reason.replace(/\.$/, '')})` : ''}`;
  if (why)
    return [
      byPractice({
        what: 'condition',
        says: `${said}: ${why}.`,
        effect: 'do not fill',
        pulls: condition === 'missing',
      }),
    ];
  return condition === 'limited use'
    ? [byPractice({ what: 'condition', says: `${said}.`, effect: 'note', pulls: false })]
    : [];
}

/** Conditions that a fill does not change: the thing is out already, or gone. */
export const STAYS: ReadonlySet<Condition> = new Set([
  'held for investigation',
  'tagged out',
  'at repair',
  'retired',
  'disposed',
]);

function gasAgainst({ attributes }: Derived, { isAir }: Filling): AgainstFill[] {
  const { gas } = attributes;
  if (!isAir || typeof gas !== 'string' || /\bair\b/i.test(gas)) return [];
  return [
    byPractice({
      what: 'gas',
      says: `Its gas on file is ${gas}: breathing air is not filled into it.`,
      effect: 'do not fill',
      pulls: true,
    }),
  ];
}
