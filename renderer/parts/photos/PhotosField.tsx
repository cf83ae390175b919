/** Photos of a deed: chosen by key, dropped or pasted; each shown small with the name of its file. */
import { useEffect, useId, useRef, useState } from 'react';
import { PHOTOS_LIMIT } from '../../../domain/photos.ts';
import { Action } from '../Action.tsx';
import { Field, type FieldProblem } from '../form/Field.tsx';
import { type ChosenPhoto, chosenPhoto, picturesIn, pictureUrl } from './chosen.ts';
import styles from './photos.module.css';

interface PhotosFieldProps {
  label: string;
  photos: readonly ChosenPhoto[];
  onChange: (photos: readonly ChosenPhoto[]) => void;
  problem?: FieldProblem | undefined;
  note?: string | undefined;
  first?: boolean;
}

export function PhotosField({ label, photos, onChange, problem, note, first }: PhotosFieldProps) {
  const id = useId();
  const file = useRef<HTMLInputElement>(null);
  const choose = useRef<HTMLButtonElement>(null);
  const [reading, setReading] = useState(0);
  const [wrong, setWrong] = useState<FieldProblem | null>(null);
  const now = useRef(photos);
  now.current = photos;

  const add = async (files: readonly File[]) => {
    if (files.length === 0) return;
    setWrong(null);
    setReading(n => n + files.length);
    for (const one of files) {
      try {
        const chosen = await chosenPhoto(one);
        const isThere = now.current.some(p => p.photo.sha256 === chosen.photo.sha256);
        if (now.current.length >= PHOTOS_LIMIT) setWrong(TOO_MANY);
        else if (!isThere) {
          now.current = [...now.current, chosen];
          onChange(now.current);
        }
      } catch (error) {
        setWrong({
          message: error instanceof Error ? error.message : String(error),
          todo: 'Choose a JPEG, PNG or WebP picture.',
        });
      }
      setReading(n => n - 1);
    }
  };
  const remove = (photo: ChosenPhoto) => {
    onChange(photos.filter(p => p !== photo));
    choose.current?.focus();
  };

  // Anywhere while the form is open: a picture that misses the field must not be opened in place of the page.
  const latest = useRef(add);
  latest.current = add;
  useEffect(() => {
    const over = (event: DragEvent) => event.preventDefault();
    const drop = (event: DragEvent) => {
      event.preventDefault();
      void latest.current(picturesIn(event.dataTransfer));
    };
    const paste = (event: ClipboardEvent) => {
      const pictures = picturesIn(event.clipboardData);
      if (pictures.length === 0) return;
      event.preventDefault();
      void latest.current(pictures);
    };
    document.addEventListener('dragover', over);
    document.addEventListener('drop', drop);
    document.addEventListener('paste', paste);
    return () => {
      document.removeEventListener('dragover', over);
      document.removeEventListener('drop', drop);
      document.removeEventListener('paste', paste);
    };
  }, []);

  return (
    <Field
      id={id}
      label={label}
      note={note ?? 'Or drop or paste a picture here. It is made smaller; where it was taken is not kept.'}
      problem={problem ?? wrong ?? undefined}
    >
      {described => (
        <div className={styles.field}>
          <input
            ref={file}
            className={styles.file}
            type="file"
            accept="image/jpeg,image/png,image/webp,image/*"
            multiple
            tabIndex={-1}
            aria-hidden
            onChange={event => {
              void add([...(event.currentTarget.files ?? [])]);
              event.currentTarget.value = '';
            }}
          />
          {photos.length > 0 ? (
            <ul className={styles.chosen}>
              {photos.map(p => (
                <li key={p.photo.sha256}>
                  <img src={pictureUrl(p.attachment)} alt="" />
                  <span className={styles.name}>{p.name}</span>
                  <Action weight="quiet" aria-label={`Remove ${p.name}`} onClick={() => remove(p)}>
                    Remove
                  </Action>
                </li>
              ))}
            </ul>
          ) : null}
          <button
            {...described}
            ref={choose}
            id={id}
            type="button"
            className={styles.choose}
            data-autofocus={first || undefined}
            onClick={() => file.current?.click()}
          >
            {reading > 0 ? 'Reading…' : photos.length === 0 ? 'Choose photos…' : 'Choose more…'}
          </button>
          <span role="status" className={styles.told}>
            {photos.length === 0 ? '' : `${photos.length} chosen`}
          </span>
        </div>
      )}
    </Field>
  );
}

const TOO_MANY: FieldProblem = {
  message: `A deed brings ${PHOTOS_LIMIT} photos at most.`,
  todo: 'Add the others afterwards.',
};
