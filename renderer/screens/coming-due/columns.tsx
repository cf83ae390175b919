import type { DueListRow } from '../../../db/api.ts';
import type { Column } from '../../parts/grid/Grid.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DueDate, DutyTitle } from '../../parts/words/DutyTitle.tsx';
import { DateText, daysFigure } from '../../parts/words/dates.tsx';
import { type DueSearch, listArgs, type SortBy, sortedBy } from './filter.ts';

/** The columns of the list; a head that sorts says so and is undone by choosing it again. */
export function dueColumns(
  search: DueSearch,
  familyTitle: (family: string) => string,
  onChange: (search: DueSearch) => void,
): Column<DueListRow>[] {
  const sort = (by: SortBy): NonNullable<Column<DueListRow>['sort']> => ({
    state: listArgs(search).sort !== by ? 'none' : search.descending ? 'descending' : 'ascending',
    onSort: () => onChange(sortedBy(search, by)),
  });
  return [
    {
      key: 'number',
      head: 'Number',
      width: '14ch',
      sort: sort('number'),
      cell: r => <span>{r.number}</span>,
    },
    {
      key: 'family',
      head: 'Family',
      width: 'minmax(8ch, 11ch)',
      spare: true,
      cell: r => <span>{familyTitle(r.family)}</span>,
    },
    {
      key: 'title',
      head: 'What is owed',
      width: 'minmax(20ch, 1.6fr)',
      sort: sort('title'),
      cell: r => <DutyTitle row={r} />,
    },
    { key: 'state', head: 'State', width: '13ch', cell: r => <StateMark state={r.state} /> },
    {
      key: 'due',
      head: 'Due',
      width: '13ch',
      figure: true,
      sort: sort('due'),
      cell: r => <DueDate row={r} />,
    },
    {
      key: 'days',
      head: 'Days left',
      width: '7ch',
      figure: true,
      cell: r => <span>{daysFigure(r.daysLeft)}</span>,
    },
    {
      key: 'last',
      head: 'Last done',
      width: '11ch',
      figure: true,
      spare: true,
      cell: r => <DateText date={r.lastOn} />,
    },
    {
      key: 'place',
      head: 'Place',
      width: 'minmax(8ch, 1.6fr)',
      sort: sort('place'),
      cell: r => <span>{r.place ?? '–'}</span>,
    },
    {
      key: 'condition',
      head: 'Condition',
      width: '12ch',
      spare: true,
      cell: r => (r.condition === r.state ? null : <ConditionWord condition={r.condition} />),
    },
  ];
}
