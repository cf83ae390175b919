import { useAsk } from '../../api/ask.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { BETTER, CYLINDERS, REORDER, SPARES } from './columns.tsx';
import styles from './supply.module.css';

interface OtherTablesProps {
  /** Open the history of a stock. */
  onOpen: (stock: { stock: string; what: string; perBox: number | null }) => void;
}

/** Under the stock: what to order, which lots go elsewhere, what stands ready on the shelf. */
export function OtherTables({ onOpen }: OtherTablesProps) {
  const reorder = useAsk('supply.reorder', {}, { keep: true });
  const shelf = useAsk('supply.shelf', {}, { keep: true });
  const open = ({ stock, what, perBox }: { stock: string; what: string; perBox: number | null }) =>
    onOpen({ stock, what, perBox });
  return (
    <>
      <h2 className={styles.section}>To order</h2>
      {reorder.data === undefined ? <NotReady loaded={reorder} /> : null}
      {reorder.data?.rows.length === 0 ? <p className={styles.soft}>Nothing is under its minimum.</p> : null}
      {reorder.data && reorder.data.rows.length > 0 ? (
        <RowTable
          label="To order: up to the par of each place"
          columns={REORDER}
          rows={reorder.data.rows}
          keyOf={r => r.stock}
          onOpen={open}
        />
      ) : null}
      {reorder.data && reorder.data.better.length > 0 ? (
        <>
          <h2 className={styles.section}>Used up sooner elsewhere</h2>
          <RowTable
            label="Lots that would be used up sooner elsewhere, by what each place issued in 180 days"
            columns={BETTER}
            rows={reorder.data.better}
            keyOf={b => `${b.stock} ${b.lot} ${b.from} ${b.to}`}
            onOpen={open}
          />
        </>
      ) : null}
      <h2 className={styles.section}>Ready spares</h2>
      {shelf.data === undefined ? <NotReady loaded={shelf} /> : null}
      {shelf.data?.spares.length === 0 ? (
        <p className={styles.soft}>No thing is assigned as a ready spare.</p>
      ) : null}
      {shelf.data && shelf.data.spares.length > 0 ? (
        <RowTable
          label="Ready spares by kind, size and station"
          columns={SPARES}
          rows={shelf.data.spares}
          keyOf={s => `${s.family} ${s.what} ${s.station} ${s.numbers.join(' ')}`}
        />
      ) : null}
      {shelf.data && shelf.data.cylinders.length > 0 ? (
        <>
          <h2 className={styles.section}>Cylinders, as far as their fill is known</h2>
          <RowTable
            label="Cylinders off the rigs by fill"
            columns={CYLINDERS}
            rows={shelf.data.cylinders}
            keyOf={c => `${c.station} ${c.what}`}
          />
        </>
      ) : null}
    </>
  );
}
