/** The form that records an inspection, test or service. */
import {
  attributeField,
  body,
  type DeedForm,
  dateOf,
  type Filled,
  PHOTOS_FIELD,
  photosFilled,
  type ThingRef,
  type Vocabulary,
  valuesOf,
} from './deedForm.ts';

const OUTCOMES = [
  { value: 'pass', title: 'Pass' },
  { value: 'fail', title: 'Fail' },
  { value: 'not completed', title: 'Not completed' },
];

/**
 * @param activity the one that is owed, where the form is opened on a duty; else the family's first is offered
 */
export function recordForm(thing: ThingRef, vocabulary: Vocabulary, activity?: string): DeedForm {
  const family = vocabulary.families.find(f => f.id === thing.family);
  const activities = family?.activities ?? [];
  const chosen = (filled: Filled) => activities.find(a => a.id === filled.activity);
  const first = activities.find(a => a.id === activity) ?? activities[0];
  return {
    title: `Record on ${thing.number}`,
    verb: 'Record',
    initial: { activity: first?.id ?? '', outcome: 'pass', on: '', tagOut: 'yes' },
    rows(filled) {
      const readings = chosen(filled)?.readings ?? [];
      return [
        [
          {
            kind: 'one of',
            key: 'activity',
            title: 'What was done',
            choices: activities.map(a => ({ value: a.id, title: a.title })),
          },
        ],
        [
          { kind: 'one of', key: 'outcome', title: 'Outcome', choices: OUTCOMES },
          { kind: 'date', key: 'on', title: 'Date it was done' },
        ],
        readings.map(r => attributeField(r, 'readings')),
        chosen(filled)?.outside
          ? [
              {
                kind: 'pick',
                key: 'agency',
                title: 'Agency that did it',
                required: true,
                note: 'Only a holder of a current requalifier number (RIN) may do this.',
                choices: vocabulary.summary.agencies.map(a => ({
                  value: a.id,
                  title: a.name,
                  ...(a.rin ? { detail: `RIN ${a.rin}` } : {}),
                })),
              },
            ]
          : [],
        [{ kind: 'text', key: 'note', title: 'Note' }],
        [PHOTOS_FIELD],
        filled.outcome === 'fail'
          ? [
              {
                kind: 'tick',
                key: 'tagOut',
                title: 'Tag it out as well',
                note: 'A failure owes a retest; the tag keeps it off the rig until then.',
              },
            ]
          : [],
      ];
    },
    says: (filled, today) =>
      qualificationAsked(thing.family, filled.activity ?? '', vocabulary, dateOf(filled, today)),
    cautions: filled => cautionsFor(thing.family, filled.activity ?? '', vocabulary),
    deeds(filled, today) {
      const done = chosen(filled);
      const on = dateOf(filled, today);
      const readings = valuesOf(done?.readings ?? [], filled, 'readings', today);
      const record = {
        action: 'record.add',
        body: body({
          item: thing.item,
          activity: filled.activity,
          on,
          outcome: filled.outcome,
          readings: Object.keys(readings).length > 0 ? readings : undefined,
          agency: done?.outside ? filled.agency : undefined,
          note: filled.note,
          photos: photosFilled(filled),
        }),
      };
      if (filled.outcome !== 'fail' || filled.tagOut !== 'yes') return [record];
      const reason = `Failed ${(done?.title ?? 'test').toLowerCase()}`;
      const photos = photosFilled(filled);
      return [record, { action: 'item.tagOut', body: body({ item: thing.item, reason, photos, on }) }];
    },
    done: filled =>
      `${thing.number}: ${chosen(filled)?.title ?? filled.activity}, ${outcomeWord(filled.outcome)}.`,
  };
}

/** What the adopted requirements of an activity ask of whoever does it, and which members hold it on the day. */
export function qualificationAsked(
  family: string,
  activity: string,
  { rules, members }: Pick<Vocabulary, 'rules' | 'members'>,
  on: string,
): string[] {
  const asked = new Set(
    rules.flatMap(({ requirement: r }) =>
      r.family === family && r.activity === activity && r.asks !== undefined ? [r.asks] : [],
    ),
  );
  return [...asked].map(title => {
    const all = members.filter(m => m.qualifications.some(q => isSameWords(q.title, title)));
    const held = all.filter(m =>
      m.qualifications.some(q => isSameWords(q.title, title) && (q.expires === null || on <= q.expires)),
    );
    const lapsed = all.filter(m => !held.includes(m)).map(m => `${m.name} (expired)`);
    const names = [...held.map(m => m.name), ...lapsed];
    return names.length === 0
      ? `It asks for: ${title}. No member is on file as one; note who did it.`
      : `It asks for: ${title}. On file: ${names.join(', ')}.`;
  });
}

const isSameWords = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

const outcomeWord = (outcome: string | undefined) =>
  outcome === 'pass' ? 'passed' : outcome === 'fail' ? 'failed' : 'not completed';

/** The cautions of every adopted requirement of the family that owes the activity, each once. */
export function cautionsFor(
  family: string,
  activity: string,
  { rules, families }: Pick<Vocabulary, 'rules' | 'families'>,
): { cautions: readonly string[]; who: string } | null {
  const adopted = rules.map(r => r.requirement);
  const known = adopted.length > 0 ? adopted : families.flatMap(f => f.requirements);
  const owing = known.filter(r => r.family === family && r.activity === activity && r.cautions.length > 0);
  const first = owing[0];
  return first ? { cautions: [...new Set(owing.flatMap(r => r.cautions))], who: first.who } : null;
}
