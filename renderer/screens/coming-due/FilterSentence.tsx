/** The filter as a sentence: each part is a control, and one box narrows by typing. */
import { Combobox, useCombobox } from '@mantine/core';
import { type Ref, useEffect, useImperativeHandle, useRef, useState } from 'react';
import { narrow } from '../../parts/picker/narrow.ts';
import { PickRows } from '../../parts/picker/PickRows.tsx';
import { KeyedBox } from '../../parts/words/KeyedBox.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { ALL_SLOTS, slotChoices, withChoice, wordsChoice } from './choices.ts';
import styles from './coming-due.module.css';
import { type DueSearch, type FilterNames, isFiltered, type Slot, slotWords, withoutLast } from './filter.ts';

export interface FilterHandle {
  focus(): void;
}

interface FilterProps {
  search: DueSearch;
  names: FilterNames;
  onChange: (search: DueSearch) => void;
  /** Done filtering: the focus goes to the table. */
  onLeave: () => void;
  handle: Ref<FilterHandle>;
}

export function FilterSentence({ search, names, onChange, onLeave, handle }: FilterProps) {
  const words = slotWords(search, names);
  const slot = (of: Exclude<Slot, 'text'> | 'by', label: string, said: string, set: boolean) => (
    <SlotControl
      key={of}
      label={label}
      said={said}
      set={set}
      choices={slotChoices(of, names)}
      chosen={chosenOf(search, of)}
      onChoose={choice => onChange(withChoice(search, choice))}
    />
  );
  return (
    <section className={styles.sentence} aria-label="Filter">
      <FilterBox search={search} names={names} onChange={onChange} onLeave={onLeave} handle={handle} />
      <span>Show</span>
      {slot('state', 'State', words.state, search.state !== undefined)}
      <span>for</span>
      {slot('family', 'Family', words.family, search.family !== undefined)}
      <span>on</span>
      {slot('unit', 'Unit', words.unit, search.unit !== undefined)}
      <span>at</span>
      {slot('station', 'Station', words.station, search.station !== undefined)}
      {search.requirement !== undefined ? (
        <>
          <span>by</span>
          {slot('requirement', 'Requirement', words.requirement, true)}
        </>
      ) : null}
      <span>due</span>
      {slot('within', 'Window', words.within, search.within !== undefined)}
      {search.text ? (
        <>
          <span>with</span>
          <button
            type="button"
            className={`${styles.slot} ${styles.set}`}
            onClick={() => onChange({ ...search, text: undefined })}
          >
            “{search.text}” ×<span className="seen-by-readers"> take these words out</span>
          </button>
        </>
      ) : null}
      <span>grouped</span>
      {slot('by', 'Grouping', search.by ? `by ${search.by}` : 'by nothing', search.by !== undefined)}
      <KeyHint of="g" />
      {isFiltered(search) ? (
        <button
          type="button"
          className={styles.clear}
          onClick={() => onChange(cleared(search))}
          aria-keyshortcuts="c"
        >
          Clear <KeyHint of="c" />
        </button>
      ) : null}
    </section>
  );
}

/** The filter as it is at the start; grouping and order stay. */
export const cleared = ({ by, sort, descending }: DueSearch): DueSearch => ({ by, sort, descending });

function chosenOf(search: DueSearch, of: Slot | 'by'): string[] {
  const value = search[of];
  if (value === undefined) return [`${of}=*`];
  return [value].flat().map(v => `${of}=${v}`);
}

interface SlotControlProps {
  label: string;
  said: string;
  set: boolean;
  choices: ReturnType<typeof slotChoices>;
  chosen: string[];
  onChoose: (choice: string) => void;
}

function SlotControl({ label, said, set, choices, chosen, onChoose }: SlotControlProps) {
  const box = useCombobox({
    onDropdownOpen: () => box.selectActiveOption(),
    onDropdownClose: () => box.resetSelectedOption(),
  });
  return (
    <Combobox
      store={box}
      width={260}
      position="bottom-start"
      onOptionSubmit={choice => {
        onChoose(choice);
        box.closeDropdown();
      }}
    >
      <Combobox.Target targetType="button" withExpandedAttribute>
        <button
          type="button"
          className={`${styles.slot} ${set ? styles.set : ''}`}
          aria-label={`${label}: ${said}`}
          onClick={() => box.toggleDropdown()}
          onBlur={() => box.closeDropdown()}
          onKeyDown={event => {
            if (event.key === 'Escape' && box.dropdownOpened) {
              event.stopPropagation();
              box.closeDropdown();
            }
          }}
        >
          {said}
        </button>
      </Combobox.Target>
      <Combobox.Dropdown>
        <PickRows options={choices.map(({ detail: _, ...c }) => c)} label={label} chosen={chosen} />
      </Combobox.Dropdown>
    </Combobox>
  );
}

/** Type to narrow, Enter to set, Backspace to take the last one out, Esc when done. */
function FilterBox({ search, names, onChange, onLeave, handle }: FilterProps) {
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  const box = useCombobox({ onDropdownClose: () => box.resetSelectedOption() });
  useImperativeHandle(
    handle,
    () => ({
      focus() {
        input.current?.focus();
        input.current?.select();
      },
    }),
    [],
  );
  const all = ALL_SLOTS.flatMap(slot => slotChoices(slot, names));
  const shown = text.trim() === '' ? all : [...narrow(all, text), wordsChoice(text.trim())];
  const first = shown[0]?.value;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first option is chosen anew whenever the list changes.
  useEffect(() => {
    if (text.trim() !== '' && first !== undefined) box.selectFirstOption();
    else box.resetSelectedOption();
  }, [text, first]);

  return (
    <Combobox
      store={box}
      width={340}
      position="bottom-start"
      onOptionSubmit={choice => {
        onChange(withChoice(search, choice));
        setText('');
      }}
    >
      <KeyedBox hint="f">
        <Combobox.Target withExpandedAttribute>
          <input
            ref={input}
            className={styles.filterBox}
            aria-label="Filter by typing"
            aria-keyshortcuts="f"
            placeholder="Filter"
            autoComplete="off"
            value={text}
            onFocus={() => box.openDropdown()}
            onClick={() => box.openDropdown()}
            onBlur={() => box.closeDropdown()}
            onChange={event => {
              setText(event.currentTarget.value);
              box.openDropdown();
            }}
            onKeyDown={event => {
              if (event.key === 'Backspace' && text === '') onChange(withoutLast(search));
              const done = event.key === 'Enter' && text === '' && box.getSelectedOptionIndex() < 0;
              if (event.key !== 'Escape' && !done) return;
              event.preventDefault();
              event.stopPropagation();
              setText('');
              box.closeDropdown();
              onLeave();
            }}
          />
        </Combobox.Target>
      </KeyedBox>
      <Combobox.Dropdown>
        <PickRows options={shown} label="Filters" />
      </Combobox.Dropdown>
    </Combobox>
  );
}
