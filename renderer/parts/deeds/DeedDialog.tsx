/** A form for deeds in a dialog: filled in, signed, sent; what the store refuses stands beside its field. */
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { ActAnswer, Problem } from '../../../db/api.ts';
import { PIN_GUARD } from '../../../domain/people/pins.ts';
import { useAct } from '../../api/act.ts';
import { problemsOf } from '../../api/problem.ts';
import { Action } from '../Action.tsx';
import { useActing } from '../acting/acting.tsx';
import { MemberPicker } from '../acting/MemberPicker.tsx';
import { Dialog } from '../Dialog.tsx';
import { DateField, LongField, OneOf, TextField, Tick } from '../form/fields.tsx';
import formStyles from '../form/form.module.css';
import { PlaceField } from '../form/PlaceField.tsx';
import type { ChosenPhoto } from '../photos/chosen.ts';
import { PhotosField } from '../photos/PhotosField.tsx';
import { Picker } from '../picker/Picker.tsx';
import { toast } from '../toast.ts';
import { Caution } from '../words/Caution.tsx';
import { Notice } from '../words/NotReady.tsx';
import type { DeedForm, Filled, FormField } from './deedForm.ts';
import { problemsByField } from './problemsByField.ts';
import { RulePreview } from './RulePreview.tsx';

interface DeedDialogProps {
  form: DeedForm;
  today: string;
  onClose: () => void;
  onDone?: ((answer: ActAnswer) => void) | undefined;
}

export function DeedDialog({ form, today, onClose, onDone }: DeedDialogProps) {
  const act = useAct();
  const { member } = useActing();
  const [filled, setFilled] = useState<Filled>(form.initial);
  const [photos, setPhotos] = useState<readonly ChosenPhoto[]>([]);
  const [pin, setPin] = useState('');
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [refusals, setRefusals] = useState(0);
  const [sending, setSending] = useState(false);
  const body = useRef<HTMLFormElement>(null);
  const rows = form.rows(filled).filter(row => row.length > 0);
  const fields = rows.flat();
  // Where the focus starts: on what has to be filled in and is not, else on who signs if nobody does yet.
  const [firstKey] = useState(
    () => fields.find(f => f.required && !filled[f.key])?.key ?? (member === null ? 'by' : fields[0]?.key),
  );
  const { beside, rest } = problemsByField(problems, [...fields.map(f => f.key), 'by', 'pin']);
  const cautions = form.cautions?.(filled) ?? null;
  const previews = form.previews?.(filled, today) ?? null;
  /** What was said of a field is gone once it is changed. */
  const mended = (key: string) => setProblems(before => before.filter(p => p.field !== key));

  // Whoever signs now was chosen after it was said that nobody, or another, had.
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another signs, and at no other time.
  useEffect(() => mended('by'), [member?.id]);
  // What was refused is where the focus goes.
  // biome-ignore lint/correctness/useExhaustiveDependencies: after each refusal, and not while it is mended.
  useEffect(() => body.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus(), [refusals]);
  const refuse = (told: readonly Problem[]) => {
    setProblems(told);
    setRefusals(n => n + 1);
  };

  async function send(event: FormEvent) {
    event.preventDefault();
    if (sending) return;
    if (!member) {
      refuse([NOBODY]);
      return;
    }
    const missing = fields.filter(f => f.required && !filled[f.key]?.trim());
    if (missing.length > 0) {
      refuse(missing.map(emptyField));
      return;
    }
    const wrong = form.check?.(filled) ?? [];
    if (wrong.length > 0) {
      refuse(wrong);
      return;
    }
    setSending(true);
    const answer = await act({
      by: member.id,
      ...(member.hasPin ? { pin } : {}),
      deeds: form.deeds(filled, today),
      ...(photos.length > 0 ? { attachments: photos.map(p => p.attachment) } : {}),
    });
    setSending(false);
    if (!answer.ok) {
      refuse(problemsOf(answer));
      return;
    }
    const said = form.done(filled);
    if (said !== '') toast(said);
    onClose();
    onDone?.(answer.value);
  }

  return (
    <Dialog title={form.title} onClose={onClose} wide={cautions !== null || form.previews !== undefined}>
      <div className={cautions ? formStyles.withCaution : form.previews ? formStyles.withPreview : undefined}>
        {cautions ? <Caution cautions={cautions.cautions} who={cautions.who} /> : null}
        <form ref={body} className={formStyles.form} onSubmit={send} noValidate>
          {rest.map(p => (
            <Notice key={p.message} problem={p} />
          ))}
          {form.says?.(filled, today).map(said => (
            <p key={said} className={formStyles.said}>
              {said}
            </p>
          ))}
          {rows.map(row => (
            <div key={row.map(f => f.key).join(' ')} className={formStyles.row}>
              {row.map(field =>
                field.kind === 'photos' ? (
                  <PhotosField
                    key={field.key}
                    label={field.title}
                    note={field.note}
                    photos={photos}
                    onChange={chosen => {
                      setPhotos(chosen);
                      setFilled(before => ({
                        ...before,
                        [field.key]: chosen.map((_, i) => `#${i}`).join(' '),
                      }));
                      mended(field.key);
                    }}
                    problem={beside.get(field.key)}
                    first={field.key === firstKey}
                  />
                ) : (
                  <FormControl
                    key={field.key}
                    field={field}
                    value={filled[field.key] ?? ''}
                    onChange={value => {
                      setFilled(before => ({ ...before, [field.key]: value }));
                      mended(field.key);
                    }}
                    problem={beside.get(field.key)}
                    first={field.key === firstKey}
                    today={today}
                  />
                ),
              )}
            </div>
          ))}
          <div className={formStyles.signature}>
            <MemberPicker label="Signed by" problem={beside.get('by')} first={firstKey === 'by'} />
            {member?.hasPin ? (
              <TextField
                label="PIN"
                value={pin}
                onChange={setPin}
                secret
                problem={beside.get('pin')}
                note={PIN_GUARD}
              />
            ) : null}
          </div>
          <div className={formStyles.foot}>
            <Action weight="quiet" hint="Escape" onClick={onClose}>
              Cancel
            </Action>
            <Action weight="main" hint="Enter" type="submit" disabled={sending}>
              {sending ? 'Writing…' : form.verb}
            </Action>
          </div>
        </form>
        {previews ? <RulePreview asked={previews} /> : null}
      </div>
    </Dialog>
  );
}

interface FormControlProps {
  field: Exclude<FormField, { kind: 'photos' }>;
  value: string;
  onChange: (value: string) => void;
  problem: Problem | undefined;
  first: boolean;
  today: string;
}

function FormControl({ field, value, onChange, problem, first, today }: FormControlProps) {
  const common = {
    label: field.title,
    value,
    onChange,
    problem,
    first,
    required: field.required,
    note: field.note,
  };
  switch (field.kind) {
    case 'text':
      return <TextField {...common} unit={field.unit} secret={field.secret ?? false} />;
    case 'long':
      return <LongField {...common} />;
    case 'date':
      return <DateField {...common} today={today} />;
    case 'one of':
      return <OneOf {...common} choices={field.choices} />;
    case 'place':
      return (
        <PlaceField
          {...common}
          chosen={field.named === undefined ? undefined : { place: value, name: field.named }}
        />
      );
    case 'tick':
      return (
        <Tick
          label={field.title}
          checked={value === 'yes'}
          onChange={on => onChange(on ? 'yes' : '')}
          note={field.note}
        />
      );
    case 'pick': {
      const options = field.choices.map(c => ({
        value: c.value,
        label: c.title,
        ...(c.detail ? { detail: c.detail } : {}),
      }));
      return (
        <Picker
          {...common}
          options={options}
          value={options.find(o => o.value === value) ?? null}
          onPick={option => onChange(option.value)}
          required={field.required ?? false}
        />
      );
    }
  }
}

const NOBODY: Problem = {
  code: 'nobody acts',
  message: 'Nobody has signed.',
  todo: 'Choose your name.',
  field: 'by',
};

const emptyField = (field: FormField): Problem => ({
  code: 'empty',
  ...(field.kind === 'photos'
    ? { message: 'No photo is chosen.', todo: 'Choose one.' }
    : { message: `${field.title} is empty.`, todo: 'Fill it in.' }),
  field: field.key,
});
