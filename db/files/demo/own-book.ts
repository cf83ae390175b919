/**
 * The district's own book: what it tightened, loosened, took from a maker, added, confirmed, ended and moved to a
 * newer edition, each with who decided it, why and from when.
 */
import { addDays, dayText } from '../../../domain/calendar/day.ts';
import { EDITIONS, underEdition } from '../../../domain/rulebook/editions.ts';
import { isConfirmed, isJudgedIn, type Profile } from '../../../domain/rulebook/force.ts';
import { SHIPPED_REQUIREMENTS, shippedRequirement } from '../../../domain/rulebook/index.ts';
import type { Requirement } from '../../../domain/rulebook/types.ts';
import type { World } from './deeds.ts';
import type { Planned } from './diary.ts';
import { CHIEF, memberLabel } from './people.ts';

/** A combination department in a state without a workplace-safety plan for public employers. */
export const PROFILE: Profile = { country: 'US', state: 'CO', kind: 'combination', oshaBinds: null };

/** The maker and the model whose manual asks for more. */
export const MAKER = { maker: 'Maker B', model: 'Glow 2' } as const;
/** Confirmed from the edition in hand; everything else from memory waits. */
export const CONFIRMED = ['turnout.liner-inspection', 'apparatus.weighing'] as const;

interface Decision {
  ago: number;
  requirements: readonly Requirement[];
  reason: string;
  authority: string;
  /** Days after the decision from which it holds; 0: that day. */
  ahead?: number;
}

function shipped(id: string): Requirement {
  const known = shippedRequirement(id);
  if (!known) throw new Error(`The book ships no ${id}.`);
  return known;
}

/** `besides`: the stricter of the two is listed. */
const MAKERS_SERVICE: Requirement = {
  ...shipped('imager.service'),
  id: 'local.glow-2-service',
  title: 'Service by the maker',
  appliesTo: [
    { attribute: 'maker', matches: [MAKER.maker] },
    { attribute: 'model', matches: [MAKER.model] },
  ],
  clock: { kind: 'since last', every: { months: 6 }, first: { counts: 'in service', plus: { months: 6 } } },
  sources: [
    {
      document: 'Maker B, Glow 2 manual',
      section: 'Care',
      edition: 'revision 4',
      confidence: 'read',
    },
  ],
  force: 'manufacturer',
  binds: 'Imagers of this make and model.',
  besides: 'imager.service',
};

const HANDLES: Requirement = {
  ...shipped('hand-tool.inspection'),
  id: 'local.handles-and-heads',
  title: 'Handles and heads',
  appliesTo: [{ attribute: 'kind', in: ['axe', 'sledgehammer', 'maul'] }],
  clock: { kind: 'since last', every: { months: 3 }, first: { counts: 'in service', plus: { months: 3 } } },
  sources: [{ document: 'District order 14', section: '', edition: '2025', confidence: 'read' }],
  force: 'practice',
  binds: 'The district.',
  bindings: [],
  besides: 'hand-tool.inspection',
};

const DECISIONS: readonly Decision[] = [
  {
    ago: 420,
    requirements: CONFIRMED.map(id => ({ ...shipped(id), confirmed: 'the edition in the chief’s office' })),
    reason: 'Looked up and read out at the officers’ meeting.',
    authority: 'Fire chief',
  },
  {
    ago: 400,
    requirements: [
      {
        ...shipped('aed.operational-test'),
        clock: {
          kind: 'since last',
          every: { months: 3 },
          first: { counts: 'in service', plus: { months: 0 } },
        },
      },
    ],
    reason: 'One AED was found with a dead battery at a school.',
    authority: 'Medical director',
  },
  {
    ago: 380,
    requirements: [
      {
        ...shipped('nozzle.line-flow-test'),
        clock: {
          kind: 'since last',
          every: { months: 24 },
          first: { counts: 'in service', plus: { months: 24 } },
        },
      },
    ],
    reason:
      'No site with metered flow until the training ground is rebuilt; every preconnect is flowed on one of two years.',
    authority: 'Fire chief, order 9',
  },
  {
    ago: 360,
    requirements: [{ ...shipped('appliance.service-test'), graceDays: 30 }],
    reason: 'The test day moves with the weather.',
    authority: 'Fire chief, order 10',
  },
  {
    ago: 330,
    requirements: [
      {
        ...shipped('nozzle.service-test'),
        clock: {
          kind: 'fixed month',
          month: 5,
          every_months: 12,
          early_months: 3,
          first: { counts: 'in service', plus: { months: 12 } },
        },
      },
    ],
    reason: 'Nozzles are tested with the hose, each May.',
    authority: 'Fire chief, order 11',
  },
  {
    ago: 300,
    requirements: [HANDLES],
    reason: 'Two heads came loose on one roof.',
    authority: 'Fire chief, order 14',
  },
  {
    ago: 280,
    requirements: [MAKERS_SERVICE],
    reason: 'The manual asks for it.',
    authority: 'Maker B, Glow 2 manual',
  },
  {
    ago: 20,
    ahead: 37,
    requirements: [
      {
        ...shipped('hose.service-test'),
        clock: {
          kind: 'fixed month',
          month: 5,
          every_months: 12,
          early_months: 2,
          atMost: { months: 14 },
          first: { counts: 'later of made and in service', plus: { months: 12 } },
        },
      },
    ],
    reason: 'Tests crept from June into March in nine years; the season is May.',
    authority: 'Fire chief, order 17',
  },
];

const ENDED = 'hose.occupant-service-test';
const EDITION = 'nfpa-1930-2025';

/** The decisions of three years, each on its day. */
export function decide({ diary, on }: World): void {
  const chief = memberLabel(CHIEF);
  for (const { ago, ahead = 0, requirements, reason, authority } of DECISIONS) {
    const day = addDays(on, -ago);
    const from = dayText(addDays(day, ahead));
    diary.at(day, '16:30', chief, [adopt(requirements, from, reason, authority)]);
  }
  const ended = addDays(on, -390);
  diary.at(ended, '16:35', chief, [
    {
      action: 'rulebook.end',
      body: {
        requirement: ENDED,
        from: dayText(ended),
        reason: 'The district keeps no building hose.',
        authority: 'Fire chief',
      },
    },
  ]);
  const renumbered = addDays(on, -150);
  const edition = EDITIONS.find(e => e.id === EDITION);
  const under = ['hose.vacuum-test', 'hose.first-inspection'].flatMap(id =>
    edition ? (underEdition(shipped(id), edition) ?? []) : [],
  );
  if (under.length > 0)
    diary.at(renumbered, '16:40', chief, [
      adopt(under, dayText(renumbered), 'The district took up the merged standard.', 'Fire chief, order 15'),
    ]);
}

function adopt(
  requirements: readonly Requirement[],
  from: string,
  reason: string,
  authority: string,
): Planned {
  return { action: 'rulebook.adopt', body: { requirements, from, reason, authority } };
}

/** What is judged by on the demo's day, by family: what upkeep is done for. */
export function duties(): Map<string, Requirement[]> {
  const now = new Map(SHIPPED_REQUIREMENTS.map(r => [r.id, r]));
  for (const { requirements, ahead = 0 } of DECISIONS)
    if (ahead === 0) for (const r of requirements) now.set(r.id, r);
  now.delete(ENDED);
  const judged = [...now.values()].filter(r => isConfirmed(r) && isJudgedIn(r, PROFILE));
  return Map.groupBy(judged, r => r.family);
}
