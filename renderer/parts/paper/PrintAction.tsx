/** Printing what a screen shows: the paper is made by the store, the same in every host. */
import { useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import type { Paper, PaperShown } from '../../../db/api-desk.ts';
import { Action } from '../Action.tsx';
import { useActing } from '../acting/acting.tsx';
import { useKeys } from '../keys/keys.tsx';
import { toast } from '../toast.ts';
import { showPaper } from './showPaper.ts';

interface PrintActionProps {
  paper: Paper;
  /** `Print the morning page`. */
  label: string;
  disabled?: boolean;
}

/** A button, and the key `p`, that makes the paper and shows it. */
export function PrintAction({ paper, label, disabled = false }: PrintActionProps) {
  const { member } = useActing();
  const [busy, setBusy] = useState(false);
  async function print(): Promise<void> {
    setBusy(true);
    try {
      const answer = await showPaper({ ...paper, ...(member ? { by: member.name } : {}) });
      toast(answer.ok ? shownText(answer.value) : sayOf(answer.error));
    } finally {
      setBusy(false);
    }
  }
  const ready = !busy && !disabled;
  useKeys('Paper', [{ key: 'p', label, run: () => void print() }], ready);
  return (
    <Action weight="quiet" hint="p" onClick={() => void print()} disabled={!ready}>
      {busy ? 'Making the paper…' : label}
    </Action>
  );
}

const sayOf = ({ message, todo }: Problem) => `${message} ${todo}`;

function shownText({ name, pages, shown }: PaperShown): string {
  const what = `${name}, ${pages} ${pages === 1 ? 'page' : 'pages'}`;
  return {
    opened: `Opened to print: ${what}`,
    saved: `Saved to print: ${what}`,
    kept: `Nothing here opens a PDF. It is kept in the folder papers of the data folder: ${what}`,
  }[shown];
}
