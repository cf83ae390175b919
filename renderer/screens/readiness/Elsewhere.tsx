/** What would tell against a unit if it rode: on reserve rigs, at stations, with vendors; counted by where it is. */
import type { Readiness } from '../../../db/api-desk.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import styles from './readiness.module.css';

interface ElsewhereProps {
  places: Readiness['elsewhere'];
  onOpen: (place: string) => void;
}

export function Elsewhere({ places, onOpen }: ElsewhereProps) {
  return (
    <section className={styles.block} aria-label="On no unit’s rig">
      <h2>On no unit’s rig</h2>
      {places.length === 0 ? (
        <p className={styles.nothing}>Nothing is known against what is on the shelf or on reserve rigs.</p>
      ) : (
        <RowTable
          label="Things on no unit’s rig that would block or limit one"
          columns={[
            { key: 'place', head: 'Where', cell: p => p.place },
            { key: 'blocks', head: 'Would block', figure: true, cell: p => p.blocks || '–' },
            { key: 'limits', head: 'Would limit', figure: true, cell: p => p.limits || '–' },
          ]}
          rows={places}
          keyOf={p => p.place}
          onOpen={p => onOpen(p.place)}
        />
      )}
    </section>
  );
}
