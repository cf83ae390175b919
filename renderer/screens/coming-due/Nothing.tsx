import { Action } from '../../parts/Action.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';

/** A book that holds nothing yet: the way to fill it. */
export function NothingYet({ onImport }: { onImport: () => void }) {
  return (
    <Empty>
      <p>There is nothing in the book yet. Bring a sheet of hose, ladders, cylinders or packs.</p>
      <p>
        <Action weight="main" hint="7" onClick={onImport}>
          Import a sheet
        </Action>
      </p>
    </Empty>
  );
}

/** A list that was read and holds nothing, and why. */
export function NothingFits({ filtered }: { filtered: boolean }) {
  return (
    <Empty>
      <p>
        {filtered
          ? 'Nothing fits this filter. Press c to clear it.'
          : 'Nothing is to be done: every duty of every thing is current.'}
      </p>
    </Empty>
  );
}
