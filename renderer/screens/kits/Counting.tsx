/** The full count of a kit: a line, an amount, a date; Enter goes on, and takes the par where nothing is entered. */
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { KitContent, KitPage } from '../../../db/api-kits.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { readDate } from '../../parts/form/readDate.ts';
import tableStyles from '../../parts/grid/rowtable.module.css';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { type Counted, sealForm } from './forms.ts';
import styles from './kits.module.css';

export function Counting({ page, onDone }: { page: KitPage; onDone: () => void }) {
  const summary = useAsk('department.summary', {}).data;
  const members = useAsk('members.list', {}).data ?? [];
  const lines = page.contents.filter(c => c.family === null);
  // The date is kept from the last count: what was asked once is not typed again, and is mended where it is otherwise.
  const [counted, setCounted] = useState<ReadonlyMap<string, Counted>>(
    () => new Map(lines.map(c => [c.line, { amount: '', expires: c.soonest ? dateText(c.soonest) : '' }])),
  );
  const [said, setSaid] = useState<string | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const fields = () => [...(top.current?.querySelectorAll<HTMLInputElement>('input') ?? [])];
  useEffect(() => top.current?.querySelector('input')?.focus(), []);
  useKeys('The count', [{ key: 'Escape', label: 'Leave the count', run: onDone }]);

  const of = (line: string): Counted => counted.get(line) ?? { amount: '', expires: '' };
  const change = (line: string, more: Partial<Counted>) => {
    setSaid(null);
    setCounted(new Map(counted).set(line, { ...of(line), ...more }));
  };
  const today = summary?.today ?? '';
  const wrongOf = (c: KitContent) => {
    const { amount, expires } = of(c.line);
    if (amount.trim() !== '' && !/^\d+$/.test(amount.trim())) return `“${amount}” is no whole number`;
    if (expires.trim() !== '' && !/^\d{4}/.test(readDate(expires, today).text))
      return `“${expires}” is no date`;
    return null;
  };
  const left = lines.filter(c => of(c.line).amount.trim() === '');
  const finish = () => {
    const wrong = lines.find(c => wrongOf(c) !== null);
    const first = wrong ?? left[0];
    if (first) {
      setSaid(
        wrong
          ? `${wrong.what}: ${wrongOf(wrong)}.`
          : `${first.what} is not counted: enter how many, 0 for none.`,
      );
      fields()[lines.indexOf(first) * 2]?.focus();
      return;
    }
    setForm(sealForm(page, page.contents, counted, members));
  };
  const onKey = (event: KeyboardEvent<HTMLInputElement>, content: KitContent, isAmount: boolean) => {
    const all = fields();
    const at = all.indexOf(event.currentTarget);
    if (event.key === 'Escape') {
      event.stopPropagation();
      onDone();
      return;
    }
    const rows = { ArrowDown: 2, ArrowUp: -2 }[event.key];
    if (rows === undefined && event.key !== 'Enter') return;
    event.preventDefault();
    if (event.key === 'Enter' && isAmount && of(content.line).amount.trim() === '')
      change(content.line, { amount: String(content.qty) });
    // From the amount of one line to that of the next: the date is a Tab away, for what is not as it was.
    const next = all[at + (rows ?? (isAmount ? 2 : 1))];
    if (next) {
      next.focus();
      next.select();
    } else if (event.key === 'Enter') setTimeout(() => button.current?.focus());
  };
  const button = useRef<HTMLButtonElement>(null);
  return (
    <>
      <div className={styles.list} ref={top}>
        <p className={styles.soft}>
          How many are there? Enter takes the par and goes on; Tab goes to the date, arrows up and down.
        </p>
        <table className={tableStyles.table} aria-label={`Full count of ${page.number}`}>
          <thead>
            <tr>
              <th scope="col">In</th>
              <th scope="col">What</th>
              <th scope="col" className={tableStyles.figure}>
                Par
              </th>
              <th scope="col" className={tableStyles.figure}>
                Counted
              </th>
              <th scope="col">Earliest date</th>
              <th scope="col">So it is</th>
            </tr>
          </thead>
          <tbody>
            {lines.map(c => (
              <tr key={c.line}>
                <td className={styles.oneLine}>{c.place}</td>
                <td>{c.critical ? <b>{c.what}</b> : c.what}</td>
                <td className={tableStyles.figure}>{c.qty}</td>
                <td className={tableStyles.figure}>
                  <input
                    className={styles.count}
                    inputMode="numeric"
                    autoComplete="off"
                    aria-label={`${c.what}: how many`}
                    aria-invalid={wrongOf(c) !== null}
                    value={of(c.line).amount}
                    placeholder={String(c.qty)}
                    onChange={event => change(c.line, { amount: event.currentTarget.value })}
                    onKeyDown={event => onKey(event, c, true)}
                  />
                </td>
                <td>
                  <input
                    className={styles.expires}
                    autoComplete="off"
                    aria-label={`${c.what}: earliest date`}
                    value={of(c.line).expires}
                    placeholder="none"
                    onChange={event => change(c.line, { expires: event.currentTarget.value })}
                    onKeyDown={event => onKey(event, c, false)}
                  />
                </td>
                <td className={styles.soft}>{noteOf(c, of(c.line), today)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <footer className={styles.foot}>
        <Action weight="main" ref={button} onClick={finish}>
          Seal it
        </Action>
        <Action weight="quiet" hint="Escape" onClick={onDone}>
          Leave the count
        </Action>
        <span role="status" className={said ? styles.wrong : styles.soft}>
          {said ??
            (left.length > 0 ? `${left.length} of ${lines.length} to count` : 'Everything is counted.')}
        </span>
      </footer>
      {form && summary ? (
        <DeedDialog form={form} today={today} onClose={() => setForm(null)} onDone={onDone} />
      ) : null}
    </>
  );
}

/** What an amount or a date that was entered means, at once. */
function noteOf(c: KitContent, { amount, expires }: Counted, today: string): string {
  const date = expires.trim() === '' ? null : readDate(expires, today);
  const parts = [
    ...(amount.trim() !== '' && Number(amount) < c.qty ? [`${c.qty - Number(amount)} short`] : []),
    ...(date && /^\d{4}/.test(date.text) && `${date.text}-31`.slice(0, 10) < today ? ['expired'] : []),
  ];
  return parts.join(', ');
}
