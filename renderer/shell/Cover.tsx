/** The cover of the book: what stands alone on the screen while no department is open. */
import { type ReactNode, useEffect, useRef } from 'react';
import { Bay } from './Bay.tsx';
import styles from './cover.module.css';

interface CoverProps {
  title: string;
  lead?: string;
  children: ReactNode;
}

export function Cover({ title, lead, children }: CoverProps) {
  const page = useRef<HTMLElement>(null);
  useEffect(() => page.current?.querySelector<HTMLElement>('[data-autofocus]')?.focus(), []);
  return (
    <main ref={page} className={styles.page}>
      <div className={styles.sheet}>
        <p className={styles.brand}>
          <Bay /> Baybook
        </p>
        <h1>{title}</h1>
        {lead ? <p className={styles.lead}>{lead}</p> : null}
        {children}
      </div>
    </main>
  );
}
