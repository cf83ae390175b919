import { useEffect, useRef, useState } from 'react';
import type { RulebookList } from '../../../db/api-rules.ts';
import { cited, confidenceSentence } from '../../../domain/rulebook/words.ts';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { policyForm } from './forms/policyForm.ts';
import type { BookProps } from './RuleBook.tsx';
import styles from './rulebook.module.css';

type PolicyLine = RulebookList['policies'][number];

const COLUMNS: readonly TableColumn<PolicyLine>[] = [
  { key: 'question', head: 'Question', cell: p => <span className={styles.question}>{p.title}</span> },
  {
    key: 'law',
    head: 'What the law says',
    cell: p => (
      <>
        {p.law}
        <span className={`${styles.soft} ${styles.beneath}`}>
          {cited(p.source)}, {p.source.edition}. {p.source.note}
        </span>
        {p.source.confidence === 'read' ? null : (
          <span className={styles.unconfirmed}>{confidenceSentence(p.source)}</span>
        )}
      </>
    ),
  },
  {
    key: 'choice',
    head: 'What the department does',
    cell: p => (
      <>
        <ul className={styles.options}>
          {p.choices.map(c => (
            <li key={c.value} className={c.value === p.choice ? styles.taken : undefined}>
              <span aria-hidden="true">{c.value === p.choice ? '●' : '○'}</span> {c.title}
              {c.value === p.choice ? <span className="seen-by-readers"> (this one)</span> : null}
            </li>
          ))}
        </ul>
        <span className={`${p.adopted ? styles.soft : styles.unsure} ${styles.beneath}`}>
          {p.adopted ? 'Chosen by the department.' : 'As the book offers it; not chosen yet.'}
        </span>
      </>
    ),
  },
];

/** Where the sources differ: the law beside what the department does. */
export function Settings({ book, today }: BookProps) {
  const [choosing, setChoosing] = useState<PolicyLine | null>(null);
  const top = useFirstRow();
  return (
    <div className={styles.page} ref={top}>
      <p className={styles.lead}>
        Where the sources differ the department chooses, and the law stands beside the choice. Both are shown
        wherever a cylinder is judged. <KeyHint of="Enter" /> chooses.
      </p>
      <RowTable
        label="Settings; Enter chooses"
        columns={COLUMNS}
        rows={book.policies}
        keyOf={p => p.id}
        onOpen={setChoosing}
      />
      {choosing ? (
        <DeedDialog form={policyForm(choosing)} today={today} onClose={() => setChoosing(null)} />
      ) : null}
    </div>
  );
}

/** A part of the book takes the focus on its first row, so that the arrows work at once. */
export function useFirstRow() {
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true }), []);
  return top;
}
