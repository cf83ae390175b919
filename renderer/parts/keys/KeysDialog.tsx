import { useState } from 'react';
import { Dialog } from '../Dialog.tsx';
import { KeyHint } from '../words/KeyHint.tsx';
import styles from './keys.module.css';
import { type KeyBinding, useKeyboard } from './keys.tsx';

/** Keys that controls answer to by themselves. */
const TABLES: readonly Omit<KeyBinding, 'run'>[] = [
  { key: 'ArrowUp', label: 'Row up' },
  { key: 'ArrowDown', label: 'Row down' },
  { key: 'PageUp', label: 'A page up' },
  { key: 'PageDown', label: 'A page down' },
  { key: 'Home', label: 'First row' },
  { key: 'End', label: 'Last row' },
  { key: 'Enter', label: 'Open the row: why, or fold a group' },
  { key: 'ArrowLeft', label: 'Fold a group' },
  { key: 'ArrowRight', label: 'Unfold a group' },
];

/** Every key that answers now. */
export function KeysDialog({ onClose }: { onClose: () => void }) {
  const { live } = useKeyboard();
  // What answered when the list was called for: the dialog itself then covers it.
  const [groups] = useState(() => {
    const found = new Map<string, Omit<KeyBinding, 'run'>[]>();
    for (const { group, bindings } of live()) found.set(group, [...(found.get(group) ?? []), ...bindings]);
    found.set('In tables', [...TABLES]);
    return [...found].filter(([, bindings]) => bindings.length > 0);
  });
  return (
    <Dialog title="All keys" onClose={onClose} wide>
      <div className={styles.groups}>
        {groups.map(([group, bindings]) => (
          <section key={group}>
            <h3>{group}</h3>
            <dl className={styles.keys}>
              {bindings.map(b => (
                <div key={b.key}>
                  <dt>
                    <KeyHint of={b.key} />
                    <span className="seen-by-readers">{b.key}</span>
                  </dt>
                  <dd>{b.label}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Dialog>
  );
}
