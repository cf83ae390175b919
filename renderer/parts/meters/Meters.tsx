/** The meters of one rig or tool: what was read, plotted, and what it is heading for. */
import { useState } from 'react';
import type { MeterMark, MeterPage } from '../../../db/api-rules.ts';
import { capital } from '../../../domain/capital.ts';
import { rangeWords } from '../../../domain/rulebook/due-words.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../Action.tsx';
import { DeedDialog } from '../deeds/DeedDialog.tsx';
import type { DeedForm } from '../deeds/deedForm.ts';
import { voidForm } from '../deeds/voidForm.ts';
import { useKeys } from '../keys/keys.tsx';
import { dateText } from '../words/dates.tsx';
import { MeterPlot } from './MeterPlot.tsx';
import { meterForm } from './meterForm.ts';
import styles from './meters.module.css';

interface MetersProps {
  item: string;
  number: string;
  isRig: boolean;
  /** On a rig’s own page reading a meter has its key already. */
  withKey?: boolean;
}

export function Meters({ item, number, isRig, withKey = true }: MetersProps) {
  const told = useAsk('item.meters', { item });
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const [form, setForm] = useState<DeedForm | null>(null);
  const pages = told.data ?? [];
  const read = () =>
    setForm(
      meterForm(
        { item, number, isRig },
        pages.map(p => p.meter),
      ),
    );
  useKeys('Meters', [{ key: 'j', label: 'Read a meter', run: read }], withKey && pages.length > 0);
  if (pages.length === 0) return null;
  const shown = pages.filter(p => p.points.length > 0 || p.marks.length > 0);
  return (
    <section aria-label="Meters" className={styles.meters}>
      <h2>
        Meters{' '}
        {withKey ? (
          <Action weight="quiet" hint="j" onClick={read}>
            Read a meter
          </Action>
        ) : null}
      </h2>
      {shown.length === 0 ? <p className={styles.soft}>None was read yet.</p> : null}
      {shown.map(page => (
        <OneMeter key={page.meter} page={page} onForm={setForm} />
      ))}
      {form ? <DeedDialog form={form} today={today} onClose={() => setForm(null)} /> : null}
    </section>
  );
}

function OneMeter({ page, onForm }: { page: MeterPage; onForm: (form: DeedForm) => void }) {
  const last = page.points.at(-1);
  return (
    <div className={styles.meter}>
      <p className={styles.said}>
        <strong>{capital(page.meter)}</strong>
        {last ? (
          <>
            : {last.reading.toLocaleString('en-US')} on {dateText(last.on)}
            {last.by ? `, ${last.by}` : ''}
            {last.total === last.reading ? '' : `; in all ${last.total.toLocaleString('en-US')}`}.{' '}
            <Action
              weight="quiet"
              onClick={() => onForm(voidForm(last.fact, `${page.meter} ${last.reading}`))}
            >
              Void this reading
            </Action>
          </>
        ) : (
          ': not read yet.'
        )}
      </p>
      {page.contradiction ? <p className={styles.contradiction}>Not judged. {page.contradiction}</p> : null}
      <MeterPlot page={page} />
      {page.marks.map(mark => (
        <p key={mark.requirement} className={styles.said}>
          {markWords(mark, page.meter)}
        </p>
      ))}
    </div>
  );
}

function markWords({ title, every, mark, left, from, to, says }: MeterMark, meter: string): string {
  if (mark === null || left === null) return `${title}: ${says}`;
  const every_ = `${title}, every ${every.toLocaleString('en-US')} ${meter}`;
  if (left <= 0) return `${every_}: its mark of ${mark.toLocaleString('en-US')} is reached.`;
  const range = rangeWords(from, to);
  return `${every_}: at ${mark.toLocaleString('en-US')}, ${left.toLocaleString('en-US')} left${range ? `, ${range}` : ''}.`;
}
