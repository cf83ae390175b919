/** Around every screen: the rail, the search, who acts. */
import { Link, Outlet, useLocation, useNavigate, useRouter } from '@tanstack/react-router';
import { useRef, useState } from 'react';
import type { DepartmentSummary } from '../../db/api.ts';
import { useDayTurn } from '../api/useDayTurn.ts';
import { Action } from '../parts/Action.tsx';
import { useActing } from '../parts/acting/acting.tsx';
import { MemberPicker } from '../parts/acting/MemberPicker.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { KeysDialog } from '../parts/keys/KeysDialog.tsx';
import { useKeys } from '../parts/keys/keys.tsx';
import { KeyHint } from '../parts/words/KeyHint.tsx';
import { HelpBook } from '../screens/help/HelpBook.tsx';
import { Bay } from './Bay.tsx';
import { Display } from './Display.tsx';
import { Files } from './Files.tsx';
import { Search, type SearchHandle } from './Search.tsx';
import { SCREENS } from './screens.ts';
import styles from './shell.module.css';
import { useBrought } from './useBrought.ts';

type Open = 'keys' | 'who' | 'files' | 'display' | 'help' | null;

export function Shell({ summary, alive }: { summary: DepartmentSummary; alive: boolean }) {
  const navigate = useNavigate();
  const router = useRouter();
  const at = useLocation({ select: location => location.pathname });
  const search = useRef<SearchHandle>(null);
  const [open, setOpen] = useState<Open>(null);
  const close = () => setOpen(null);
  useDayTurn(summary.zone);
  useBrought({ dialog: setOpen, search: () => search.current?.focus() });
  useKeys('Everywhere', [
    { key: '/', label: 'Search', run: () => search.current?.focus() },
    ...SCREENS.map(({ key, title, to }) => ({
      key,
      label: title,
      run: () => void navigate({ to, search: {} }),
    })),
    { key: 'w', label: 'Who acts', run: () => setOpen('who') },
    { key: '0', label: 'Department files', run: () => setOpen('files') },
    { key: 'F2', label: 'Light, dark, rows, keys', run: () => setOpen('display') },
    {
      key: 'F1',
      label: 'Help with this screen',
      run: () => setOpen('help'),
      whileTyping: true,
      underDialogs: true,
    },
    { key: '?', label: 'All keys', run: () => setOpen('keys') },
  ]);
  return (
    <div className={styles.shell}>
      <nav className={styles.rail} aria-label="Screens">
        <div className={styles.brand}>
          <Bay />
          <span>Baybook</span>
        </div>
        <p className={styles.department}>{summary.name}</p>
        <ul className={styles.screens}>
          {SCREENS.map(({ to, key, title, holds = [] }) => (
            <li key={to}>
              <Link
                to={to}
                search={{}}
                activeOptions={{ includeSearch: false }}
                aria-keyshortcuts={key}
                {...(holds.some(h => at.startsWith(h)) ? { 'data-holds': true } : {})}
              >
                {title} <KeyHint of={key} />
              </Link>
            </li>
          ))}
        </ul>
        <ul className={styles.railFoot}>
          <RailButton hint="F1" onClick={() => setOpen('help')}>
            Help
          </RailButton>
          <RailButton hint="0" onClick={() => setOpen('files')}>
            Files
          </RailButton>
          <RailButton hint="F2" onClick={() => setOpen('display')}>
            Display
          </RailButton>
          <RailButton hint="?" onClick={() => setOpen('keys')}>
            Keys
          </RailButton>
        </ul>
      </nav>
      <div className={styles.page}>
        <section className={styles.topBar} aria-label="Search and who acts">
          <Search handle={search} />
          <Who onOpen={() => setOpen('who')} />
          {summary.isDemo ? (
            <p className={styles.demo}>
              Demo department: {summary.name} (invented).{' '}
              <button type="button" onClick={() => setOpen('files')}>
                Start your own department
              </button>
            </p>
          ) : null}
          {alive ? null : (
            <p className={styles.lost} role="alert">
              The store is not answering. What is shown may be old. If it stays so, start Baybook again.
            </p>
          )}
        </section>
        <main className={styles.main}>
          <Outlet />
        </main>
      </div>
      {open === 'keys' ? <KeysDialog onClose={close} /> : null}
      {open === 'help' ? <HelpBook from={placeOf(router.state.location)} onClose={close} /> : null}
      {open === 'display' ? <Display onClose={close} /> : null}
      {open === 'who' ? <WhoDialog onClose={close} /> : null}
      {open === 'files' ? (
        <Dialog title="Department files" onClose={close}>
          <Files onClose={close} />
        </Dialog>
      ) : null}
    </div>
  );
}

/** Where help is asked for: the screen, and the rule whose why is open there. */
function placeOf({ pathname, search }: { pathname: string; search: Record<string, unknown> }) {
  const rule = [search.rule, search.duty, search.requirement].find(said => typeof said === 'string');
  return { path: pathname, ...(typeof rule === 'string' ? { rule } : {}) };
}

function RailButton({ hint, onClick, children }: { hint: string; onClick: () => void; children: string }) {
  return (
    <li>
      <button type="button" onClick={onClick} aria-keyshortcuts={hint}>
        {children} <KeyHint of={hint} />
      </button>
    </li>
  );
}

function Who({ onOpen }: { onOpen: () => void }) {
  const { member } = useActing();
  return (
    <Action weight="quiet" hint="w" onClick={onOpen}>
      {member ? `Acting as ${member.name}` : 'Nobody acts yet'}
    </Action>
  );
}

function WhoDialog({ onClose }: { onClose: () => void }) {
  return (
    <Dialog title="Who acts?" onClose={onClose}>
      <MemberPicker label="Name or number" first onChosen={onClose} />
      <p className={styles.whoNote}>
        Looking needs nobody. Who acts signs each deed, with a PIN where one is set, until this window closes.
      </p>
      <Action weight="quiet" hint="Escape" onClick={onClose}>
        Close
      </Action>
    </Dialog>
  );
}
