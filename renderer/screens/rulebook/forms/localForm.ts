/** A requirement of the department's own making, or the maker's interval for a make and model. */
import type { MakeLine } from '../../../../db/api-rules.ts';
import type { Family, Requirement } from '../../../../domain/rulebook/types.ts';
import { midSentence } from '../../../../domain/rulebook/words.ts';
import { body, type DeedForm, type Filled, type FormRow } from '../../../parts/deeds/deedForm.ts';
import type { Entry } from '../entries.ts';
import { DECIDED, decided, LATE_CHOICES, previewed } from './changeForm.ts';
import { whole } from './clockFields.ts';

const ANY = 'any';

export function localForm(
  families: readonly Family[],
  entries: readonly Entry[],
  makes: readonly MakeLine[],
  start: { family?: string | undefined },
): DeedForm {
  const familyOf = (filled: Filled) => families.find(f => f.id === filled.family);
  const made = (filled: Filled): Requirement => requirementOf(filled, familyOf(filled), entries, makes);
  return {
    title: 'A requirement of the department’s own',
    verb: 'Adopt it',
    initial: {
      family: start.family ?? '',
      title: '',
      activity: '',
      every: '12',
      unit: 'months',
      make: ANY,
      late: 'limits',
      from: '',
      reason: '',
      authority: '',
    },
    says: () => [
      'It is judged by beside what the book has. Of two of one duty the stricter is listed, and both are shown where somebody asks why.',
    ],
    rows: filled => rowsOf(families, familyOf(filled), makes),
    previews: (filled, today) =>
      filled.family && filled.activity && filled.title
        ? { adopt: [made(filled)], ...previewed(filled, today) }
        : null,
    deeds: (filled, today) => [
      { action: 'rulebook.adopt', body: body({ requirements: [made(filled)], ...decided(filled, today) }) },
    ],
    done: filled => `Adopted, ${midSentence(filled.title ?? '')}.`,
  };
}

function rowsOf(
  families: readonly Family[],
  family: Family | undefined,
  makes: readonly MakeLine[],
): FormRow[] {
  const ofFamily = makes.filter(m => m.family === family?.id);
  return [
    [
      {
        kind: 'pick',
        key: 'family',
        title: 'Family',
        required: true,
        choices: families.map(f => ({ value: f.id, title: f.plural })),
      },
      { kind: 'text', key: 'title', title: 'Title', required: true },
    ],
    [
      {
        kind: 'pick',
        key: 'activity',
        title: 'What is done',
        required: true,
        choices: (family?.activities ?? []).map(a => ({ value: a.id, title: a.title })),
      },
    ],
    [
      { kind: 'text', key: 'every', title: 'Every', required: true },
      {
        kind: 'one of',
        key: 'unit',
        title: 'Of',
        choices: [
          { value: 'months', title: 'months' },
          { value: 'days', title: 'days' },
        ],
      },
    ],
    ...(ofFamily.length > 0
      ? [
          [
            {
              kind: 'pick' as const,
              key: 'make',
              title: 'For',
              note: 'A make and model: its maker’s interval.',
              choices: [
                { value: ANY, title: 'All of the family' },
                ...ofFamily.map((m, i) => ({
                  value: String(i),
                  title: [m.maker, m.model].filter(Boolean).join(' '),
                  detail: `${m.things}`,
                })),
              ],
            },
          ],
        ]
      : []),
    [{ kind: 'one of', key: 'late', title: 'Being late', choices: LATE_CHOICES }],
    [
      {
        kind: 'text',
        key: 'document',
        title: 'Where it is written',
        note: 'The order or the manual, with its edition.',
      },
      { kind: 'text', key: 'who', title: 'Who may do it' },
    ],
    ...DECIDED,
  ];
}

function requirementOf(
  filled: Filled,
  family: Family | undefined,
  entries: readonly Entry[],
  makes: readonly MakeLine[],
): Requirement {
  const make =
    filled.make === ANY ? undefined : makes.filter(m => m.family === family?.id)[Number(filled.make)];
  const activity = filled.activity ?? '';
  const every = { [filled.unit || 'months']: whole(filled.every) };
  const beside = entries.find(
    e =>
      e.adopted &&
      e.requirement.family === family?.id &&
      e.requirement.activity === activity &&
      e.requirement.clock.kind === 'since last',
  )?.requirement;
  return {
    id: untaken(`local.${slug(`${family?.id ?? ''} ${filled.title ?? ''}`)}`, entries),
    family: family?.id ?? '',
    title: filled.title ?? '',
    activity,
    // The maker's interval is asked of what the rule beside it is asked of, and of that make and model alone.
    appliesTo: [
      ...(beside?.appliesTo ?? []),
      ...(!make || make.maker === null ? [] : [{ attribute: 'maker', matches: [make.maker] }]),
      ...(!make || make.model === null ? [] : [{ attribute: 'model', matches: [make.model] }]),
    ],
    clock: { kind: 'since last', every, first: { counts: 'in service', plus: every } },
    dueAt: 'day',
    warnDays: beside?.warnDays ?? 30,
    satisfiedBy: [activity],
    countedOutcomes: ['pass'],
    sources: [
      {
        document: filled.document || 'The department',
        section: '',
        edition: '',
        confidence: 'read',
        note: filled.reason || 'Local requirement.',
      },
    ],
    force: make ? 'manufacturer' : 'practice',
    binds: make ? 'Things of this make and model.' : 'This department.',
    late: filled.late ?? 'limits',
    who: filled.who || 'As the department says.',
    cautions: beside?.cautions ?? [],
    ...(beside ? { besides: beside.id } : {}),
    ...(beside?.inStorage ? { inStorage: beside.inStorage } : {}),
  } as unknown as Requirement;
}

/** An id that no requirement of the book has: what is adopted under a known one replaces it. */
function untaken(id: string, entries: readonly Entry[]): string {
  const taken = new Set(entries.map(e => e.requirement.id));
  let free = id;
  for (let n = 2; taken.has(free); n++) free = `${id}-${n}`;
  return free;
}

const slug = (words: string): string =>
  words
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
