import { useDocumentTitle } from '@mantine/hooks';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { ActAnswer, ImportPreview } from '../../../db/api.ts';
import { useAsk } from '../../api/ask.ts';
import { answered, type ProblemError } from '../../api/problem.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { saveCsv } from '../../parts/saveFile.ts';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { onBrought, takeBrought } from './brought.ts';
import { Done } from './Done.tsx';
import { Drop } from './Drop.tsx';
import styles from './import.module.css';
import { Columns, DayOrders, LeftOut, NewPlaces, Permits, rowsWord } from './Mend.tsx';
import { Rows } from './Rows.tsx';
import {
  type Accepted,
  acceptOf,
  familyOfName,
  importRequest,
  type Mending,
  readSheet,
  type SheetFile,
  withMapping,
} from './sheet.ts';

const NOTHING_SAID: Accepted = { refusedPlaces: new Set(), confirmedPermits: new Set() };

/** What is in the sheet, and what will it become? */
export function ImportScreen() {
  useDocumentTitle('Import · Baybook');
  const words = useAsk('vocabulary.list', {});
  const families = words.data?.families ?? [];
  const [file, setFile] = useState<SheetFile | null>(null);
  const [unread, setUnread] = useState<string | null>(null);
  const [mending, setMending] = useState<Mending>({ family: '', mapping: {}, dayOrder: {} });
  const [accepted, setAccepted] = useState<Accepted>(NOTHING_SAID);
  const [signing, setSigning] = useState(false);
  const [done, setDone] = useState<{ answer: ActAnswer; preview: ImportPreview } | null>(null);
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const files = useRef(0);

  const preview = useQuery<ImportPreview, ProblemError>({
    queryKey: ['import.preview', { file: file?.key, ...mending }],
    queryFn: async () => {
      if (!file) throw new Error('No sheet is at hand.');
      return answered(await host().ask('import.preview', importRequest(file, mending)));
    },
    enabled: file !== null && mending.family !== '' && done === null,
    placeholderData: keepPreviousData,
  });

  const take = useCallback(
    async (chosen: File) => {
      setUnread(null);
      setDone(null);
      try {
        const sheet = await readSheet(chosen, String(++files.current));
        setAccepted(NOTHING_SAID);
        setMending({
          family: familyOfName(chosen.name, families) ?? families[0]?.id ?? '',
          mapping: {},
          dayOrder: {},
        });
        setFile(sheet);
      } catch (error) {
        setUnread(error instanceof Error ? error.message : String(error));
      }
    },
    [families],
  );
  useEffect(() => {
    // Without the families its name says nothing yet.
    if (families.length === 0) return;
    const look = () => {
      const brought = takeBrought();
      if (brought) void take(brought);
    };
    look();
    return onBrought(look);
  }, [families, take]);
  const putAway = () => {
    setFile(null);
    setDone(null);
  };

  if (done && file)
    return (
      <Done name={file.name} answer={done.answer} preview={done.preview} today={today} onAnother={putAway} />
    );
  if (!file) return <Drop onFile={take} problem={unread} />;
  return (
    <Sheet
      file={file}
      preview={preview}
      families={families}
      mending={mending}
      onMend={setMending}
      accepted={accepted}
      onAccepted={setAccepted}
      onPutAway={putAway}
      onFile={take}
      onSign={() => setSigning(true)}
    >
      {signing && preview.data ? (
        <DeedDialog
          form={{
            title: `Take in ${file.name}`,
            verb: `Take in ${rowsWord(preview.data.accepted)}`,
            initial: {},
            rows: () => [],
            deeds: () => [
              {
                action: 'import.commit',
                body: {
                  ...importRequest(file, mending),
                  accept: acceptOf(preview.data.offers, accepted),
                },
              },
            ],
            done: () => `${file.name} was taken in.`,
          }}
          today={today}
          onClose={() => setSigning(false)}
          onDone={answer => setDone({ answer, preview: preview.data })}
        />
      ) : null}
    </Sheet>
  );
}

interface SheetProps {
  file: SheetFile;
  preview: ReturnType<typeof useQuery<ImportPreview, ProblemError>>;
  families: readonly { id: string; plural: string }[];
  mending: Mending;
  onMend: (mending: Mending) => void;
  accepted: Accepted;
  onAccepted: (accepted: Accepted) => void;
  onPutAway: () => void;
  onFile: (file: File) => void;
  onSign: () => void;
  children: React.ReactNode;
}

/** The sheet on the table: left what a person can mend, right what each row becomes. */
function Sheet(props: SheetProps) {
  const {
    file,
    preview,
    families,
    mending,
    onMend,
    accepted,
    onAccepted,
    onPutAway,
    onFile,
    onSign,
    children,
  } = props;
  const [onlyProblems, setOnlyProblems] = useState(false);
  const read = preview.status === 'success' ? preview.data : undefined;
  const canAccept = read !== undefined && read.accepted > 0 && !preview.isPlaceholderData;
  const saveRefused = () =>
    read && saveCsv(`${file.name.replace(/\.[^.]+$/, '')}-to-mend.csv`, read.refusedCsv);
  useKeys('Import', [
    { key: 'y', label: 'Accept: take in what is read', run: () => canAccept && onSign() },
    { key: 'p', label: 'Only rows with problems', run: () => setOnlyProblems(now => !now) },
    { key: 'v', label: 'Save the refused rows, to mend', run: () => saveRefused() },
    { key: 'Escape', label: 'Put the sheet away', run: onPutAway },
  ]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file may be dropped anywhere; choosing one has its own button.
    <div
      className={styles.screen}
      onDrop={event => {
        const dropped = event.dataTransfer.files[0];
        if (dropped) onFile(dropped);
      }}
    >
      <header className={styles.header}>
        <h1>What is in the sheet, and what will it become?</h1>
        <p className={styles.numbers}>
          <span className="mono">{file.name}</span>
          {read ? <Numbers read={read} /> : null}
        </p>
      </header>
      <div className={styles.bar}>
        <label>
          Read it as{' '}
          <select
            className={styles.familySelect}
            value={mending.family}
            onChange={event => onMend({ family: event.currentTarget.value, mapping: {}, dayOrder: {} })}
          >
            {families.map(f => (
              <option key={f.id} value={f.id}>
                {f.plural}
              </option>
            ))}
          </select>
        </label>
        {read ? <span>Headings on line {read.headingLine}.</span> : null}
        {read?.titleDate ? (
          <span>
            Results are taken to be of {read.titleDate.text} (line {read.titleDate.line}).
          </span>
        ) : null}
        <span className={styles.barActions}>
          <Action weight="quiet" hint="Escape" onClick={onPutAway}>
            Put it away
          </Action>
          <Action hint="v" onClick={saveRefused} disabled={!read || read.refused === 0}>
            Save refused rows
          </Action>
          <Action weight="main" hint="y" onClick={onSign} disabled={!canAccept}>
            {read ? `Accept ${rowsWord(read.accepted)}` : 'Accept'}
          </Action>
        </span>
      </div>
      {read === undefined ? (
        <div className={styles.waits}>
          <NotReady loaded={preview} />
        </div>
      ) : (
        <>
          <div className={styles.mend}>
            <DayOrders
              questions={read.questions}
              answers={mending.dayOrder}
              onAnswer={(column, order) =>
                onMend({ ...mending, dayOrder: { ...mending.dayOrder, [String(column)]: order } })
              }
            />
            <Permits offers={read.offers} accepted={accepted} onAccepted={onAccepted} />
            <Columns
              columns={read.columns}
              fields={read.fields}
              onMap={(column, field) => onMend(withMapping(mending, read.columns, column, field))}
            />
            <NewPlaces offers={read.offers} accepted={accepted} onAccepted={onAccepted} />
            <LeftOut lines={read.leftOut} />
          </div>
          <Rows preview={read} onlyProblems={onlyProblems} onOnlyProblems={setOnlyProblems} />
        </>
      )}
      {children}
    </div>
  );
}

function Numbers({ read }: { read: ImportPreview }) {
  const count = (meets: string) => read.rows.filter(r => r.ok && r.meets === meets).length;
  const conflicts = read.rows.filter(r => r.conflict.length > 0).length;
  const parts = [
    [read.rows.length, 'rows'],
    [count('new'), 'new'],
    [count('known'), 'add records to what is known'],
    [count('same'), 'add nothing'],
    [conflicts, 'in conflict'],
    [read.refused - conflicts, 'refused'],
  ] as const;
  return (
    <>
      {parts
        .filter(([n], i) => i === 0 || n > 0)
        .map(([n, what]) => (
          <span key={what}>
            <b>{n.toLocaleString('en-US')}</b> {what}
          </span>
        ))}
    </>
  );
}
