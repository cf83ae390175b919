import type { DueListRow, ItemPage } from '../../../db/api.ts';
import { LOOSER_MEANS } from '../../../domain/rulebook/due-words.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DueDate, DutyTitle } from '../../parts/words/DutyTitle.tsx';
import { DateText, daysFigure } from '../../parts/words/dates.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';

const COLUMNS: readonly TableColumn<DueListRow>[] = [
  { key: 'title', head: 'What is owed', cell: r => <DutyTitle row={r} /> },
  { key: 'state', head: 'State', cell: r => <StateMark state={r.state} /> },
  { key: 'due', head: 'Due', figure: true, cell: r => <DueDate row={r} /> },
  { key: 'days', head: 'Days left', figure: true, cell: r => daysFigure(r.daysLeft) },
  { key: 'last', head: 'Last done', figure: true, cell: r => <DateText date={r.lastOn} /> },
  { key: 'late', head: 'Being late', cell: r => r.late },
];

interface DatesProps {
  page: ItemPage;
  duty: string | undefined;
  onOpen: (duty: string) => void;
}

/** Every date of the thing; Enter on one opens its why. */
export function Dates({ page, duty, onOpen }: DatesProps) {
  return (
    <section aria-label="Every date">
      <h2>Every date</h2>
      {page.due.length === 0 ? (
        <Empty>
          <p>
            {page.condition === 'retired' || page.condition === 'disposed'
              ? `It is ${page.condition}: nothing is owed on it.`
              : 'No requirement of the rule book concerns it.'}
          </p>
        </Empty>
      ) : (
        <RowTable
          label="Every date; Enter tells why"
          columns={COLUMNS}
          rows={page.due}
          keyOf={r => r.requirement}
          onOpen={r => onOpen(r.requirement)}
          isOpen={r => r.requirement === duty}
        />
      )}
      {page.beforeReturn.length > 0 ? (
        <p role="note">
          In storage these wait, and are owed before it comes back:{' '}
          {page.beforeReturn.join(', ').toLowerCase()}.
        </p>
      ) : null}
      {page.due.some(r => r.own === 'looser') ? <p role="note">{LOOSER_MEANS}</p> : null}
    </section>
  );
}
