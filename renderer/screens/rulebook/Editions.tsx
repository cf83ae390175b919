import { useState } from 'react';
import type { RuleQuestions } from '../../../db/api-rules.ts';
import { useAsk } from '../../api/ask.ts';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { editionForm } from './forms/takeForms.ts';
import type { BookProps } from './RuleBook.tsx';
import styles from './rulebook.module.css';
import { useFirstRow } from './Settings.tsx';

type EditionLine = RuleQuestions['rulebook.editions']['gives'][number];

const COLUMNS: readonly TableColumn<EditionLine>[] = [
  {
    key: 'document',
    head: 'New number',
    cell: ({ edition }) => (
      <strong className={styles.oneLine}>
        {edition.document} ({edition.edition})
      </strong>
    ),
  },
  { key: 'title', head: 'Title', cell: ({ edition }) => edition.title },
  { key: 'takesIn', head: 'Takes in', cell: ({ edition }) => edition.takesIn.join(', ') },
  {
    key: 'adopts',
    head: 'Of the department’s rules',
    figure: true,
    cell: ({ adopts }) => (adopts.length > 0 ? `${adopts.length} under the old number` : 'none'),
  },
  {
    key: 'note',
    head: 'How sure',
    cell: ({ edition }) => (
      <>
        <span className={styles.unsure}>{edition.confidence}.</span> {edition.note}
      </>
    ),
  },
];

/** The same rule under two document numbers: what a newer edition would renumber, adopted from a day on. */
export function Editions({ families, today }: BookProps) {
  const told = useAsk('rulebook.editions', {});
  const [taking, setTaking] = useState<EditionLine | null>(null);
  const top = useFirstRow();
  if (!told.data) return <NotReady loaded={told} />;
  return (
    <div className={styles.page} ref={top}>
      <p className={styles.lead}>
        The standards were merged and renumbered. A day is judged by the edition that was adopted on it; a
        newer one is adopted from a day on, and the old number stays readable in each rule’s history.{' '}
        <KeyHint of="Enter" /> adopts what stands under the old number.
      </p>
      <RowTable
        label="Editions; Enter adopts"
        columns={COLUMNS}
        rows={told.data}
        keyOf={l => l.edition.id}
        isFaint={l => l.adopts.length === 0}
        onOpen={line => line.adopts.length > 0 && setTaking(line)}
      />
      {taking ? (
        <DeedDialog
          form={editionForm(taking.edition, taking.adopts, r => families.find(f => f.id === r.family))}
          today={today}
          onClose={() => setTaking(null)}
        />
      ) : null}
    </div>
  );
}
