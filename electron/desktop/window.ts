/** The window: how it is made, and where it stands. */
import type { BrowserWindow, BrowserWindowConstructorOptions, Rectangle } from 'electron';
import type { Placement } from './notes.ts';

/** The paper of the design's tokens: what is seen until the first screen is drawn. */
const PAPER = { light: '#f5f0e4', dark: '#181510' };
/** A strip of the window this large must be on some display, or nobody could drag it back. */
const GRIP_PX = 80;

interface Making {
  preload: string;
  placement: Placement | null;
  /** The parts of the displays that windows may cover. */
  displays: readonly Rectangle[];
  dark: boolean;
  /** Tools for looking into the page, while the program is worked on. */
  devTools: boolean;
}

export function windowOptions(making: Making): BrowserWindowConstructorOptions {
  const { preload, placement, displays, dark, devTools } = making;
  const { width, height } = placement ?? { width: 1440, height: 900 };
  const stands = placement !== null && isReachable(placement, displays);
  return {
    title: 'Baybook',
    width,
    height,
    minWidth: 800,
    minHeight: 600,
    ...(stands ? { x: placement.x, y: placement.y } : {}),
    show: false,
    backgroundColor: dark ? PAPER.dark : PAPER.light,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      // Dictionaries would be fetched from elsewhere.
      spellcheck: false,
      devTools,
    },
  };
}

/** Whether a window standing there could be taken hold of: displays come and go between two starts. */
export function isReachable(window: Rectangle, displays: readonly Rectangle[]): boolean {
  return displays.some(display => {
    const across =
      Math.min(window.x + window.width, display.x + display.width) - Math.max(window.x, display.x);
    const top = window.y >= display.y && window.y <= display.y + display.height - GRIP_PX;
    return across >= GRIP_PX && top;
  });
}

/** Where it stands when it is not maximized, so that leaving the full size finds the old one. */
export function placementOf(window: Pick<BrowserWindow, 'getNormalBounds' | 'isMaximized'>): Placement {
  const { x, y, width, height } = window.getNormalBounds();
  return { x, y, width, height, maximized: window.isMaximized() };
}
