/** The answer in one line of numbers: each leads to what it counts. */
import { Link } from '@tanstack/react-router';
import { useAsk } from '../../api/ask.ts';
import { NotReady } from '../../parts/words/NotReady.tsx';
import type { Part } from './Department.tsx';
import styles from './department.module.css';
import { counted } from './words.ts';

export function Counts() {
  const summary = useAsk('department.summary', {});
  const places = useAsk('places.list', {});
  const members = useAsk('members.list', {});
  const page = useAsk('department.page', {});
  const { data } = summary;
  if (!data) return <NotReady loaded={summary} />;
  const inside = (places.data ?? []).filter(p => p.kind !== 'station' && p.kind !== 'rig').length;
  const withPin = (members.data ?? []).filter(m => m.hasPin).length;
  const agencies = page.data?.agencies ?? [];
  const troubled = agencies.filter(a => a.rinState === 'overdue' || a.rinState === 'due soon').length;
  const lines: { part: Part; what: string }[] = [
    {
      part: 'places',
      what: [
        counted(data.stations.length, 'station'),
        counted(data.units.length, 'unit'),
        counted(data.rigs.length, 'rig'),
        counted(inside, 'other place', 'other places'),
      ].join(', '),
    },
    {
      part: 'members',
      what: `${counted(members.data?.length ?? 0, 'member')}, ${withPin} with a PIN`,
    },
    {
      part: 'agencies',
      what: `${counted(agencies.length, 'agency', 'agencies')}${troubled > 0 ? `, ${troubled} with a RIN to renew` : ''}`,
    },
    { part: 'about', what: `${counted(data.entries, 'entry', 'entries')} in the ledger` },
  ];
  return (
    <p className={styles.counts}>
      {lines.map(({ part, what }) => (
        <Link key={part} to="/department" search={{ part }} activeProps={{}}>
          {what}
        </Link>
      ))}
    </p>
  );
}
