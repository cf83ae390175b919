import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { BackupMade, DepartmentFiles, Problem } from '../../../db/api.ts';
import { answered, type ProblemError } from '../../api/problem.ts';
import { host } from '../../api/transport.ts';

const KEY = ['host.backups'];

/** The backups that lie beside the department files, and making one. */
export function useBackups() {
  const client = useQueryClient();
  const listed = useQuery<DepartmentFiles, ProblemError>({
    queryKey: KEY,
    queryFn: async () => answered(await host().host({ command: 'backups' })),
    staleTime: 0,
  });
  const [busy, setBusy] = useState(false);
  const [made, setMade] = useState<BackupMade | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);

  async function make() {
    if (busy) return;
    setBusy(true);
    setProblem(null);
    const answer = await host().host({ command: 'backup' });
    setBusy(false);
    if (!answer.ok) {
      setProblem(answer.error);
      return;
    }
    setMade(answer.value.made ?? null);
    client.setQueryData(KEY, answer.value);
  }

  return { listed, busy, made, problem, make };
}
