/**
 * Keys: what is on the screen says which keys it answers to; one listener runs them; `?` lists them. A dialog is
 * one level up, and only the keys of the highest level are live.
 */
import {
  createContext,
  type ReactNode,
  use,
  useCallback,
  useEffect,
  useId,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { remembered } from '../remembered.ts';

export interface KeyBinding {
  /** As `KeyboardEvent.key`: `f`, `/`, `?`, `Escape`, `Enter`. */
  key: string;
  label: string;
  run: () => void;
  /** Also while somebody is typing in a field. */
  whileTyping?: boolean;
  /** Also while a dialog stands over the part: help is wanted most in a form. */
  underDialogs?: boolean;
}

interface Layer {
  id: string;
  group: string;
  level: number;
  bindings: KeyBinding[];
}

interface Keys {
  put(layer: Layer): void;
  drop(id: string): void;
  /** What answers now, for the list of keys. */
  live(): Layer[];
  letters: boolean;
  setLetters(on: boolean): void;
}

const KeysContext = createContext<Keys | null>(null);
const LevelContext = createContext(0);

/** What is in here stands over the screen: while it answers to keys, nothing under it does. */
export function OneLevelUp({ children }: { children: ReactNode }) {
  return <LevelContext value={use(LevelContext) + 1}>{children}</LevelContext>;
}

export function useKeyboard(): Keys {
  const keys = use(KeysContext);
  if (!keys) throw new Error('Keys are used outside their provider.');
  return keys;
}

/** Say which keys the part answers to while it is on the screen. */
export function useKeys(group: string, bindings: KeyBinding[], when = true): void {
  const { put, drop } = useKeyboard();
  const id = useId();
  const level = use(LevelContext);
  // Bindings close over what was drawn last, so they are put anew with every drawing; before it is seen, so that no key
  // pressed at sight of it goes to what was there before.
  useLayoutEffect(() => {
    if (when) put({ id, group, level, bindings });
    else drop(id);
  });
  useLayoutEffect(() => () => drop(id), [drop, id]);
}

export function KeysProvider({ children }: { children: ReactNode }) {
  const layers = useRef<Layer[]>([]);
  const [letters, setLettersNow] = useState(() => remembered('letter keys') !== 'off');

  const put = useCallback((layer: Layer) => {
    const at = layers.current.findIndex(l => l.id === layer.id);
    if (at >= 0) layers.current[at] = layer;
    else layers.current.push(layer);
  }, []);
  const drop = useCallback((id: string) => {
    layers.current = layers.current.filter(l => l.id !== id);
  }, []);
  const live = useCallback(() => {
    const top = Math.max(0, ...layers.current.map(l => l.level));
    return layers.current.filter(l => l.level === top);
  }, []);

  useEffect(() => {
    const hear = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.isComposing)
        return;
      // A key that has just closed what it was pressed in (a menu) is spent.
      if (event.target instanceof Node && !event.target.isConnected) return;
      const typing = isTyping(event.target);
      const pressed = event.key.length === 1 && !event.shiftKey ? event.key.toLowerCase() : event.key;
      if (!letters && pressed.length === 1) return;
      const top = live().reverse();
      const under = layers.current.filter(layer => !top.includes(layer));
      for (const layer of [...top, ...under]) {
        const binding = layer.bindings.find(
          b => b.key === pressed && (!typing || b.whileTyping) && (b.underDialogs || top.includes(layer)),
        );
        if (!binding) continue;
        // Enter and Space belong to the control that has the focus.
        if (pressed === 'Enter' && isControl(event.target)) return;
        event.preventDefault();
        binding.run();
        return;
      }
    };
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, [letters, live]);

  const keys = useMemo<Keys>(
    () => ({
      put,
      drop,
      live,
      letters,
      setLetters(on) {
        remembered('letter keys', on ? 'on' : 'off');
        setLettersNow(on);
      },
    }),
    [put, drop, live, letters],
  );
  return <KeysContext value={keys}>{children}</KeysContext>;
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement)
    return !['checkbox', 'radio', 'button', 'file'].includes(target.type);
  return (
    target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable
  );
}

function isControl(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    target.closest('button, a, input, select, textarea, [role="menuitem"]') !== null
  );
}
