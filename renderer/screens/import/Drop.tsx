import { useRef, useState } from 'react';
import { Action } from '../../parts/Action.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Notice } from '../../parts/words/NotReady.tsx';
import styles from './import.module.css';

/** Where a sheet is put: dropped anywhere on the screen, or chosen. */
export function Drop({ onFile, problem }: { onFile: (file: File) => void; problem: string | null }) {
  const chooser = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  useKeys('Import', [{ key: 'o', label: 'Choose a file', run: () => chooser.current?.click() }]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file may be dropped anywhere; choosing one has its own button.
    <div
      className={styles.empty}
      onDragOver={() => setOver(true)}
      onDragLeave={() => setOver(false)}
      onDrop={event => {
        setOver(false);
        const file = event.dataTransfer.files[0];
        if (file) onFile(file);
      }}
    >
      <header className={styles.header}>
        <h1>What is in the sheet, and what will it become?</h1>
        <p className={styles.numbers}>Nothing is written until you have seen every row and accepted it.</p>
      </header>
      {problem ? (
        <Notice problem={{ code: 'unread', message: problem, todo: 'Choose the file again.', field: null }} />
      ) : null}
      <div className={`${styles.drop} ${over ? styles.over : ''}`}>
        <p className={styles.dropWords}>Drop a sheet here</p>
        <p>
          A CSV or XLSX of hose, ladders, cylinders or packs, with one row a thing and headings over the
          columns.
        </p>
        <input
          ref={chooser}
          type="file"
          accept=".csv,.xlsx,text/csv"
          hidden
          aria-label="Sheet"
          onChange={event => {
            const file = event.currentTarget.files?.[0];
            if (file) onFile(file);
          }}
        />
        <Action weight="main" hint="o" onClick={() => chooser.current?.click()}>
          Choose a file
        </Action>
      </div>
      <ol className={styles.steps}>
        <li>Every row is shown as what it would become, beside what is already known.</li>
        <li>Columns that were read wrongly are mended here; the rest of the sheet follows at once.</li>
        <li>Rows that cannot be read are refused with a reason, and can be saved to mend and bring again.</li>
        <li>What was taken in can be taken back as a whole.</li>
      </ol>
    </div>
  );
}
