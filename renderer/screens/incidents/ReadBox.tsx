/** One box for a scanner or for typing: Enter after each number; a place's name says where the next ones are read. */
import { type FormEvent, type RefObject, useState } from 'react';
import type { IncidentRig } from '../../../db/api-incidents.ts';
import { sameNumber } from '../../../domain/incident/numbers.ts';
import { focusHome } from '../../parts/focusHome.ts';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import styles from './incidents.module.css';
import type { Reads } from './useReads.ts';

interface ReadBoxProps {
  box: RefObject<HTMLInputElement | null>;
  rig: IncidentRig;
  reads: Reads;
}

export function ReadBox({ box, rig, reads }: ReadBoxProps) {
  const [text, setText] = useState('');
  const [at, setAt] = useState<string | null>(null);
  const [said, setSaid] = useState<{ wrong: boolean; words: string } | null>(null);
  const place = rig.places.find(p => p.id === at);
  const send = (event: FormEvent) => {
    event.preventDefault();
    const typed = text.trim();
    if (typed === '') return;
    setText('');
    const named = rig.places.find(p => p.name.toLowerCase() === typed.toLowerCase());
    if (named || typed.toLowerCase() === rig.name.toLowerCase()) {
      setAt(named?.id ?? null);
      setSaid({ wrong: false, words: named ? `Reading in ${named.name}.` : `Reading on ${rig.name}.` });
      return;
    }
    if (reads.of(rig.rig).some(r => sameNumber(r.number) === sameNumber(typed))) {
      setSaid({ wrong: true, words: `${typed} is in the list already.` });
      return;
    }
    reads.change(rig.rig, list => [...list, { number: typed, at, used: false }]);
    setSaid({ wrong: false, words: `${typed} read; ${reads.of(rig.rig).length} on ${rig.name}.` });
  };
  return (
    <form onSubmit={send} className={styles.box}>
      <label htmlFor="incident-number">
        Read on {rig.name}
        {place ? `, ${place.name}` : ''}
      </label>
      <input
        id="incident-number"
        ref={box}
        value={text}
        autoComplete="off"
        aria-invalid={said?.wrong === true}
        aria-describedby="incident-number-said"
        onChange={event => setText(event.currentTarget.value)}
        onBlur={() => void reads.keep()}
        onKeyDown={event => {
          if (event.key !== 'Escape') return;
          event.stopPropagation();
          focusHome();
        }}
      />
      <KeyHint of="c" />
      <span id="incident-number-said" role="status" className={said?.wrong ? styles.wrong : styles.soft}>
        {said?.words ??
          'Enter after each number. A place’s name alone says where the next ones are read; Escape leaves the box.'}
      </span>
    </form>
  );
}
