/** What can be done to a thing: the expected next deed, the usual ones, and all others in a menu; each with its key. */
import { Menu } from '@mantine/core';
import { type ReactNode, useEffect, useState } from 'react';
import { Action } from '../Action.tsx';
import { useKeys } from '../keys/keys.tsx';
import { toast } from '../toast.ts';
import { KeyHint } from '../words/KeyHint.tsx';
import { DeedDialog } from './DeedDialog.tsx';
import type { ThingRef } from './deedForm.ts';
import styles from './deeds.module.css';
import { type DeedOptions, deedsIn, type ThingDeed } from './deeds.ts';
import { useVocabulary } from './useVocabulary.ts';

interface ThingActionsProps {
  thing: ThingRef;
  options: DeedOptions;
  /** The deed that is expected next, by its id. */
  expected?: string;
  /** A deed to begin with at once, asked for by its key before this was on the screen. */
  begin?: string | null;
  onBegun?: () => void;
  /** What stands after the deeds: ways to go on. */
  children?: ReactNode;
}

export function ThingActions({ thing, options, expected, begin, onBegun, children }: ThingActionsProps) {
  const vocabulary = useVocabulary();
  const [doing, setDoing] = useState<string | null>(null);
  const [menu, setMenu] = useState(false);

  const deeds = deedsIn(thing, options.now, vocabulary);
  const first = deeds.find(d => d.id === expected) ?? deeds.find(d => d.usual);
  const usual = [first, ...deeds.filter(d => d !== first && d.usual)].filter(d => d !== undefined);
  const chosen = deeds.find(d => d.id === (doing ?? begin));

  const { number, condition } = thing;
  const refused = begin != null && !deeds.some(d => d.id === begin);
  // biome-ignore lint/correctness/useExhaustiveDependencies: said once for each key that was pressed in vain.
  useEffect(() => {
    if (!refused) return;
    toast(`${number} is ${condition}: that is not done to it now. Press a for what can be done.`);
    onBegun?.();
  }, [refused]);

  useKeys('This thing', [
    ...usual.map(d => ({ key: d.key, label: d.title, run: () => setDoing(d.id) })),
    { key: 'a', label: 'All that can be done to it', run: () => setMenu(true) },
  ]);

  return (
    <div className={styles.actions}>
      {usual.map(deed => (
        <Action
          key={deed.id}
          hint={deed.key}
          weight={deed === first ? 'main' : 'plain'}
          onClick={() => setDoing(deed.id)}
        >
          {deed.id === 'record' ? 'Record' : deed.title}
        </Action>
      ))}
      <AllDeeds deeds={deeds} opened={menu} onOpened={setMenu} onChoose={setDoing} />
      {children}
      {chosen && vocabulary ? (
        <DeedDialog
          key={`${chosen.id} ${thing.item}`}
          form={chosen.form(thing, vocabulary, options)}
          today={vocabulary.summary.today}
          onClose={() => {
            setDoing(null);
            onBegun?.();
          }}
        />
      ) : null}
    </div>
  );
}

interface AllDeedsProps {
  deeds: readonly ThingDeed[];
  opened: boolean;
  onOpened: (opened: boolean) => void;
  onChoose: (deed: string) => void;
}

function AllDeeds({ deeds, opened, onOpened, onChoose }: AllDeedsProps) {
  return (
    <Menu
      withInitialFocusPlaceholder={false}
      opened={opened}
      onChange={onOpened}
      position="bottom-start"
      transitionProps={{ duration: 0 }}
      width={320}
    >
      <Menu.Target>
        <Action hint="a" weight="quiet">
          All
        </Action>
      </Menu.Target>
      <Menu.Dropdown
        onKeyDown={event => {
          const deed = deeds.find(d => d.key === event.key);
          if (!deed) return;
          event.stopPropagation();
          event.preventDefault();
          onOpened(false);
          onChoose(deed.id);
        }}
      >
        {deeds.map((deed, i) => (
          <Menu.Item
            key={deed.id}
            data-autofocus={i === 0 || undefined}
            onClick={() => onChoose(deed.id)}
            rightSection={<KeyHint of={deed.key} />}
          >
            {deed.title}
          </Menu.Item>
        ))}
      </Menu.Dropdown>
    </Menu>
  );
}
