import { fireEvent, screen } from '@testing-library/react';
import { useState } from 'react';
import { expect, it, vi } from 'vitest';
import { Dialog } from '../../renderer/parts/Dialog.tsx';
import { useKeyboard, useKeys } from '../../renderer/parts/keys/keys.tsx';
import { draw, fakeHost } from './browser.tsx';

const press = (key: string, on: Element = document.body) => fireEvent.keyDown(on, { key });

function Screen({ onRecord }: { onRecord: () => void }) {
  const [open, setOpen] = useState(false);
  const { setLetters } = useKeyboard();
  useKeys('Screen', [
    { key: 'r', label: 'Record', run: onRecord },
    { key: 'd', label: 'Dialog', run: () => setOpen(true) },
  ]);
  return (
    <>
      <input aria-label="Search" />
      <button type="button" onClick={() => setLetters(false)}>
        No letters
      </button>
      {open ? (
        <Dialog title="Over it" onClose={() => setOpen(false)}>
          <p>Words</p>
        </Dialog>
      ) : null}
    </>
  );
}

it('runs a key of the screen, but not while somebody types', () => {
  fakeHost({});
  const onRecord = vi.fn();
  draw(<Screen onRecord={onRecord} />);
  press('r');
  expect(onRecord).toHaveBeenCalledTimes(1);
  press('r', screen.getByLabelText('Search'));
  expect(onRecord).toHaveBeenCalledTimes(1);
});

it('leaves the keys of the screen dead under a dialog, and alive again after Esc', async () => {
  fakeHost({});
  const onRecord = vi.fn();
  draw(<Screen onRecord={onRecord} />);
  press('d');
  await screen.findByText('Over it');
  press('r');
  expect(onRecord).not.toHaveBeenCalled();
  press('Escape');
  expect(screen.queryByText('Over it')).toBeNull();
  press('r');
  expect(onRecord).toHaveBeenCalledTimes(1);
});

it('takes no single letters where they are switched off, as WCAG 2.2, 2.1.4 asks', () => {
  fakeHost({});
  const onRecord = vi.fn();
  draw(<Screen onRecord={onRecord} />);
  fireEvent.click(screen.getByText('No letters'));
  press('r');
  expect(onRecord).not.toHaveBeenCalled();
});
