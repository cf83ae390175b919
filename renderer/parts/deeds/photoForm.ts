/** The form that puts photos to a thing, a rig or a defect afterwards. */
import { body, type DeedForm, dateOf, PHOTOS_FIELD, photosFilled } from './deedForm.ts';

/** @param name what it is called: a number, a rig's name, what a line is of */
export function photoForm(of: string, name: string): DeedForm {
  return {
    title: `Photos of ${name}`,
    verb: 'Add',
    initial: { photos: '', note: '', on: '' },
    rows: () => [
      [{ ...PHOTOS_FIELD, required: true }],
      [
        { kind: 'text', key: 'note', title: 'What they show' },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
    ],
    deeds: (filled, today) => [
      {
        action: 'photo.add',
        body: body({ of, photos: photosFilled(filled), note: filled.note, on: dateOf(filled, today) }),
      },
    ],
    done: filled =>
      `${name}: ${photosFilled(filled)?.length === 1 ? 'the photo is' : 'the photos are'} kept.`,
  };
}
