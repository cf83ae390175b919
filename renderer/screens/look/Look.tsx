/** The design language on one page: what the screens are made of, each part in each of its states. */
import { useDocumentTitle } from '@mantine/hooks';
import { useState } from 'react';
import { Action } from '../../parts/Action.tsx';
import { DateField, OneOf, TextField, Tick } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { Picker } from '../../parts/picker/Picker.tsx';
import { toast } from '../../parts/toast.ts';
import { Caution } from '../../parts/words/Caution.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { Empty, Notice } from '../../parts/words/NotReady.tsx';
import { Plate } from '../../parts/words/Plate.tsx';
import { Colors } from './Colors.tsx';
import styles from './look.module.css';
import { Marks } from './Marks.tsx';
import { Panels } from './Panels.tsx';
import { Tables } from './Tables.tsx';

export function Look() {
  useDocumentTitle('The design language · Baybook');
  return (
    <div className={styles.page}>
      <header>
        <h1>What is it all made of?</h1>
        <p className={styles.lead}>
          The journal, the plate, the tag: paper, ink, hairlines, one color to act with. Later screens use
          what is here and add nothing to it.
        </p>
      </header>
      <div className={styles.sheets}>
        <Marks />
        <Colors />
        <Type />
        <Tables />
        <Forms />
        <Panels />
        <Notices />
      </div>
    </div>
  );
}

const SIZES = [
  ['1', 'Labels, keys, notes', '13 px'],
  ['2', 'Interface and tables', '15 px'],
  ['3', 'What is read standing up', '18 px'],
  ['4', 'Panels and dialogs', '24 px'],
  ['5', 'The question of a screen', '31 px'],
] as const;

function Type() {
  return (
    <section aria-label="Type">
      <h2>Type</h2>
      <div className={styles.two}>
        <div>
          {SIZES.map(([n, use, px]) => (
            <p key={n} style={{ fontSize: `var(--size-${n})` }} className={styles.narrow}>
              {use}, {px}
            </p>
          ))}
        </div>
        <div>
          <p>Barlow for sentences. Figures line up:</p>
          <p className={styles.figures}>
            1,117 ft
            <br />
            3,808 ft
          </p>
          <p className={styles.narrow}>Barlow Semi Condensed for tables, labels and headings.</p>
          <p className="mono">IBM Plex Mono for numbers: 31-107, T904413, k3f9a-2x</p>
        </div>
        <div className={styles.plates}>
          <Plate number="31-107" large />
          <Plate number="C-114" />
          <span>
            Keys: <KeyHint of="f" /> <KeyHint of="Enter" /> <KeyHint of="Escape" />
          </span>
        </div>
      </div>
    </section>
  );
}

const USES = [
  { value: 'attack', label: 'Attack', detail: 'hose' },
  { value: 'supply', label: 'Supply', detail: 'hose' },
];

function Forms() {
  const [text, setText] = useState('300');
  const [date, setDate] = useState('30 Feb 2026');
  const [outcome, setOutcome] = useState('pass');
  const [tick, setTick] = useState(true);
  const [use, setUse] = useState('attack');
  return (
    <section aria-label="Forms">
      <h2>Forms</h2>
      <div className={styles.two}>
        <div className={formStyles.form}>
          <OneOf
            label="Outcome"
            value={outcome}
            onChange={setOutcome}
            choices={[
              { value: 'pass', title: 'Pass' },
              { value: 'fail', title: 'Fail' },
              { value: 'not completed', title: 'Not completed' },
            ]}
          />
          <TextField
            label="Test pressure"
            unit="psi"
            value={text}
            onChange={setText}
            note="The lowest reading of the hold."
          />
          <DateField
            label="Date it was done"
            value={date}
            onChange={setDate}
            today="2026-11-25"
            problem={{
              message: 'Test date 30 Feb 2026 does not exist.',
              todo: 'Enter the day the hold was finished.',
            }}
          />
        </div>
        <div className={formStyles.form}>
          <Picker
            label="Use"
            options={USES}
            value={USES.find(u => u.value === use) ?? null}
            onPick={option => setUse(option.value)}
          />
          <Tick
            label="Tag it out as well"
            checked={tick}
            onChange={setTick}
            note="A failure owes a retest."
          />
          <div className={styles.buttons}>
            <Action weight="main" hint="r" onClick={() => toast('31-107: Service test, passed.')}>
              Record
            </Action>
            <Action hint="m">Move</Action>
            <Action weight="quiet" hint="Escape">
              Cancel
            </Action>
            <Action disabled>Not now</Action>
          </div>
        </div>
        <Caution
          cautions={[
            'Bleed all air before raising pressure; compressed air in a burst hose is what injures.',
            'Strap the source end. Nobody in line with the free end, astride the hose or nearer than 15 ft.',
          ]}
        />
      </div>
    </section>
  );
}

function Notices() {
  return (
    <section aria-label="Nothing there">
      <h2>Nothing there, and why</h2>
      <div className={styles.two}>
        <Empty>
          <p>Nothing fits this filter. Press c to clear it.</p>
        </Empty>
        <Notice
          problem={{
            code: 'unreachable',
            message: 'Baybook’s store does not answer.',
            todo: 'Nothing was lost. Close this window and start Baybook again.',
            field: null,
          }}
        />
        <p className={styles.lead}>
          While an answer is on its way nothing is said for a quarter second, then “Reading the book…”.
        </p>
      </div>
    </section>
  );
}
