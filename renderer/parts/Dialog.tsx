/** A dialog: over the screen, its keys alone are live, and the focus goes back where it came from. */
import { Modal } from '@mantine/core';
import { type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { focusHome } from './focusHome.ts';
import { type KeyBinding, OneLevelUp, useKeys } from './keys/keys.tsx';

interface DialogProps {
  title: ReactNode;
  onClose: () => void;
  children: ReactNode;
  wide?: boolean;
  keys?: KeyBinding[];
}

export function Dialog({ title, onClose, children, wide = false, keys = [] }: DialogProps) {
  useFocusBack();
  return (
    <Modal
      opened
      onClose={onClose}
      title={title}
      size={wide ? 920 : 620}
      yOffset="7vh"
      withCloseButton={false}
      closeOnEscape={false}
      transitionProps={{ duration: 0 }}
      overlayProps={{ backgroundOpacity: 1 }}
      // The head of a dialog is no landmark: with two dialogs open there would be two banners.
      attributes={{ overlay: { 'aria-hidden': true }, header: { role: 'presentation' } }}
    >
      <OneLevelUp>
        <DialogKeys onClose={onClose} keys={keys} />
        {children}
      </OneLevelUp>
    </Modal>
  );
}

/** The focus goes back to where it was when the dialog is gone, unless it was led on to somewhere else. */
function useFocusBack(): void {
  const [from] = useState(() => document.activeElement);
  const leaving = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => {
    clearTimeout(leaving.current);
    return () => {
      // After the dialog has let go of the focus; an effect that runs again at once calls this off.
      leaving.current = setTimeout(() => {
        // Whatever closed it has led on: to the next row, another dialog, another screen.
        if (document.activeElement !== null && document.activeElement !== document.body) return;
        if (from instanceof HTMLElement && from.isConnected && from !== document.body) from.focus();
        else focusHome();
      });
    };
  }, [from]);
}

function DialogKeys({ onClose, keys }: { onClose: () => void; keys: KeyBinding[] }) {
  useKeys('This dialog', [...keys, { key: 'Escape', label: 'Close', run: onClose, whileTyping: true }]);
  const here = useRef<HTMLSpanElement>(null);
  // At once, and not when the trap of the focus comes to it: a letter typed right after the key that opened the
  // dialog belongs to the dialog.
  useLayoutEffect(() => {
    here.current?.closest('[role="dialog"]')?.querySelector<HTMLElement>('[data-autofocus]')?.focus();
  }, []);
  return <span ref={here} hidden />;
}
