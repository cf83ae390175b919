import { Combobox } from '@mantine/core';
import type { PickOption } from './narrow.ts';
import styles from './picker.module.css';

interface PickRowsProps {
  options: readonly PickOption[];
  /** What is chosen from, for readers. */
  label: string;
  chosen?: string | readonly string[] | undefined;
  empty?: string;
}

/** The options of a picker, under their groups' names. */
export function PickRows({
  options,
  label,
  chosen = [],
  empty = 'Nothing fits these words.',
}: PickRowsProps) {
  const groups = new Map<string, PickOption[]>();
  for (const option of options) {
    const group = option.group ?? '';
    groups.set(group, [...(groups.get(group) ?? []), option]);
  }
  const row = (option: PickOption) => (
    <Combobox.Option key={option.value} value={option.value} active={[chosen].flat().includes(option.value)}>
      <span>{option.label}</span>
      {option.detail ? <span className={styles.detail}>{option.detail}</span> : null}
    </Combobox.Option>
  );
  return (
    <Combobox.Options aria-label={label}>
      {options.length === 0 ? <Combobox.Empty>{empty}</Combobox.Empty> : null}
      {[...groups].map(([group, members]) =>
        group === '' ? (
          members.map(row)
        ) : (
          <Combobox.Group key={group} label={group}>
            {members.map(row)}
          </Combobox.Group>
        ),
      )}
    </Combobox.Options>
  );
}
