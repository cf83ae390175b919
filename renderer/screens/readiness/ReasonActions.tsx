/** What can be done about a reason: the spare that would settle it, its why, and the deeds on its thing. */
import { useState } from 'react';
import type { Reason } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { THING_DEEDS } from '../../parts/deeds/deeds.ts';
import { swapForm } from '../../parts/deeds/swapForm.ts';
import { ThingActions } from '../../parts/deeds/ThingActions.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import styles from './readiness.module.css';

interface ReasonActionsProps {
  reason: Reason;
  /** Its why, or its page where it is a condition. */
  onOpen: () => void;
  onOpenPage: (item: string) => void;
}

export function ReasonActions({ reason, onOpen, onOpenPage }: ReasonActionsProps) {
  const item = reason.item ?? '';
  const page = useAsk('item.page', { item });
  const activity = useActivity(reason.requirement);
  // A key pressed while the thing is still being read is not lost.
  const [early, setEarly] = useState<string | null>(null);
  useKeys(
    'This thing',
    THING_DEEDS.filter(d => d.usual).map(d => ({ key: d.key, label: d.title, run: () => setEarly(d.id) })),
    !page.data,
  );
  useKeys('This thing', [{ key: 'o', label: 'Its page', run: () => onOpenPage(item) }]);
  return (
    <div className={styles.reasonActions}>
      {reason.effect !== 'notes' ? <Fix reason={reason} /> : null}
      {page.data ? (
        <ThingActions
          thing={page.data}
          options={{ activity, now: page.data }}
          {...(reason.requirement ? { expected: 'record' } : {})}
          begin={early}
          onBegun={() => setEarly(null)}
        >
          {reason.requirement ? (
            <Action weight="quiet" hint="Enter" onClick={onOpen}>
              Why
            </Action>
          ) : null}
          <Action weight="quiet" hint="o" onClick={() => onOpenPage(item)}>
            Its page
          </Action>
        </ThingActions>
      ) : null}
    </div>
  );
}

/** The nearest spare of its kind and size, and the swap that puts it in. */
function Fix({ reason }: { reason: Reason }) {
  const { fix } = reason;
  const [swapping, setSwapping] = useState(false);
  const out = useAsk('item.page', { item: reason.item ?? '' }).data;
  const spare = useAsk('item.page', { item: fix?.item ?? '' }, { when: fix !== null }).data;
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const form = out?.placeId && spare ? swapForm(out, spare, true) : null;
  useKeys(
    'This thing',
    [{ key: 's', label: 'Swap the spare in', run: () => setSwapping(true) }],
    form !== null,
  );
  if (fix === null) return <p className={styles.fix}>No ready spare of its kind and size is known.</p>;
  return (
    <p className={styles.fix}>
      <span>
        Nearest ready spare: <span className={styles.number}>{fix.number}</span>, {fix.place}
      </span>
      <Action hint="s" disabled={form === null} onClick={() => setSwapping(true)}>
        Swap it in
      </Action>
      {swapping && form ? <DeedDialog form={form} today={today} onClose={() => setSwapping(false)} /> : null}
    </p>
  );
}

/** The activity a requirement owes, by the adopted book. */
function useActivity(requirement: string | null): string | undefined {
  const rules = useAsk('rulebook.list', {}).data?.rules;
  return rules?.find(r => r.requirement.id === requirement)?.requirement.activity;
}
