/** What a check-off asks about one line or place: what is wrong, what was read, which seal, why it was left out. */
import type { CarriedThing, CarryLineNow, CheckoffPlace } from '../../../db/api-checks.ts';
import type { Exception, ExceptionKind } from '../../../domain/checkoffs/marks.ts';
import type { ChosenPhoto } from '../../parts/photos/chosen.ts';
import { ExceptionDialog } from './ExceptionDialog.tsx';
import { LeaveOutDialog, ReadingDialog, SealDialog } from './SmallDialogs.tsx';

export type Asked =
  | { ask: 'exception'; line: CarryLineNow; kind: ExceptionKind }
  | { ask: 'reading'; line: CarryLineNow }
  | { ask: 'seal'; line: CarryLineNow; kit: CarriedThing }
  | { ask: 'leave out'; place: CheckoffPlace };

interface AskedDialogProps {
  asked: Asked;
  /** What was said of a line already, to mend. */
  before: (line: CarryLineNow) => Exception | null;
  onClose: () => void;
  /** With the photos that were chosen now. */
  onException: (line: CarryLineNow, exception: Exception, chosen: readonly ChosenPhoto[]) => void;
  onReading: (line: CarryLineNow, reading: string) => void;
  onSeal: (line: CarryLineNow, kit: CarriedThing, seal: string) => void;
  onBrokenSeal: (line: CarryLineNow, kit: CarriedThing, seal: string | null) => void;
  onLeaveOut: (place: string, why: string) => void;
}

export function AskedDialog({ asked, before, onClose, ...on }: AskedDialogProps) {
  switch (asked.ask) {
    case 'exception':
      return (
        <ExceptionDialog
          line={asked.line}
          kind={asked.kind}
          before={before(asked.line)}
          onClose={onClose}
          onWrite={(exception, chosen) => on.onException(asked.line, exception, chosen)}
        />
      );
    case 'reading':
      return (
        <ReadingDialog
          line={asked.line}
          onClose={onClose}
          onRead={reading => on.onReading(asked.line, reading)}
        />
      );
    case 'seal':
      return (
        <SealDialog
          line={asked.line}
          kit={asked.kit}
          onClose={onClose}
          onRead={seal => on.onSeal(asked.line, asked.kit, seal)}
          onBroken={seal => on.onBrokenSeal(asked.line, asked.kit, seal)}
        />
      );
    case 'leave out':
      return (
        <LeaveOutDialog
          place={asked.place.name}
          onClose={onClose}
          onSay={why => on.onLeaveOut(asked.place.name, why)}
        />
      );
  }
}
