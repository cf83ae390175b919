import { useState } from 'react';
import type { Problem, Questions } from '../../../db/api.ts';
import { readAnchor } from '../../../domain/anchors.ts';
import { host } from '../../api/transport.ts';

export interface Verified {
  verification: Questions['ledger.verify']['gives'];
  /** How many heads of an anchor it was checked against. */
  against: number;
}

/** Lines that are meant to be heads: those of an anchor’s text that say so, or all that hold anything. */
function headLines(text: string): string[] {
  const lines = text.split(/\r?\n/).filter(line => line.trim() !== '');
  const said = lines.filter(line => /^\s*head:/.test(line));
  return said.length > 0 ? said : lines;
}

/** Checking the whole ledger now, against the heads of an anchor where some were typed or pasted. */
export function useVerify() {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [verified, setVerified] = useState<Verified | null>(null);

  async function verify(anchorText: string): Promise<void> {
    if (busy) return;
    setVerified(null);
    setProblem(null);
    const anchors = headLines(anchorText).map(readAnchor);
    const known = anchors.filter(a => a !== null);
    if (known.length < anchors.length) {
      setProblem(NOT_READ);
      return;
    }
    setBusy(true);
    // Each head is a question of its own; the first that is not met ends it.
    for (const anchor of known.length > 0 ? known : [undefined]) {
      const answer = await host().ask('ledger.verify', anchor ? { anchor } : {});
      if (!answer.ok) {
        setProblem(answer.error);
        break;
      }
      setVerified({ verification: answer.value, against: known.length });
      if (!answer.value.ok) break;
    }
    setBusy(false);
  }
  return { busy, problem, verified, verify };
}

const NOT_READ: Problem = {
  code: 'not an anchor',
  message: 'This cannot be read as an anchor.',
  todo: 'Write the device, the number and the 64 characters of the hash, with spaces between; or paste the text of an anchor.',
  field: 'anchor',
};
