import { useNavigate } from '@tanstack/react-router';
import { Action } from '../../parts/Action.tsx';
import { Empty } from '../../parts/words/NotReady.tsx';

/** A department without units: where they are added. */
export function NoUnits() {
  const navigate = useNavigate();
  return (
    <Empty>
      <p>
        No unit is known yet. A unit is what answers the radio, “Engine 31”; its rig carries what is known
        against it. Add stations and units under Department, or bring a sheet of hose, ladders, cylinders or
        packs and take the places it names.
      </p>
      <p>
        <Action weight="main" hint="9" onClick={() => void navigate({ to: '/department', search: {} })}>
          Add stations and units
        </Action>{' '}
        <Action hint="7" onClick={() => void navigate({ to: '/import' })}>
          Import a sheet
        </Action>
      </p>
    </Empty>
  );
}

/** Units, and nothing on them: no verdict can be given. */
export function NoThings() {
  const navigate = useNavigate();
  return (
    <Empty>
      <p>
        Nothing is in the book yet, so nothing is known of any unit: no news is not good news. Bring a sheet
        of what rides on them.
      </p>
      <p>
        <Action weight="main" hint="7" onClick={() => void navigate({ to: '/import' })}>
          Import a sheet
        </Action>
      </p>
    </Empty>
  );
}

export function NoUnitFits() {
  return (
    <Empty>
      <p>No unit fits this filter. Press c to clear it.</p>
    </Empty>
  );
}
