/** The form of a deed that is one action whose body is its fields. */
import {
  body,
  type DeedForm,
  dateOf,
  type Filled,
  type FormField,
  photosFilled,
  type ThingRef,
} from './deedForm.ts';

/** @param done what the toast says after the thing's number */
export function plainForm(
  action: string,
  words: { title: string; verb: string; done: string },
  fields: readonly (readonly FormField[])[],
  initial: Filled = {},
): (thing: ThingRef) => DeedForm {
  return thing => ({
    title: `${words.title}: ${thing.number}`,
    verb: words.verb,
    initial: { on: '', ...initial },
    rows: () => fields,
    deeds: (filled, today) => [
      {
        action,
        body: body({
          ...Object.fromEntries(
            fields.flat().map(f => [f.key, f.kind === 'photos' ? photosFilled(filled) : filled[f.key]]),
          ),
          item: thing.item,
          on: dateOf(filled, today),
        }),
      },
    ],
    done: () => `${thing.number} ${words.done}`,
  });
}
