import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { ItemPage } from '../../../db/api.ts';
import { KIT_FAMILY } from '../../../domain/rulebook/kit.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { RIG_FAMILY } from '../../parts/deeds/deeds.ts';
import { ThingActions } from '../../parts/deeds/ThingActions.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Meters } from '../../parts/meters/Meters.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { WhyPanel } from '../../parts/why/WhyPanel.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { Cylinder } from './Cylinder.tsx';
import { Dates } from './Dates.tsx';
import { Head } from './Head.tsx';
import { Identity } from './Identity.tsx';
import { Places, Records } from './Records.tsx';
import styles from './thing.module.css';

/** One thing: what it is, where it has been, what was done to it, and every date with its why. */
export function ThingPage({ item, duty }: { item: string; duty: string | undefined }) {
  const page = useAsk('item.page', { item });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Thing key={item} page={page.data} duty={duty} />;
}

function Thing({ page, duty }: { page: ItemPage; duty: string | undefined }) {
  useDocumentTitle(`${page.number} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  // Opened by its address, there is nothing of ours to go back to.
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/due', search: {} }));
  const { item } = page;
  const history = useAsk('item.history', { item });
  const top = useRef<HTMLDivElement>(null);
  const [returnTo, setReturnTo] = useState<Element | null>(null);

  // The page takes the focus, so that its keys and the arrows work at once.
  useEffect(() => top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true }), []);

  const openDuty = (next: string | undefined) =>
    void navigate({
      to: '/thing/$item',
      params: { item },
      search: next ? { duty: next } : {},
      replace: true,
    });
  const close = () => {
    openDuty(undefined);
    if (returnTo instanceof HTMLElement) returnTo.focus();
  };
  useKeys(
    'The kit',
    [
      {
        key: 'k',
        label: 'What is in it',
        run: () => void navigate({ to: '/kits/$item', params: { item }, search: {} }),
      },
    ],
    page.family === KIT_FAMILY,
  );
  useKeys('The panel', [{ key: 'Escape', label: 'Close the panel', run: close }], duty !== undefined);
  useKeys(
    'One thing',
    [{ key: 'Escape', label: 'Back to where you came from', run: back }],
    duty === undefined,
  );

  const owed = page.due.find(d => d.requirement === duty) ?? page.due[0];
  const activity = useActivity(owed?.requirement);
  const expected = page.state === 'not judged' ? { expected: 'confirm permit' } : {};
  return (
    <div className={`${styles.screen} ${duty ? styles.withPanel : ''}`}>
      <div className={styles.main} ref={top}>
        <Head page={page} />
        <div className={styles.actions}>
          <ThingActions thing={page} options={{ activity, now: page }} {...expected}>
            {page.family === RIG_FAMILY ? (
              <Action
                weight="quiet"
                onClick={() => void navigate({ to: '/rigs/$rig', params: { rig: item }, search: {} })}
              >
                The rig’s places
              </Action>
            ) : null}
            {page.family === KIT_FAMILY ? (
              <Action
                weight="quiet"
                hint="k"
                onClick={() => void navigate({ to: '/kits/$item', params: { item }, search: {} })}
              >
                What is in it
              </Action>
            ) : null}
            <PrintAction paper={{ paper: 'item history', item }} label="Print its history" />
            <Action weight="quiet" hint={duty ? undefined : 'Escape'} onClick={back}>
              Back
            </Action>
          </ThingActions>
        </div>
        <div className={styles.columns}>
          <div className={styles.left}>
            <Dates
              page={page}
              duty={duty}
              onOpen={next => {
                setReturnTo(document.activeElement);
                openDuty(next);
              }}
            />
            {page.cylinder ? <Cylinder judgment={page.cylinder} /> : null}
            <Meters item={item} number={page.number} isRig={page.family === RIG_FAMILY} />
            <Records number={page.number} history={history} />
          </div>
          <div className={styles.right}>
            <Identity page={page} />
            {page.family === RIG_FAMILY ? null : <Places page={page} history={history} />}
          </div>
        </div>
      </div>
      {duty ? <WhyPanel item={item} duty={duty} onClose={close} actions={false} /> : null}
    </div>
  );
}

/** The activity a requirement owes, by the adopted book. */
function useActivity(requirement: string | undefined): string | undefined {
  const rules = useAsk('rulebook.list', {}).data?.rules;
  return rules?.find(r => r.requirement.id === requirement)?.requirement.activity;
}
