/** A field that is filled by choosing: type to narrow, arrows, Enter. */
import { Combobox, useCombobox } from '@mantine/core';
import { useEffect, useId, useState } from 'react';
import { Field, type FieldProblem } from '../form/Field.tsx';
import fieldStyles from '../form/form.module.css';
import { narrow, type PickOption } from './narrow.ts';
import { PickRows } from './PickRows.tsx';

interface PickerProps {
  label: string;
  note?: string | undefined;
  problem?: FieldProblem | undefined;
  value: PickOption | null;
  onPick: (option: PickOption) => void;
  /** All options, or what `onText` has brought. */
  options: readonly PickOption[];
  /** Hear what is typed, where the options are asked of the store; they are then taken as narrowed. */
  onText?: (text: string) => void;
  required?: boolean;
  /** The dialog's first focus. */
  first?: boolean;
}

export function Picker({
  label,
  note,
  problem,
  value,
  onPick,
  options,
  onText,
  required,
  first,
}: PickerProps) {
  const id = useId();
  const [text, setText] = useState<string | null>(null);
  /** What was typed and is not in the list, told until something else is typed or chosen. */
  const [unknown, setUnknown] = useState<string | null>(null);
  const box = useCombobox({ onDropdownClose: () => box.resetSelectedOption() });
  const shown = onText || text === null ? options : narrow(options, text);

  const firstShown = shown[0]?.value;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first option is chosen anew whenever the list changes.
  useEffect(() => {
    if (text !== null && firstShown !== undefined) box.selectFirstOption();
  }, [text, firstShown]);

  const close = () => {
    setText(null);
    onText?.('');
    box.closeDropdown();
  };
  const leave = () => {
    if (text?.trim() && shown.length === 0) setUnknown(text.trim());
    close();
  };
  const pick = (option: PickOption | undefined) => {
    setUnknown(null);
    close();
    if (option) onPick(option);
  };
  return (
    <Field
      id={id}
      label={label}
      note={note}
      problem={problem ?? (unknown === null ? undefined : notInList(unknown))}
      required={required}
    >
      {described => (
        <Combobox store={box} onOptionSubmit={picked => pick(shown.find(o => o.value === picked))}>
          <Combobox.Target withExpandedAttribute>
            <input
              {...described}
              id={id}
              className={fieldStyles.input}
              value={text ?? value?.label ?? ''}
              autoComplete="off"
              data-autofocus={first || undefined}
              // What is chosen already is typed over, not added to.
              onFocus={event => event.currentTarget.select()}
              onClick={() => box.openDropdown()}
              onChange={event => {
                setUnknown(null);
                setText(event.currentTarget.value);
                onText?.(event.currentTarget.value);
                box.openDropdown();
              }}
              onBlur={leave}
              onKeyDown={event => {
                if (event.key === 'Escape' && box.dropdownOpened) {
                  event.stopPropagation();
                  close();
                }
                // Typed faster than the list is drawn: the first that fits is taken all the same.
                if (event.key === 'Enter' && text !== null && box.getSelectedOptionIndex() === -1) {
                  event.preventDefault();
                  if (shown[0]) pick(shown[0]);
                }
              }}
            />
          </Combobox.Target>
          <Combobox.Dropdown hidden={shown.length === 0 && text === null}>
            <PickRows options={shown} label={label} chosen={value?.value} />
          </Combobox.Dropdown>
        </Combobox>
      )}
    </Field>
  );
}

const notInList = (typed: string): FieldProblem => ({
  message: `“${typed}” is not in the list.`,
  todo: 'Nothing was taken. Choose from the list: the arrow keys show all of it.',
});
