/** How the program shows itself on this computer: light or dark, row height, letter keys. */
import { useMantineColorScheme } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { Action } from '../parts/Action.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { OneOf, Tick } from '../parts/form/fields.tsx';
import formStyles from '../parts/form/form.module.css';
import { type Density, setDensity, useDensity } from '../parts/grid/density.ts';
import { useKeyboard } from '../parts/keys/keys.tsx';

export function Display({ onClose }: { onClose: () => void }) {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  const density = useDensity();
  const { letters, setLetters } = useKeyboard();
  return (
    <Dialog title="Display" onClose={onClose}>
      <div className={formStyles.form}>
        <OneOf
          label="Light or dark"
          value={colorScheme}
          onChange={scheme => setColorScheme(scheme as 'light' | 'dark' | 'auto')}
          choices={[
            { value: 'light', title: 'Light' },
            { value: 'dark', title: 'Dark' },
            { value: 'auto', title: 'As the computer' },
          ]}
          first
        />
        <OneOf
          label="Rows of tables"
          value={density}
          onChange={value => setDensity(value as Density)}
          choices={[
            { value: 'comfortable', title: 'Comfortable' },
            { value: 'dense', title: 'Dense' },
          ]}
        />
        <Tick
          label="Letter keys"
          checked={letters}
          onChange={setLetters}
          note="Off: single letters do nothing, for those who speak or stumble onto keys. Arrows, Enter, Tab and Esc always work."
        />
        <div className={formStyles.foot}>
          <Link to="/look" onClick={onClose}>
            The design language
          </Link>
          <Action weight="main" hint="Escape" onClick={onClose}>
            Close
          </Action>
        </div>
      </div>
    </Dialog>
  );
}
