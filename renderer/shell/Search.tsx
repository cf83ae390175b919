/** One box, everywhere: a number, serial, place, member, requirement or word goes straight there. */
import { Combobox, useCombobox } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { type Ref, useEffect, useImperativeHandle, useRef, useState } from 'react';
import type { SearchHit } from '../../db/api.ts';
import { useAsk } from '../api/ask.ts';
import { useActing } from '../parts/acting/acting.tsx';
import type { PickOption } from '../parts/picker/narrow.ts';
import { PickRows } from '../parts/picker/PickRows.tsx';
import { toast } from '../parts/toast.ts';
import { KeyedBox } from '../parts/words/KeyedBox.tsx';
import styles from './shell.module.css';

export interface SearchHandle {
  focus(): void;
}

const GROUPS: Readonly<Record<SearchHit['kind'], string>> = {
  item: 'Things',
  unit: 'Units',
  rig: 'Rigs',
  station: 'Stations',
  place: 'Places',
  requirement: 'Requirements',
  member: 'Members',
};

const optionOf = (hit: SearchHit): PickOption => ({
  value: `${hit.kind} ${hit.id}`,
  label: hit.label,
  detail: hit.detail,
  group: GROUPS[hit.kind],
});

export function Search({ handle }: { handle: Ref<SearchHandle> }) {
  const go = useGo();
  const input = useRef<HTMLInputElement>(null);
  const from = useRef<Element | null>(null);
  const [text, setText] = useState('');
  const [asked] = useDebouncedValue(text.trim(), 60);
  const [entered, setEntered] = useState(false);
  const hits = useAsk('search.all', { text: asked, limit: 14 }, { when: asked !== '', keep: true });
  const box = useCombobox({ onDropdownClose: () => box.resetSelectedOption() });

  useImperativeHandle(
    handle,
    () => ({
      focus() {
        from.current = document.activeElement;
        input.current?.focus();
        input.current?.select();
      },
    }),
    [],
  );

  const isFresh = asked === text.trim() && !hits.isPlaceholderData && !hits.isFetching;
  const found = asked === '' ? [] : (hits.data ?? []);
  const leave = () => {
    setText('');
    setEntered(false);
    box.closeDropdown();
  };
  const choose = (value: string) => {
    const hit = found.find(h => `${h.kind} ${h.id}` === value);
    leave();
    input.current?.blur();
    go(hit ?? text.trim());
  };
  const first = found[0];
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first hit is chosen anew whenever the hits change.
  useEffect(() => {
    if (text.trim() !== '' && isFresh) box.selectFirstOption();
    // Enter came before the answer did: it is for the first hit of what was typed.
    if (entered && isFresh) choose(first ? `${first.kind} ${first.id}` : '');
  }, [isFresh, entered, text, first]);

  const options = found.map(optionOf);
  if (text.trim() !== '')
    options.push({ value: 'words', label: `All duties with “${text.trim()}”`, group: 'Coming due' });
  return (
    <Combobox store={box} onOptionSubmit={choose} position="bottom-start" width={560}>
      <KeyedBox hint="/">
        <Combobox.Target withExpandedAttribute>
          <input
            ref={input}
            className={styles.search}
            type="text"
            aria-label="Search for a number, serial, place or requirement"
            aria-keyshortcuts="/"
            placeholder="Number, serial, place or requirement"
            autoComplete="off"
            value={text}
            onChange={event => {
              setText(event.currentTarget.value);
              setEntered(false);
              box.openDropdown();
            }}
            onFocus={() => text !== '' && box.openDropdown()}
            onBlur={() => box.closeDropdown()}
            onKeyDown={event => {
              if (event.key === 'Enter' && text.trim() !== '' && !isFresh) {
                event.preventDefault();
                event.stopPropagation();
                setEntered(true);
              }
              if (event.key !== 'Escape') return;
              event.stopPropagation();
              leave();
              if (from.current instanceof HTMLElement) from.current.focus();
              else input.current?.blur();
            }}
          />
        </Combobox.Target>
      </KeyedBox>
      <Combobox.Dropdown hidden={text.trim() === ''}>
        <PickRows options={options} label="Found" />
      </Combobox.Dropdown>
    </Combobox>
  );
}

/** Where a hit leads: a thing to its page, the rest to what is due on it; words to the list with those words. */
function useGo(): (hit: SearchHit | string) => void {
  const navigate = useNavigate();
  const { choose } = useActing();
  return hit => {
    if (typeof hit === 'string') return void navigate({ to: '/due', search: { text: hit, state: 'all' } });
    switch (hit.kind) {
      case 'item':
        return void navigate({ to: '/thing/$item', params: { item: hit.id } });
      case 'unit':
        return void navigate({ to: '/readiness', search: { unit: hit.id } });
      case 'rig':
        return void navigate({ to: '/rigs/$rig', params: { rig: hit.id }, search: {} });
      case 'station':
        return void navigate({ to: '/due', search: { station: hit.id } });
      case 'requirement':
        return void navigate({ to: '/rules', search: { rule: hit.id } });
      case 'member':
        choose(hit.id);
        return toast(`Acting as ${hit.label}.`);
      case 'place':
        return void navigate({ to: '/due', search: { text: hit.label, state: 'all' } });
    }
  };
}
