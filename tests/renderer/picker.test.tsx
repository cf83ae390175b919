import { fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { Picker } from '../../renderer/parts/picker/Picker.tsx';
import { draw } from './browser.tsx';

it('says so where what was typed is not in the list, and takes nothing', () => {
  const picked: string[] = [];
  draw(
    <Picker
      label="State"
      value={null}
      options={[{ value: 'CO', label: 'Colorado' }]}
      onPick={o => picked.push(o.value)}
    />,
  );
  const field = screen.getByRole('combobox', { name: 'State' });
  fireEvent.change(field, { target: { value: 'Atlantis' } });
  fireEvent.blur(field);
  expect(screen.getByRole('alert').textContent).toContain('“Atlantis” is not in the list');
  expect(picked).toEqual([]);
  fireEvent.change(field, { target: { value: 'Col' } });
  expect(screen.queryByRole('alert')).toBeNull();
});
