/** What comes from outside the screens: the host's own menu, and a sheet dropped anywhere on the window. */
import { useMantineColorScheme } from '@mantine/core';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef } from 'react';
import type { HostCommand, ScreenName } from '../../db/api.ts';
import { host } from '../api/transport.ts';
import { bringSheet, isSheet } from '../screens/import/brought.ts';
import { SCREENS } from './screens.ts';

export interface Openings {
  dialog(which: Extract<HostCommand, { do: 'dialog' }>['dialog']): void;
  search(): void;
}

export function useBrought(openings: Openings): void {
  const navigate = useNavigate();
  const router = useRouter();
  const { setColorScheme } = useMantineColorScheme();
  const show = (name: ScreenName) => {
    const screen = SCREENS.find(s => s.name === name);
    return screen ? navigate({ to: screen.to, search: {} }) : undefined;
  };
  const obey = (command: HostCommand) => {
    if (command.do === 'screen') void show(command.screen);
    else if (command.do === 'dialog') openings.dialog(command.dialog);
    else if (command.do === 'search') openings.search();
    else if (command.do === 'light') setColorScheme(command.scheme);
    else {
      bringSheet(new File([command.bytes], command.name));
      void show('import');
    }
  };
  const drop = (event: DragEvent) => {
    const file = event.dataTransfer?.files[0];
    if (!file || !isSheet(file.name)) return;
    // The import screen takes what is dropped on itself.
    const onItself = event.target instanceof Element && event.target.closest('main') !== null;
    if (onItself && router.state.location.pathname === '/import') return;
    bringSheet(file);
    void show('import');
  };
  // What they do is drawn anew each time; that they listen is not.
  const latest = useRef({ obey, drop });
  useEffect(() => {
    latest.current = { obey, drop };
  });
  useEffect(() => {
    const dropped = (event: DragEvent) => latest.current.drop(event);
    const stop = host().onCommand?.(command => latest.current.obey(command));
    window.addEventListener('drop', dropped);
    return () => {
      stop?.();
      window.removeEventListener('drop', dropped);
    };
  }, []);
}
