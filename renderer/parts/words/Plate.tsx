import styles from './words.module.css';

/** The number of a thing as it is stamped on its plate: two rivets and the number. */
export function Plate({ number, large = false }: { number: string; large?: boolean }) {
  return <span className={`${styles.plate} ${large ? styles.plateLarge : ''}`}>{number}</span>;
}
