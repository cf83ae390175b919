import styles from './words.module.css';

const SHOWN: Readonly<Record<string, string>> = {
  Enter: '↵',
  Escape: 'Esc',
  ArrowUp: '↑',
  ArrowDown: '↓',
  ArrowLeft: '←',
  ArrowRight: '→',
  PageUp: 'PgUp',
  PageDown: 'PgDn',
  Backspace: '⌫',
};

/** How a key is written on its hint. */
export const keyText = (key: string): string => SHOWN[key] ?? key;

/** The key that does what stands beside it. Readers hear it from the control's own shortcut. */
export function KeyHint({ of }: { of: string }) {
  return (
    <span className={styles.key} aria-hidden="true">
      {keyText(of)}
    </span>
  );
}
