/** Kits: a bag or set that moves whole, sealed with a numbered tag. What is in one is its template's to say. */
import { duty, every, MADE_AND_IN_SERVICE, NO_FAULT_FOUND, practice, repair } from './duty.ts';
import type { Family } from './types.ts';

/** The family whose things are places as well: what is in a kit lies in it. */
export const KIT_FAMILY = 'kit';
/** The activity that a full count is recorded as; it is entered with its counts and the new seal. */
export const FULL_COUNT = 'full count';
/** The earliest date of what lies in a kit, written when it is sealed. */
export const CONTENTS_EXPIRE = 'contentsExpire';

export const kit: Family = {
  id: KIT_FAMILY,
  title: 'Kit',
  plural: 'Kits',
  attributes: [
    { key: 'kind', title: 'Kind', type: 'text', note: 'As its template is called.' },
    {
      key: CONTENTS_EXPIRE,
      title: 'Earliest expiry inside',
      type: 'when',
      note: 'Written when it is counted and sealed.',
    },
    ...MADE_AND_IN_SERVICE,
  ],
  activities: [
    { id: FULL_COUNT, title: 'Full count', readings: [] },
    { id: 'inspection', title: 'Inspection', readings: [] },
  ],
  repairs: [repair('bag mended', 'Bag or pouch mended or replaced', ['inspection']), NO_FAULT_FOUND],
  triggers: [],
  requirements: [
    duty({
      id: 'kit.full-count',
      title: 'Full count',
      activity: FULL_COUNT,
      clock: every({ months: 1 }),
      sources: [
        practice('Opened and counted in full monthly, or when its seal differs: common practice, no source.'),
      ],
      late: 'notes',
      who: 'The crew that carries it; two where what is in it asks for it.',
    }),
    duty({
      id: 'kit.contents',
      title: 'Contents in date',
      activity: 'replacement',
      clock: { kind: 'printed date', attribute: CONTENTS_EXPIRE },
      sources: [practice('A kit expires with the earliest of what is in it: common practice, no source.')],
      // What is critical in it and has expired keeps the kit from serving, whatever this says.
      late: 'notes',
      who: 'The crew that carries it.',
    }),
  ],
};
