import { localStorageColorSchemeManager, MantineProvider } from '@mantine/core';
import { Notifications } from '@mantine/notifications';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { createClient } from '../api/client.ts';
import { KeysProvider } from '../parts/keys/keys.tsx';
import { createScreens } from './router.tsx';
import { theme } from './theme.ts';

const client = createClient();
const router = createScreens();
const colorScheme = localStorageColorSchemeManager({ key: 'baybook light or dark' });

export function App() {
  return (
    <MantineProvider theme={theme} colorSchemeManager={colorScheme} defaultColorScheme="auto">
      <QueryClientProvider client={client}>
        <KeysProvider>
          <RouterProvider router={router} />
          <Notifications position="bottom-center" limit={3} transitionDuration={0} />
        </KeysProvider>
      </QueryClientProvider>
    </MantineProvider>
  );
}
