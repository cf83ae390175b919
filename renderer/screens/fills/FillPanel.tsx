import { type FormEvent, type RefObject, useEffect } from 'react';
import type { FillLog } from '../../../db/api-supply.ts';
import { PIN_GUARD } from '../../../domain/people/pins.ts';
import { Action } from '../../parts/Action.tsx';
import { useActing } from '../../parts/acting/acting.tsx';
import { MemberPicker } from '../../parts/acting/MemberPicker.tsx';
import { TextField } from '../../parts/form/fields.tsx';
import { readDate } from '../../parts/form/readDate.ts';
import { Picker } from '../../parts/picker/Picker.tsx';
import { Notice } from '../../parts/words/NotReady.tsx';
import { FillVerdict, WhichOne } from './FillVerdict.tsx';
import styles from './fills.module.css';
import type { Entered, FieldKey, Fill } from './useFill.ts';

interface FillPanelProps {
  fill: Fill;
  form: RefObject<HTMLFormElement | null>;
  compressors: FillLog['compressors'];
  today: string;
}

const NONE = { value: '', label: 'Not named' };

/** One fill: the number, at once the verdict, the pressure; Enter logs it and the box is ready for the next. */
export function FillPanel({ fill, form, compressors, today }: FillPanelProps) {
  const { member } = useActing();
  const { check, isForeign, compressor, setCompressor } = fill;
  const [only, ...others] = compressors;
  // Where there is one, that is what fills.
  useEffect(() => {
    if (only && others.length === 0 && compressor === null) setCompressor(only.item);
  }, [only, others.length, compressor, setCompressor]);
  const send = (event: FormEvent) => {
    event.preventDefault();
    void fill.submit();
  };
  const field = (key: keyof Entered, label: string, more: { unit?: string; note?: string } = {}) => (
    <span className={styles[key] ?? styles.field} data-field={key}>
      <TextField
        label={label}
        value={fill.entered[key]}
        onChange={value => fill.set(key, value)}
        problem={fill.problemOf(key)}
        {...more}
      />
    </span>
  );
  const dateField = (key: 'hydroDate' | 'on', label: string, empty: string) =>
    field(key, label, {
      note: fill.entered[key].trim() === '' ? empty : readDate(fill.entered[key], today).words,
    });
  const options = [
    NONE,
    ...compressors.map(c => ({
      value: c.item,
      label: c.number,
      detail: [c.what, c.station].filter(Boolean).join(', '),
    })),
  ];
  return (
    <form ref={form} onSubmit={send} className={styles.panel} noValidate aria-label="Fill a bottle">
      {fill.others.map(p => (
        <Notice key={p.message} problem={p} />
      ))}
      <div className={styles.first}>
        {field('number', 'Bottle, by number or scan')}
        {field('to_psi', check?.verdict === 'do not fill' ? 'Filled all the same, to' : 'Filled to', {
          unit: 'psi',
        })}
        <Action weight="main" hint="Enter" type="submit" disabled={fill.sending}>
          {fill.sending ? 'Writing…' : check?.verdict === 'do not fill' ? 'Log it as what it was' : 'Log it'}
        </Action>
      </div>
      {check && check.several.length > 0 ? <WhichOne several={check.several} onChoose={fill.choose} /> : null}
      {check && check.several.length === 0 ? <FillVerdict check={check} warned={fill.warned} /> : null}
      {fill.failed ? <Notice problem={fill.failed.problem} /> : null}
      {check === null ? (
        <p role="status" className={fill.done?.pulled ? styles.pulled : styles.soft}>
          {fill.done?.words ??
            (fill.asking
              ? 'Looking…'
              : 'Enter the number on the bottle: it is told at once whether it may be filled.')}
        </p>
      ) : null}
      {isForeign ? (
        <div className={styles.row}>
          {field('owner', 'Owner')}
          {field('marking', 'Its label says', { note: 'Specification or permit, as marked.' })}
          {field('servicePressure_psi', 'Service pressure', { unit: 'psi' })}
        </div>
      ) : null}
      <div className={styles.row}>
        {dateField('hydroDate', 'Hydro date on the bottle', 'As marked: 9/2024.')}
        {field('from_psi', 'Filled from', { unit: 'psi' })}
        {dateField('on', 'When', 'Today. Else 11/23/2026 03:10.')}
        {field('note', 'Note')}
      </div>
      <div className={styles.row}>
        <Picker
          label="Filled at"
          options={options}
          value={options.find(o => o.value === compressor) ?? NONE}
          onPick={o => setCompressor(o.value === '' ? null : o.value)}
        />
        <span data-field="by">
          <MemberPicker label="Filled and signed by" problem={fill.problemOf('by')} />
        </span>
        {member?.hasPin ? (
          <span data-field="pin">
            <TextField
              label="PIN"
              value={fill.pin}
              onChange={fill.setPin}
              secret
              problem={fill.problemOf('pin')}
              note={PIN_GUARD}
            />
          </span>
        ) : null}
      </div>
    </form>
  );
}

/** Lead to a field of the form. */
export function focusField(form: HTMLFormElement | null, field: FieldKey): void {
  const input = form?.querySelector<HTMLInputElement>(`[data-field="${field}"] input`);
  input?.focus();
  input?.select();
}
