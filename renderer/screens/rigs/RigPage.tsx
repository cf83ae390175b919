import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useState } from 'react';
import type { RigPage as Page, RigItem } from '../../../db/api-desk.ts';
import { FAMILIES } from '../../../domain/rulebook/index.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { receiveForm } from '../../parts/deeds/receiveForm.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import { meterForm } from '../../parts/meters/meterForm.ts';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { toast } from '../../parts/toast.ts';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { Arrange } from './Arrange.tsx';
import { Drawing } from './Drawing.tsx';
import { returnForm, rideForm, takeOutForm } from './forms.ts';
import { Left, Rides } from './History.tsx';
import { Legs } from './Legs.tsx';
import { PlaceList } from './PlaceList.tsx';
import { RigHead } from './RigHead.tsx';
import styles from './rigs.module.css';
import { Swap } from './Swap.tsx';
import type { RigSearch } from './search.ts';
import { ToWhich } from './ToWhich.tsx';

const RIG_METERS = ['miles', 'engine hours', 'pump hours', 'aerial hours'] as const;

/** One rig: its places and what is in them, its drawing, who rode it and what was not brought back. */
export function RigPage({ rig, search }: { rig: string; search: RigSearch }) {
  const page = useAsk('rig.page', { rig }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <OneRig key={page.data.id} page={page.data} search={search} />;
}

function OneRig({ page, search }: { page: Page; search: RigSearch }) {
  useDocumentTitle(`${page.name} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [swapping, setSwapping] = useState<RigItem | null>(null);
  const [arranging, setArranging] = useState(false);
  const [changing, setChanging] = useState(false);
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/rigs' }));
  const show = (place: string | undefined) =>
    void navigate({
      to: '/rigs/$rig',
      params: { rig: page.id },
      search: place ? { place } : {},
      replace: true,
    });
  const ride = () => setForm(rideForm(page, summary?.units ?? []));
  const read = () => setForm(meterForm({ item: page.id, number: page.name, isRig: true }, RIG_METERS));
  const out = () => setForm(page.condition === 'out of service' ? returnForm(page) : takeOutForm(page));
  const itself = () => void navigate({ to: '/thing/$item', params: { item: page.id }, search: {} });
  const change = () => (page.unit === null ? toast(`Nobody rides ${page.name}.`) : setChanging(true));
  const walk = () => void navigate({ to: '/rigs/$rig/walk', params: { rig: page.id } });
  const receive = () => {
    const here = page.places.find(p => p.id === search.place);
    const place = here
      ? { id: here.id, name: `${page.name}, ${here.name}` }
      : { id: page.id, name: page.name };
    setForm(receiveForm(FAMILIES, { place }));
  };
  const returnIt = () => setForm(returnForm(page));
  useKeys(
    'This rig',
    [
      { key: 'j', label: 'The rig itself: its dates, records and meters', run: itself },
      { key: 'y', label: 'Who rides it', run: ride },
      { key: 'c', label: 'The crew changes to another rig, with its gear', run: change },
      { key: 'o', label: 'Out of service, or back', run: out },
      ...(page.condition === 'limited' ? [{ key: 'u', label: 'Back to full service', run: returnIt }] : []),
      { key: 'g', label: 'Walk round it: is it fit to go out?', run: walk },
      { key: 'e', label: 'Read a meter', run: read },
      { key: 'v', label: 'Receive a thing here', run: receive },
      { key: 'd', label: 'Arrange the drawing', run: () => setArranging(true) },
      { key: 'Escape', label: 'Back to where you came from', run: back },
    ],
    !arranging,
  );
  return (
    <div className={styles.page}>
      <RigHead page={page}>
        {arranging ? null : (
          <>
            <Action hint="j" onClick={itself}>
              The rig itself
            </Action>
            <Action hint="y" onClick={ride}>
              Who rides it
            </Action>
            {page.unit === null ? null : (
              <Action hint="c" onClick={change}>
                Change rigs
              </Action>
            )}
            <Action hint="o" onClick={out}>
              {page.condition === 'out of service' ? 'Return to service' : 'Out of service'}
            </Action>
            {page.condition === 'limited' ? (
              <Action hint="u" onClick={returnIt}>
                Back to full service
              </Action>
            ) : null}
            <Action hint="g" onClick={walk}>
              Walk round it
            </Action>
            <Action hint="e" onClick={read}>
              Read a meter
            </Action>
            <Action weight="quiet" hint="v" onClick={receive}>
              Receive a thing
            </Action>
            <PrintAction paper={{ paper: 'rig sheet', rig: page.id }} label="Print the sheet" />
            <Action weight="quiet" hint="Escape" onClick={back}>
              Back
            </Action>
          </>
        )}
      </RigHead>
      <PlaceList
        page={page}
        place={search.place}
        onPlace={show}
        live={!arranging}
        onForm={setForm}
        onSwap={setSwapping}
      />
      <div className={styles.side}>
        {arranging ? null : <Left page={page} onForm={setForm} />}
        {arranging ? (
          <Arrange page={page} onClose={() => setArranging(false)} onForm={setForm} />
        ) : (
          <Drawing page={page} place={search.place} onPlace={show} onArrange={() => setArranging(true)} />
        )}
        <Rides page={page} />
        <Legs rig={page.id} />
      </div>
      {changing ? (
        <ToWhich
          page={page}
          onClose={() => setChanging(false)}
          onPick={to => void navigate({ to: '/rigs/$rig/changeover/$to', params: { rig: page.id, to } })}
        />
      ) : null}
      {swapping && summary ? (
        <Swap item={swapping} today={summary.today} onClose={() => setSwapping(null)} />
      ) : null}
      {form && summary ? (
        <DeedDialog
          form={form}
          today={summary.today}
          onClose={() => setForm(null)}
          onDone={() => setArranging(false)}
        />
      ) : null}
    </div>
  );
}
