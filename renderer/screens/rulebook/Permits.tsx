import { useState } from 'react';
import type { RulebookList } from '../../../db/api-rules.ts';
import type { Family } from '../../../domain/rulebook/types.ts';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm, Vocabulary } from '../../parts/deeds/deedForm.ts';
import { permitForm } from '../../parts/deeds/permitForm.ts';
import { useVocabulary } from '../../parts/deeds/useVocabulary.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import type { BookProps } from './RuleBook.tsx';
import styles from './rulebook.module.css';
import { useFirstRow } from './Settings.tsx';

type PermitLine = RulebookList['permits'][number];

/** What is on cylinders and not confirmed comes first, then what is on cylinders, then what the book has heard of. */
export function inOrder(permits: readonly PermitLine[]): PermitLine[] {
  const rank = (p: PermitLine) => (p.cylinders > 0 ? 0 : 2) + (p.confirmed === null ? 0 : 1);
  return [...permits].sort((a, b) => rank(a) - rank(b) || a.permit.localeCompare(b.permit, 'en'));
}

/** Special permits and exemptions: confirmed from the paper or the label, or only offered. */
export function Permits({ book, families, today }: BookProps) {
  const vocabulary = useVocabulary();
  const [confirming, setConfirming] = useState<PermitLine | null>(null);
  const top = useFirstRow();
  return (
    <div className={styles.page} ref={top}>
      <p className={styles.lead}>
        A composite cylinder follows its own special permit or exemption. Nothing is judged by a permit until
        the department has confirmed it from the permit or the label in hand; the book’s word is only an
        offer. <KeyHint of="Enter" /> confirms.
      </p>
      <RowTable
        label="Permits; Enter confirms"
        columns={columnsFor(families)}
        rows={inOrder(book.permits)}
        keyOf={p => p.permit}
        isFaint={p => p.cylinders === 0 && p.confirmed === null}
        onOpen={setConfirming}
      />
      {confirming && vocabulary ? (
        <DeedDialog
          form={confirmForm(confirming, vocabulary)}
          today={today}
          onClose={() => setConfirming(null)}
        />
      ) : null}
    </div>
  );
}

/** The same form for what was confirmed before: a later reading of the permit takes the place of the earlier one. */
function confirmForm(line: PermitLine, vocabulary: Vocabulary): DeedForm {
  const permits = vocabulary.permits.map(p => (p.permit === line.permit ? { ...p, confirmed: null } : p));
  return permitForm(
    { item: '', number: '', family: 'cylinder', condition: 'serviceable' },
    { ...vocabulary, permits },
    { number: '', serial: null, attributes: { spec: line.permit } },
  );
}

function columnsFor(families: readonly Family[]): TableColumn<PermitLine>[] {
  const choices =
    families.find(f => f.id === 'cylinder')?.attributes.find(a => a.key === 'construction')?.choices ?? [];
  const construction = (value: string) => choices.find(c => c.value === value)?.title ?? value;
  return [
    {
      key: 'permit',
      head: 'Permit',
      cell: p => <span className={`mono ${styles.oneLine}`}>{p.permit}</span>,
    },
    {
      key: 'cylinders',
      head: 'Cylinders',
      figure: true,
      cell: p => (p.cylinders > 0 ? p.cylinders.toLocaleString('en-US') : '–'),
    },
    { key: 'standing', head: 'Standing', cell: standing },
    {
      key: 'construction',
      head: 'Construction',
      cell: p => said(p, s => construction(s.construction)),
    },
    {
      key: 'months',
      head: 'Requalified every',
      figure: true,
      cell: p => said(p, s => yearsText(s.months)),
    },
    { key: 'life', head: 'Life', figure: true, cell: p => said(p, s => lifeText(s.lifeMonths)) },
    {
      key: 'basis',
      head: 'On what ground',
      cell: p =>
        (p.confirmed && `Confirmed from ${p.confirmed.basis}.`) ??
        p.offer?.note ??
        'Not known to the book: read the permit or the label.',
    },
  ];
}

function standing({ confirmed, offer, cylinders }: PermitLine) {
  if (confirmed) return <strong className={styles.oneLine}>Confirmed</strong>;
  const word = offer ? `Offered (${offer.confidence})` : 'Not known';
  return cylinders > 0 ? (
    <span className={`${styles.unsure} ${styles.oneLine}`}>{word}: to confirm</span>
  ) : (
    <span className={styles.oneLine}>{word}</span>
  );
}

/** What is only offered is told in a fainter voice, since nothing goes by it. */
function said(
  { confirmed, offer }: PermitLine,
  text: (said: { construction: string; months: number; lifeMonths: number | null | 'label' }) => string,
) {
  const from = confirmed ?? offer;
  if (!from) return '–';
  return <span className={`${styles.oneLine} ${confirmed ? '' : styles.offered}`}>{text(from)}</span>;
}

const yearsText = (months: number) => (months % 12 === 0 ? `${months / 12} years` : `${months} months`);

function lifeText(life: number | null | 'label'): string {
  if (life === 'label') return 'by its label';
  return life === null ? 'no fixed life' : yearsText(life);
}
