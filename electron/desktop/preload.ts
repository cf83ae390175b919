/**
 * Runs in the window before the screens do, in a sandbox and a world of its own. Bundled alone into one CommonJS
 * file: a sandboxed preload can load nothing else.
 */
import { contextBridge, ipcRenderer } from 'electron';
import { type Bridge, CHANNELS } from './bridge.ts';

/** The event itself stays here: through its `sender` a page could reach every channel. */
function hear<T>(channel: string, heard: (value: T) => void): () => void {
  const listener = (_event: unknown, value: T) => heard(value);
  ipcRenderer.on(channel, listener);
  // In braces: what is given back would be handed to the page.
  return () => {
    ipcRenderer.removeListener(channel, listener);
  };
}

const bridge = {
  act: request => ipcRenderer.invoke(CHANNELS.act, request),
  ask: (question, args) => ipcRenderer.invoke(CHANNELS.ask, question, args),
  host: request => ipcRenderer.invoke(CHANNELS.host, request),
  paper: paper => ipcRenderer.invoke(CHANNELS.paper, paper),
  onChange(heard, connected) {
    // The main process lives as long as the window does.
    connected?.(true);
    return hear(CHANNELS.changes, heard);
  },
  onProgress: heard => hear(CHANNELS.progress, heard),
  onCommand: heard => hear(CHANNELS.command, heard),
} satisfies Bridge;

contextBridge.exposeInMainWorld('baybook', bridge);
