/** Printing what a screen shows: the paper is made by the store, the same in every host. */
import { useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import type { Paper } from '../../../db/api-desk.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../Action.tsx';
import { useActing } from '../acting/acting.tsx';
import { useKeys } from '../keys/keys.tsx';
import { saveBase64 } from '../saveFile.ts';
import { toast } from '../toast.ts';

interface PrintActionProps {
  paper: Paper;
  /** `Print the morning page`. */
  label: string;
}

/** A button, and the key `p`, that makes the paper and hands it over. */
export function PrintAction({ paper, label }: PrintActionProps) {
  const { member } = useActing();
  const [busy, setBusy] = useState(false);
  async function print(): Promise<void> {
    setBusy(true);
    const answer = await host().ask('paper.make', { ...paper, ...(member ? { by: member.name } : {}) });
    setBusy(false);
    if (answer.ok) saveBase64(answer.value.name, answer.value.base64, 'application/pdf');
    else toast(sayOf(answer.error));
  }
  useKeys('Paper', [{ key: 'p', label, run: () => void print() }], !busy);
  return (
    <Action weight="quiet" hint="p" onClick={() => void print()} disabled={busy}>
      {busy ? 'Making the paper…' : label}
    </Action>
  );
}

const sayOf = ({ message, todo }: Problem) => `${message} ${todo}`;
