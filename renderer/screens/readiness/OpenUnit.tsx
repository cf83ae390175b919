import { useAsk } from '../../api/ask.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './readiness.module.css';
import { UnitPanel, type UnitPanelProps } from './UnitPanel.tsx';

/** The panel of a unit, asked about alone: then it tells every reason, and the shortest fix of each. */
export function OpenUnit({ unit, ...rest }: Omit<UnitPanelProps, 'unit'> & { unit: string }) {
  const asked = useAsk('readiness.now', { unit }, { keep: true });
  const told = asked.data?.units[0];
  useKeys('The unit', [{ key: 'Escape', label: 'Close the panel', run: rest.onClose }], told === undefined);
  if (told) return <UnitPanel unit={told} {...rest} />;
  return (
    <aside className={styles.panel} aria-label="What is known against it">
      <NotReady loaded={asked} />
    </aside>
  );
}
