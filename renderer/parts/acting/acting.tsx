/** Who acts: chosen once for the window, forgotten when it closes. Looking needs nobody. */
import { createContext, type ReactNode, use, useMemo, useState } from 'react';
import type { MemberLine } from '../../../db/api.ts';
import { useAsk } from '../../api/ask.ts';

interface Acting {
  /** Everyone who may act, or undefined while they are being read. */
  members: MemberLine[] | undefined;
  member: MemberLine | null;
  choose(id: string): void;
}

const ActingContext = createContext<Acting | null>(null);
const KEY = 'baybook acting as';

/** Who acts from now on in this window. */
export function rememberActing(member: string): void {
  sessionStorage.setItem(KEY, member);
}

export function ActingProvider({ children }: { children: ReactNode }) {
  const members = useAsk('members.list', {}).data;
  const [chosen, setChosen] = useState<string | null>(null);
  const acting = useMemo<Acting>(
    () => ({
      members,
      // Read when the members are: whoever opens a department is remembered before this window knows of it.
      member: members?.find(m => m.id === (chosen ?? sessionStorage.getItem(KEY))) ?? null,
      choose(id) {
        rememberActing(id);
        setChosen(id);
      },
    }),
    [members, chosen],
  );
  return <ActingContext value={acting}>{children}</ActingContext>;
}

export function useActing(): Acting {
  const acting = use(ActingContext);
  if (!acting) throw new Error('Acting is used outside its provider.');
  return acting;
}
