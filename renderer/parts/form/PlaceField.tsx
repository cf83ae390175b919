import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { useAsk } from '../../api/ask.ts';
import { narrow, type PickOption } from '../picker/narrow.ts';
import { Picker } from '../picker/Picker.tsx';
import type { FieldProblem } from './Field.tsx';

interface PlaceFieldProps {
  label: string;
  onChange: (place: string) => void;
  problem?: FieldProblem | undefined;
  required?: boolean | undefined;
  first?: boolean;
  /** What is chosen already. */
  chosen?: { place: string; name: string } | undefined;
}

/** A place of the department, found by the words of its whole name. */
export function PlaceField({
  label,
  onChange,
  problem,
  required = false,
  first = false,
  chosen,
}: PlaceFieldProps) {
  const [text, setText] = useState('');
  const [asked] = useDebouncedValue(text, 120);
  const [picked, setPicked] = useState<PickOption | null>(
    chosen ? { value: chosen.place, label: chosen.name } : null,
  );
  const places = useAsk('places.list', { text: asked, limit: 40 }, { keep: true });
  const found = (places.data ?? []).map((p): PickOption => ({ value: p.id, label: p.path, detail: p.kind }));
  // Until what is typed has been asked for, only what fits it already is offered: Enter must not take what was
  // offered for a letter less.
  const isFresh = asked === text && !places.isPlaceholderData;
  const options = isFresh ? found : narrow(found, text);
  return (
    <Picker
      label={label}
      options={options}
      value={picked}
      onText={setText}
      onPick={option => {
        setPicked(option);
        onChange(option.value);
      }}
      problem={problem}
      required={required}
      first={first}
    />
  );
}
