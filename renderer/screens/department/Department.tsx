import { useDocumentTitle } from '@mantine/hooks';
import { Link, useNavigate } from '@tanstack/react-router';
import { useKeys } from '../../parts/keys/keys.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { About } from './About.tsx';
import { Agencies } from './Agencies.tsx';
import { Backup } from './Backup.tsx';
import { Counts } from './Counts.tsx';
import styles from './department.module.css';
import { Export } from './Export.tsx';
import { Members } from './Members.tsx';
import { Places } from './Places.tsx';
import { Settings } from './Settings.tsx';

export const PARTS = ['places', 'members', 'agencies', 'settings', 'backup', 'export', 'about'] as const;
export type Part = (typeof PARTS)[number];

/** What the address says: which part of the department is shown. */
export interface DepartmentSearch {
  part?: Part;
}

export function readDepartmentSearch(raw: Record<string, unknown>): DepartmentSearch {
  const part = PARTS.find(p => p === raw.part);
  return part ? { part } : {};
}

const SHOWN: Readonly<
  Record<Part, { title: string; key: string; question: string; body: () => React.JSX.Element }>
> = {
  places: {
    title: 'Places',
    key: 'h',
    question: 'Who and where: which stations, rigs and places?',
    body: Places,
  },
  members: { title: 'Members', key: 'm', question: 'Who is there, and what may each do?', body: Members },
  agencies: {
    title: 'Agencies',
    key: 'a',
    question: 'Which agencies test for us, and until when may they?',
    body: Agencies,
  },
  settings: { title: 'Settings', key: 's', question: 'What holds for the whole department?', body: Settings },
  backup: {
    title: 'Backup',
    key: 'b',
    question: 'Is there a safe copy, and what does it hold?',
    body: Backup,
  },
  export: { title: 'Export', key: 'x', question: 'How is everything taken out?', body: Export },
  about: {
    title: 'About this file',
    key: 'i',
    question: 'Which file is this, and is its ledger whole?',
    body: About,
  },
};

/** Who and where? */
export function Department({ search }: { search: DepartmentSearch }) {
  useDocumentTitle('Department · Baybook');
  const navigate = useNavigate();
  const part = search.part ?? 'places';
  useKeys(
    'Department',
    PARTS.map(p => ({
      key: SHOWN[p].key,
      label: SHOWN[p].title,
      run: () => void navigate({ to: '/department', search: { part: p } }),
    })),
  );
  const Body = SHOWN[part].body;
  return (
    <div className={styles.screen}>
      <header className={styles.header}>
        <h1>{SHOWN[part].question}</h1>
        <Counts />
      </header>
      <nav className={styles.parts} aria-label="Parts of the department">
        {PARTS.map(p => (
          <Link
            key={p}
            to="/department"
            search={{ part: p }}
            activeProps={{}}
            className={p === part ? styles.here : undefined}
            aria-current={p === part ? 'page' : undefined}
            aria-keyshortcuts={SHOWN[p].key}
          >
            {SHOWN[p].title} <KeyHint of={SHOWN[p].key} />
          </Link>
        ))}
      </nav>
      <Body />
    </div>
  );
}
