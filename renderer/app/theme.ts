/** The kit's theme, emptied of its own look: every color, size and corner comes from our tokens. */
import { Combobox, createTheme, type MantineColorsTuple, Menu } from '@mantine/core';

/** Where lists of choices float: a place of the page that readers can find. */
const CHOICES = { portalProps: { target: '#choices' }, transitionProps: { duration: 0 } };

const tenTimes = (color: string) => Array.from({ length: 10 }, () => color) as unknown as MantineColorsTuple;

export const theme = createTheme({
  fontFamily: 'var(--face)',
  fontFamilyMonospace: 'var(--face-mono)',
  headings: { fontFamily: 'var(--face-narrow)', fontWeight: '600' },
  primaryColor: 'act',
  primaryShade: { light: 5, dark: 5 },
  colors: { act: tenTimes('var(--act)') },
  white: 'var(--paper-over)',
  black: 'var(--ink)',
  defaultRadius: 'var(--corner)',
  cursorType: 'pointer',
  respectReducedMotion: true,
  focusRing: 'auto',
  components: {
    Combobox: Combobox.extend({ defaultProps: CHOICES }),
    Menu: Menu.extend({ defaultProps: CHOICES }),
  },
});
