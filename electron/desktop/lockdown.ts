/**
 * What no page may do in this program, whatever it holds: leave our own pages, open windows, embed other pages, reach
 * the network, or be given the camera, the place, the clipboard or a device.
 */
import type { Session, WebContents } from 'electron';
import { isOurs } from './address.ts';

/** Every address that is not of this program's own making. */
const ELSEWHERE = { urls: ['http://*/*', 'https://*/*', 'ws://*/*', 'wss://*/*', 'ftp://*/*', 'file:///*'] };

export function lockContents(contents: Pick<WebContents, 'on' | 'setWindowOpenHandler'>): void {
  contents.on('will-navigate', details => {
    if (!isOurs(details.url)) details.preventDefault();
  });
  // Frames too: the policy allows none, and this does not rely on it.
  contents.on('will-frame-navigate', details => {
    if (!isOurs(details.url)) details.preventDefault();
  });
  contents.on('will-redirect', details => details.preventDefault());
  contents.on('will-attach-webview', event => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}

type Locked = Pick<
  Session,
  'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler'
> & { webRequest: Pick<Session['webRequest'], 'onBeforeRequest'> };

export function lockSession(session: Locked): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest(ELSEWHERE, (_details, answer) => answer({ cancel: true }));
}
