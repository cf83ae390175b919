/** Photos put afterwards to a thing, a rig or a defect: of what was found, what was done, how it is marked. */
import { z } from 'zod';
import { photosOf } from '../../domain/photos.ts';
import { id, longWords, notFuture, photos, when } from './fields.ts';
import { deedOnItem } from './items.ts';
import { action } from './types.ts';

export const photoAdd = action({
  name: 'photo.add',
  v: 1,
  title:
    'Put photos to a thing, a rig or a defect; they come with the act as attachments, #0 the first of them',
  schema: z.strictObject({ of: id, photos, note: longWords.optional(), on: when }),
  entitlement: 'record',
  refs: ['of'],
  family: (look, body) => look.item(body.of)?.family ?? null,
  check: (look, body) =>
    look.defect(body.of)
      ? notFuture(look, body.on)
      : deedOnItem(look, body.of, body.on, 'rigs too').map(r =>
          r.field === 'item' ? { ...r, field: 'of' } : r,
        ),
  apply: (_entry, body) => ({
    facts: [
      {
        thing: body.of,
        kind: 'photo',
        effective: body.on,
        values: { photos: photosOf(body), ...(body.note ? { note: body.note } : {}) },
      },
    ],
  }),
  example: { of: '&3', photos: ['#0'], note: 'The cut, 12 ft from the male end' },
});
