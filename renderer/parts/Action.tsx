/** A button that does something, with its key beside it. */
import type { ComponentProps, ReactNode } from 'react';
import styles from './action.module.css';
import { KeyHint } from './words/KeyHint.tsx';

interface ActionProps extends Omit<ComponentProps<'button'>, 'className'> {
  children: ReactNode;
  /** The key that does the same; the screen that shows the button answers to it. */
  hint?: string | undefined;
  /** `main` is the expected next thing: one on a screen. */
  weight?: 'main' | 'plain' | 'quiet';
}

export function Action({ children, hint, weight = 'plain', type = 'button', ...rest }: ActionProps) {
  return (
    <button
      {...rest}
      type={type}
      className={`${styles.action} ${styles[weight]}`}
      {...(hint ? { 'aria-keyshortcuts': hint } : {})}
    >
      <span>{children}</span>
      {hint ? <KeyHint of={hint} /> : null}
    </button>
  );
}
