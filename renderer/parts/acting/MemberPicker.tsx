import type { FieldProblem } from '../form/Field.tsx';
import type { PickOption } from '../picker/narrow.ts';
import { Picker } from '../picker/Picker.tsx';
import { useActing } from './acting.tsx';

/** Choose who acts, by name or member number. */
export function MemberPicker({
  label,
  problem,
  first = false,
  onChosen,
}: {
  label: string;
  problem?: FieldProblem | undefined;
  first?: boolean;
  onChosen?: () => void;
}) {
  const { members = [], member, choose } = useActing();
  const options = members.map(
    (m): PickOption => ({
      value: m.id,
      label: m.name,
      detail: [m.position, m.number].filter(Boolean).join(', '),
    }),
  );
  return (
    <Picker
      label={label}
      options={options}
      value={options.find(o => o.value === member?.id) ?? null}
      onPick={option => {
        choose(option.value);
        onChosen?.();
      }}
      problem={problem}
      first={first}
      required
    />
  );
}
