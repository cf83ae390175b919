/** When a unit's rig is gone through: the form of a schedule, new or changed. */
import type { Schedule, Weekday } from '../../../domain/checkoffs/schedule.ts';
import { POSITIONS } from '../../../domain/people/entitlements.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';

const DAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;
const ANYONE = 'whoever is there';

/** In words: `every Saturday by 12:00`. */
export function scheduleWords({ every, dueBy }: Pick<Schedule, 'every' | 'dueBy'>): string {
  const by = `by ${dueBy}`;
  switch (every.kind) {
    case 'daily':
      return `every day ${by}`;
    case 'each shift':
      return `each shift of ${every.hours} hours from ${every.from}, ${by}`;
    case 'weekly':
      return `every ${DAYS[every.weekday]} ${by}`;
    case 'monthly':
      return 'day' in every
        ? `on day ${every.day} of the month ${by}`
        : `on the ${every.nth === 'last' ? 'last' : ['first', 'second', 'third', 'fourth'][every.nth - 1]} ${DAYS[every.weekday]} of the month ${by}`;
  }
}

const rows = (filled: Filled): readonly (readonly FormField[])[] => [
  [{ kind: 'text', key: 'title', title: 'What it is called', required: true }],
  [
    {
      kind: 'one of',
      key: 'every',
      title: 'How often',
      choices: [
        { value: 'each shift', title: 'Each shift' },
        { value: 'daily', title: 'Daily' },
        { value: 'weekly', title: 'Weekly' },
        { value: 'monthly', title: 'Monthly' },
      ],
    },
  ],
  ...(filled.every === 'weekly'
    ? [
        [
          {
            kind: 'pick',
            key: 'weekday',
            title: 'On',
            choices: DAYS.map((d, i) => ({ value: String(i), title: d })),
          } as const,
        ],
      ]
    : []),
  ...(filled.every === 'monthly'
    ? [[{ kind: 'text', key: 'day', title: 'On day', note: '1 to 31; the last of a shorter month' } as const]]
    : []),
  ...(filled.every === 'each shift'
    ? [
        [
          { kind: 'text', key: 'hours', title: 'Hours of a shift' } as const,
          { kind: 'text', key: 'from', title: 'The first begins at' } as const,
        ],
      ]
    : []),
  [
    { kind: 'text', key: 'dueBy', title: 'Done by', required: true, note: 'A time of its day: 12:00' },
    { kind: 'text', key: 'graceHours', title: 'Hours of grace' },
  ],
  [
    {
      kind: 'pick',
      key: 'by',
      title: 'Who does it',
      choices: [ANYONE, ...Object.keys(POSITIONS)].map(p => ({ value: p, title: p })),
    },
    {
      kind: 'text',
      key: 'places',
      title: 'Which places',
      note: 'Their names, commas between; empty: the whole rig',
    },
  ],
  [
    {
      kind: 'tick',
      key: 'operated',
      title: 'Only what is operated or read',
      note: 'The daily check of saws, lights, packs; the inventory counts the rest.',
    },
  ],
  [
    { kind: 'date', key: 'on', title: 'From' },
    { kind: 'text', key: 'until', title: 'Last day', note: 'Empty: it goes on' },
  ],
];

export function scheduleForm(holder: { of: string; name: string }, known: Schedule | null): DeedForm {
  return {
    title: known ? `${known.title} of ${holder.name}` : `When is ${holder.name} gone through?`,
    verb: known ? 'Change it' : 'Put it down',
    initial: known
      ? filledOf(known)
      : { every: 'weekly', weekday: '6', dueBy: '12:00', graceHours: '6', by: ANYONE, on: '' },
    rows,
    deeds: (filled, today) => [
      {
        action: 'checkoff.schedule',
        body: {
          ...body({
            of: holder.of,
            schedule: known?.schedule,
            title: filled.title,
            dueBy: filled.dueBy,
            until: filled.until,
            on: dateOf(filled, today),
          }),
          every: rhythmOf(filled),
          graceHours: Number(filled.graceHours || '0'),
          by: filled.by === ANYONE || !filled.by ? null : filled.by,
          places: placesIn(filled.places ?? ''),
          scope: filled.operated === 'yes' ? 'operated only' : 'whole',
        },
      },
    ],
    done: filled => `${filled.title}: kept.`,
  };
}

function rhythmOf(filled: Filled): Record<string, unknown> {
  switch (filled.every) {
    case 'weekly':
      return { kind: 'weekly', weekday: Number(filled.weekday) };
    case 'monthly':
      return { kind: 'monthly', day: Number(filled.day) };
    case 'each shift':
      return { kind: 'each shift', hours: Number(filled.hours), from: filled.from };
    default:
      return { kind: 'daily' };
  }
}

const placesIn = (typed: string): string[] | null => {
  const places = typed
    .split(',')
    .map(p => p.trim())
    .filter(p => p !== '');
  return places.length > 0 ? places : null;
};

function filledOf({ every, ...s }: Schedule): Filled {
  return {
    title: s.title,
    every: every.kind,
    weekday: 'weekday' in every ? String(every.weekday satisfies Weekday) : '6',
    day: 'day' in every ? String(every.day) : '1',
    hours: every.kind === 'each shift' ? String(every.hours) : '24',
    from: every.kind === 'each shift' ? every.from : '07:00',
    dueBy: s.dueBy,
    graceHours: String(s.graceHours),
    by: s.by ?? ANYONE,
    places: (s.places ?? []).join(', '),
    operated: s.scope === 'operated only' ? 'yes' : '',
    on: '',
    until: '',
  };
}
