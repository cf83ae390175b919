import { notifications } from '@mantine/notifications';

/** Say in passing what was done; it goes by itself and is read out. */
export function toast(message: string): void {
  // The latest word stands alone: what was said before it has been seen.
  notifications.clean();
  notifications.show({
    message,
    autoClose: 6000,
    withBorder: false,
    closeButtonProps: { 'aria-label': 'Put away' },
  });
}
